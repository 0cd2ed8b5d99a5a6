/**
 * `<breath-pacer>`: paces one round of breaths, never before the stop list was read, and stops at one tap.
 *
 * Its inert block holds the lengths and the words. The stop list is copied from the page's `#stop` section, where
 * it also stands without script. `pace.js` holds the law; nothing here can lengthen what it allows.
 */

import { data, draw, goTo, make } from "./dom.js";
import { at, fullness, round } from "./pace.js";

export class BreathPacer extends HTMLElement {
  #life = new AbortController();
  /** Ends the round that runs, if any. @type {AbortController | undefined} */
  #run;
  /** @type {{ lengths: import("./pace.js").Lengths, words: Record<string, string> }} */
  #told = { lengths: { out: 1, pause: 0, in: 1, breaths: 1 }, words: {} };

  connectedCallback() {
    this.#life = new AbortController();
    this.#told = data(this);
    this.#askFirst();
  }

  disconnectedCallback() {
    this.#life.abort();
    this.#run?.abort();
  }

  /** The stop list, and the one button that leads past it. */
  #askFirst(move = false) {
    const words = this.#told.words;
    const title = make("h3", {}, words.stops);
    const list = document.querySelector("#stop ul")?.cloneNode(true) ?? "";
    this.#show(title, list, make("p", { class: "warn" }, words.warn), this.#button(words.read, () => this.#offer()));
    if (move) goTo(title);
  }

  #offer() {
    const { lengths, words } = this.#told;
    const start = this.#button(words.start, () => this.#start(this.querySelector("input[value=pause]:checked") ? lengths.pause : 0));
    /** @type {(value: string, text: string, checked: boolean) => HTMLElement} */
    const choice = (value, text, checked) =>
      make("label", { class: "choice" }, make("input", { type: "radio", name: "pause", value, checked }), make("span", {}, text));
    const pauses = make("fieldset", { class: "choices" }, make("legend", {}, words.pauses), choice("none", words.none, true), choice("pause", words.some, false));
    this.#show(...(lengths.pause > 0 ? [pauses] : []), make("p", {}, words.first), start);
    goTo(start);
  }

  /** @param {number} pause */
  #start(pause) {
    const { lengths, words } = this.#told;
    const steps = round({ ...lengths, pause });
    const run = new AbortController();
    this.#run = run;
    const still = matchMedia("(prefers-reduced-motion: reduce)");
    const trunk = draw("path", { class: "trunk" });
    const shape = draw("svg", { class: "breath-shape", viewBox: "0 0 200 150", "aria-hidden": "true" }, trunk);
    const now = make("p", { class: "now", role: "status" });
    const seconds = make("p", { class: "seconds", "aria-hidden": "true" });
    const count = make("p", { class: "count" });
    const stop = this.#button(words.stop, () => this.#stop());
    const pacing = make("div", { class: "pacing" }, shape, now, seconds, count, stop, make("p", { class: "warn" }, words.warn));
    this.#show(pacing);
    goTo(stop);
    pacing.addEventListener("click", () => this.#stop(), { signal: run.signal });
    document.addEventListener("keydown", ({ key }) => key === "Escape" && this.#stop(), { signal: run.signal });
    // Nobody watches a hidden page.
    document.addEventListener("visibilitychange", () => document.hidden && this.#stop(), { signal: run.signal });
    const began = performance.now();
    let told = -1;
    const frame = () => {
      if (run.signal.aborted) return;
      const place = at(steps, (performance.now() - began) / 1000);
      if (!place) return this.#over();
      const step = steps[place.index];
      if (place.index !== told) {
        told = place.index;
        now.textContent = words[step.kind];
        count.textContent = step.breath ? words.breath.replace("{number}", `${step.breath}`).replace("{of}", `${Math.max(...steps.map(({ breath }) => breath))}`) : "";
        pacing.dataset.step = step.kind;
      }
      const left = `${Math.ceil(place.left)}`;
      if (seconds.textContent !== left) seconds.textContent = left;
      shape.toggleAttribute("hidden", still.matches);
      if (!still.matches) trunk.setAttribute("d", outline(fullness(step.kind, place.share)));
      requestAnimationFrame(frame);
    };
    frame();
  }

  #stop() {
    if (!this.#run || this.#run.signal.aborted) return;
    this.#run.abort();
    this.#end(this.#told.words.stopped);
  }

  #over() {
    this.#run?.abort();
    this.#end(this.#told.words.over);
  }

  /** @param {string} words */
  #end(words) {
    const said = make("p", { class: "ended" }, words);
    this.#show(said, this.#button(this.#told.words.again, () => this.#askFirst(true)));
    goTo(said);
  }

  /** @param {...(Node | string)} parts */
  #show(...parts) {
    this.replaceChildren(...parts);
  }

  /**
   * @param {string} words
   * @param {() => void} act
   */
  #button(words, act) {
    const button = make("button", { type: "button" }, words);
    button.addEventListener("click", (event) => (event.stopPropagation(), act()), { signal: this.#life.signal });
    return button;
  }
}

/**
 * The trunk from the front: it widens with the breath in, while diaphragm and pelvic floor sink together.
 * @param {number} full from 0 to 1
 */
function outline(full) {
  const half = 48 + 22 * full;
  const [left, right] = [100 - half, 100 + half];
  const sink = 22 * full;
  return (
    `M 84 8 Q ${left} 20 ${left} 72 Q ${left + 4} 104 76 136 M 116 8 Q ${right} 20 ${right} 72 Q ${right - 4} 104 124 136 ` +
    `M ${left} 78 Q 100 ${34 + sink * 1.6} ${right} 78 M 76 136 Q 100 ${112 + sink * 1.6} 124 136`
  );
}
