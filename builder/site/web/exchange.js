/**
 * A record on its way in: read with distrust from a file or from what this device keeps. Pure: no page. `schemas/record.schema.json` defines the file; `builder/records/reading.py` reads it
 * too, taking and refusing the same.
 */

import { MOST, isAnswer } from "./record.js";

/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {{format: 1 | 2, course: string, version?: string, build?: string, edition?: string, device?: string, learner?: string, stopped?: Record<string, boolean>, attempts: Attempt[]}} RecordFile */
/**
 * @typedef {{file: RecordFile, unread: number[]} | {refused: Reason, value?: string | number}} Reading `file` with
 *   all attempts that are sound, `unread` the places, from 1 on, of those that are not
 * @typedef {"size" | "json" | "record" | "format" | "course" | "many" | "part"} Reason
 */

/** Bytes: room for the longest record. */
export const LARGEST = 16_000_000;

/** @param {RegExp} pattern */
const text = (pattern) => (/** @type {unknown} */ value) => typeof value === "string" && value.length <= 400 && pattern.test(value);
const ID = "[A-Za-z][A-Za-z0-9_-]*([./][A-Za-z0-9][A-Za-z0-9_-]*){0,4}$";
const NAME = text(/^[A-Za-z][A-Za-z0-9_-]{0,99}$/);
const PLAIN = text(/^[^\0-\x1f\x7f-\x9f\u2028\u2029]{0,100}$/u);
const HEX = text(/^[0-9a-f]{8,64}$/);
const ANY = text(/^[^]{0,100}$/u);
/** @param {...unknown} values */
const one = (...values) => (/** @type {unknown} */ value) => values.includes(value);
const TRUTH = one(true, false);
/** @param {unknown} value */
const whole = (value) => Number.isSafeInteger(value) && Number(value) >= 0;
/** @param {unknown} value */
const moment = (value) => typeof value === "string" && value.length === 24 && new Date(value).getTime() >= 0 && new Date(value).toISOString() === value;
/**
 * @param {(value: unknown) => boolean} fits
 * @param {number} most
 */
const list = (fits, most) => (/** @type {unknown} */ value) => Array.isArray(value) && value.length <= most && value.every(fits);
const LIST = list(ANY, 1000);
/** @param {unknown} value */
const isObject = (value) => typeof value === "object" && !!value && !Array.isArray(value);

/** @type {Record<string, (value: any) => boolean>} */
const HEAD = {
  format: one(1, 2),
  course: NAME,
  version: PLAIN,
  build: text(/^[0-9a-f]{8}$/),
  edition: PLAIN,
  device: HEX,
  learner: PLAIN,
  stopped: (value) => isObject(value) && Object.entries(value).every(([client, did]) => NAME(client) && TRUTH(did)),
  attempts: Array.isArray,
};
/** @type {Record<string, (value: any) => boolean>} */
const ATTEMPT = {
  kind: one("question", "walk", "step", "quiz"),
  id: text(new RegExp(`^${ID}`)),
  digest: HEX,
  at: moment,
  objective: text(/^([A-Za-z][A-Za-z0-9_-]{0,99})?$/),
  mark: (value) => typeof value === "number" && value >= 0 && value <= 1,
  first: TRUTH,
  counts: TRUTH,
  right: TRUTH,
  known: TRUTH,
  unasked: one(true),
  passed: TRUTH,
  harm: one("none", "minor", "arguable", "serious"),
  breaks: list(NAME, 100),
  unit: text(new RegExp(`^([a-z]+:)?${ID}`)),
  client: NAME,
  answer: (value) => ANY(value) || LIST(value),
  stopped: TRUTH,
  key: HEX,
  quiz: NAME,
  draw: whole,
  task: PLAIN,
  watcher: PLAIN,
  edition: PLAIN,
  ms: whole,
  mode: one("practise", "today", "quiz", "test"),
  sitting: HEX,
  sure: one(1, 2, 3),
};
const NEEDED = ["kind", "id", "digest", "at", "objective", "mark"];

/**
 * What a file holds, or why it is no record of this course. What format 1 wrote comes as format 2 would have written it.
 * @param {string} text
 * @param {string} course
 * @returns {Reading}
 */
export function read(text, course) {
  if (text.length > LARGEST) return { refused: "size" };
  /** @type {any} */
  let file;
  try {
    file = JSON.parse(text);
  } catch {
    return { refused: "json" };
  }
  if (typeof file !== "object" || !file || !Object.hasOwn(file, "format") || !Object.hasOwn(file, "attempts")) return { refused: "record" };
  if (file.format !== 1 && file.format !== 2) return { refused: Number.isInteger(file.format) && file.format > 2 ? "format" : "record" };
  const strange = wrong(file, HEAD, ["course"]);
  if (strange !== undefined) return { refused: "part", value: strange };
  if (file.course !== course) return { refused: "course", value: file.course };
  if (file.attempts.length > MOST) return { refused: "many", value: MOST };
  /** @type {unknown[]} */
  const attempts = file.format === 1 ? file.attempts.map(converted) : file.attempts;
  const sound = attempts.map(isSound);
  return {
    file: { ...file, attempts: attempts.filter((_, at) => sound[at]) },
    unread: sound.flatMap((is, at) => (is ? [] : [at + 1])),
  };
}

/** @type {Record<string, string>} */
const RENAMED = { seed: "draw", certainty: "sure", held: "passed" };

/**
 * An attempt of format 1 as one of format 2, what it answered unknown. What is none stays none.
 * @param {any} attempt
 */
function converted(attempt) {
  if (!isObject(attempt)) return attempt;
  const parts = Object.entries(attempt);
  const isOld = (/** @type {[string, unknown]} */ [part]) => Object.hasOwn(RENAMED, part);
  return {
    ...Object.fromEntries([...parts.filter((part) => !isOld(part)), ...parts.filter(isOld).map(([part, value]) => [RENAMED[part], value])]),
    ...(isAnswer(attempt) && { right: attempt.mark === 1, known: true, mode: Object.hasOwn(attempt, "seed") ? "quiz" : "practise" }),
  };
}

/** @param {any} attempt */
function isSound(attempt) {
  if (!isObject(attempt)) return false;
  const answer = isAnswer(attempt);
  const needed = answer ? ["right", "known", "mode"] : attempt.kind === "walk" ? ["passed", "harm"] : ["passed"];
  if (wrong(attempt, ATTEMPT, [...NEEDED, ...needed]) !== undefined) return false;
  if (attempt.unasked && (attempt.passed || !["step", "walk"].includes(attempt.kind))) return false;
  if (answer) return !Object.hasOwn(attempt, "passed") && attempt.right === (attempt.mark === 1);
  if (Object.hasOwn(attempt, "right")) return false;
  return !attempt.passed || (attempt.mark > 0 && (attempt.kind === "quiz" || attempt.harm !== "serious"));
}

/**
 * The name of a part that is strange, broken or missing.
 * @param {Record<string, unknown>} value
 * @param {Record<string, (value: any) => boolean>} checks
 * @param {string[]} needed
 * @returns {string | undefined}
 */
function wrong(value, checks, needed) {
  const parts = Object.keys(value);
  return parts.find((part) => !Object.hasOwn(checks, part) || !checks[part](value[part])) ?? needed.find((part) => !parts.includes(part));
}
