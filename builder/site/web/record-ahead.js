/** What lies ahead of a learner: a plan towards a day. */

import { make } from "./dom.js";
import { dayNumber, dayText, gap, reviews, ridge } from "./plan.js";
import { named } from "./record-page.js";
import { again, objectives } from "./summary.js";
import { say } from "./words.js";

/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {import("./record-page.js").RecordPage} RecordPage */

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
  const missed = again(attempts, (attempt) => named(page, attempt)?.digest);
  const order = weakestFirst(page, attempts).map(([name, words]) => {
    const count = missed.filter(({ attempt }) => attempt.objective === name).length;
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
