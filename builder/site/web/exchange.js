/**
 * A record on its way in and out: read with distrust from a file or from what this device keeps, written for
 * spreadsheets. Pure: no page. `schemas/record.schema.json` defines the file; `builder/records/reading.py` reads it
 * too, taking and refusing the same.
 */

import { MOST } from "./record.js";

/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {{format: 1, course: string, version?: string, build?: string, learner?: string, attempts: Attempt[]}} RecordFile */
/**
 * @typedef {{file: RecordFile, unread: number[]} | {refused: Reason, value?: string | number}} Reading `file` with
 *   all attempts that are sound, `unread` the places, from 1 on, of those that are not
 * @typedef {"size" | "json" | "record" | "format" | "course" | "many" | "part"} Reason
 */

/** Bytes: room for the longest record. */
export const LARGEST = 8_000_000;

/** @param {RegExp} pattern */
const text = (pattern) => (/** @type {unknown} */ value) => typeof value === "string" && value.length <= 400 && pattern.test(value);
const NAME = /^[A-Za-z][A-Za-z0-9_-]{0,99}$/;
const PLAIN = /^[^\0-\x1f\x7f-\x9f\u2028\u2029]{0,100}$/u;
/** @param {...unknown} values */
const one = (...values) => (/** @type {unknown} */ value) => values.includes(value);
/** @param {unknown} value */
const moment = (value) => typeof value === "string" && value.length === 24 && new Date(value).getTime() >= 0 && new Date(value).toISOString() === value;

/** @type {Record<string, (value: unknown) => boolean>} */
const HEAD = {
  format: one(1),
  course: text(NAME),
  version: text(PLAIN),
  build: text(/^[0-9a-f]{8}$/),
  learner: text(PLAIN),
  attempts: Array.isArray,
};
/** @type {Record<string, (value: unknown) => boolean>} */
const ATTEMPT = {
  kind: one("question", "walk", "step", "quiz"),
  id: text(/^[A-Za-z][A-Za-z0-9_-]*([./][A-Za-z0-9][A-Za-z0-9_-]*){0,4}$/),
  digest: text(/^[0-9a-f]{8,64}$/),
  at: moment,
  objective: text(/^([A-Za-z][A-Za-z0-9_-]{0,99})?$/),
  mark: (value) => typeof value === "number" && value >= 0 && value <= 1,
  first: one(true, false),
  quiz: text(NAME),
  seed: (value) => Number.isSafeInteger(value) && Number(value) >= 0,
  certainty: one(1, 2, 3),
  harm: one("none", "minor", "serious"),
  held: one(true, false),
};
const NEEDED = ["kind", "id", "digest", "at", "objective", "mark"];
const NEEDED_OF = { question: [], step: [], walk: ["harm", "held"], quiz: ["held"] };

/**
 * What a file holds, or why it is no record of this course.
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
  if (file.format !== 1) return { refused: Number.isInteger(file.format) && file.format > 1 ? "format" : "record" };
  const strange = wrong(file, HEAD, ["course"]);
  if (strange !== undefined) return { refused: "part", value: strange };
  if (file.course !== course) return { refused: "course", value: file.course };
  if (file.attempts.length > MOST) return { refused: "many", value: MOST };
  const sound = file.attempts.map(isSound);
  return {
    file: { ...file, attempts: file.attempts.filter((/** @type {unknown} */ _, /** @type {number} */ at) => sound[at]) },
    unread: sound.flatMap((/** @type {boolean} */ is, /** @type {number} */ at) => (is ? [] : [at + 1])),
  };
}

/** @param {any} attempt */
function isSound(attempt) {
  if (typeof attempt !== "object" || !attempt || Array.isArray(attempt)) return false;
  const more = Object.hasOwn(attempt, "kind") && ATTEMPT.kind(attempt.kind) ? NEEDED_OF[/** @type {Attempt["kind"]} */ (attempt.kind)] : [];
  if (wrong(attempt, ATTEMPT, [...NEEDED, ...more]) !== undefined) return false;
  // Only what was walked or taken as a whole has a verdict beside its mark, and one that can be true.
  if (Object.hasOwn(attempt, "held") && !more.length) return false;
  return !attempt.held || (attempt.mark > 0 && attempt.harm !== "serious");
}

/**
 * The name of a part that is strange, broken or missing.
 * @param {Record<string, unknown>} value
 * @param {Record<string, (value: unknown) => boolean>} checks
 * @param {string[]} needed
 * @returns {string | undefined}
 */
function wrong(value, checks, needed) {
  const parts = Object.keys(value);
  return parts.find((part) => !Object.hasOwn(checks, part) || !checks[part](value[part])) ?? needed.find((part) => !parts.includes(part));
}

const COLUMNS = /** @type {const} */ (["at", "kind", "id", "digest", "objective", "mark", "held", "first", "quiz", "seed", "certainty", "harm"]);

/**
 * The attempts as comma-separated values (RFC 4180).
 * @param {Attempt[]} attempts
 */
export function csv(attempts) {
  const rows = attempts.map((attempt) => COLUMNS.map((column) => attempt[column] ?? ""));
  return [COLUMNS, ...rows].map((row) => `${row.map(cell).join(",")}\r\n`).join("");
}

const FORMULA = '[ "]*[-=+@\uff0b\uff0d\uff1d\uff20]';
const AT_START = new RegExp(`^(?=${FORMULA}|[\t\r\n])`);
const BEHIND = new RegExp(`([;,|\t\r\n])(?=${FORMULA})`, "g");

/**
 * One value, quoted as RFC 4180 says. A spreadsheet takes what starts with one of these signs for a formula and
 * would run it; an apostrophe before it makes it text. A spreadsheet that splits at semicolons or tabs heeds no
 * quotation mark in the middle of a line, so behind whatever may part cells the same holds.
 * The signs: OWASP, CSV Injection (owasp.org/www-community/attacks/CSV_Injection).
 * @param {string | number | boolean} value
 */
export function cell(value) {
  const safe = `${value}`.replace(AT_START, "'").replace(BEHIND, "$1'");
  return /[",;|\t\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
