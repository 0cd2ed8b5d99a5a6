/** What the plumb line says: drawn beside words, never without them. */

import { draw, make } from "./dom.js";
import { hang } from "./plumb.js";
import { say } from "./words.js";

/** @typedef {import("./plumb.js").Verdict} Verdict */

const PLUMB = 8;
const WIDTH = 40;

/**
 * A verdict in words, with its small line: straight, or leaning.
 * @param {Verdict} verdict
 * @param {string} [words]
 */
export function told(verdict, words = verdictWords(verdict)) {
  return make("span", { class: `verdict ${verdict}` }, sign(verdict), words);
}

/** @param {Verdict} verdict */
export function verdictWords(verdict) {
  switch (verdict) {
    case "held":
      return say("Right");
    case "minor":
      return say("Not right, and it could do harm");
    case "serious":
      return say("Unsafe");
    case "arguable":
      return say("Not right, and it may be unsafe");
    default:
      return say("Not right");
  }
}

/**
 * The verdict on an answer.
 * @param {boolean} held
 * @param {import("./marking.js").Harm} harm
 * @returns {Verdict}
 */
export const verdictOn = (held, harm) => (held ? "held" : harm === "none" ? "missed" : harm);

/** @param {Verdict} verdict */
function sign(verdict) {
  const foot = { held: 10, missed: 13, minor: 15, arguable: 15, serious: 18 }[verdict];
  return draw(
    "svg",
    { class: "sign", viewBox: "6 0 15 20", "aria-hidden": "true" },
    draw("path", { class: "true", d: "M10 1V19" }),
    draw("path", { class: "own", d: `M10 1L${foot} 15` }),
    draw("circle", { cx: `${foot}`, cy: "16", r: "3" }),
  );
}

/**
 * The line past each of a list's rows, and the weight at the last. Rows may have any height.
 * @param {Element[]} rows
 * @param {Verdict[]} verdicts one for each row but the last
 */
export function hangLine(rows, verdicts) {
  const offsets = hang(verdicts, WIDTH - PLUMB - 8);
  rows.forEach((row, index) => {
    row.querySelector(":scope > .plumb")?.remove();
    const [top, foot] = offsets[index] ?? [0, 0];
    const rest = offsets.at(-1)?.[1] ?? 0;
    row.prepend(index < verdicts.length ? segment(PLUMB + top, PLUMB + foot) : weight(PLUMB + rest));
  });
}

/**
 * @param {number} top
 * @param {number} foot
 */
function segment(top, foot) {
  return draw(
    "svg",
    { class: "plumb", viewBox: `0 0 ${WIDTH} 100`, preserveAspectRatio: "none", "aria-hidden": "true" },
    draw("path", { class: "true", d: `M${PLUMB} 0V100` }),
    draw("path", { class: "own", d: `M${top} 0L${foot} 100` }),
  );
}

/** @param {number} at */
function weight(at) {
  return draw(
    "svg",
    { class: "plumb weight", viewBox: `0 0 ${WIDTH} 44`, "aria-hidden": "true" },
    draw("path", { class: "true", d: `M${PLUMB} 0V44` }),
    draw(
      "g",
      { class: "swing" },
      draw("path", { class: "own", d: `M${at} 0V22` }),
      draw("path", { class: "bob", d: `M${at - 5} 22h10l-2 12l-3 8l-3 -8z` }),
    ),
  );
}
