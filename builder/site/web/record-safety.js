/** What comes first in a record: whom the learner stopped, what was unsafe, how sure they were, and what has changed since. */

import { wilson } from "./interval.js";
import { make } from "./dom.js";
import { link, named, when } from "./record-page.js";
import { told } from "./signs.js";
import { calibration, early, serious, stopped, sureAndWrong, unasked } from "./summary.js";
import { say } from "./words.js";

/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {import("./record-page.js").RecordPage} RecordPage */

/** @param {Map<string, boolean>} clients */
export const stoppedOf = (clients) => say("Stopped {stopped} of {of}", { stopped: [...clients.values()].filter(Boolean).length, of: clients.size });

/**
 * @param {RecordPage} page
 * @param {Map<string, boolean>} clients
 */
export const notStopped = ({ known }, clients) => [...clients].filter(([, did]) => !did).map(([client]) => known?.clients[client] ?? client).join(", ");

/**
 * How many answers were unsafe, in one line; none where none was.
 * @param {Attempt[]} all
 */
export function unsafeOf(all) {
  const [unsafe, rash] = [serious(all).length, unasked(all).length];
  const words = [unsafe && say("Unsafe answers: {number}.", { number: unsafe }), rash && say("Unsafe for want of asking: {number}.", { number: rash })];
  return unsafe || rash ? [make("p", { class: "harm" }, words.filter(Boolean).join(" "))] : [];
}

/**
 * @param {RecordPage} page
 * @param {Attempt[]} attempts that count
 * @param {Attempt[]} all
 */
export function safety(page, attempts, all) {
  const clients = stopped(attempts);
  const [unsafe, rash, guessed] = [serious(all), unasked(all), early(attempts)];
  if (!clients.size && !unsafe.length && !rash.length && !guessed.length) return [];
  const missed = notStopped(page, clients);
  return [
    ...(clients.size ? [make("p", { class: "outcome" }, told(missed ? "serious" : "held", stoppedOf(clients)))] : []),
    ...(missed ? [make("p", {}, say("Not stopped at the first answer: {who}.", { who: missed }))] : []),
    ...(unsafe.length ? [make("h3", {}, say("Unsafe answers")), things(page, unsafe)] : []),
    ...(rash.length ? [
      make("h3", {}, say("Unsafe for want of asking")),
      make("p", {}, say("Another client could give the same answers to all that you had asked, and would have come to harm.")),
      things(page, rash.map(({ harm, ...one }) => one)),
    ] : []),
    ...(guessed.length ? [make("p", {}, say("Right before you had asked enough to know: {number}. They count neither as right nor as wrong.", { number: guessed.length }))] : []),
  ];
}

/**
 * @param {RecordPage} page
 * @param {Attempt[]} attempts
 */
function things(page, attempts) {
  return make("ul", { class: "list" }, ...attempts.map((attempt) => make(
    "li",
    {},
    link(named(page, attempt) ?? { words: attempt.id }),
    make("p", {}, [when(attempt.at), ...(attempt.harm === "serious" ? [say("Unsafe")] : [])].join(" \u00b7 ")),
  )));
}

/**
 * @param {RecordPage} page
 * @param {Attempt[]} attempts
 */
export function sureness(page, attempts) {
  const levels = calibration(attempts);
  const names = [say("Not sure"), say("Fairly sure"), say("Very sure")];
  const rows = names.flatMap((name, index) => {
    const [right, of] = levels.get(index + 1) ?? [0, 0];
    if (!of) return [];
    const [low, high] = wilson(right, of).map((share) => Math.round(100 * share));
    return [make("li", {}, `${name}: ${say("{right} of {of} right. 95% interval: {low} to {high}%.", { right, of, low, high })}`)];
  });
  const wrong = sureAndWrong(attempts);
  return [
    ...(rows.length ? [make("ul", {}, ...rows)] : []),
    ...(wrong.length ? [make("h3", {}, say("Very sure and wrong")), things(page, wrong)] : []),
  ];
}

/**
 * Questions and steps whose right answer has changed since the last answer, those about stopping first.
 * @param {RecordPage} page
 * @param {Attempt[]} moved the last attempt at each
 */
export function changed(page, moved) {
  const first = (/** @type {Attempt} */ { stopped: stops, breaks, harm }) => Number(stops === undefined && !breaks && harm !== "serious");
  const rows = [...moved].sort((a, b) => first(a) - first(b));
  return rows.length ? [make("p", {}, say("What you answered before counts for nothing. Answer again.")), things(page, rows.map(({ harm, ...one }) => one))] : [];
}
