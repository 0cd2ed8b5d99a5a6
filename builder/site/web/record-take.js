/** A record that is taken in from another device. Loaded when a learner chooses a file. */

import { keep, recordOf } from "./device.js";
import { LARGEST, read } from "./exchange.js";
import { same, shown } from "./names.js";
import { implausible } from "./plausible.js";
import { nameOf } from "./record-copy.js";
import { merge } from "./record.js";
import { say } from "./words.js";

/** @typedef {import("./store.js").Store} Store */
/** @typedef {import("./exchange.js").Reason} Reason */

/**
 * Takes a file in, and says what came of it.
 * @param {Store} store
 * @param {string} course
 * @param {File} file
 * @param {import("./plausible.js").Known} known
 * @returns {Promise<{refused?: boolean, words: string}>}
 */
export async function take(store, course, file, known) {
  const found = file.size > LARGEST ? { refused: /** @type {const} */ ("size") } : read(await file.text(), course);
  if ("refused" in found) return { refused: true, words: refusal(found.refused, found.value ?? "") };
  const name = shown(found.file.learner ?? "");
  const own = nameOf(store);
  const value = name;
  if (name && own && same(name) !== same(own)) {
    return { refused: true, words: say("This record carries another name, {value}. Records of two people are not mixed. If both are yours, change the name on this page first.", { value }) };
  }
  const before = recordOf(store, course);
  if (name && !own && before.attempts.length) {
    return { refused: true, words: say("This record carries the name {value}, and yours here carries none. If both are yours, write that name on this page first.", { value }) };
  }
  const doubted = implausible(found.file.attempts, known, new Date().toISOString().slice(0, 10));
  const attempts = found.file.attempts.filter((one) => !doubted.has(one));
  const after = merge(before, { attempts });
  keep(store, course, after);
  if (name && !own) store.set("learner", name);
  const fresh = after.attempts.length - before.attempts.length;
  const words = [say("New attempts imported: {fresh}. Here already: {known}.", { fresh, known: attempts.length - fresh })];
  if (found.unread.length) words.push(say("Attempts in the file that cannot be read and were left out: {number}.", { number: found.unread.length }));
  if (doubted.size) {
    const named = [...doubted].slice(0, NAMED).map(([{ id }, reason]) => `${id}: ${reasons()[reason]}`).join("; ");
    words.push(say("Attempts that cannot be true and were left out: {number} ({named}).", { number: doubted.size, named: doubted.size > NAMED ? `${named}; \u2026` : named }));
  }
  return { words: words.join(" ") };
}

const NAMED = 5;

/** @returns {Record<import("./plausible.js").Reason, string>} */
const reasons = () => ({
  mark: say("its mark is not what its answers give"),
  future: say("its day has not come yet"),
  quiz: say("this course has no such quiz"),
});

/**
 * @param {Reason} reason
 * @param {string | number} value
 */
function refusal(reason, value) {
  switch (reason) {
    case "size":
      return say("This file is too large to be a record.");
    case "json":
      return say("This file cannot be read as a record. It may be cut off, or be the copy for spreadsheets: take the file that ends in .json.");
    case "record":
      return say("This file is no learner's record.");
    case "format":
      return say("This record was written by a newer edition of this site than the one here.");
    case "course":
      return say("This record belongs to another course: {value}.", { value });
    case "many":
      return say("This file holds more than {value} attempts; no record is so long.", { value });
    case "part":
      return say("This file is not as this site writes records: {value} is missing, cannot be read, or is not known here.", { value });
  }
}
