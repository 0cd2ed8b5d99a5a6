/**
 * `<case-figure>`: still pictures of a body that breathes, which the learner can set moving in real time.
 *
 * It moves only when asked to, for some breaths, and can be paused; the stills say the same.
 */

import { between, blows, fullness, pointsOf, smooth } from "./breathing.js";
import { button, data, make } from "./dom.js";
import { say } from "./words.js";

/** @typedef {import("./breathing.js").Motion} Motion */

/** What moves with the breath. */
const PARTS = [".trunk", ".ribs", ".dome"];

export class CaseFigure extends HTMLElement {
  #life = new AbortController();
  /** @type {Motion} */
  #motion = data(this);
  /** @type {SVGElement | null} */
  #picture = null;
  /** What moves, with its points in the first still and in the last. @type {{part: Element, full: number[], empty: number[], closed: boolean}[]} */
  #parts = [];
  #moving = make("div", { class: "moving", hidden: true });
  #button = make("button", {});
  /** Seconds of the motion that have been shown. */
  #shown = 0;
  /** @type {number | null} */
  #last = null;

  connectedCallback() {
    this.#life = new AbortController();
    this.#button = button(say("Show it moving"), () => this.#press(), { signal: this.#life.signal, kind: "quiet" });
    this.querySelector(".ways")?.remove();
    this.append(this.#moving, make("p", { class: "ways" }, this.#button));
  }

  disconnectedCallback() {
    this.#life.abort();
    this.#last = null;
  }

  get #whole() {
    const [out, rest, into] = this.#motion.cycle;
    return this.#motion.breaths * (out + rest + into);
  }

  #press() {
    if (this.#last !== null) return this.#pause(say("Go on"));
    if (this.#moving.hidden) this.#begin();
    if (this.#shown >= this.#whole) this.#shown = 0;
    this.#button.textContent = say("Pause");
    this.#last = performance.now();
    requestAnimationFrame((now) => this.#tick(now));
    return undefined;
  }

  /** @param {string} words */
  #pause(words) {
    this.#last = null;
    this.#button.textContent = words;
  }

  #begin() {
    const stills = [...this.querySelectorAll(".stills svg")];
    this.#picture = /** @type {SVGElement | null} */ (stills[1]?.cloneNode(true) ?? null);
    if (!this.#picture) return;
    const way = (/** @type {Element | undefined} */ still, /** @type {string} */ name) => still?.querySelector(name)?.getAttribute("d") ?? "";
    this.#parts = PARTS.flatMap((name) => {
      const part = this.#picture?.querySelector(name);
      const [full, empty] = [way(stills[0], name), way(stills.at(-1), name)];
      return part ? [{ part, full: pointsOf(full), empty: pointsOf(empty), closed: full.endsWith("Z") }] : [];
    });
    this.#moving.replaceChildren(this.#picture);
    this.#moving.hidden = false;
  }

  /** @param {number} now */
  #tick(now) {
    if (this.#last === null) return;
    this.#shown += (now - this.#last) / 1000;
    this.#last = now;
    const over = this.#shown >= this.#whole;
    this.#draw(over ? this.#whole : this.#shown);
    if (over) this.#pause(say("Show it again"));
    else requestAnimationFrame((next) => this.#tick(next));
  }

  /** @param {number} seconds */
  #draw(seconds) {
    const { cycle, stops, shakes } = this.#motion;
    const now = fullness(cycle, seconds, stops);
    for (const { part, full, empty, closed } of this.#parts) part.setAttribute("d", smooth(between(empty, full, now), closed));
    for (const one of this.#picture?.querySelectorAll(".air") ?? []) one.setAttribute("visibility", blows(cycle, seconds, stops) ? "visible" : "hidden");
    if (shakes) {
      const aside = Math.sin(2 * Math.PI * 5 * seconds) * 1.5;
      this.#picture?.querySelector("use[href$=leg]")?.setAttribute("transform", `translate(${aside.toFixed(1)} 0)`);
    }
  }
}
