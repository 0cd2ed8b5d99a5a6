/** The parts of a learner's record as elements. Each is empty where there is nothing to show. */

import { bars } from "./bars.js";
import { make } from "./dom.js";
import { firstAnswers } from "./first-answers.js";
import { clustered } from "./interval.js";
import { percent, ratio } from "./marking.js";
import { label, link, named, when, whole } from "./record-page.js";
import { told } from "./signs.js";
import { again, bestOf, harmsOf, objectives, quizScores, unaskedIn, walksTried } from "./summary.js";
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
  const list = bars(tried.map(([name, words]) => [words, firsts[name]]), clustered);
  tried.forEach(([name], index) => {
    const [right, of] = found.get(name)?.last ?? [0, 0];
    list.children[index].append(make("span", { class: "numbers" }, say("At the last attempt: {right} of {of}.", { right, of })));
  });
  const rest = untried.length ? [make("p", { class: "soft" }, say("Not tried yet: {what}.", { what: untried.join("; ") }))] : [];
  return tried.length ? [list, ...rest] : [];
}

/**
 * @param {RecordPage} page
 * @param {Attempt[]} attempts
 */
export function lookAgain(page, attempts) {
  const rows = again(attempts).flatMap((attempt) => {
    const thing = named(page, attempt);
    if (!thing) return [];
    const about = [lastTime(attempt), attempt.objective && label(page, attempt.objective), when(attempt.at)].filter(Boolean).join(" \u00b7 ");
    return [make("li", {}, link(thing), make("p", {}, about))];
  });
  if (!rows.length) return [make("p", {}, say("Nothing that you had wrong is still open."))];
  const list = make("ul", { class: "list" }, ...rows.slice(0, SHOWN));
  if (rows.length <= SHOWN) return [list];
  const rest = make("details", {}, make("summary", {}, say("{number} more", { number: rows.length - SHOWN })), make("ul", { class: "list" }, ...rows.slice(SHOWN)));
  return [list, rest];
}

/** @param {Attempt} attempt neither right nor passed */
function lastTime({ harm, unasked, kind }) {
  if (harm === "serious") return say("Unsafe last time.");
  if (unasked) return say("Unsafe for want of asking last time.");
  return kind === "walk" ? say("Not passed last time.") : say("Wrong last time.");
}

/**
 * @param {RecordPage} page
 * @param {Attempt[]} attempts
 */
export function quizzes(page, attempts) {
  const tried = quizScores(attempts);
  return page.quizzes.flatMap(({ quiz, title, pass_mark: pass }) => {
    const score = tried.get(quiz);
    const asked = objectives(attempts, (attempt) => attempt.quiz === quiz);
    if (!score && !asked.size) return [];
    const rows = page.objectives.filter(([name]) => asked.get(name)?.first[1]).map(([name, words]) => {
      const [right, of] = asked.get(name)?.first ?? [0, 0];
      return make("tr", {}, make("th", { scope: "row" }, words), make("td", { class: "to-right" }, say("{right} of {of}", { right, of })));
    });
    const heads = [say("Objective"), say("Right at the first attempt")].map((words, index) => make("th", { scope: "col", class: index ? "to-right" : false }, words));
    return [
      make("h3", {}, title),
      ...(score?.counting.length ? scored(score, pass) : [make("p", {}, say("Started, not finished."))]),
      make("table", { class: "plain" }, make("thead", {}, make("tr", {}, ...heads)), make("tbody", {}, ...rows)),
    ];
  });
}

/**
 * @param {import("./summary.js").Score} score
 * @param {[number, number]} pass
 */
function scored({ counting, passed, passedLater, seen }, pass) {
  const [first] = counting;
  return [
    make("p", {}, told(passed ? "held" : "missed", passed ? say("Passed at the first sitting") : say("Not passed at the first sitting"))),
    make("p", {}, [
      say("First {first}% on {on}. The pass mark is {pass}%. Finished: {times}.", { first: whole(first.mark), on: when(first.at), pass: percent(ratio(...pass)), times: counting.length + seen }),
      passedLater ? say("Passed at sitting {number}.", { number: passedLater }) : "",
      seen ? say("Sittings with questions seen before count for nothing: {number}.", { number: seen }) : "",
    ].filter(Boolean).join(" ")),
  ];
}

/**
 * @param {RecordPage} page
 * @param {Attempt[]} attempts
 */
export function walks(page, attempts) {
  const tried = [...walksTried(attempts)];
  if (!tried.length) return [];
  const harms = tried.flatMap(([, ways]) => harmsOf(ways));
  const count = (/** @type {string[]} */ some, /** @type {string} */ harm) => some.filter((one) => one === harm).length;
  const rows = tried.map(([id, ways]) => {
    const { ends, left } = ways;
    const own = harmsOf(ways);
    const [serious, minor, rash] = [count(own, "serious"), count(own, "minor"), unaskedIn(ways)];
    const passed = ends.some(({ passed: did }) => did);
    const lines = [
      ends.length && !ends[0].unasked ? say("First {first}%, best {best}%, last on {on}.", { first: whole(ends[0].mark), best: whole(bestOf(ends).mark), on: when(ends[ends.length - 1].at) }) : "",
      left.length ? say("Left half way: {number}.", { number: left.length }) : "",
      serious ? say("Unsafe in {number} of {of}.", { number: serious, of: own.length }) : "",
      minor ? say("Minor harm in {number} of {of}.", { number: minor, of: own.length }) : "",
      rash ? say("Unsafe for want of asking in {number} of {of}.", { number: rash, of: own.length }) : "",
      serious || minor || rash ? "" : say("No harm."),
    ];
    return make(
      "li",
      {},
      link(named(page, { kind: "walk", id }) ?? { words: id }),
      make("p", {}, ...stateOf(passed, ends.length > 0, serious + rash > 0), ` ${lines.filter(Boolean).join(" ")}`),
    );
  });
  return [
    make("p", {}, say("Tries: {walks}. Those with an unsafe answer: {serious}; unsafe for want of asking: {rash}; with minor harm: {minor}. Tries that were left count too.", {
      walks: harms.length, serious: count(harms, "serious"), rash: tried.reduce((all, [, ways]) => all + unaskedIn(ways), 0), minor: count(harms, "minor"),
    })),
    make("ul", { class: "list" }, ...rows),
  ];
}

/**
 * @param {boolean} passed
 * @param {boolean} ended
 * @param {boolean} unsafe
 */
function stateOf(passed, ended, unsafe) {
  if (!passed && !ended && !unsafe) return [make("b", {}, say("Under way"))];
  return [told(passed ? "held" : unsafe ? "serious" : "missed", passed ? say("Passed") : say("Not passed yet"))];
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
    make("td", {}, named(page, attempt)?.words ?? attempt.id),
    make("td", { class: "to-right" }, attempt.harm === "serious" || attempt.unasked ? `${say("Unsafe")} · ` : "", say("{share}%", { share: whole(attempt.mark) })),
  ));
  const heads = [say("Day"), say("What"), say("Mark")].map((words, index) => make("th", { scope: "col", class: index === 2 ? "to-right" : false }, words));
  return [
    make("p", { class: "soft" }, say("The newest: {number}. Your copies hold all {of}, each step with a client among them.", { number: rows.length, of: attempts.length })),
    make("table", { class: "plain" }, make("thead", {}, make("tr", {}, ...heads)), make("tbody", {}, ...rows)),
  ];
}
