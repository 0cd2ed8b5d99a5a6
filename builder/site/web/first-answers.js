/** First answers, as the bars and the chances of passing count them: without those that were right before it was known. Pure: knows no page. */

import { isEarly } from "./record.js";

/** @typedef {{held: boolean, client: string | null, harm: string | undefined}} First `harm` is undefined where it was not judged */

/**
 * Whom an answer is about, so that answers about one client can be told to hang together: in the id of a question behind its
 * family, in that of a step behind its exercise.
 * @param {{id: string, client?: string | null}} answer
 */
export const clientOf = ({ id, client }) => client ?? id.split(/[./]/)[1] ?? null;

/**
 * @param {(import("./record.js").Attempt & {right?: boolean, client?: string})[]} attempts
 * @returns {Record<string, First[]>} by objective
 */
export function firstAnswers(attempts) {
  /** @type {Map<string, First[]>} */
  const found = new Map();
  for (const attempt of attempts.filter((one) => one.first && one.objective && !isEarly(one))) {
    const one = { held: attempt.right ?? attempt.mark === 1, client: clientOf(attempt), harm: attempt.harm };
    const some = found.get(attempt.objective);
    if (some) some.push(one);
    else found.set(attempt.objective, [one]);
  }
  return Object.fromEntries(found);
}
