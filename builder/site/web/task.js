/**
 * A task: which draw of a quiz the owner asks for, and until which day. Pure: knows no page. `builder/records/task.py`
 * reads and writes the same text, which every answer to a task carries.
 */

import { DAY } from "./plan.js";

/**
 * @typedef {object} Task
 * @property {number} draw
 * @property {string} until the last day, as 2026-12-04
 * @property {string} text `quiz/draw/until`
 */

/**
 * What an address asks for: `?draw=3&until=2026-12-04`.
 * @param {string} search of the address
 * @param {{quiz: string, seed: number, more: boolean}} quiz `seed` of the draw on its page; without `more` there is no other
 * @returns {Task | null | undefined} undefined where it asks for no task, null where what it asks for is none of this quiz
 */
export function taskOf(search, { quiz, seed, more }) {
  const address = new URLSearchParams(search);
  const until = address.get("until");
  if (until === null) return undefined;
  const draw = Number(/^[1-9]\d{0,3}$/.exec(address.get("draw") ?? ""));
  return draw && (more || draw === seed) && isDay(until) ? { draw, until, text: `${quiz}/${draw}/${until}` } : null;
}

/**
 * The last day that a task names; empty where a text names no task of this quiz.
 * @param {string} text
 * @param {string} quiz
 */
export function untilOf(text, quiz) {
  const [of, draw, until, ...more] = text.split("/");
  return of === quiz && /^[1-9]\d{0,3}$/.test(draw ?? "") && isDay(until ?? "") && !more.length ? until : "";
}

/** @param {string} text */
function isDay(text) {
  const day = /^\d{4}-\d\d-\d\d$/.test(text) ? new Date(text) : null;
  return !!day && !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text);
}

/**
 * Days left until the end of a day, 0 on the day itself, less than 0 when it is over.
 * @param {string} until
 * @param {Date} now of the device's own calendar
 */
export function daysLeft(until, now) {
  const today = Date.UTC(now.getFullYear(), now.getMonth(), now.getDate());
  return Math.round((Date.parse(until) - today) / DAY);
}
