/** A record for spreadsheets. Pure; `builder/cli/spreadsheet.py` writes cells alike. */

/** @typedef {import("./record.js").Attempt} Attempt */

const COLUMNS = /** @type {const} */ ([
  "at", "kind", "id", "unit", "client", "objective", "answer", "mark", "right", "known", "unasked", "passed", "harm", "breaks", "first", "counts", "quiz", "draw", "task", "watcher", "sure", "ms",
  "mode", "sitting", "edition", "key", "digest",
]);

/**
 * The attempts as comma-separated values (RFC 4180).
 * @param {Attempt[]} attempts
 */
export function csv(attempts) {
  const rows = attempts.map((attempt) => COLUMNS.map((column) => [attempt[column] ?? ""].flat().join(" ")));
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
