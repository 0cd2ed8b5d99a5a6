/** How a drawn body moves while it breathes. Pure: knows no page. `builder/site/figures/breathing.py` and `outline.py` do the same. */

/** @typedef {{cycle: [out: number, rest: number, into: number], stops: boolean, breaths: number, shakes: boolean}} Motion `cycle` of one breath, in seconds; `breaths`: so many are shown */

/**
 * How full the lungs are, from 1 to 0, at a moment of a breath that begins with the breath out.
 * @param {[number, number, number]} cycle
 * @param {number} seconds
 * @param {boolean} stops
 */
export function fullness([out, rest, into], seconds, stops) {
  const at = seconds % (out + rest + into);
  if (at <= out) {
    const share = at / out;
    const gone = !stops ? share : share < 0.7 ? Math.min(share / 0.6, 0.5) : 0.5 + (share - 0.7) / 0.6;
    return (1 + Math.cos(Math.PI * gone)) / 2;
  }
  if (at <= out + rest) return 0;
  return (1 - Math.cos((Math.PI * (at - out - rest)) / into)) / 2;
}

/**
 * Whether air goes out at a moment.
 * @param {[number, number, number]} cycle
 * @param {number} seconds
 * @param {boolean} stops
 */
export function blows([out, rest, into], seconds, stops) {
  const at = seconds % (out + rest + into);
  return at < out && !(stops && at >= 0.3 * out && at < 0.7 * out);
}

/**
 * The points that a smooth path runs through, x and y by turns.
 * @param {string} way as `smooth` writes it
 */
export function pointsOf(way) {
  const numbers = way.match(/-?\d+(\.\d+)?/g)?.map(Number) ?? [];
  const ends = numbers.filter((_, at) => at < 2 || (at - 2) % 6 > 3);
  return way.endsWith("Z") ? ends.slice(0, -2) : ends;
}

/**
 * On the way from one set of points to another.
 * @param {number[]} empty
 * @param {number[]} whole
 * @param {number} full
 */
export const between = (empty, whole, full) => empty.map((from, at) => from + full * (whole[at] - from));

/**
 * A curve through points: cubic pieces with tangents from the neighbours (Catmull and Rom 1974).
 * @param {number[]} points x and y by turns
 * @param {boolean} closed
 */
export function smooth(points, closed) {
  const count = points.length / 2;
  const of = (/** @type {number} */ number) => {
    const at = closed ? (number + count) % count : Math.max(0, Math.min(count - 1, number));
    return [points[2 * at], points[2 * at + 1]];
  };
  const told = (/** @type {number[]} */ point) => point.map((value) => Number(value.toFixed(1)) + 0).join(" ");
  let way = `M ${told(of(0))}`;
  for (let number = 0; number < (closed ? count : count - 1); number += 1) {
    const [before, here, there, after] = [of(number - 1), of(number), of(number + 1), of(number + 2)];
    const one = here.map((value, at) => value + (there[at] - before[at]) / 6);
    const two = there.map((value, at) => value - (after[at] - here[at]) / 6);
    way += ` C ${told(one)} ${told(two)} ${told(there)}`;
  }
  return closed ? `${way} Z` : way;
}
