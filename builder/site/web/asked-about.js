/** What a question asks about, taken from what stands on a client's page: who it is, and the readings, in little room. */

import { copy, make } from "./dom.js";
import { say } from "./words.js";

/**
 * The client in one line, as the page's head says it.
 * @returns {Element[]}
 */
export function whoLine() {
  const [name, about] = ["h1", ".lede"].map((part) => document.querySelector(`main ${part}`)?.textContent?.trim());
  if (!document.querySelector(".found")) return [];
  return [make("p", { class: "who" }, make("b", {}, name ?? ""), about ? `: ${about}` : "")];
}

/**
 * The readings that a step asks about.
 * @param {string[]} names of measures
 * @returns {Element[]}
 */
export function shortly(names) {
  const rows = names.flatMap((name) => {
    const row = document.querySelector(`.found tr[data-measure="${name}"]:not(.drawn)`);
    const value = row?.querySelector(".value");
    return row && value ? [make("li", {}, make("span", {}, row.querySelector("th")?.textContent ?? ""), " ", copy(value, "-asked"))] : [];
  });
  return rows.length ? [make("ul", { class: "short" }, ...rows)] : [];
}

/**
 * The decisions that a step rests on.
 * @param {string[]} answers
 * @returns {Element[]}
 */
export const decidedLine = (answers) => (answers.length ? [make("p", { class: "who" }, say("Decided: {answers}", { answers: answers.join(" · ") }))] : []);
