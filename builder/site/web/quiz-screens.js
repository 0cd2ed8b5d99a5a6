/** What a quiz shows with its questions: how far it has come, the ways through it, a verdict. */

import { make } from "./dom.js";
import { told, verdictOn, verdictWords } from "./signs.js";
import { say } from "./words.js";

/** @typedef {import("./sitting.js").Sitting} Sitting */

/**
 * @param {Sitting} sitting
 * @param {number} at the question on the screen
 */
export function progress(sitting, at) {
  const ticks = sitting.given.map((given, index) => {
    const state = given ? (sitting.holds(index) ? "held" : "missed") : "open";
    return make("span", { class: `tick ${state}${index === at ? " here" : ""}` });
  });
  const words = say("Question {number} of {of}", { number: at + 1, of: ticks.length });
  return make(
    "div",
    { class: "progress" },
    make("p", {}, words, " ", make("span", { class: "soft" }, say("{answered} answered", { answered: sitting.answered }))),
    sitting.seed ? "" : make("p", { class: "soft" }, single()),
    make("div", { class: "ticks", "aria-hidden": "true" }, ...ticks),
  );
}

/**
 * @param {Sitting} sitting
 * @param {number} at
 * @param {(words: string, to: number) => Element} way a button that leads to a question, or past the last to the result
 */
export function moves(sitting, at, way) {
  const of = sitting.items.length;
  return make(
    "nav",
    { class: "moves", "aria-label": say("Questions") },
    at > 0 ? way(say("Back"), at - 1) : "",
    // Once it is answered, its own button leads on.
    at < of - 1 && !sitting.given[at] ? way(say("Next"), at + 1) : "",
    sitting.isDone ? way(say("Your result"), of) : "",
  );
}

/**
 * @param {Sitting} sitting
 * @param {number} index
 */
export function verdictOf(sitting, index) {
  const verdict = verdictOn(sitting.holds(index), sitting.harm(index));
  return told(verdict, verdict === "missed" && sitting.mark(index).n ? say("Partly right") : verdictWords(verdict));
}

/** What single questions are, told while they are asked and at their end. */
export const single = () => say("Single questions, not the whole quiz. Your record keeps them; no pass mark counts.");
