/**
 * `<breath-pacer>`: paces one round of breaths, never before the stop list was read, and stops at one tap.
 *
 * Its inert block holds the lengths and what the pause is for. The stop list is copied from the page's `#stop` section, where
 * it also stands without script. `pace.js` holds the law; nothing here can lengthen what it allows.
 */

import { button, data, draw, goTo, make } from "./dom.js";
import { at, fullness, round } from "./pace.js";
import { say } from "./words.js";

/** @param {import("./pace.js").Kind} kind */
function stepWords(kind) {
  switch (kind) {
    case "settle":
      return say("Settle. Breathe as you like.");
    case "out":
      return say("Breathe out");
    case "pause":
      return say("Pause");
    case "in":
      return say("Breathe in");
    case "rest":
      return say("Rest. Breathe as you like.");
  }
}

const warning = () => make("p", { class: "warn" }, say("Stop if you are dizzy, tingling or short of air."));

export class BreathPacer extends HTMLElement {
  #life = new AbortController();
  /** Ends the round that runs, if any. @type {AbortController | undefined} */
  #run;
  /**
   * `pause` says how long a pause may grow and what it is for; `bound`: only where the address says that the client's
   * outcome allows it.
   * @type {{ lengths: import("./pace.js").Lengths, pause: string, bound: boolean }}
   */
  #told = { lengths: { out: 1, pause: 0, in: 1, breaths: 1 }, pause: "", bound: true };

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
    const title = make("h3", {}, say("Stop at once if one of these shows"));
    const list = document.querySelector("#stop ul")?.cloneNode(true) ?? "";
    this.#show(title, list, warning(), this.#button(say("I have read this"), () => this.#offer()));
    if (move) goTo(title);
  }

  #offer() {
    const { lengths, pause, bound } = this.#told;
    const allowed = lengths.pause > 0 && (!bound || new URLSearchParams(location.search).get("pause") === "allowed");
    const start = this.#button(say("Start"), () => this.#start(this.querySelector("input[value=pause]:checked") ? lengths.pause : 0));
    /** @type {(value: string, text: string, checked: boolean) => HTMLElement} */
    const choice = (value, text, checked) =>
      make("label", { class: "choice" }, make("input", { type: "radio", name: "pause", value, checked }), make("span", {}, text));
    const pauses = make("fieldset", { class: "choices" }, make("legend", {}, say("Pause after the breath out")), choice("none", say("No pause"), true), choice("pause", pause, false));
    const grows = say("The first breath has no pause. It grows by one second each time you press Comfortable. Force nothing: an easy length is the right one.");
    const none = say("No pause here. A pause is for a client whose answers allow it: open this drill from that client's page.");
    const told = allowed ? [pauses, make("p", {}, grows)] : lengths.pause > 0 ? [make("p", {}, none)] : [];
    this.#show(...told, start);
    goTo(start);
  }

  /** @param {number} pause */
  #start(pause) {
    /** @type {Set<number>} */
    const comfortable = new Set();
    let steps = round({ ...this.#told.lengths, pause });
    const breaths = Math.max(...steps.map(({ breath }) => breath));
    const run = new AbortController();
    this.#run = run;
    const still = matchMedia("(prefers-reduced-motion: reduce)");
    const trunk = draw("path", { class: "trunk" });
    const shape = draw("svg", { class: "breath-shape", viewBox: "0 0 200 150", "aria-hidden": "true" }, trunk);
    const now = make("p", { class: "now", role: "status" });
    const seconds = make("p", { class: "seconds", "aria-hidden": "true" });
    const count = make("p", { class: "count" });
    const stop = this.#button(say("Stop"), () => this.#stop());
    const longer = this.#button(say("Comfortable"), () => {
      const { breath } = steps[Math.max(0, told)];
      if (breath) comfortable.add(breath);
      steps = round({ ...this.#told.lengths, pause }, comfortable);
      longer.disabled = true;
    });
    longer.classList.add("quiet");
    const pacing = make("div", { class: "pacing" }, shape, now, seconds, count, stop, pause ? longer : "", warning());
    this.#show(pacing);
    stop.focus({ preventScroll: true });
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
        now.textContent = stepWords(step.kind);
        count.textContent = step.breath ? say("Breath {number} of {of}", { number: step.breath, of: breaths }) : "";
        pacing.dataset.step = step.kind;
        longer.disabled = !step.breath || step.breath === breaths || comfortable.has(step.breath);
      }
      const left = `${Math.ceil(place.left)}`;
      if (seconds.textContent !== left) seconds.textContent = left;
      shape.toggleAttribute("hidden", still.matches);
      if (!still.matches) trunk.setAttribute("d", outline(fullness(step.kind, place.share)));
      requestAnimationFrame(frame);
    };
    frame();
    pacing.scrollIntoView({ block: "nearest" });
  }

  #stop() {
    if (!this.#run || this.#run.signal.aborted) return;
    this.#run.abort();
    this.#end(say("Stopped. Breathe as you like. If you were dizzy, tingling or short of air: no more today."));
  }

  #over() {
    this.#run?.abort();
    this.#end(say("The rest is over. Start again only if you feel quite as usual."));
  }

  /** @param {string} words */
  #end(words) {
    const said = make("p", { class: "ended" }, words);
    this.#show(said, this.#button(say("Start again"), () => this.#askFirst(true)));
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
    const made = button(words, act, { signal: this.#life.signal });
    // A tap anywhere ends the round: the one that begins it must not.
    made.addEventListener("click", (event) => event.stopPropagation());
    return made;
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
