/** What a record amounts to. Pure: knows no page. `builder/records/summary.py` counts by the same rules. */

import { worse } from "./marking.js";
import { isAnswer, isEarly, isGood } from "./record.js";

/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {{first: [number, number], last: [number, number]}} Held [right, answered] at first and at last attempts */

/** @param {Attempt} attempt */
const thing = (attempt) => `${attempt.kind} ${attempt.id}`;

/**
 * The last attempt at each thing, in the order of these attempts.
 * @param {Attempt[]} attempts by time
 * @returns {Attempt[]}
 */
export function latest(attempts) {
  const last = new Map(attempts.map((attempt) => [thing(attempt), attempt]));
  return attempts.filter((attempt) => last.get(thing(attempt)) === attempt);
}

/**
 * How much was right, by objective: questions and steps of walks.
 * @param {Attempt[]} attempts by time
 * @param {(attempt: Attempt) => boolean} [counts]
 * @returns {Map<string, Held>}
 */
export function objectives(attempts, counts = () => true) {
  const asked = attempts.filter((attempt) => attempt.objective && !isEarly(attempt) && counts(attempt));
  /** @type {Map<string, Held>} */
  const found = new Map();
  /**
   * @param {Attempt[]} some
   * @param {"first" | "last"} which
   */
  const count = (some, which) => {
    for (const attempt of some) {
      const held = found.get(attempt.objective) ?? { first: [0, 0], last: [0, 0] };
      held[which][0] += Number(isGood(attempt));
      held[which][1] += 1;
      found.set(attempt.objective, held);
    }
  };
  count(asked.filter(({ first }) => first), "first");
  count(latest(asked), "last");
  return found;
}

/**
 * Clients to be stopped, and whether every first answer about them did.
 * @param {Attempt[]} attempts
 * @returns {Map<string, boolean>}
 */
export function stopped(attempts) {
  /** @type {Map<string, boolean>} */
  const found = new Map();
  for (const { first, client, stopped: did } of attempts) {
    if (first && client && did !== undefined) found.set(client, did && found.get(client) !== false);
  }
  return found;
}

/**
 * Unsafe answers, one for each thing asked, the earliest.
 * @param {Attempt[]} attempts by time
 */
export const serious = (attempts) => earliest(attempts.filter((one) => isAnswer(one) && one.harm === "serious"));

/**
 * Answers that were unsafe for want of asking, one for each thing asked, the earliest.
 * @param {Attempt[]} attempts by time
 */
export const unasked = (attempts) => earliest(attempts.filter((one) => isAnswer(one) && one.unasked));

/**
 * First answers that were right before it was known. They count neither as right nor as wrong.
 * @param {Attempt[]} attempts
 */
export const early = (attempts) => attempts.filter((one) => one.first && isEarly(one));

/** @param {Attempt[]} attempts */
function earliest(attempts) {
  const ids = attempts.map(({ id }) => id);
  return attempts.filter(({ id }, index) => ids.indexOf(id) === index);
}

/**
 * How sure to first answers right and given.
 * @param {Attempt[]} attempts
 * @returns {Map<number, [number, number]>}
 */
export function calibration(attempts) {
  /** @type {Map<number, [number, number]>} */
  const counts = new Map();
  for (const one of attempts.filter((attempt) => attempt.first && attempt.sure && !isEarly(attempt))) {
    const [right, of] = counts.get(one.sure ?? 0) ?? [0, 0];
    counts.set(one.sure ?? 0, [right + Number(isGood(one)), of + 1]);
  }
  return counts;
}

const VERY_SURE = 3;
const WORST_FIRST = ["serious", "arguable", "minor"];

/** @param {Attempt} attempt */
const rank = ({ harm }) => (WORST_FIRST.indexOf(harm ?? "") + WORST_FIRST.length + 1) % (WORST_FIRST.length + 1);

/**
 * Given very sure, and wrong: one for each thing asked, the latest; the worst harm first.
 * @param {Attempt[]} attempts by time
 */
