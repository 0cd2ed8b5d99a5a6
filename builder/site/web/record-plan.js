/** The plan towards a day: what is due today, and on each day after it. */

import { date } from "./date.js";
import { make } from "./dom.js";
import { dayText, gap, ridge } from "./plan.js";
import { link, named } from "./record-page.js";
import { standingsOf } from "./standing-store.js";
import { courseOf, dueOn, isWalk, sitting, waysOf } from "./today.js";
import { addressOf, asToday } from "./today-address.js";
import { say } from "./words.js";

/** @typedef {import("./standing.js").Aim} Aim */
/** @typedef {import("./standing.js").Standing} Standing */
/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {import("./record-page.js").RecordPage} RecordPage */
/** @typedef {import("./store.js").Store} Store */
/** @typedef {import("./today.js").Course} Course */
/** @typedef {import("./today.js").Item} Item */

/**
 * @param {import("./today.js").Index} index
 * @returns {(page: RecordPage, store: Store, attempts: Attempt[]) => {nodes: Node[], due: number, href: string}} `href`: where what is due is practised; empty where nothing is
 */
export function planner(index) {
  const course = courseOf(index);
  return (page, store, attempts) => {
    const { all, ...aim } = standingsOf(store, attempts, course.unitOf);
    const days = daysOf(page, course, all, aim.today);
    const print = make("p", { class: "onwards" }, make("button", { type: "button", class: "quiet", "data-do": "plan" }, say("Print the plan")));
    const { back, due } = dueOn(all, aim.today);
    const tasks = sitting(course, all, aim.today);
    const nodes = [towards(aim), ...(days.length ? [make("ul", { class: "days" }, ...days), print] : [])];
    return { nodes, due: back.length + due.length, href: tasks.length ? addressOf(course, tasks, page.addresses) : "" };
  };
}

/** @param {Aim} aim */
function towards({ end, today }) {
  if (end === null) return make("p", { class: "soft" }, say("Choose a day, and the days to review appear here."));
  const days = end - today;
  if (days < 1) return make("p", {}, say("Choose a day after today."));
  if (days === 1) return make("p", {}, say("That leaves no day between. Review today."));
  const [low, high] = ridge(days).map((share) => Math.round(100 * share));
  return make("p", {}, say("Ready by {day}, in {days} days. What you answer today for the first time comes back every {gap} days. The best gap for such a time is about {low} to {high}% of it. What goes wrong comes back the next day.", {
    day: date(end), days, gap: gap(days), low, high,
  }));
}

/**
 * @param {RecordPage} page
 * @param {Course} course
 * @param {Map<string, Standing>} standings
 * @param {number} today
 */
function daysOf(page, course, standings, today) {
  const { back, due } = dueOn(standings, today);
  const tasks = sitting(course, standings, today);
  const count = back.length + due.length;
  const first = tasks.length
    ? [
      make("p", {}, make("a", { class: "button", href: addressOf(course, tasks, page.addresses) }, say("Practise today"))),
      ...links(page, course, tasks.map(({ item }) => item), asToday),
    ]
    : [];
  /** @type {Map<number, Item[]>} */
  const later = new Map();
  for (const [unit, one] of [...standings].sort(([, a], [, b]) => (a.due ?? 0) - (b.due ?? 0))) {
    if (one.due !== null && one.due > today) later.set(one.due, [...(later.get(one.due) ?? []), waysOf(course, unit, one)[0]]);
  }
  if (!count && !later.size) return [];
  return [
    day(today, count ? say("Today: {number} due", { number: count }) : say("Today: nothing is due"), first, true),
    ...[...later].map(([on, items]) => day(on, say("{day}: {number} due", { day: date(on), number: items.length }), links(page, course, items), false)),
  ];
}

/**
 * @param {number} on
 * @param {string} words
 * @param {Node[]} inside
 * @param {boolean} open
 */
function day(on, words, inside, open) {
  const time = make("time", { datetime: dayText(on) }, words);
  return make("li", {}, inside.length ? make("details", { open }, make("summary", {}, time), ...inside) : time);
}

/**
 * @param {RecordPage} page
 * @param {Course} course
 * @param {Item[]} items
 * @param {(address: string) => string} [marked]
 */
function links(page, course, items, marked = (address) => address) {
  const things = items.map((item) => {
    const walk = isWalk(item);
    const id = walk ? item.id.slice(0, item.id.lastIndexOf("/")) : item.id;
    return named(page, { kind: walk ? "walk" : "question", id, quiz: walk ? undefined : course.quizzes[Number(item.where[0])] });
  });
  // Several steps of one walk are practised by walking it.
  const different = new Map(things.flatMap((thing) => (thing ? [[thing.href, thing]] : [])));
  return different.size ? [make("ul", { class: "list" }, ...[...different.values()].map((thing) => make("li", {}, link({ ...thing, href: thing.href && marked(thing.href) }))))] : [];
}
