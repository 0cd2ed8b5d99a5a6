/** The parts of a learner's record as elements. Each is empty where there is nothing to show. */

import { bars } from "./bars.js";
import { make } from "./dom.js";
import { percent, ratio } from "./marking.js";
import { dayNumber, dayText, gap, reviews, ridge } from "./plan.js";
import { needed, readiness } from "./readiness.js";
import { told } from "./signs.js";
import { again, bestOf, firstTries, heldIn, objectives, wholes } from "./summary.js";

/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {{quiz: string, title: string, pass_mark: [number, number], marking: string, blueprint: Record<string, number>}} QuizFacts */
/**
 * What the course holds that can be tried.
 * @typedef {object} Known
 * @property {Record<string, string>} clients name to what people read
 * @property {Record<string, string>} drills name to title
 * @property {Record<string, [string, string]>} written question to its text and digest
 * @property {Record<string, {text: string, digests: Record<string, string>}>} families
 * @property {[string, string, string[]][]} exercises name, title, clients
 */
/**
 * @typedef {object} RecordPage
 * @property {string} course
 * @property {string} version
 * @property {string} build
 * @property {string} index
 * @property {[string, string][]} objectives name and label
 * @property {QuizFacts[]} quizzes
 * @property {Record<string, string>} words
 * @property {(key: string, values?: Record<string, string | number>) => string} tell one of `words`, filled
 * @property {Known | null} known
 */

const SHOWN = 12;
const LISTED = 200;

/** @param {string} at */
export const when = (at) => new Date(at).toLocaleDateString(document.documentElement.lang, { dateStyle: "medium" });

/** @param {number} share */
const whole = (share) => Math.floor(100 * share + 1e-9);

/**
 * @template T
 * @param {Record<string, T> | undefined} record
 * @param {string} name
 * @returns {T | undefined}
 */
const own = (record, name) => (record && Object.hasOwn(record, name) ? record[name] : undefined);

/**
 * @param {RecordPage} page
 * @param {string} name
 */
const label = (page, name) => page.objectives.find(([objective]) => objective === name)?.[1] ?? name;

/**
 * How the course names a thing that was tried, where it stands, and its digest now; null where it is gone.
 * @param {RecordPage} page
 * @param {Pick<Attempt, "kind" | "id" | "quiz">} attempt
 * @returns {{words: string, href?: string, digest: string | null} | null}
 */
function named({ known, quizzes }, { kind, id, quiz }) {
  if (kind === "quiz") {
    const facts = quizzes.find((one) => one.quiz === id);
    return facts ? { words: facts.title, href: `quizzes/${id}.html`, digest: null } : null;
  }
  if (!known) return { words: id, digest: null };
  const href = quizzes.some((one) => one.quiz === quiz) ? `quizzes/${quiz}.html?ask=${encodeURIComponent(id)}` : undefined;
  const written = own(known.written, id);
  if (kind === "question" && written) return { words: written[0], href, digest: written[1] };
  const [first, client] = id.split(/[./]/);
  const drill = kind === "walk" && id.startsWith("drill.") ? own(known.drills, client) : undefined;
  if (drill) return { words: drill, href: `drills/${client}.faults.html`, digest: null };
  const person = own(known.clients, client ?? "");
  if (!person) return null;
  if (kind === "question") {
    const family = own(known.families, first);
    const digest = own(family?.digests, client);
    return family && digest ? { words: `${person}: ${family.text}`, href, digest } : null;
  }
  const walked = known.exercises.filter(([, , clients]) => clients.includes(client));
  const exercise = walked.find(([name]) => name === first);
  if (!exercise) return null;
  return { words: `${person}: ${exercise[1]}`, href: `clients/${client}${exercise === walked[0] ? "" : `.${first}`}.html`, digest: null };
}

/** @param {{words: string, href?: string}} thing */
const link = ({ words, href }) => (href ? make("a", { href }, words) : make("span", {}, words));

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
  const list = bars(Object.fromEntries(tried.map(([name]) => [name, found.get(name)?.first ?? [0, 0]])), Object.fromEntries(page.objectives));
  tried.forEach(([name], index) => {
    const [held, of] = found.get(name)?.last ?? [0, 0];
    list.children[index].append(make("span", { class: "numbers" }, page.tell("last", { held, of })));
  });
  const rest = untried.length ? [make("p", { class: "soft" }, page.tell("untried", { what: untried.join("; ") }))] : [];
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
    const why = heldIn(attempt) ? page.tell("held_changed") : changed ? page.tell("missed_changed") : page.tell("missed");
    const about = [attempt.objective && label(page, attempt.objective), when(attempt.at)].filter(Boolean).join(" \u00b7 ");
    return make("li", {}, link(thing), make("p", {}, `${why} ${about}`));
  });
  if (!rows.length) return [make("p", {}, page.tell("nothing"))];
  const list = make("ul", { class: "list" }, ...rows.slice(0, SHOWN));
  if (rows.length <= SHOWN) return [list];
  const rest = make("details", {}, make("summary", {}, page.tell("more", { number: rows.length - SHOWN })), make("ul", { class: "list" }, ...rows.slice(SHOWN)));
  return [list, rest];
}

