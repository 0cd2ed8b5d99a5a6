/**
 * How each thing that was answered stands, and when it comes back. Pure: no page, no storage, no clock.
 *
 * What was answered elsewhere, or for another day to be ready, has no day kept: its day follows from the answer itself,
 * whenever one looks.
 */

import { dayAfter, dayAt, daysOf, isRight, keyOf, tells } from "./due.js";

/** @typedef {import("./due.js").Answer} Answer */
/** @typedef {"unsafe" | "missed" | "held"} Verdict the worst comes first */
/**
 * @typedef {object} Standing
 * @property {string} key under which its day is kept
 * @property {string} at of the last answer
 * @property {number} on the day of the last answer, as a number since 1970
 * @property {Verdict} verdict the worst answer of that day
 * @property {Set<string>} ids what was answered on that day
 * @property {Map<string, number>} times how often each question or step was answered
 * @property {number | null} due the day on which it comes back
 */
/** @typedef {{end: number | null, today: number}} Aim the day to be ready and this day */

/** @type {Verdict[]} */
const WORST = ["unsafe", "missed", "held"];

/**
 * @param {Answer} answer
 * @returns {Verdict}
 */
const verdictOf = (answer) => (answer.harm === "serious" || answer.unasked ? "unsafe" : isRight(answer) ? "held" : "missed");

/**
 * @param {Answer[]} attempts by time
 * @param {unknown} kept what `setDays` made; anything else counts for nothing
 * @param {Aim} aim
 * @param {(answer: Answer) => string | undefined} [unitOf] what is learnt; undefined where the course teaches it no longer
 * @returns {Map<string, Standing>} by what is learnt
 */
export function standings(attempts, kept, { end, today }, unitOf = keyOf) {
  /** @type {Map<string, Standing>} */
  const found = new Map();
  for (const answer of attempts) {
    const unit = tells(answer) ? unitOf(answer) : undefined;
    const on = dayAt(answer.at);
    // What is dated ahead would never come back; a day's difference is a journey's.
    if (unit === undefined || on > today + 1) continue;
    const before = found.get(unit);
    const same = before?.on === on ? before : undefined;
    const times = (before?.times ?? new Map()).set(answer.id, (before?.times.get(answer.id) ?? 0) + 1);
    const verdict = WORST[Math.min(WORST.indexOf(verdictOf(answer)), WORST.indexOf(same?.verdict ?? "held"))];
    found.set(unit, { key: keyOf(answer), at: answer.at, on, verdict, ids: (same?.ids ?? new Set()).add(answer.id), times, due: null });
  }
  const days = daysOf(kept, end);
  for (const one of found.values()) {
    const held = one.verdict === "held";
    const day = days[one.key];
    const { due } = dayAfter(held, one.on, end, day);
    const last = held ? (end ?? 0) - 1 : one.on + 2;
    const stays = day?.[0] === one.at && day[2] !== null && Number.isInteger(day[2]) && day[2] >= one.on && day[2] <= last;
    // After the day to be ready nothing is left to be kept fresh.
    if (!held || (end !== null && today < end)) one.due = stays ? day[2] : due;
  }
  return found;
}
