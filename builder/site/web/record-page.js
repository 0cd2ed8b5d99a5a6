/** What the page of the record knows of the course: how a thing that was tried is called there, and where it stands. */

import { make } from "./dom.js";
import { fill, say } from "./words.js";

/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {{quiz: string, title: string, drawn: boolean, blueprint: Record<string, number>, unsafe: string[]} & import("./plausible.js").QuizFacts} QuizFacts `drawn`: not every draw asks the same; `unsafe`: the objectives whose questions can be answered so that it is serious */
/**
 * What the course holds that can be tried.
 * @typedef {object} Known
 * @property {Record<string, string>} clients name to what people read
 * @property {Record<string, string>} drills name to title
 * @property {Record<string, [string, string, string]>} written question to its text, and the digests of its right answer and of
 *   all of it
 * @property {Record<string, {text: string, digests: Record<string, [string, string]>}>} families the same, by client
 * @property {[string, string, string[]][]} exercises name, title, clients
 * @property {Record<string, Record<string, string>>} decided exercise to its steps that decide, each with its table
 * @property {Record<string, Record<string, string>>} asked exercise, or `drill.name`, to its authored steps, each with the digest
 *   of its right answer
 * @property {Record<string, Record<string, string>>} outcomes client to table to outcome
 * @property {Record<string, string>} tables table to what it asks
 * @property {Record<string, Record<string, string>>} keys table to outcome to its digest as the right answer
 */
/**
 * @typedef {object} RecordPage
 * @property {string} course
 * @property {string} version
 * @property {string} build
 * @property {string} index
 * @property {string} items where every question's key stands, to mark answers again
 * @property {string} handover the script that saves, shows and takes in copies
 * @property {{script: string, index: string}} plan what shows the plan, and what can be asked
 * @property {string} chances the script that works out chances of passing
 * @property {[string, string][]} objectives name and label
 * @property {QuizFacts[]} quizzes
 * @property {{client: string, exercise: string, drill: string, quiz: string, ask: string}} addresses of pages, with
 *   `{name}` fields
 * @property {Known | null} known
 */

/** @param {string} at */
export const when = (at) => new Date(at).toLocaleDateString(document.documentElement.lang, { dateStyle: "medium" });

/**
 * In whole per cent, never rounded up.
 * @param {number} share
 */
export const whole = (share) => Math.floor(100 * share + 1e-9);

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
export const label = (page, name) => page.objectives.find(([objective]) => objective === name)?.[1] ?? name;

/**
 * How the course names a thing that was tried, and where it stands; null where it is gone.
 * @param {RecordPage} page
 * @param {Pick<Attempt, "kind" | "id" | "quiz">} attempt
 * @returns {{words: string, href?: string} | null}
 */
export function named({ known, quizzes, addresses }, { kind, id, quiz }) {
  if (kind === "quiz") {
    const facts = quizzes.find((one) => one.quiz === id);
    return facts ? { words: facts.title, href: fill(addresses.quiz, { quiz: id }) } : null;
  }
  if (!known) return { words: id };
  const href = quiz && quizzes.some((one) => one.quiz === quiz) ? fill(addresses.ask, { quiz, questions: encodeURIComponent(id) }) : undefined;
  const written = own(known.written, id);
  if (kind === "question" && written) return { words: written[0], href };
  const [first, client] = id.split(/[./]/);
  const drill = kind !== "question" && id.startsWith("drill.") ? own(known.drills, client) : undefined;
  if (drill) return { words: drill, href: fill(addresses.drill, { drill: client }) };
  const person = own(known.clients, client ?? "");
  if (!person) return null;
  if (kind === "question") {
    const family = own(known.families, first);
    return family && own(family.digests, client) ? { words: `${person}: ${family.text}`, href } : null;
  }
  const walked = known.exercises.filter(([, , clients]) => clients.includes(client));
  const exercise = walked.find(([name]) => name === first);
  if (!exercise) return null;
  const address = exercise === walked[0] ? addresses.client : addresses.exercise;
  if (kind === "step" && id.includes("/said.")) return { words: say("{client}: what their words come to", { client: person }), href: fill(address, { client, exercise: first }) };
  const table = kind === "step" ? own(own(known.decided, first), id.split("/").at(-1) ?? "") : undefined;
  return { words: `${person}: ${own(known.tables, table ?? "") ?? exercise[1]}`, href: fill(address, { client, exercise: first }) };
}

/**
 * The right outcome at a step that decides; nothing at any other.
 * @param {Known} known
 * @param {Pick<Attempt, "id">} attempt
 */
export function outcome(known, { id }) {
  const [exercise, client, step] = id.split("/");
  const table = own(own(known.decided, exercise), step ?? "");
  return table && own(own(known.outcomes, client), table);
}

/**
 * The digests of what was tried as they are now.
 * @param {Known | null} known
 * @param {Pick<Attempt, "kind" | "id">} attempt
 * @returns {{key: string, digest?: string} | null}
 */
export function now(known, { kind, id }) {
  if (!known) return null;
  const [exercise, ...rest] = id.split("/");
  if (kind === "question") {
    const [family, client] = id.split(".");
    const [key, digest] = own(known.written, id)?.slice(1) ?? own(own(known.families, family)?.digests, client ?? "") ?? [];
    return key ? { key, digest } : null;
  }
  const right = outcome(known, { id });
  const step = rest.at(-1) ?? "";
  const key = right ? own(own(known.keys, own(own(known.decided, exercise), step) ?? ""), right) ?? "" : own(own(known.asked, exercise), step);
  return kind === "step" && key !== undefined ? { key } : null;
}

/** @param {{words: string, href?: string}} thing */
export const link = ({ words, href }) => (href ? make("a", { href }, words) : make("span", {}, words));