/**
 * @param {RecordPage} page
 * @param {Attempt[]} attempts
 */
export function ready(page, attempts) {
  const tried = firstTries(attempts);
  return page.quizzes.map((quiz) => make(
    "div",
    { class: "chance" },
    make("h3", {}, make("a", { href: `quizzes/${quiz.quiz}.html` }, quiz.title)),
    ...chance(page, quiz, tried),
  ));
}

/**
 * @param {RecordPage} page
 * @param {QuizFacts} quiz
 * @param {Map<string, [number, number]>} tried
 */
function chance(page, { blueprint, marking, pass_mark: pass }, tried) {
  if (marking === "certainty") return [make("p", {}, page.tell("sure"))];
  const found = readiness(blueprint, tried, pass);
  if (found.untried.length) {
    const rows = found.untried.map((name) => make("li", {}, label(page, name)));
    const count = page.tell("unanswered", { number: rows.length, of: Object.keys(blueprint).length });
    return [
      make("p", {}, page.tell("too_few")),
      make("details", {}, make("summary", {}, count), make("ul", {}, ...rows)),
    ];
  }
  const of = Object.values(blueprint).reduce((sum, count) => sum + count, 0);
  const answers = Object.keys(blueprint).reduce((sum, name) => sum + (tried.get(name) ?? [0, 0]).reduce((a, b) => a + b), 0);
  const share = found.chance < 0.01 ? page.tell("under") : found.chance > 0.99 ? page.tell("over") : `${Math.round(100 * found.chance)}%`;
  const little = answers < of ? ` ${page.tell("little")}` : "";
  return [
    make("p", { class: "outcome" }, page.tell("chance", { share })),
    make("p", { class: "soft" }, page.tell("basis", {
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
  if (end === null) return [make("p", { class: "soft" }, page.tell("choose"))];
  const today = Math.round(Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()) / 86_400_000);
  const days = end - today;
  if (days < 1) return [make("p", {}, page.tell("later"))];
  const dates = reviews(days).map((after) => make("li", {}, make("time", { datetime: dayText(today + after) }, date(today + after))));
  const [low, high] = ridge(days).map((share) => Math.round(100 * share));
  const every = page.tell("every", {
    day: date(end), days, gap: gap(days), low, high,
  });
  const missed = again(attempts, (attempt) => named(page, attempt)?.digest);
  const order = weakestFirst(page, attempts).map(([name, words]) => {
    const count = missed.filter(({ attempt }) => attempt.objective === name).length;
    return make("li", {}, words, count ? make("span", { class: "soft" }, ` ${page.tell("to_again", { count })}`) : "");
  });
  if (!dates.length) return [make("p", {}, page.tell("today"))];
  return [
    make("p", {}, every),
    make("ul", { class: "days" }, ...dates),
    make("h3", {}, page.tell("order")),
    make("ol", {}, ...order),
    make("p", { class: "onwards" }, make("button", { type: "button", class: "quiet", "data-do": "plan" }, page.tell("print_plan"))),
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
      return make("tr", {}, make("th", { scope: "row" }, words), make("td", { class: "to-right" }, page.tell("of", { held, of })));
    });
    const heads = [page.tell("objective"), page.tell("held_first")].map((words, index) => make("th", { scope: "col", class: index ? "to-right" : false }, words));
    return [
      make("h3", {}, title),
      ...(ended.length ? score(page, ended, pass) : [make("p", {}, page.tell("begun"))]),
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
    make("p", {}, told(heldIn(best) ? "held" : "missed", heldIn(best) ? page.tell("reached") : page.tell("not_reached"))),
    make("p", {}, page.tell("score", {
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
      serious ? page.tell("serious", { number: serious, of: ways.length }) : "",
      minor ? page.tell("minor", { number: minor, of: ways.length }) : "",
      serious || minor ? "" : page.tell("no_harm"),
    ].filter(Boolean).join(" ");
    return make(
      "li",
      {},
      link(named(page, best) ?? { words: best.id }),
      make("p", {}, told(held ? "held" : serious ? "serious" : "missed", held ? page.tell("held") : page.tell("not_held")), ` ${page.tell("walked", {
        first: whole(ways[0].mark), best: whole(best.mark), on: when(ways[ways.length - 1].at),
      })} `, harms),
    );
  });
  return [
    make("p", {}, page.tell("walks", { walks: all.length, serious: count("serious"), minor: count("minor") })),
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
  const heads = [page.tell("day"), page.tell("what"), page.tell("mark")].map((words, index) => make("th", { scope: "col", class: index === 2 ? "to-right" : false }, words));
  return [
    make("p", { class: "soft" }, page.tell("newest", { number: rows.length, of: attempts.length })),
    make("table", { class: "plain" }, make("thead", {}, make("tr", {}, ...heads)), make("tbody", {}, ...rows)),
  ];
}
