/**
 * A learner's record: what was tried, when, what was answered, and whether it was right. Pure: no page, no storage, no
 * clock. `builder/records/record.py` keeps attempts by the same rules.
 */

/** @typedef {import("./marking.js").Harm} Harm */
/**
 * One answer to a question or step, or the end of a whole walk or quiz; `schemas/record.schema.json` tells of each part.
 * @typedef {object} Attempt
 * @property {"question" | "step" | "walk" | "quiz"} kind
 * @property {string} id the question; `exercise/client/step`; `exercise/client` of a walk; the quiz
 * @property {string} digest of the question, walk or quiz as it stood
 * @property {string} at ISO 8601, UTC
 * @property {string} objective empty for a whole walk or quiz
 * @property {number} mark share of the full mark, 0 to 1
 * @property {boolean} [first] of an answer: the first ever at its unit with its client, whatever page asked
 * @property {boolean} [counts] of a whole quiz: its draw was not seen before
 * @property {boolean} [right] of an answer
 * @property {boolean} [known]
 * @property {true} [unasked] unsafe for want of asking
 * @property {boolean} [passed] of a whole walk or quiz, by the rules of its time
 * @property {Harm} [harm] the worst
 * @property {string[]} [breaks]
 * @property {string} [unit]
 * @property {string} [client]
 * @property {string | string[]} [answer]
 * @property {boolean} [stopped] where the right answer sends the client on: whether the answer does
 * @property {string} [key] digest of the right answer of its time
 * @property {string} [quiz]
 * @property {number} [draw]
 * @property {string} [task]
 * @property {string} [watcher]
 * @property {string} [edition]
 * @property {number} [ms]
 * @property {"practise" | "today" | "quiz" | "test"} [mode]
 * @property {string} [sitting]
 * @property {number} [sure] 1 to 3
 */
/** @typedef {{format: 2, course: string, device?: string, attempts: Attempt[]}} LearnerRecord */
/** @typedef {(attempt: Attempt) => {key: string, digest?: string} | null} Now the digests of the right answer to what was tried, and of all of it, as they are now */
/**
 * What is asked, as a page tells it.
 * @typedef {object} Asked
 * @property {string} key_digest
 * @property {string} [unit]
 * @property {string | null} [client]
 * @property {Record<string, string[]>} [breaks]
 * @property {string[]} [stops]
 */

export const MOST = 20000;

/**
 * @param {string} course
 * @returns {LearnerRecord}
 */
export const empty = (course) => ({ format: 2, course, attempts: [] });

/**
 * Two records of one course as one; an attempt that stands in both counts once. Past `MOST` attempts the oldest repeats go.
 * @param {LearnerRecord} one
 * @param {{attempts: Attempt[]}} other
 * @returns {LearnerRecord}
 */
export const merge = (one, other) => ({ ...one, attempts: ordered([...one.attempts, ...other.attempts]) });

/** @param {Pick<Attempt, "kind">} attempt a single answer, not a whole walk or quiz */
export const isAnswer = ({ kind }) => kind === "question" || kind === "step";

/** @param {Attempt} attempt right, or passed */
export const isGood = ({ right, passed }) => !!(right || passed);

/** @param {Pick<Attempt, "right" | "known">} attempt right before it was known: neither a sign of skill nor of the want of it */
export const isEarly = ({ right, known }) => right === true && known === false;

/**
 * What an attempt holds of an answer and of what was asked, without what there is nothing of.
 * @param {Asked} asked
 * @param {string | string[]} answer
 * @returns {Partial<Attempt>}
 */
export function told({ unit, client, key_digest: key, breaks = {}, stops = [] }, answer) {
  const chosen = [answer].flat();
  const broke = [...new Set(chosen.flatMap((id) => breaks[id] ?? []))];
  return {
    known: true,
    answer,
    key,
    ...(unit && { unit }),
    ...(client && { client }),
    ...(broke.length && { breaks: broke }),
    ...(stops.length && { stopped: chosen.every((id) => stops.includes(id)) }),
  };
}

/**
 * Whether the right answer has changed since. Where its digest was not kept, whether anything has.
 * @param {Attempt} attempt
 * @param {Now} now
 */
export function hasChanged(attempt, now) {
  const there = now(attempt);
  if (!there) return false;
  return attempt.key ? there.key !== attempt.key : !!there.digest && there.digest !== attempt.digest;
}

/**
 * The attempts that count: without those whose right answer has changed since. A walk with such an answer is not passed
 * any more.
 * @param {Attempt[]} attempts
 * @param {Now} now
 */
export function standing(attempts, now) {
  const moved = new Set(attempts.filter((one) => hasChanged(one, now)));
  const walks = new Set([...moved].flatMap(({ kind, sitting }) => (kind === "step" && sitting) || []));
  const counting = attempts.filter((one) => !moved.has(one));
  return ordered(counting.map((one) => (one.kind === "walk" && walks.has(one.sitting ?? "") ? { ...one, passed: false } : one)));
}

/** @param {Attempt} attempt */
const thing = ({ kind, id }) => `${kind} ${id}`;

/**
 * All that an attempt says, the mark before what else it holds.
 * @param {Attempt} attempt
 */
const content = ({ first, counts, ...attempt }) =>
  `${attempt.at} ${JSON.stringify([attempt.kind, attempt.id, attempt.digest])} ${attempt.mark} ${JSON.stringify(attempt, Object.keys(attempt).sort())}`;

/**
 * Attempts by time, the same one only once, with each first one and each quiz that counts marked.
 * @param {Attempt[]} attempts
 * @returns {Attempt[]}
 */
function ordered(attempts) {
  const byTime = [...new Map(attempts.map((attempt) => [content(attempt), attempt]))].sort(([a], [b]) => (a < b ? -1 : 1));
  const tried = new Set();
  /** @type {Map<string, string | undefined>} */
  const seen = new Map();
  const all = byTime.map(([, { first: _, counts: __, ...attempt }]) => {
    const { kind, unit, client, quiz, draw, sitting } = attempt;
    const names = [thing(attempt), ...(unit ? [`${unit} ${client ?? ""}`] : [])];
    /** @type {Attempt} */
    const marked = { ...attempt, first: !names.some((name) => tried.has(name)) };
    for (const name of names) tried.add(name);
    const drawn = `${quiz} ${draw}`;
    if (quiz && draw !== undefined && !seen.has(drawn)) seen.set(drawn, sitting);
    if (kind === "quiz") {
      marked.counts = draw !== undefined && seen.get(drawn) === sitting;
      seen.set(drawn, "over");
    }
    return marked;
  });
  let over = all.length - MOST;
  return over > 0 ? all.filter((attempt) => attempt.first || over-- <= 0) : all;
}
