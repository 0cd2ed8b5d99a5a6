/**
 * A task: which draw of a quiz the owner asks for, and until which day. Pure: knows no page. `builder/records/task.py`
 * reads and writes the same text, which every answer to a task carries.
 */

/**
 * What an address asks for: `?draw=3&until=2026-12-04`.
 * @param {URLSearchParams} address
 * @param {{quiz: string, seed: number, more: boolean}} quiz `seed` of the draw on its page; without `more` there is no other
 * @returns {string} `quiz/draw/until`; empty where what it asks for is none of this quiz
 */
export function taskOf(address, { quiz, seed, more }) {
  const until = address.get("until") ?? "";
  const draw = Number(/^[1-9]\d{0,3}$/.exec(address.get("draw") ?? ""));
  return draw && (more || draw === seed) && isDay(until) ? `${quiz}/${draw}/${until}` : "";
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
