/** A record as a file: taken in from another device, saved for one, and what could not be read of it. */

import { keep, recordOf } from "./device.js";
import { button, make } from "./dom.js";
import { LARGEST, read } from "./exchange.js";
import { same, shown } from "./names.js";
import { merge } from "./record.js";
import { say } from "./words.js";

/** @typedef {import("./store.js").Store} Store */
/** @typedef {import("./exchange.js").Reason} Reason */

/**
 * Takes a file in, and says what came of it.
 * @param {Store} store
 * @param {string} course
 * @param {File} file
 * @returns {Promise<{refused?: boolean, words: string}>}
 */
export async function take(store, course, file) {
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
  const after = merge(before, { format: 1, course, attempts: found.file.attempts });
  keep(store, course, after);
  if (name && !own) store.set("learner", name);
  const fresh = after.attempts.length - before.attempts.length;
  const told = say("New attempts imported: {fresh}. Here already: {known}.", { fresh, known: found.file.attempts.length - fresh });
  if (!found.unread.length) return { words: told };
  return { words: `${told} ${say("Attempts in the file that cannot be read and were left out: {number}.", { number: found.unread.length })}` };
}

/**
 * The learner's name on this device; empty where none was written.
 * @param {Store} store
 */
export function nameOf(store) {
  const kept = store.get("learner");
  return typeof kept === "string" ? shown(kept) : "";
}

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

/**
 * @param {string} name
 * @param {string} type
 * @param {string} text
 */
export function save(name, type, text) {
  const url = URL.createObjectURL(new Blob([text], { type }));
  make("a", { href: url, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

/**
 * What could not be read and does not count: told, to be saved, and only then to be deleted.
 * @param {{key: string | null, text: string}} unread `key` where it is set aside
 * @param {string} course
 * @param {(key: string) => void} drop
 * @param {AbortSignal} signal
 */
export function unreadNote({ key, text }, course, drop, signal) {
  const saved = button(say("Save what cannot be read"), () => {
    save(`record-${course}-unread.json`, "application/json", text);
    if (key !== null) saved.after(" ", button(say("Delete it from this device"), () => drop(key), { signal, kind: "quiet" }));
  }, { signal, kind: "quiet" });
  return make("div", { class: "shut" }, make("p", {}, why(text, course)), make("p", { class: "onwards" }, saved));
}

/**
 * @param {string} text
 * @param {string} course
 */
function why(text, course) {
  const found = read(text, course);
  if ("unread" in found) return say("Attempts of yours that cannot be read and do not count: {number}. They are kept aside on this device. All others count.", { number: found.unread.length });
  if (found.refused === "format") return say("A record of yours on this device was written by a newer edition of this site. It is kept aside and does not count here. Save it, and import it where the newer edition runs.");
  return say("A record of yours on this device is damaged and cannot be read. It is kept aside and does not count.");
}
