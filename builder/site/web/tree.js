/**
 * Walks a decision tree. The rules stand in `builder/questions/MARKING.md`; `builder/exercises/marking.py` does the
 * same. Pure: knows no page. A walk is its data and the option ids picked so far, nothing else.
 */

import { atLeast, byObjective, ratio, share, worse } from "./marking.js";
import { told } from "./record.js";

/** @typedef {import("./marking.js").Ratio} Ratio */
/** @typedef {import("./marking.js").RatioData} RatioData */
/** @typedef {import("./marking.js").Harm} Harm */
/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {{id: string, best: boolean, go: string, harm: Harm, cautions: string[]}} OptionData */
/**
 * @typedef {object} StepData
 * @property {"decide" | "ask" | "end"} kind
 * @property {OptionData[]} options
 * @property {string | null} objective
 * @property {string | null} table the decision table that it asks about
 * @property {string[]} cautions open once the step is answered; those of an end once it is reached
 * @property {boolean} sends_on
 * @property {string} key_digest
 * @property {string} [unit]
 * @property {Record<string, string[]>} [breaks]
 * @property {string[]} [stops]
 */
/**
 * @typedef {object} WalkData
 * @property {string} digest
 * @property {string} exercise
 * @property {string} case
 * @property {string} start
 * @property {string[]} best_path
 * @property {RatioData} pass_mark
 * @property {Record<string, StepData>} steps
 */
/** @typedef {{step: string, held: boolean, harm: Harm, objective: string | null}} StepMark */
/**
 * @typedef {object} WalkMark
 * @property {string} at the step that waits for an answer, or the end that was reached
 * @property {boolean} done
 * @property {string[]} path every step in the order met, repeats and `at` included
 * @property {StepMark[]} steps one for each step answered: held at the first answer, the worst harm of all answers
 * @property {number} heldSteps as they count: at most `of`, or one less if any step was missed
 * @property {number} of steps of the shortest best path, its end not counted
 * @property {Ratio} mark from 0 to 1
 * @property {boolean} serious whether any answer did serious harm
 * @property {boolean} held walked to its end, at least the pass mark, no serious harm
 * @property {string[]} cautions those that have opened, in order, each once
 * @property {Record<string, [number, number]>} objectives objective to [steps held, steps answered]
 */
/**
 * @typedef {object} Step
 * @property {string[]} picks with this answer
 * @property {boolean} held whether this answer is a best one
 * @property {Harm} harm
 * @property {string} next
 * @property {string[]} cautions opened by this answer and not before
 * @property {boolean} done
 */

/**
 * What the picks (option ids, from the start on) come to.
 * @param {WalkData} data
 * @param {string[]} picks
 * @param {Record<number, string[]>} [earlier] what was answered before at a place, where the learner asked on and decided again
 * @returns {WalkMark}
 * @throws {RangeError} for a pick that its step does not offer, or one after the end
 */
export function follow(data, picks, earlier = {}) {
  const path = [data.start];
  /** @type {Map<string, StepMark>} */
  const marks = new Map();
  /** @type {Set<string>} */
  const opened = new Set(onArrival(stepOf(data, data.start)));
  let at = data.start;
  for (const [place, pick] of picks.entries()) {
    const step = stepOf(data, at);
    const option = optionOf(data, at, pick);
    for (const { best, harm } of [...(earlier[place] ?? []).map((one) => optionOf(data, at, one)), option]) {
      const before = marks.get(at) ?? { step: at, held: best, harm: "none", objective: step.objective };
      marks.set(at, { ...before, harm: worse(before.harm, harm) });
    }
    at = option.go;
    path.push(at);
    for (const caution of [...option.cautions, ...step.cautions, ...onArrival(stepOf(data, at))]) opened.add(caution);
  }
  const steps = [...marks.values()];
  const of = Math.max(0, data.best_path.length - 1);
  const firstHeld = steps.filter((step) => step.held).length;
  const missed = firstHeld < steps.length;
  const heldSteps = Math.max(0, Math.min(firstHeld, missed ? of - 1 : of));
  const mark = of ? ratio(heldSteps, of) : ratio(Number(!missed));
  const done = stepOf(data, at).kind === "end";
  const serious = steps.some((step) => step.harm === "serious");
  return {
    at,
    done,
    path,
    steps,
    heldSteps,
    of,
    mark,
    serious,
    held: done && !serious && atLeast(mark, ratio(...data.pass_mark)),
    cautions: [...opened],
    objectives: byObjective(steps),
  };
}

