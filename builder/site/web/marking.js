/**
 * Marks questions and quizzes. The rules stand in `builder/questions/MARKING.md`; `builder/questions/marking.py`
 * does the same. Pure: knows no page. Marks are exact ratios, so that a pass mark is met or missed without doubt.
 */

/** @typedef {{n: bigint, d: bigint}} Ratio numerator, and denominator above 0 */
/** @typedef {[number, number]} RatioData a ratio as it stands in JSON */
/** @typedef {"one" | "several" | "number" | "order" | "pairs"} Kind */
/**
 * What marking and the record need of a question.
 * @typedef {object} ItemData
 * @property {string} id
 * @property {Kind} kind
 * @property {string} objective
 * @property {string} digest
 * @property {string} key_digest
 * @property {string} unit what is learnt
 * @property {string | null} client
 * @property {string[]} stops where the right answer sends the client on: the ids of all options that do
 * @property {string | string[] | RatioData[]} key one: an option id. several, order, pairs: option ids.
 *   number: value and tolerance.
 * @property {Record<string, Harm>} harm option id to the harm of acting on it; harmless ones are left out
 * @property {Record<string, string[]>} breaks option id to the cautions that acting on it breaks
 */
/**
 * one: an option id. several: option ids in any order. number: the text typed. order: option ids in the order
 * chosen. pairs: an option id for each left-hand text, empty where none was chosen.
 * @typedef {string | string[]} Answer
 */
/** @typedef {1 | 2 | 3} Certainty */
/** @typedef {"none" | "minor" | "arguable" | "serious"} Harm */

/** @type {Harm[]} from the least to the worst */
const HARMS = ["none", "minor", "arguable", "serious"];

const LONGEST = 40;
const SPACES = "[ \\t\\r\\n\\u00a0\\u2007\\u2009\\u202f]*";
const NUMBER = new RegExp(
  `^${SPACES}([+\\-\\u2212\\u2013]?)${SPACES}([0-9]*)(?:[.,]([0-9]*))?${SPACES}$`,
);

/**
 * An exact ratio of whole numbers.
 * @param {bigint | number} n
 * @param {bigint | number} [d]
 * @returns {Ratio}
 */
export const ratio = (n, d = 1n) => ({ n: BigInt(n), d: BigInt(d) });

/**
 * A ratio as an ordinary number, for showing.
 * @param {Ratio} value
 */
export const share = ({ n, d }) => Number(n) / Number(d);

/**
 * A ratio in whole per cent, never rounded up: what is shown as a pass mark is one.
 * @param {Ratio} value
 */
export const percent = ({ n, d }) => {
  const hundred = 100n * n;
  return Number(hundred / d) - Number(hundred < 0n && hundred % d !== 0n);
};

/**
 * @param {Ratio} a
 * @param {Ratio} b
 */
export const atLeast = (a, b) => a.n * b.d >= b.n * a.d;

/**
 * The number that a text writes, or null where it writes none. Digits 0 to 9 with at most one decimal mark, a
 * point or a comma; a sign and spaces may stand before them. Nothing groups thousands, no exponent, no unit.
 * @param {string} text
 * @returns {Ratio | null}
 */
export function readNumber(text) {
  const match = [...text].length <= LONGEST ? NUMBER.exec(text) : null;
  if (!match) return null;
  const [, sign, whole, part = ""] = match;
  if (!(whole + part)) return null;
  const size = ratio(BigInt(whole + part), 10n ** BigInt(part.length));
  return sign === "" || sign === "+" ? size : ratio(-size.n, size.d);
}

/**
 * Whether a mark may stand between thousands: not the language's own decimal mark, and three digits after it.
 * @param {string} text
 * @param {string} decimal the language's own
 */
export const mayGroup = (text, decimal) => !text.includes(decimal) && /^\D*[1-9]\d{0,2}[.,]\d{3}\D*$/.test(text);

/**
 * The mark of one answer, from 0 to 1. An answer that does not fit the question's kind is worth 0, and so is none.
 * @param {Pick<ItemData, "kind" | "key">} item
 * @param {Answer | null} answer
 * @returns {Ratio}
 */
