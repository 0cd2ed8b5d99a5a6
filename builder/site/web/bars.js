/** How much held, objective by objective, each share with its interval. */

import { draw, make } from "./dom.js";
import { say } from "./words.js";

const WIDTH = 200;
/** Fewer answers than this leave an interval wider than half of all shares, where half of them held. */
const FEW = 12;

/** @typedef {import("./interval.js").Answer} Answer */

/**
 * @param {[string, Answer[]][]} answers by what people read of each objective
 * @param {(answers: Answer[]) => [number, number]} interval
 */
export const bars = (answers, interval) => make("ul", { class: "bars" }, ...answers.map(([label, given]) => row(label, given, interval(given))));

/**
 * @param {string} label
 * @param {Answer[]} answers
 * @param {[number, number]} interval
 */
function row(label, answers, [low, high]) {
  const [held, of] = [answers.filter((one) => one.held).length, answers.length];
  const range = say("95% interval: {low} to {high}%.", { low: Math.round(100 * low), high: Math.round(100 * high) });
  const little = of < FEW ? ` ${say("So few answers say little.")}` : "";
  return make(
    "li",
    {},
    make("span", { class: "label" }, label),
    bar(held / of, low, high),
    make("span", { class: "numbers" }, say("{held} of {of} right.", { held, of }), ` ${range}${little}`),
  );
}

/**
 * @param {number} share
 * @param {number} low
 * @param {number} high
 */
function bar(share, low, high) {
  const [from, to] = [low, high].map((end) => (end * WIDTH).toFixed(1));
  return draw(
    "svg",
    { class: "bar", viewBox: `0 0 ${WIDTH} 16`, preserveAspectRatio: "none", "aria-hidden": "true" },
    draw("rect", { class: "ground", width: `${WIDTH}`, height: "8" }),
    draw("rect", { class: "share", width: (share * WIDTH).toFixed(1), height: "8" }),
    // Below the bar: on it, neither of the bar's two colours leaves the line enough contrast.
    draw("path", { class: "range", d: `M${from} 9V15M${from} 12H${to}M${to} 9V15` }),
  );
}