/**
 * One more answer.
 * @param {WalkData} data
 * @param {string[]} picks so far
 * @param {string} pick
 * @returns {Step}
 * @throws {RangeError} as `follow`
 */
export function answer(data, picks, pick) {
  const before = follow(data, picks);
  const option = optionOf(data, before.at, pick);
  const after = follow(data, [...picks, pick]);
  return {
    picks: [...picks, pick],
    held: option.best,
    harm: option.harm,
    next: after.at,
    cautions: after.cautions.filter((caution) => !before.cautions.includes(caution)),
    done: after.done,
  };
}

/**
 * A walk as the record names it: `exercise/client`, or a drill's alone.
 * @param {WalkData} data
 */
export const nameOf = (data) => [data.exercise, data.case].filter(Boolean).join("/");

/**
 * What one more answer adds to the record.
 * @param {WalkData} data
 * @param {string[]} picks so far
 * @param {string} pick
 * @param {{at: string, sitting: string, ms?: number, known?: boolean, unasked?: true}} when
 * @returns {Attempt}
 * @throws {RangeError} as `follow`
 */
export function attemptAt(data, picks, pick, when) {
  const name = follow(data, picks).at;
  const step = stepOf(data, name);
  const { best: right, harm } = optionOf(data, name, pick);
  return {
    kind: "step", id: `${nameOf(data)}/${name}`, digest: data.digest, objective: step.objective ?? "", mark: Number(right), right, harm, mode: "practise",
    ...told({ ...step, client: data.case }, pick), ...when,
  };
}

/**
 * What a client's words were taken for, as the record holds it. It stands beside the walk: the decisions alone mark it.
 * @param {WalkData} data
 * @param {import("./asked-walk.js").Weighed} weighed
 * @param {string} at
 * @returns {Attempt}
 */
export function heardAs(data, { measure, answer, right, harm }, at) {
  return {
    kind: "step", id: `${nameOf(data)}/said.${measure}`, digest: data.digest, at, objective: "", mark: Number(right), right, known: true, harm, mode: "practise",
    unit: `reading:${measure}`, client: data.case, answer: answer.slice(0, 100),
  };
}

/**
 * What the end of a walk adds to the record; null where it is not ended.
 * @param {WalkData} data
 * @param {string[]} picks
 * @param {{at: string, sitting: string}} when
 * @param {{earlier: Record<number, string[]>, safe: boolean}} [asked] `safe`: whether enough was asked to be
 * @returns {Attempt | null}
 */
export function whole(data, picks, when, { earlier, safe } = { earlier: {}, safe: true }) {
  const { done, mark, held, steps } = follow(data, picks, earlier);
  const passed = held && safe;
  const harm = steps.map((step) => step.harm).reduce(worse, "none");
  return done ? { kind: "walk", id: nameOf(data), digest: data.digest, objective: "", mark: share(mark), passed, ...(!safe && { unasked: true }), harm, mode: "practise", ...when } : null;
}

/**
 * @param {WalkData} data
 * @param {string} name
 */
function stepOf(data, name) {
  const step = data.steps[name];
  if (!step) throw new RangeError(`there is no step ${name}`);
  return step;
}

/**
 * @param {WalkData} data
 * @param {string} step
 * @param {string} pick
 */
function optionOf(data, step, pick) {
  const option = stepOf(data, step).options.find(({ id }) => id === pick);
  if (!option) throw new RangeError(`step ${step} has no option ${pick}`);
  return option;
}

/** @param {StepData} step */
const onArrival = (step) => (step.kind === "end" ? step.cautions : []);
