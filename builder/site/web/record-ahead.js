/** What lies ahead of a learner: the chance of passing each quiz, and a plan towards a day. */

import { make } from "./dom.js";
import { percent, ratio } from "./marking.js";
import { dayNumber, dayText, gap, reviews, ridge } from "./plan.js";
import { needed, readiness } from "./readiness.js";
import { label, link, named } from "./record-page.js";
import { again, firstTries, objectives } from "./summary.js";
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

/**
 * @param {RecordPage} page
 * @param {Attempt[]} attempts
 * @param {string} day the day aimed for, as 2026-06-01
 * @param {Date} now
 */
export function plan(page, attempts, day, now) {
  const end = dayNumber(day);
  if (end === null) return [make("p", { class: "soft" }, say("Choose a day, and the days to review appear here."))];
  const today = Math.round(Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()) / 86_400_000);
  const days = end - today;
  if (days < 1) return [make("p", {}, say("Choose a day after today."))];
  const dates = reviews(days).map((after) => make("li", {}, make("time", { datetime: dayText(today + after) }, date(today + after))));
  const [low, high] = ridge(days).map((share) => Math.round(100 * share));
  const every = say("Ready by {day}, in {days} days: review every {gap} days. The best gap for such a time is about {low} to {high}% of it.", {
    day: date(end), days, gap: gap(days), low, high,
  });
  const missed = again(attempts).filter((attempt) => named(page, attempt));
  const order = weakestFirst(page, attempts).map(([name, words]) => {
    const count = missed.filter(({ objective }) => objective === name).length;
    return make("li", {}, words, count ? make("span", { class: "soft" }, ` ${say("{count} to look at again", { count })}`) : "");
  });
  if (!dates.length) return [make("p", {}, say("That leaves no day between. Review today."))];
  return [
    make("p", {}, every),
    make("ul", { class: "days" }, ...dates),
    make("h3", {}, say("On each of these days, in this order")),
    make("ol", {}, ...order),
    make("p", { class: "onwards" }, make("button", { type: "button", class: "quiet", "data-do": "plan" }, say("Print the plan"))),
  ];
}

/** @param {number} number of a day */
const date = (number) => new Date(number * 86_400_000).toLocaleDateString(document.documentElement.lang, {
  weekday: "short", day: "numeric", month: "short", year: "numeric", timeZone: "UTC",
});

/**
 * Objectives by the share that is to be expected of a new question, (1 + held) / (2 + answered).
 * @param {RecordPage} page
 * @param {Attempt[]} attempts
 */
function weakestFirst(page, attempts) {
  const found = objectives(attempts);
  /** @param {[string, string]} objective */
  const share = ([name]) => {
    const [held, of] = found.get(name)?.first ?? [0, 0];
    return (1 + held) / (2 + of);
  };
  return [...page.objectives].sort((a, b) => share(a) - share(b));
}
