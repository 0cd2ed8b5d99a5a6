/** What lies ahead of a learner: the chance of passing each quiz. */

import { make } from "./dom.js";
import { percent, ratio } from "./marking.js";
import { needed, readiness } from "./readiness.js";
import { label, link } from "./record-page.js";
import { firstTries } from "./summary.js";
import { fill, say } from "./words.js";

/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {import("./record-page.js").QuizFacts} QuizFacts */
/** @typedef {import("./record-page.js").RecordPage} RecordPage */

/**
 * @param {RecordPage} page
 * @param {Attempt[]} attempts
 */
export function ready(page, attempts) {
  const tried = firstTries(attempts);
  return page.quizzes.map((quiz) => make(
    "div",
    { class: "chance" },
    make("h3", {}, link({ words: quiz.title, href: fill(page.addresses.quiz, { quiz: quiz.quiz }) })),
    ...chance(page, quiz, tried),
  ));
}

/**
 * @param {RecordPage} page
 * @param {QuizFacts} quiz
 * @param {Map<string, [number, number]>} tried
 */
function chance(page, { blueprint, marking, pass_mark: pass }, tried) {
  if (marking === "certainty") return [make("p", {}, say("This quiz also counts how sure you are, so no chance is computed."))];
  const found = readiness(blueprint, tried, pass);
  if (found.untried.length) {
    const rows = found.untried.map((name) => make("li", {}, label(page, name)));
    const count = say("No first answer yet on {number} of {of} objectives", { number: rows.length, of: Object.keys(blueprint).length });
    return [
      make("p", {}, say("Too few answers to say.")),
      make("details", {}, make("summary", {}, count), make("ul", {}, ...rows)),
    ];
  }
  const of = Object.values(blueprint).reduce((sum, count) => sum + count, 0);
  const answers = Object.keys(blueprint).reduce((sum, name) => sum + (tried.get(name) ?? [0, 0]).reduce((a, b) => a + b), 0);
  const share = found.chance < 0.01 ? say("under 1%") : found.chance > 0.99 ? say("over 99%") : `${Math.round(100 * found.chance)}%`;
  const little = answers < of ? ` ${say("So few answers say little.")}` : "";
  return [
    make("p", { class: "outcome" }, say("Chance of reaching the pass mark: {share}", { share })),
    make("p", { class: "soft" }, say("At least {needed} of {of} must be right ({pass}%). From {answers} first answers.", {
      needed: needed(of, pass), of, pass: percent(ratio(...pass)), answers,
    }), little),
  ];
}
