/** How things stand by what this device keeps. */

import { KEPT, endOf } from "./due-store.js";
import { dayOf } from "./plan.js";
import { standings } from "./standing.js";

/** @typedef {import("./due.js").Answer} Answer */
/** @typedef {import("./store.js").Store} Store */

/**
 * @param {Store} store
 * @param {Answer[]} attempts
 * @param {(answer: Answer) => string | undefined} unitOf
 * @returns {{all: ReturnType<typeof standings>, end: number | null, today: number}}
 */
export function standingsOf(store, attempts, unitOf) {
  const aim = { end: endOf(store), today: dayOf(new Date()) };
  return { ...aim, all: standings(attempts, store.get(KEPT), aim, unitOf) };
}
