/**
 * A learner's record: what was tried, when, and what held. Pure: no page, no storage, no clock.
 *
 * Attempts are kept by time. `first` marks the first attempt at a question, or walk with a client, as it
 * stood: a changed question has another digest and so another first attempt.
 */

/**
 * @typedef {object} Attempt
 * @property {"question" | "walk" | "step" | "quiz"} kind
 * @property {string} id the question; `exercise/case` of a walk; `exercise/case/step` of a step in it; the quiz
 * @property {string} digest of the question, walk or quiz as it stood
 * @property {string} at ISO 8601, UTC
 * @property {string} objective empty for a whole walk or quiz
 * @property {number} mark share of the full mark, 0 to 1
 * @property {boolean} first
 * @property {string} [quiz] the quiz that it was answered in
 * @property {number} [seed] the draw of that quiz
 * @property {number} [certainty] 1 to 3
 * @property {"none" | "minor" | "serious"} [harm] the worst answer of a walk
 * @property {boolean} [held] of a whole walk or quiz, by the pass mark of its time
 */

/** @typedef {{format: 1, course: string, attempts: Attempt[]}} LearnerRecord */

export const MOST = 20000;

/**
 * @param {string} course
 * @returns {LearnerRecord}
 */
export function empty(course) {
  return { format: 1, course, attempts: [] };
}

/**
 * The record with one more attempt. Past `MOST` attempts the oldest repeats go.
 * @param {LearnerRecord} record
 * @param {Omit<Attempt, "first">} attempt
 * @returns {LearnerRecord}
 */
export function add(record, attempt) {
  return { ...record, attempts: ordered([...record.attempts, { ...attempt, first: false }]) };
}

/**
 * Two records of one course as one; an attempt that stands in both counts once.
 * @param {LearnerRecord} one
 * @param {LearnerRecord} other
 * @returns {LearnerRecord}
 */
export function merge(one, other) {
  return { ...one, attempts: ordered([...one.attempts, ...other.attempts]) };
}

/** @param {Omit<Attempt, "first">} attempt */
const thing = (attempt) => JSON.stringify([attempt.kind, attempt.id, attempt.digest]);

/**
 * All that an attempt says, the mark before what else it holds.
 * @param {Attempt} attempt
 */
const content = ({ first, ...attempt }) => `${attempt.at} ${thing(attempt)} ${attempt.mark} ${JSON.stringify(attempt, Object.keys(attempt).sort())}`;

/**
 * Attempts by time, the same one only once, each first one marked.
 * @param {Attempt[]} attempts
 * @returns {Attempt[]}
 */
function ordered(attempts) {
  const byTime = [...new Map(attempts.map((attempt) => [content(attempt), attempt]))].sort(([a], [b]) => (a < b ? -1 : 1));
  const tried = new Set();
  const all = byTime.map(([, attempt]) => {
    const name = thing(attempt);
    const first = !tried.has(name);
    tried.add(name);
    return { ...attempt, first };
  });
  let over = all.length - MOST;
  return over > 0 ? all.filter((attempt) => attempt.first || over-- <= 0) : all;
}
