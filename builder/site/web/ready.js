/** The chance of passing each quiz on a fresh draw, as words on the page of the record. */

import { make } from "./dom.js";
import { firstAnswers } from "./first-answers.js";
import { percent, ratio } from "./marking.js";
import { part } from "./parts.js";
import { needed } from "./readiness.js";
import { label, link } from "./record-page.js";
import { fill, say } from "./words.js";

/** @typedef {import("./record-page.js").QuizFacts} QuizFacts */
/** @typedef {import("./record-page.js").RecordPage} RecordPage */
/** @typedef {Record<string, import("./first-answers.js").First[]>} Firsts */

/** An interval wider than this leaves the chance open. */
const WIDE = 0.4;

/**
 * @param {RecordPage} page
 * @param {import("./record.js").Attempt[]} attempts
 */
export function ready(page, attempts) {
  const firsts = firstAnswers(attempts);
  return page.quizzes.map((quiz) => make(
    "div",
    { class: "chance" },
    make("h3", {}, link({ words: quiz.title, href: fill(page.addresses.quiz, { quiz: quiz.quiz }) })),
    ...(quiz.drawn ? told(page, quiz, firsts) : [make("p", {}, say("This quiz asks the same questions every time, so no chance is shown: it would only tell how well you remember them."))]),
  ));
}

/**
 * @param {RecordPage} page
 * @param {QuizFacts} quiz
 * @param {Firsts} firsts
 */
function told(page, quiz, firsts) {
  const { blueprint, pass_mark: pass } = quiz;
  const asked = Object.keys(blueprint);
  const untried = asked.filter((name) => !Object.hasOwn(firsts, name));
  if (untried.length) {
    const rows = untried.map((name) => make("li", {}, label(page, name)));
    const count = say("No first answer yet on {number} of {of} objectives", { number: rows.length, of: asked.length });
    return [make("p", {}, say("Too few answers to say.")), make("details", {}, make("summary", {}, count), make("ul", {}, ...rows))];
  }
  const of = Object.values(blueprint).reduce((sum, count) => sum + count, 0);
  const least = needed(of, pass);
  const rule = { needed: least, of, pass: percent(ratio(...pass)) };
  const safe = fails(quiz) && quiz.unsafe.length > 0;
  const shown = make("div", {});
  part(page.chances, "chances")
    .then((readiness) => shown.replaceChildren(...words(readiness(rowsOf(page, quiz, firsts), least))))
    .catch(() => shown.replaceChildren(make("p", {}, say("The chance cannot be worked out now: a file of this site did not load."))));
  return [
    shown,
    make("p", { class: "soft" }, safe
      ? say("At least {needed} of {of} must be right ({pass}%), and none unsafe.", rule)
      : say("At least {needed} of {of} must be right ({pass}%).", rule),
    " ", say("From {answers} first answers.", { answers: asked.reduce((sum, name) => sum + firsts[name].length, 0) })),
  ];
}

/** @param {{low: number, chance: number, high: number}} found */
function words(found) {
  const share = found.chance < 0.01 ? say("under 1%") : found.chance > 0.99 ? say("over 99%") : say("{share}%", { share: Math.round(100 * found.chance) });
  const ends = { low: Math.floor(100 * found.low), high: Math.ceil(100 * found.high) };
  const range = found.high - found.low > WIDE
    ? say("Few answers: the chance is uncertain: {low} to {high}%.", ends)
    : say("90% interval: {low} to {high}%.", ends);
  return [make("p", { class: "outcome" }, say("Chance of passing: {share}", { share })), make("p", {}, range)];
}

/** @param {QuizFacts} quiz */
const fails = ({ serious }) => serious === "fails";

/**
 * What the first answers say of each objective. Those that the quiz does not ask tell of the learner.
 * @param {RecordPage} page
 * @param {QuizFacts} quiz
 * @param {Firsts} firsts
 */
function rowsOf(page, quiz, firsts) {
  const elsewhere = page.quizzes.flatMap(({ unsafe }) => unsafe);
  return Object.entries(firsts).map(([name, answers]) => {
    const wrong = answers.filter(({ held }) => !held);
    const judged = wrong.filter(({ harm }) => harm !== undefined);
    const serious = judged.filter(({ harm }) => harm === "serious").length;
    const questions = quiz.blueprint[name] ?? 0;
    const risky = fails(quiz) && (questions ? quiz.unsafe : elsewhere).includes(name);
    return {
      questions,
      right: /** @type {[number, number]} */ ([answers.length - wrong.length, wrong.length]),
      serious: risky ? /** @type {[number, number]} */ ([serious, judged.length - serious]) : null,
    };
  });
}
