/**
 * One go at a quiz: the questions asked, the answers given, and what they are worth. Pure: knows no page, no storage and
 * no clock.
 */

import { harmOf, isHeld, markItem, markQuiz, share, worse } from "./marking.js";
import { told } from "./record.js";

/** @typedef {import("./marking.js").ItemData} ItemData */
/** @typedef {import("./card.js").Given} Given */
/** @typedef {import("./record.js").Attempt} Attempt */
/**
 * @typedef {object} Rules
 * @property {string} quiz its name
 * @property {string} edition changes with the quiz and with any question that it can ask
 * @property {import("./marking.js").RatioData} pass_mark
 * @property {"plain" | "certainty"} marking `certainty`: it also asks how sure the learner is
 * @property {"fails" | "told"} serious whether a serious answer keeps it from being passed
 */

export class Sitting {
  /**
   * @param {Rules} rules
   * @param {number} seed the number of the draw; 0 for single questions, which make no quiz
   * @param {ItemData[]} items
   * @param {(Given | null)[]} [given] an answer for each, null where none is given yet
   * @param {string} [name] drawn by chance; its answers share it
   * @param {string} [task] that it answers, as `task.js` has it
   */
  constructor(rules, seed, items, given = [], name = "", task = "") {
    this.name = name;
    this.task = task;
    this.rules = rules;
    this.seed = seed;
    this.items = items;
    this.given = items.map((_, index) => given[index] ?? null);
  }

  get certain() {
    return this.rules.marking === "certainty";
  }

  get isDone() {
    return this.given.every(Boolean);
  }

  get answered() {
    return this.given.filter(Boolean).length;
  }

  /**
   * How far an answer is right.
   * @param {number} index
   */
  mark(index) {
    return markItem(this.items[index], this.given[index]?.answer ?? null);
  }

  /** @param {number} index */
  holds(index) {
    return isHeld(this.mark(index));
  }

  /**
   * The harm of acting on an answer.
   * @param {number} index
   */
  harm(index) {
    return harmOf(this.items[index], this.given[index]?.answer ?? null);
  }

  /** The places of the questions with a serious answer. */
  get serious() {
    return [...this.items.keys()].filter((index) => this.harm(index) === "serious");
  }

  /** What each question earned, the mark of the whole, and whether it is passed. */
  get result() {
    const marks = this.items.map((_, index) => this.mark(index));
    const fails = this.rules.serious === "fails" && this.serious.length > 0;
    return { marks, ...markQuiz(marks, this.rules.pass_mark, fails) };
  }

  /** Ids of the questions that did not hold. */
  get missed() {
    return this.items.filter((_, index) => !this.holds(index)).map(({ id }) => id);
  }

  /**
   * The next question that waits for an answer, one past the last where none does.
   * @param {number} after
   */
  next(after) {
    const open = [...this.given.keys()].filter((index) => !this.given[index]);
    return open.find((index) => index > after) ?? open[0] ?? this.items.length;
  }

  /**
   * Takes an answer.
   * @param {number} index
   * @param {Given} given
   * @param {string} at when, as the record writes it
   * @returns {Attempt[]} what it adds to the record: the question, and with the last one the whole quiz
   */
  give(index, given, at) {
    this.given[index] = given;
    const { id, digest, objective } = this.items[index];
    const { quiz, edition } = this.rules;
    const { answer, certainty, ms } = given;
    /** @type {Pick<Attempt, "quiz" | "draw" | "task" | "mode" | "sitting">} */
    const go = {
      quiz, mode: this.seed ? "quiz" : "practise", sitting: this.name,
      ...(this.seed && { draw: this.seed }), ...(this.task && { task: this.task }),
    };
    /** @type {Attempt} */
    const question = {
      kind: "question", id, digest, at, objective, mark: share(this.mark(index)), right: this.holds(index), harm: this.harm(index), ...go,
      ...told(this.items[index], answer), ...(ms !== undefined && { ms }), ...(certainty && { sure: certainty }),
    };
    if (!this.seed || !this.isDone) return [question];
    const { mark, held: passed } = this.result;
    const harm = [...this.items.keys()].map((one) => this.harm(one)).reduce(worse, "none");
    return [question, { kind: "quiz", id: quiz, digest: edition, at, objective: "", mark: share(mark), passed, harm, ...go }];
  }
}
