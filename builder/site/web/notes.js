/** Notes of the learner's own as this device keeps them. */

/** @typedef {import("./store.js").Store} Store */

export const NOTE = "note:";

/**
 * All of them as one text; empty where there is none.
 * @param {Store} store
 */
export function notesText(store) {
  const rows = store.keys(NOTE).sort().map((key) => [key.slice(NOTE.length), store.get(key)]);
  return rows.flatMap(([about, text]) => (typeof text === "string" ? [`${about}\n${text}\n`] : [])).join("\n");
}
