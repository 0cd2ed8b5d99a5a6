/** This device's part in a course: the learner's record in its store, and what is told when nothing can be kept. */

import { make } from "./dom.js";
import { keepDays } from "./due-store.js";
import { read } from "./exchange.js";
import { empty, merge } from "./record.js";
import { say } from "./words.js";

/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {import("./record.js").LearnerRecord} LearnerRecord */
/** @typedef {import("./store.js").Store} Store */

/**
 * Says, once and beside the learner's work, that this browser keeps nothing.
 * @param {Store} store
 * @param {Element} beside
 */
export function tellWhenShut(store, beside) {
  store.onShut = () => tell(beside, say("This browser cannot keep your answers: they go when you leave this page."));
}

/**
 * Says, once each, that this browser keeps nothing, and that something of the record could not be read.
 * @param {Store} store
 * @param {Element} beside
 */
export function tellTrouble(store, beside) {
  tellWhenShut(store, beside);
  store.onAside = () => tell(beside, say("Part of your record cannot be read. It is kept aside, and nothing is lost. My record tells more."));
}

/**
 * @param {Element} beside
 * @param {string} words
 */
function tell(beside, words) {
  if (!beside.textContent?.includes(words)) beside.append(make("p", { class: "shut", role: "status" }, words));
}

/** Hexadecimal digits drawn by chance: the name of this device, or of one sitting. */
export const chance = () => [...crypto.getRandomValues(new Uint8Array(8))].map((byte) => byte.toString(16).padStart(2, "0")).join("");

/** The edition of the course that the page was built from, as far as a record holds it; empty where none was kept. */
export const editionOf = () => (globalThis.document?.documentElement?.dataset.edition ?? "").slice(0, 100);

/**
 * Keeps answers, and the days on which they come back. What is practised on a page that was opened for what is due today
 * is kept as such.
 * @param {Store} store
 * @param {string} course
 * @param {Attempt[]} attempts
 */
export function remember(store, course, attempts) {
  const edition = editionOf();
  const isToday = new URLSearchParams(globalThis.location?.search).get("mode") === "today";
  const told = attempts.map((one) => ({
    ...one, ...(edition && { edition }), ...(isToday && one.mode === "practise" && { mode: /** @type {const} */ ("today") }),
  }));
  keep(store, course, merge(recordOf(store, course), { attempts: told }));
  keepDays(store, attempts);
}

/**
 * Keeps a record. What stands in its place and cannot be read is set aside first; where that cannot be, it stays
 * and the record is held in memory.
 * @param {Store} store
 * @param {string} course
 * @param {LearnerRecord} record
 */
export function keep(store, course, record) {
  const { unread } = parted(store.onDisk("record"), course);
  const named = { ...record, device: record.device ?? chance() };
  if (unread === null || store.setAside(unread)) store.set("record", named);
  else store.hold("record", JSON.stringify(named));
}

/**
 * All that can be read of the record that is kept.
 * @param {Store} store
 * @param {string} course
 */
export const recordOf = (store, course) => parted(store.text("record"), course).record;

/**
 * What of the learner's record cannot be read: what was set aside, and what still stands in its place.
 * @param {Store} store
 * @param {string} course
 * @returns {{key: string | null, text: string}[]} `key` of what was set aside
 */
export function unreadOf(store, course) {
  const aside = [...store.asides].map(([key, text]) => ({ key, text }));
  const { unread } = parted(store.onDisk("record"), course);
  return unread === null || aside.some(({ text }) => text === unread) ? aside : [...aside, { key: null, text: unread }];
}

/**
 * What is kept as a record, parted into what can be read of it and what cannot.
 * @param {string | null} text
 * @param {string} course
 * @returns {{record: LearnerRecord, unread: string | null}}
 */
function parted(text, course) {
  if (text === null) return { record: empty(course), unread: null };
  const found = read(text, course);
  if ("refused" in found) return { record: empty(course), unread: text };
  const { device } = found.file;
  const record = { ...merge(empty(course), found.file), ...(device && { device }) };
  if (!found.unread.length) return { record, unread: null };
  const all = JSON.parse(text);
  return { record, unread: JSON.stringify({ ...all, attempts: found.unread.map((place) => all.attempts[place - 1]) }) };
}
