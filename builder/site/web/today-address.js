/** Addresses of what is practised as due today. They say so, so that the answers are kept as such. */

import { start } from "./today.js";
import { fill } from "./words.js";

/** @param {string} address */
export const asToday = (address) => `${address}${address.includes("?") ? "&" : "?"}mode=today`;

/**
 * Where a sitting begins.
 * @param {import("./today.js").Course} course
 * @param {import("./today.js").Task[]} tasks at least one
 * @param {{ask: string}} addresses of single questions, with `{name}` fields
 * @param {number} [minutes] after which it ends
 */
export function addressOf(course, tasks, { ask }, minutes) {
  const first = start(course, tasks);
  if ("address" in first) return asToday(first.address);
  return asToday(fill(ask, { quiz: first.quiz, questions: first.ids.map(encodeURIComponent).join(",") }) + (minutes ? `&minutes=${minutes}` : ""));
}
