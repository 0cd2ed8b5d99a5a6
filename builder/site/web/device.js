/** This device's part in a course: its store, the learner's record, and what is told when nothing can be kept. */

import { make } from "./dom.js";
import { add, empty, merge, parse } from "./record.js";
import { Store } from "./store.js";
import { say } from "./words.js";

/** @typedef {import("./record.js").Attempt} Attempt */

/** Fired on `document` once everything was forgotten. */
export const FORGOTTEN = "casetrue-forgotten";

/** One store a course for all scripts of a page. */
const shared = /** @type {typeof globalThis & {casetrueStores?: Map<string, Store>}} */ (globalThis);
const stores = (shared.casetrueStores ??= new Map());

/**
 * @param {string} course
 * @returns {Store}
 */
export function storeOf(course) {
  const store = stores.get(course) ?? new Store(course);
  stores.set(course, store);
  return store;
}

/**
 * Says, once and beside the learner's work, that this browser keeps nothing.
 * @param {Store} store
 * @param {Element} beside
 */
export function tellWhenShut(store, beside) {
  store.onShut = () => {
    store.onShut = undefined;
    const words = say("This browser cannot keep your answers: they go when you leave this page. All else works.");
    beside.append(make("p", { class: "shut", role: "status" }, words));
  };
}

/**
 * @param {Store} store
 * @param {string} course
 * @param {Omit<Attempt, "first">[]} attempts
 */
export function remember(store, course, attempts) {
  store.set("record", merge(recordOf(store, course), attempts.reduce(add, empty(course))));
}

/**
 * @param {Store} store
 * @param {string} course
 */
export const recordOf = (store, course) => parse(store.get("record"), course) ?? empty(course);
