/** The end of a quiz: the mark with its working, objective by objective, and every question with its reasons. */

import { bars } from "./bars.js";
import { closed, showAnswered } from "./card.js";
import { date } from "./date.js";
import { copy, make } from "./dom.js";
import { KEPT, endOf } from "./due-store.js";
import { daysOf } from "./due.js";
import { wilson } from "./interval.js";
import { percent, ratio, share } from "./marking.js";
import { single, verdictOf } from "./quiz-screens.js";
import { told } from "./signs.js";
import { storeOf } from "./store.js";
import { say } from "./words.js";

/** @typedef {import("./sitting.js").Sitting} Sitting */

/**
 * @param {Sitting} sitting answered to its end
 * @param {object} shown
 * @param {string} shown.course its name
 * @param {Record<string, string>} shown.objectives name to label
 * @param {Element[]} shown.rows every question, closed
 * @param {((seed: number) => void) | null} shown.draw null where every draw asks the same
 * @param {Element} shown.onwards
 */
export function result(sitting, { course, objectives, rows, draw, onwards }) {
  const { seed } = sitting;
  const answered = sitting.items.map((item, index) => ({ objective: item.objective, held: sitting.holds(index) }));
  const count = say("{held} of {of} right.", { held: answered.filter((one) => one.held).length, of: answered.length });
  return make(
    "section",
    { class: "result" },
    make("h2", {}, say("Your result")),
    ...unsafe(sitting, rows),
    ...(seed ? whole() : [make("p", {}, count), ...returning(sitting, course), make("p", {}, single())]),
    make("h3", {}, say("Your questions, with every reason")),
    make("ol", { class: "answered" }, ...rows),
    onwards,
    ...(draw ? numbered(seed, draw) : []),
  );

  /** @param {boolean} held */
  function passed(held) {
    if (held) return say("Passed");
    if (sitting.serious.length && sitting.rules.serious === "fails") return say("Not passed yet: what is unsafe counts before the mark");
    return say("Not passed yet");
  }

  function whole() {
    const { marks, mark, held } = sitting.result;
    const sum = marks.reduce((all, one) => all + share(one), 0);
    const working = say("{sum} of {full} marks: {share}%. The pass mark is {pass}%.", {
      sum: Math.round(100 * sum) / 100,
      full: marks.length,
      share: percent(mark),
      pass: percent(ratio(...sitting.rules.pass_mark)),
    });
    return [
      make("p", { class: "outcome" }, told(held ? "held" : "missed", passed(held))),
      make("p", { class: "working" }, count, " ", working),
      make("h3", {}, say("By objective")),
      bars([...new Set(answered.map(({ objective }) => objective))].map((name) => [objectives[name] ?? name, answered.filter(({ objective }) => objective === name)]), (given) => wilson(given.filter(({ held }) => held).length, given.length)),
      make("p", { class: "soft" }, say("An interval (Wilson 1927) shows where the true share may lie, if these questions stand for all; several about one client widen it.")),
    ];
  }
}

/**
 * What the unsafe answers would have done, first of all, and clients to practise it with.
 * @param {Sitting} sitting
 * @param {Element[]} rows every question, closed
 */
function unsafe(sitting, rows) {
  const { serious } = sitting;
  if (!serious.length) return [];
  const items = serious.map((index) => {
    const [asked, own, like] = [".asked", ".replies > .own", ".like"].map((part) => rows[index].querySelector(part));
    const chosen = [...(own?.childNodes ?? [])].map((node) => node.cloneNode(true));
    return make("li", {}, make("p", {}, asked?.textContent ?? ""), ...chosen, like ? copy(like, "") : "");
  });
  const said = items.length === 1 ? say("One answer was unsafe.") : say("{count} answers were unsafe.", { count: items.length });
  return [make("p", { class: "harm" }, told("serious", said)), make("ul", { class: "unsafe" }, ...items)];
}

/**
 * What of single questions comes back, and when.
 * @param {Sitting} sitting
 * @param {string} course
 */
function returning({ items }, course) {
  const store = storeOf(course);
  const days = daysOf(store.get(KEPT), endOf(store));
  const due = items.flatMap(({ unit, id }) => days[unit ?? id]?.[2] ?? []);
  const counts = new Map([...new Set(due)].sort((a, b) => a - b).map((day) => [day, due.filter((one) => one === day).length]));
  if (!counts.size) return [];
  const rows = [...counts].map(([day, number]) => make("li", {}, say("{day}: {number}", { day: date(day), number })));
  return [make("h3", {}, say("What comes back, and when")), make("ul", {}, ...rows)];
}

/**
 * The draw by its number: to hand on, and to ask for.
 * @param {number} seed
 * @param {(seed: number) => void} draw
 */
function numbered(seed, draw) {
  const input = make("input", { type: "number", min: "1", max: "9999", required: true });
  const form = make("form", { class: "onwards" }, make("label", { class: "number" }, say("Number"), " ", input), make("button", { class: "quiet" }, say("Use a set number")));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    draw(input.valueAsNumber);
  });
  return [
    make(
      "p",
      { class: "soft" },
      make("a", { href: `?draw=${seed}` }, say("Drawn with number {seed}.", { seed })),
      " ",
      say("The same number draws the same questions on every device."),
    ),
    form,
  ];
}

/**
 * A question behind the learner, closed to one row.
 * @param {Sitting} sitting
 * @param {number} index
 * @param {HTMLElement} row as the builder wrote it
 */
export function closedRow(sitting, index, row) {
  const card = copy(row, `-${index + 1}`);
  const answer = sitting.given[index]?.answer;
  if (answer) showAnswered(card, answer);
  const stem = make("span", { class: "place" }, card.querySelector(".stem")?.textContent?.trim() ?? "");
  const asked = make("span", { class: "asked" }, card.querySelector("h2")?.textContent ?? "");
  return make("li", {}, closed(card, stem, asked, verdictOf(sitting, index)));
}
