/**
 * One go at a quiz: the questions asked, the answers given, and what they are worth. Pure: knows no page, no storage and
 * no clock.
 */

import { FULL_CERTAIN, certainMark, isHeld, markItem, markQuiz, ratio, share } from "./marking.js";

/** @typedef {import("./marking.js").ItemData} ItemData */
/** @typedef {import("./card.js").Given} Given */
/** @typedef {Omit<import("./record.js").Attempt, "first">} Attempt */
/**
 * @typedef {object} Rules
 * @property {string} quiz its name
 * @property {string} edition changes with the quiz and with any question that it can ask
 * @property {import("./marking.js").RatioData} pass_mark
 * @property {"plain" | "certainty"} marking
 */

export class Sitting {
  /**
   * @param {Rules} rules
   * @param {number} seed the number of the draw; 0 for single questions, which make no quiz
   * @param {ItemData[]} items
   * @param {(Given | null)[]} [given] an answer for each, null where none is given yet
   */
  constructor(rules, seed, items, given = []) {
    this.rules = rules;
    this.seed = seed;
    this.items = items;
    this.given = items.map((_, index) => given[index] ?? null);
  }

  get certain() {
    return this.rules.marking === "certainty";
  }

  /** What one question is worth at most. */
  get full() {
    return this.certain ? FULL_CERTAIN : 1;
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
   * What an answer earns where certainty counts; null where that was not told.
   * @param {number} index
   */
  certainMark(index) {
    const certainty = this.given[index]?.certainty;
    return this.certain && certainty ? certainMark(this.holds(index), certainty) : null;
  }

  /** What each question earned. */
  get marks() {
    return this.items.map((_, index) => (this.certain ? ratio(this.certainMark(index) ?? 0) : this.mark(index)));
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
    const { quiz, edition, pass_mark: pass } = this.rules;
    /** @type {Attempt} */
    const question = { kind: "question", id, digest, at, objective, mark: share(this.mark(index)), quiz };
    if (this.seed) question.seed = this.seed;
    if (given.certainty) question.certainty = given.certainty;
    if (!this.seed || !this.isDone) return [question];
    const { mark, held } = markQuiz(this.marks, this.full, pass);
    return [question, { kind: "quiz", id: quiz, digest: edition, at, objective: "", mark: Math.max(0, share(mark)), held, quiz, seed: this.seed }];
  }
}
