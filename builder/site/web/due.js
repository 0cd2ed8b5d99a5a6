/**
 * On which day each thing that was answered comes back. Pure: no page, no storage, no clock.
 *
 * A day is set when something is answered: what is right comes back after the gap of `plan.js`, which stays the same up
 * to the day that the learner wants to be ready; what is not right on a day comes back the next day, whatever is answered
 * later on that day (common practice). A day that was set stays until the thing is answered again.
 */

import { dayOf, gap } from "./plan.js";
import { isAnswer, isEarly } from "./record.js";

/** @typedef {Pick<import("./record.js").Attempt, "kind" | "id" | "at" | "mark" | "harm" | "known" | "unasked"> & {unit?: string, right?: boolean}} Answer */
/** @typedef {[at: string, every: number | null, due: number | null]} Day when the answer was given, and the days from one review to the next and of the next one; null where there is none */
/** @typedef {{end: number | null, days: Record<string, Day>}} Plan the day to be ready, and what was set towards it */

/** @param {Answer} answer what is learnt by it, under whose name its day is kept */
export const keyOf = ({ unit, id }) => unit ?? id;

/** @param {Answer} answer what was unsafe for want of asking comes back like what was wrong */
export const isRight = ({ right, mark, unasked }) => !unasked && (right ?? mark === 1);

/** @param {Answer} answer whether it sets a day: what was right before it was known tells nothing */
export const tells = (answer) => isAnswer(answer) && (!isEarly(answer) || answer.unasked === true);

/** @param {string} at */
export const dayAt = (at) => dayOf(new Date(at));

/**
 * What was set towards a day, as it is kept; nothing where it was set towards another.
 * @param {unknown} kept maybe damaged
 * @param {number | null} end
 * @returns {Record<string, Day | undefined>} each maybe damaged
 */
export function daysOf(kept, end) {
  const plan = /** @type {Plan | null} */ (kept);
  return plan?.end === end ? { ...plan.days } : {};
}

/**
 * The day that an answer sets.
 * @param {boolean} right
 * @param {number} on the day of the answer
 * @param {number | null} end
 * @param {Day} [former] maybe damaged
 * @returns {{every: number | null, due: number | null}}
 */
export function dayAfter(right, on, end, former) {
  const set = former?.[1];
  const every = end !== null && on < end ? (set && set > 0 && set < end && Number.isInteger(set) ? set : gap(end - on)) : null;
  if (!right) return { every, due: on + 1 };
  return { every, due: every && end && on + every < end ? on + every : null };
}

/**
 * @param {unknown} kept
 * @param {Answer[]} answers just given
 * @param {number | null} end
 * @returns {Plan} to be kept: the days of these answers set, all others as they were
 */
export function setDays(kept, answers, end) {
  const days = daysOf(kept, end);
  for (const answer of answers.filter(tells)) {
    const on = dayAt(answer.at);
    const former = days[keyOf(answer)];
    const { every, due } = dayAfter(isRight(answer), on, end, former);
    const isMissed = former?.[2] === on + 1 && dayAt(former[0]) === on;
    days[keyOf(answer)] = [answer.at, every, isMissed ? on + 1 : due];
  }
  return { end, days: /** @type {Record<string, Day>} */ (days) };
}
