/** The parts of a learner's record as elements. Each is empty where there is nothing to show. */

import { bars } from "./bars.js";
import { make } from "./dom.js";
import { firstAnswers } from "./first-answers.js";
import { percent, ratio } from "./marking.js";
import { label, link, named, when, whole } from "./record-page.js";
import { told } from "./signs.js";
import { again, bestOf, heldIn, objectives, wholes } from "./summary.js";
import { say } from "./words.js";

/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {import("./record-page.js").RecordPage} RecordPage */

const SHOWN = 12;
const LISTED = 200;

/**
 * Walks and quizzes that wait to be gone on with.
 * @param {RecordPage} page
 * @param {{kind: "walk" | "quiz", id: string}[]} begun
 */
export function underWay(page, begun) {
  const rows = begun.map(({ kind, id }) => named(page, { kind, id })).filter((thing) => thing !== null);
  return rows.length ? [make("ul", { class: "list" }, ...rows.map((thing) => make("li", {}, link(thing))))] : [];
}

/**
 * @param {RecordPage} page
 * @param {Attempt[]} attempts
 */
export function byObjective(page, attempts) {
  const found = objectives(attempts);
  const tried = page.objectives.filter(([name]) => found.get(name)?.first[1]);
  const untried = page.objectives.filter(([name]) => !found.get(name)).map(([, words]) => words);
  const firsts = firstAnswers(attempts);
  const list = bars(tried.map(([name, words]) => [words, firsts[name]]));
  tried.forEach(([name], index) => {
    const [held, of] = found.get(name)?.last ?? [0, 0];
    list.children[index].append(make("span", { class: "numbers" }, say("At the last attempt: {held} of {of}.", { held, of })));
  });
  const rest = untried.length ? [make("p", { class: "soft" }, say("Not tried yet: {what}.", { what: untried.join("; ") }))] : [];
  return tried.length ? [list, ...rest] : [];
}

/**
 * @param {RecordPage} page
 * @param {Attempt[]} attempts
 */
export function lookAgain(page, attempts) {
  const found = again(attempts, (attempt) => {
    const thing = named(page, attempt);
    return thing ? thing.digest : undefined;
  });
  const rows = found.map(({ attempt, changed }) => {
    const thing = named(page, attempt) ?? { words: attempt.id };
    const why = heldIn(attempt) ? say("Right, but the question has changed since.") : changed ? say("Wrong, and the question has changed since.") : say("Wrong last time.");
    const about = [attempt.objective && label(page, attempt.objective), when(attempt.at)].filter(Boolean).join(" \u00b7 ");
    return make("li", {}, link(thing), make("p", {}, `${why} ${about}`));
  });
  if (!rows.length) return [make("p", {}, say("Nothing: all that you had wrong is right since."))];
  const list = make("ul", { class: "list" }, ...rows.slice(0, SHOWN));
  if (rows.length <= SHOWN) return [list];
  const rest = make("details", {}, make("summary", {}, say("{number} more", { number: rows.length - SHOWN })), make("ul", { class: "list" }, ...rows.slice(SHOWN)));
  return [list, rest];
}

/**
 * @param {RecordPage} page
 * @param {Attempt[]} attempts
 */
export function quizzes(page, attempts) {
  const tried = wholes(attempts, "quiz");
  return page.quizzes.flatMap(({ quiz, title, pass_mark: pass }) => {
    const ended = tried.get(quiz) ?? [];
    const asked = objectives(attempts, (attempt) => attempt.quiz === quiz);
    if (!ended.length && !asked.size) return [];
    const rows = page.objectives.filter(([name]) => asked.get(name)?.first[1]).map(([name, words]) => {
      const [held, of] = asked.get(name)?.first ?? [0, 0];
      return make("tr", {}, make("th", { scope: "row" }, words), make("td", { class: "to-right" }, say("{held} of {of}", { held, of })));
    });
    const heads = [say("Objective"), say("Right at the first attempt")].map((words, index) => make("th", { scope: "col", class: index ? "to-right" : false }, words));
    return [
      make("h3", {}, title),
      ...(ended.length ? score(page, ended, pass) : [make("p", {}, say("Started, not finished."))]),
      make("table", { class: "plain" }, make("thead", {}, make("tr", {}, ...heads)), make("tbody", {}, ...rows)),
    ];
  });
}

/**
 * @param {RecordPage} page
 * @param {Attempt[]} ended
 * @param {[number, number]} pass
 */
function score(page, ended, pass) {
  const [first] = ended;
  const best = bestOf(ended);
  return [
    make("p", {}, told(heldIn(best) ? "held" : "missed", heldIn(best) ? say("Passed") : say("Not passed yet"))),
    make("p", {}, say("First {first}% on {on}, best {best}% on {then}. Finished: {times}. The pass mark is {pass}%.", {
      first: whole(first.mark), on: when(first.at), best: whole(best.mark), then: when(best.at), times: ended.length, pass: percent(ratio(...pass)),
    })),
  ];
}

/**
 * @param {RecordPage} page
 * @param {Attempt[]} attempts
 */
export function walks(page, attempts) {
  const all = attempts.filter(({ kind }) => kind === "walk");
  if (!all.length) return [];
  const count = (/** @type {string} */ harm) => all.filter((attempt) => attempt.harm === harm).length;
  const rows = [...wholes(attempts, "walk").values()].map((ways) => {
    const best = bestOf(ways);
    const serious = ways.filter(({ harm }) => harm === "serious").length;
    const minor = ways.filter(({ harm }) => harm === "minor").length;
    const held = ways.some(heldIn);
    const harms = [
      serious ? say("Unsafe: {number} of {of}.", { number: serious, of: ways.length }) : "",
      minor ? say("Walks with minor harm: {number} of {of}.", { number: minor, of: ways.length }) : "",
      serious || minor ? "" : say("No harm."),
    ].filter(Boolean).join(" ");
    return make(
      "li",
      {},
      link(named(page, best) ?? { words: best.id }),
      make("p", {}, told(held ? "held" : serious ? "serious" : "missed", held ? say("Passed") : say("Not passed yet")), ` ${say("First {first}%, best {best}%, last on {on}.", {
        first: whole(ways[0].mark), best: whole(best.mark), on: when(ways[ways.length - 1].at),
      })} `, harms),
    );
  });
  return [
    make("p", {}, say("Walks: {walks}. Those with an answer that could have done serious harm: {serious}; minor harm: {minor}.", { walks: all.length, serious: count("serious"), minor: count("minor") })),
    make("ul", { class: "list" }, ...rows),
  ];
}

/**
 * @param {RecordPage} page
 * @param {Attempt[]} attempts
 */
export function attemptsTable(page, attempts) {
  const rows = attempts.filter(({ kind }) => kind !== "step").slice(-LISTED).reverse().map((attempt) => make(
    "tr",
    {},
    make("td", {}, when(attempt.at)),
    make("td", {}, named(page, attempt)?.words ?? attempt.id, " ", make("code", {}, attempt.digest)),
    make("td", { class: "to-right" }, `${whole(attempt.mark)}%`),
  ));
  const heads = [say("Day"), say("What, and the mark of its edition"), say("Mark")].map((words, index) => make("th", { scope: "col", class: index === 2 ? "to-right" : false }, words));
  return [
    make("p", { class: "soft" }, say("The newest {number}. The copies hold all {of}, each step with a client among them.", { number: rows.length, of: attempts.length })),
    make("table", { class: "plain" }, make("thead", {}, make("tr", {}, ...heads)), make("tbody", {}, ...rows)),
  ];
}
