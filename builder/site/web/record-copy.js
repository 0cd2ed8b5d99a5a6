/** A record as a file that is saved, and what could not be read of it. */

import { button, make } from "./dom.js";
import { read } from "./exchange.js";
import { shown } from "./names.js";
import { say } from "./words.js";

/** @typedef {import("./store.js").Store} Store */

/**
 * The learner's name on this device; empty where none was written.
 * @param {Store} store
 */
export function nameOf(store) {
  const kept = store.get("learner");
  return typeof kept === "string" ? shown(kept) : "";
}

/**
 * A file's name that tells people apart, of signs that any device can hold.
 * @param {string} course
 * @param {string} learner
 * @param {string} device
 * @param {string} kind
 */
export const fileName = (course, learner, device, kind) =>
  `${["record", course, shown(learner).normalize("NFKC").replace(/[^\p{L}\p{M}\p{N}]+/gu, "-").slice(0, 40).replace(/^-+|-+$/g, ""), device.slice(0, 8)].filter(Boolean).join("-")}.${kind}`;

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
