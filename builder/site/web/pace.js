/**
 * The law of paced breathing: which step comes when. Whatever it is asked for, it never pauses in the first breath,
 * never longer than MOST_PAUSE, never a second more without a tap on "Comfortable" in an earlier breath, and never goes
 * on past MOST_BREATHS without a rest.
 */

/** Seconds. */
export const MOST_PAUSE = 5;
/** Breaths in a row. */
export const MOST_BREATHS = 5;
/** Seconds of the rest, in which nothing can be started. Common practice: our own cautious choice. */
export const REST = 30;
/** Seconds to settle in before the first breath out. */
export const SETTLE = 3;

/**
 * @typedef {"settle" | "out" | "pause" | "in" | "rest"} Kind
 * @typedef {{ kind: Kind, breath: number, seconds: number }} Step `breath` counts from 1; 0 where there is none
 * @typedef {{ out: number, pause: number, in: number, breaths: number }} Lengths in seconds
 */

/**
 * @param {unknown} value
 * @param {number} low
 * @param {number} high
 * @returns {number} the value within its bounds; the lowest where it is no number
 */
const within = (value, low, high) => (typeof value === "number" && !Number.isNaN(value) ? Math.min(Math.max(value, low), high) : low);

/**
 * Every step of one round, in order, the rest at its end.
 * @param {Lengths} lengths `pause`: the longest that may come about
 * @param {Iterable<number>} [comfortable] the breaths in which the learner said so; a later one changes nothing before it
 * @returns {Step[]}
 */
export function round(lengths, comfortable = []) {
  const breaths = Math.floor(within(lengths.breaths, 1, MOST_BREATHS));
  const out = within(lengths.out, 1, 15);
  const most = within(lengths.pause, 0, MOST_PAUSE);
  const told = [...new Set(comfortable)];
  const into = within(lengths.in, 1, 10);
  /** @type {Step[]} */
  const steps = [{ kind: "settle", breath: 0, seconds: SETTLE }];
  for (let breath = 1; breath <= breaths; breath += 1) {
    steps.push({ kind: "out", breath, seconds: out });
    const pause = Math.min(most, told.filter((other) => other >= 1 && other < breath).length);
    if (pause > 0) steps.push({ kind: "pause", breath, seconds: pause });
    steps.push({ kind: "in", breath, seconds: into });
  }
  steps.push({ kind: "rest", breath: 0, seconds: REST });
  return steps;
}

/**
 * Where a round stands after some seconds.
 * @param {Step[]} steps
 * @param {number} elapsed
 * @returns {{ index: number, left: number, share: number } | null} the step, the seconds left in it and the
 *   share of it that is over; null once the round is over
 */
export function at(steps, elapsed) {
  let start = 0;
  for (const [index, { seconds }] of steps.entries()) {
    if (elapsed < start + seconds) {
      const gone = Math.max(0, elapsed - start);
      return { index, left: seconds - gone, share: gone / seconds };
    }
    start += seconds;
  }
  return null;
}

/**
 * How full the trunk is, from 0 after a breath out to 1 after a breath in.
 * @param {Kind} kind
 * @param {number} share
 */
export function fullness(kind, share) {
  if (kind === "pause") return 0;
  return kind === "out" ? 1 - share : kind === "in" ? share : 1;
}
