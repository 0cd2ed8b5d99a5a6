/** The end of a walk: what it is worth, with its working, and what to read again. */

import { copy, make } from "./dom.js";
import { percent, ratio } from "./marking.js";
import { told } from "./signs.js";
import { say } from "./words.js";

/**
 * @param {import("./tree.js").WalkMark} result
 * @param {import("./marking.js").RatioData} passMark
 * @param {{safe: boolean, early: number}} asked whether enough was asked to be safe, and how much was decided before it was known
 */
export function worth(result, passMark, { safe, early }) {
  const passed = result.held && safe;
  const parts = [
    make("p", { class: "outcome" }, told(passed ? "held" : result.serious || !safe ? "serious" : "missed", passed ? (early ? say("Passed, but not all of it was known") : say("Passed")) : say("Not passed yet"))),
    make("p", { class: "working" }, say("{held} of {of} right at the first answer: {share}%. The pass mark is {pass}%.", {
      held: result.heldSteps,
      of: result.of,
      share: percent(result.mark),
      pass: percent(ratio(...passMark)),
    })),
  ];
  if (result.serious) {
    const count = result.steps.filter(({ harm }) => harm === "serious").length;
    const said = count === 1 ? say("One answer was unsafe.") : say("{count} answers were unsafe.", { count });
    parts.push(make("p", { class: "harm" }, `${said} ${say("So this is not passed, whatever the mark.")}`));
  }
  return parts;
}

/** @param {Element[]} links */
export function readAgain(links) {
  if (!links.length) return [];
  const items = links.map((link) => make("li", {}, copy(link, "")));
  return [make("h4", {}, say("Read again")), make("ul", { class: "read-again" }, ...items)];
}
