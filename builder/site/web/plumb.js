/** The plumb line: how far each step pulls it aside. Pure; the elements draw it. */

/** @typedef {"held" | "missed" | "minor" | "arguable" | "serious"} Verdict */

/** Sideways pull of one step, in units of the drawing. @type {Record<Verdict, number>} */
export const PULL = { held: 0, missed: 5, minor: 9, arguable: 9, serious: 16 };

/**
 * Where the line runs through each step: its offset from plumb at the top and at the foot of the step.
 * A step that held hangs straight below the one before. Too long a way aside is drawn at a smaller scale.
 * @param {Verdict[]} verdicts
 * @param {number} room the largest offset that can be drawn
 * @returns {[number, number][]}
 */
export function hang(verdicts, room) {
  const whole = verdicts.reduce((sum, verdict) => sum + PULL[verdict], 0);
  const scale = whole > room ? room / whole : 1;
  let at = 0;
  return verdicts.map((verdict) => {
    const top = at;
    at += PULL[verdict];
    return [top * scale, at * scale];
  });
}