export function markItem(item, answer) {
  if (!answer?.length) return ratio(0);
  if (item.kind === "one") return ratio(Number(answer === item.key));
  if (item.kind === "number") return markNumber(/** @type {RatioData[]} */ (item.key), answer);
  const key = /** @type {string[]} */ (item.key);
  const picks = [answer].flat();
  if (item.kind === "several") return markSeveral(key, picks);
  if (item.kind === "order") return markOrder(key, picks);
  return ratio(key.filter((option, place) => option === picks[place]).length, Math.max(1, key.length));
}

/**
 * Whether a mark is the full mark.
 * @param {Ratio} mark
 */
export const isHeld = (mark) => mark.n === mark.d;

/**
 * @param {Harm} a
 * @param {Harm} b
 */
export const worse = (a, b) => (HARMS.indexOf(a) < HARMS.indexOf(b) ? b : a);

/**
 * The harm of acting on an answer: the worst of the wrong options chosen, and of right ones left out.
 * @param {Pick<ItemData, "kind" | "key" | "harm">} item
 * @param {Answer | null} answer
 * @returns {Harm}
 */
export function harmOf({ kind, key, harm }, answer) {
  if ((kind !== "one" && kind !== "several") || !answer?.length) return "none";
  const [picks, keys] = [[answer].flat(), /** @type {string[]} */ ([key].flat())];
  return Object.keys(harm).filter((id) => picks.includes(id) !== keys.includes(id)).map((id) => harm[id]).reduce(worse, "none");
}

/**
 * The mark of a quiz, the mean of its questions', and whether it is passed. A quiz that asks nothing has 0.
 * @param {Ratio[]} marks
 * @param {RatioData} passMark
 * @param {boolean} serious whether an answer keeps it from being passed
 * @returns {{mark: Ratio, held: boolean}}
 */
export function markQuiz(marks, passMark, serious) {
  if (!marks.length) return { mark: ratio(0), held: false };
  const sum = marks.reduce((a, b) => reduced(a.n * b.d + b.n * a.d, a.d * b.d), ratio(0));
  const mark = reduced(sum.n, sum.d * BigInt(marks.length));
  return { mark, held: !serious && atLeast(mark, ratio(...passMark)) };
}

/**
 * Objective to [held, answered].
 * @param {Iterable<{objective: string | null, held: boolean}>} answered
 * @returns {Record<string, [number, number]>}
 */
export function byObjective(answered) {
  /** @type {Map<string, [number, number]>} */
  const counts = new Map();
  for (const { objective, held } of answered) {
    if (objective === null) continue;
    const [before, of] = counts.get(objective) ?? [0, 0];
    counts.set(objective, [before + Number(held), of + 1]);
  }
  return Object.fromEntries(counts);
}

/**
 * @param {RatioData[]} key
 * @param {Answer} answer
 */
function markNumber(key, answer) {
  const number = typeof answer === "string" ? readNumber(answer) : null;
  const [value, within] = key.map(([n, d]) => ratio(n, d));
  if (!number || !value || !within) return ratio(0);
  const apart = number.n * value.d - value.n * number.d;
  const distance = ratio(apart < 0n ? -apart : apart, number.d * value.d);
  return ratio(Number(atLeast(within, distance)));
}

/**
 * @param {string[]} key
 * @param {string[]} picks
 */
function markSeveral(key, picks) {
  const picked = [...new Set(picks)];
  const right = picked.filter((option) => key.includes(option)).length;
  return ratio(Math.max(0, right - (picked.length - right)), Math.max(1, key.length));
}

/**
 * Kendall's tau without ties: (concordant - discordant) / all pairs, not below 0.
 * @param {string[]} key
 * @param {string[]} picks
 */
function markOrder(key, picks) {
  if (key.length !== picks.length || [...key].sort().join() !== [...picks].sort().join()) return ratio(0);
  const places = key.map((option) => picks.indexOf(option));
  if (places.length < 2) return ratio(1);
  const pairs = (places.length * (places.length - 1)) / 2;
  let concordant = 0;
  places.forEach((first, at) => {
    concordant += places.slice(at + 1).filter((then) => first < then).length;
  });
  return ratio(Math.max(0, 2 * concordant - pairs), pairs);
}

/**
 * @param {bigint} n
 * @param {bigint} d
 * @returns {Ratio}
 */
function reduced(n, d) {
  let [a, b] = [n < 0n ? -n : n, d];
  while (b) [a, b] = [b, a % b];
  return { n: n / a, d: d / a };
}
