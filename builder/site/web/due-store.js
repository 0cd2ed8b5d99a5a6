/** The learner's plan as this device keeps it. */

import { setDays } from "./due.js";
import { dayNumber } from "./plan.js";

/** @typedef {import("./store.js").Store} Store */

export const KEPT = "plan";

/**
 * The day that the learner wants to be ready; null where none is chosen.
 * @param {Store} store
 */
export function endOf(store) {
  const day = store.get("day");
  return typeof day === "string" ? dayNumber(day) : null;
}

/**
 * Sets the days of what was just answered.
 * @param {Store} store
 * @param {import("./due.js").Answer[]} answers
 */
export function keepDays(store, answers) {
  const end = endOf(store);
  store.set(KEPT, setDays(store.get(KEPT), answers, end));
}
