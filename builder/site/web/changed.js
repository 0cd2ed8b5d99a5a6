/** Tells at the top of a page which right answers have changed since the learner answered. */

import { recordOf } from "./device.js";
import { make } from "./dom.js";
import { hasChanged } from "./record.js";
import { say } from "./words.js";

/**
 * @param {import("./store.js").Store} store
 * @param {string} course
 * @param {{id: string, key: string, digest?: string, words: string, first: boolean}[]} asked what the page asks; `first`
 *   where it is about a caution or about whom to stop
 * @returns {Node[]}
 */
export function changed(store, course, asked) {
  const last = new Map(recordOf(store, course).attempts.map((attempt) => [attempt.id, attempt]));
  const moved = asked.filter((now) => {
    const attempt = last.get(now.id);
    return attempt && hasChanged(attempt, () => now);
  });
  if (!moved.length) return [];
  const rows = [...moved.filter(({ first }) => first), ...moved.filter(({ first }) => !first)];
  return [make(
    "div",
    { class: "moved", role: "status" },
    make("p", {}, make("b", {}, say("The right answer has changed")), " ", say("What you answered before counts for nothing. Answer again.")),
    make("ul", {}, ...rows.map(({ words }) => make("li", {}, words))),
  )];
}
