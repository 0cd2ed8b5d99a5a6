/**
 * What was asked of a client, and what follows from it. The rules stand in `builder/decide/asking.py`. Pure: knows no page.
 * Measures go by their number.
 */

/** @typedef {import("./marking.js").Harm} Harm */
/** @typedef {{name: string, label: string, how: "ask" | "look" | "measure", minutes: number, together?: number[], key?: number, values?: [words: string, harm: Harm][]}} Askable `together`: all that is read in one go with it; `values`: what the client's words may come to, with what taking them so would have done; `key`: what they do come to */
/** @typedef {{apart: number[], change: [label: string, reading: string][], right: string}} Twin somebody who answers alike but for these */
/** @typedef {{differing: number[][], going_on: number[][], twins: Record<string, Twin[]>}} StepAsking */
/** @typedef {{measures: Askable[], told: number[], least: number | null, steps: Record<string, StepAsking>}} AskData */

/**
 * Whether what was asked is enough to decide, or every outcome that is still possible ends.
 * @param {StepAsking} step
 * @param {number[]} asked
 */
export function isKnown({ differing, going_on }, asked) {
  const hits = (/** @type {number[][]} */ sets) => sets.every((one) => one.some((measure) => asked.includes(measure)));
  return hits(differing) || hits(going_on);
}

/**
 * Who would have come to harm by the same answer, going by what was asked.
 * @param {StepAsking} step
 * @param {string} answer
 * @param {number[]} asked
 * @returns {Twin | undefined}
 */
export const unsafeFor = ({ twins }, answer, asked) => twins[answer]?.find(({ apart }) => !apart.some((measure) => asked.includes(measure)));

/**
 * What is read in one go.
 * @param {AskData} data
 * @param {number} number
 */
export const inOneGo = ({ measures }, number) => measures[number].together ?? [number];

/**
 * How long it took to ask; what the story tells takes no time.
 * @param {AskData} data
 * @param {number[]} asked
 */
export const minutes = ({ measures, told }, asked) => asked.filter((one) => !told.includes(one)).reduce((all, one) => all + measures[one].minutes, 0);
