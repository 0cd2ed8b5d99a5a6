/** A record at a glance: whom the learner stopped, what is due, what is weak, and the weeks as a picture. */

import { draw, make } from "./dom.js";
import { firstAnswers } from "./first-answers.js";
import { dayOf } from "./plan.js";
import { isAnswer, isEarly } from "./record.js";
import { stoppedOf, unsafeOf } from "./record-safety.js";
import { told } from "./signs.js";
import { stopped } from "./summary.js";
import { say } from "./words.js";

/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {import("./record-page.js").RecordPage} RecordPage */

const WEEKS = 8;
/** Fewer first answers than these say nothing about an objective. */
const FEWEST = 4;
const WEAKEST = 3;
const [WIDE, HIGH] = [24, 48];

/**
 * @param {RecordPage} page
 * @param {Attempt[]} attempts that count
 * @param {Attempt[]} all
 * @param {{due: number, href: string} | null} plan what is due today, and where it is practised
 * @returns {Node[]}
 */
export function glance(page, attempts, all, plan) {
  const clients = stopped(attempts);
  const held = [...clients.values()].every(Boolean);
  return [
    ...(clients.size ? [make("p", { class: "outcome" }, told(held ? "held" : "serious", stoppedOf(clients)))] : []),
    ...unsafeOf(all),
    ...(plan ? [make("p", { class: "due" }, say("Due today: {number}.", { number: plan.due }), " ", ...(plan.href ? [make("a", { class: "button", href: plan.href }, say("Practise today"))] : []))] : []),
    ...weak(page, attempts),
    ...weeks(all, dayOf(new Date())),
  ];
}

/**
 * @param {RecordPage} page
 * @param {Attempt[]} attempts
 */
function weak(page, attempts) {
  const firsts = firstAnswers(attempts);
  const shares = page.objectives.flatMap(([name, words]) => {
    const given = firsts[name] ?? [];
    const right = given.filter(({ held }) => held).length;
    return given.length >= FEWEST && right < given.length ? [{ words, right, of: given.length }] : [];
  });
  const worst = shares.sort((a, b) => a.right / a.of - b.right / b.of).slice(0, WEAKEST);
  if (!worst.length) return [];
  const rows = worst.map(({ words, right, of }) => make("li", {}, `${words}: `, make("b", {}, say("{held} of {of} right.", { held: right, of }))));
  return [make("h2", {}, say("Weakest at the first answer")), make("ul", {}, ...rows)];
}

/**
 * @param {Attempt[]} all
 * @param {number} today
 */
function weeks(all, today) {
  const counts = Array.from({ length: WEEKS }, () => ({ right: 0, of: 0 }));
  for (const one of all.filter((one) => isAnswer(one) && !isEarly(one))) {
    const week = WEEKS - 1 - Math.floor((today - dayOf(new Date(one.at))) / 7);
    const into = counts[week];
    if (into) Object.assign(into, { right: into.right + Number(one.right ?? one.mark === 1), of: into.of + 1 });
  }
  const most = Math.max(...counts.map(({ of }) => of));
  if (!most) return [];
  const bars = counts.flatMap(({ right, of }, at) => {
    const [tall, good] = [of, right].map((one) => (one / most) * (HIGH - 4));
    const place = { x: `${at * WIDE + 3}`, width: `${WIDE - 6}` };
    return [
      draw("rect", { class: "ground", ...place, y: `${HIGH - tall}`, height: `${tall}` }),
      draw("rect", { class: "share", ...place, y: `${HIGH - good}`, height: `${good}` }),
    ];
  });
  const words = counts.map(({ right, of }) => say("{right} of {of}", { right, of })).join("; ");
  return [
    make("h2", {}, say("Your last {weeks} weeks", { weeks: WEEKS })),
    draw("svg", { class: "weeks", viewBox: `0 0 ${WEEKS * WIDE} ${HIGH + 1}`, role: "img", "aria-label": say("Right answers of all, week by week, this week last: {words}.", { words }) }, ...bars, draw("path", { class: "range", d: `M0 ${HIGH + 0.5}H${WEEKS * WIDE}` })),
    make("p", { class: "soft" }, say("Answers a week, this week last; dark: right. This week: {right} of {of}.", counts[WEEKS - 1])),
  ];
}