export const sureAndWrong = (attempts) =>
  [...new Map(attempts.filter(({ sure, right }) => sure === VERY_SURE && right === false).map((one) => [one.id, one])).values()].sort((a, b) => rank(a) - rank(b));

/**
 * What to look at again: wrong and not right since, the newest first. A walk counts as a whole; of one that never came to
 * its end, its steps do.
 * @param {Attempt[]} attempts by time
 */
export function again(attempts) {
  const ended = new Set(attempts.flatMap(({ kind, id }) => (kind === "walk" ? id : [])));
  const counts = (/** @type {Attempt} */ { kind, id }) => kind === "question" || kind === "walk" || (kind === "step" && !ended.has(walkOf(id)));
  return latest(attempts.filter(counts)).filter((one) => !isGood(one) || one.unasked).reverse();
}

/** @param {string} step */
const walkOf = (step) => step.slice(0, step.lastIndexOf("/"));

/**
 * @typedef {object} Score of a quiz: only sittings count whose draw was not seen before
 * @property {Attempt[]} counting
 * @property {boolean} passed whether the first of them was
 * @property {number | undefined} passedLater the number of the first later one that was passed, the first being 1
 * @property {number} seen sittings that do not count
 * @property {number} left begun and not ended
 */

/**
 * @param {Attempt[]} attempts by time
 * @returns {Map<string, Score>}
 */
export function quizScores(attempts) {
  const tried = attempts.filter(({ quiz, draw }) => quiz && draw !== undefined);
  return new Map([...new Set(tried.map(({ quiz }) => quiz ?? ""))].map((name) => {
    const own = tried.filter(({ quiz }) => quiz === name);
    const { ends, left } = sittings(own, "quiz");
    const counting = ends.filter(({ counts }) => counts);
    const later = counting.slice(1).findIndex(({ passed }) => passed);
    return [name, { counting, passed: !!counting[0]?.passed, passedLater: later < 0 ? undefined : later + 2, seen: ends.length - counting.length, left: left.length }];
  }));
}

/** @typedef {{ends: Attempt[], left: Attempt[][]}} Walks those that came to their end, and the answers of each that did not */

/**
 * Walks by name, `exercise/client`.
 * @param {Attempt[]} attempts by time
 * @returns {Map<string, Walks>}
 */
export function walksTried(attempts) {
  /** @type {Map<string, Attempt[]>} */
  const groups = new Map();
  for (const one of attempts) {
    const name = one.kind === "walk" ? one.id : one.kind === "step" ? walkOf(one.id) : "";
    if (name) groups.set(name, [...(groups.get(name) ?? []), one]);
  }
  return new Map([...groups].map(([name, some]) => [name, sittings(some, "walk")]));
}

/**
 * @param {Attempt[]} attempts
 * @param {"walk" | "quiz"} kind
 * @returns {Walks}
 */
function sittings(attempts, kind) {
  const ends = attempts.filter((one) => one.kind === kind);
  const ended = new Set(ends.map(({ sitting }) => sitting));
  /** @type {Map<string, Attempt[]>} */
  const left = new Map();
  for (const one of attempts) {
    if (one.sitting && !ended.has(one.sitting)) left.set(one.sitting, [...(left.get(one.sitting) ?? []), one]);
  }
  return { ends, left: [...left.values()] };
}

/**
 * The worst harm of each walk, ended or not.
 * @param {Walks} walks
 */
export const harmsOf = ({ ends, left }) => [...ends.map(({ harm }) => harm ?? "none"), ...left.map((some) => some.map(({ harm }) => harm ?? "none").reduce(worse))];

/**
 * Walks, ended or not, with a decision that was unsafe for want of asking.
 * @param {Walks} walks
 */
export const unaskedIn = ({ ends, left }) => ends.filter((end) => end.unasked).length + left.filter((some) => some.some((one) => one.unasked)).length;

/**
 * The one with the highest mark; of equal marks one that was passed, since pass marks change; else the earliest.
 * @param {Attempt[]} attempts at least one, by time
 */
export const bestOf = (attempts) => attempts.reduce((best, one) => (one.mark > best.mark || (one.mark === best.mark && isGood(one) && !isGood(best)) ? one : best));
