/** What cannot be true of a record. Pure: no page. `builder/records/plausible.py` doubts the same. */

import { harmOf, isHeld, markItem, markQuiz, share } from "./marking.js";
import { dayNumber, dayText } from "./plan.js";

/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {import("./marking.js").ItemData} ItemData */
/** @typedef {{asks: number, pass_mark: [number, number], serious: "fails" | "told", digest: string}} QuizFacts */
/**
 * What the course says.
 * @typedef {object} Known
 * @property {Record<string, QuizFacts>} quizzes
 * @property {Record<string, Pick<ItemData, "digest" | "kind" | "key" | "harm">>} items
 * @property {(attempt: Attempt) => string | null | undefined} outcome the right one at a step that decides
 * @property {import("./record.js").Now} now
 */
/** @typedef {"mark" | "future" | "quiz"} Reason a mark or harm that its answers do not give; a day to come; a quiz that is not there */

const HAIR = 1e-9;

/**
 * The attempts that cannot be true, by the course as it is. A mark is worked out again where the question is still as it
 * was and the answer is known. Times are in UTC: somewhere the day after today may have begun.
 * @param {Attempt[]} attempts
 * @param {Known} known
 * @param {string} today as 2026-06-01
 * @returns {Map<Attempt, Reason>}
 */
export function implausible(attempts, known, today) {
  const tomorrow = dayText((dayNumber(today) ?? 0) + 1);
  return new Map(attempts.flatMap((one) => {
    const reason = why(one);
    return reason ? [[one, reason]] : [];
  }));

  /**
   * @param {Attempt} one
   * @returns {Reason | null}
   */
  function why(one) {
    if (one.at.slice(0, 10) > tomorrow) return "future";
    const quiz = one.kind === "quiz" ? one.id : one.quiz;
    if ([quiz, one.quiz].some((name) => name && !Object.hasOwn(known.quizzes, name))) return "quiz";
    return fits(one) ? null : "mark";
  }

  /** @param {Attempt} one */
  function fits(one) {
    if (one.kind === "quiz") return quizFits(one);
    if (one.kind === "step") {
      const outcome = known.outcome(one);
      return !outcome || one.answer === undefined || known.now(one)?.key !== one.key || one.right === (one.answer === outcome);
    }
    const item = asItWas(one);
    if (!item) return true;
    const gained = markItem(item, one.answer ?? null);
    return one.right === isHeld(gained) && Math.abs(one.mark - share(gained)) < HAIR && (one.harm === undefined || one.harm === harmOf(item, one.answer ?? null));
  }

  /**
   * The question that was answered, where it has not changed since and the answer is known.
   * @param {Attempt} one
   */
  function asItWas({ kind, id, digest, answer }) {
    const item = kind === "question" && answer !== undefined && Object.hasOwn(known.items, id) ? known.items[id] : null;
    return item?.digest === digest ? item : null;
  }

  /**
   * By the answers of the same sitting, where all of them can be marked again.
   * @param {Attempt} one
   */
  function quizFits(one) {
    const { asks, pass_mark: pass, serious, digest } = known.quizzes[one.id];
    const given = attempts.filter(({ kind, sitting }) => kind === "question" && sitting && sitting === one.sitting);
    const items = given.flatMap((answer) => asItWas(answer) ?? []);
    if (given.length !== asks || items.length !== asks) return true;
    const unsafe = items.some((item, index) => harmOf(item, given[index].answer ?? null) === "serious");
    const { mark, held } = markQuiz(items.map((item, index) => markItem(item, given[index].answer ?? null)), pass, unsafe && serious === "fails");
    return Math.abs(one.mark - share(mark)) < HAIR && (one.digest !== digest || one.passed === held);
  }
}
