/** Questions that do not stand on a quiz's page, from the data files beside it. */

import { make } from "./dom.js";
import { parsed, part } from "./parts.js";
import { fill } from "./words.js";

/** @typedef {{item: import("./marking.js").ItemData, row: HTMLElement}} Asked */
/** @typedef {{quiz: string, draw: string, parts: {address: string, size: number}}} Source `draw`: the script that draws; `address` has a field `{part}`; `size` is how many questions a part holds */

/**
 * @param {Source} source
 * @param {number | "ids"} name
 */
const file = ({ quiz, parts }, name) => part(fill(parts.address, { part: name }), `${quiz}.${name}`);

/**
 * The questions of one draw.
 * @param {Source} quiz
 * @param {number} seed
 * @returns {Promise<Asked[]>}
 */
export async function drawn(quiz, seed) {
  const [draw, data] = await Promise.all([part(quiz.draw, "draw"), file(quiz, 0)]);
  /** @type {number[]} */
  const numbers = draw(data, seed);
  return Promise.all(numbers.map((number) => question(quiz, number)));
}

/**
 * The questions of these ids, without those that the quiz does not have.
 * @param {Source} quiz
 * @param {string[]} ids
 * @param {Asked[]} here that stand on the page
 * @returns {Promise<Asked[]>}
 */
export async function named(quiz, ids, here) {
  const known = ids.map((id) => here.find(({ item }) => item.id === id));
  /** @type {string[]} */
  const all = known.every(Boolean) ? [] : await file(quiz, "ids");
  const found = ids.map((id, index) => known[index] ?? (all.includes(id) ? question(quiz, all.indexOf(id)) : []));
  return (await Promise.all(found)).flat();
}

/**
 * @param {Source} quiz
 * @param {number} number its place among all that the quiz can ask
 */
async function question(quiz, number) {
  const { questions, readings } = await file(quiz, Math.floor(number / quiz.parts.size) + 1);
  const { item, html } = questions[number % quiz.parts.size];
  const row = make("li", { class: "question" }, ...parsed(html));
  for (const place of row.querySelectorAll(/** @type {"div"} */ ("[data-readings-of]"))) {
    const { readingsOf = "", measures = "" } = place.dataset;
    place.append(...parsed(readings[readingsOf] ?? ""));
    for (const one of place.querySelectorAll(/** @type {"li"} */ ("[data-measure]"))) {
      if (!measures.split(" ").includes(one.dataset.measure ?? "")) one.remove();
    }
  }
  return { item, row };
}
