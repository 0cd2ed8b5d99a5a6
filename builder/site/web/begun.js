/** What waits to be gone on with: walks and quizzes that were answered in part, as they keep themselves. */

/** @typedef {import("./store.js").Store} Store */

/** @param {unknown} given a quiz's answers, null where there is none yet */
export const isBegun = (given) => Array.isArray(given) && given.some(Boolean) && !given.every(Boolean);

/**
 * @param {Store} store
 * @returns {string[]} as the record names them: `exercise/client`, or a drill's alone
 */
export const begunWalks = (store) =>
  names(store, "walk:", (kept) => kept?.begun === true).map((id) => id.replace(/\/$/, ""));

/** @param {Store} store */
export const begunQuizzes = (store) => names(store, "quiz:", (kept) => isBegun(kept?.given));

/**
 * @param {Store} store
 * @param {string} start
 * @param {(kept: {begun?: boolean, given?: unknown} | null) => boolean} fits
 */
const names = (store, start, fits) =>
  store.keys(start).filter((key) => fits(/** @type {any} */ (store.get(key)))).map((key) => key.slice(start.length));
