/** What the page of the record knows of the course: how a thing that was tried is called there, and where it stands. */

import { make } from "./dom.js";
import { fill } from "./words.js";

/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {{quiz: string, title: string, pass_mark: [number, number], serious: "fails" | "told", drawn: boolean, blueprint: Record<string, number>, unsafe: string[]}} QuizFacts `drawn`: not every draw asks the same; `unsafe`: the objectives whose questions can be answered so that it is serious */
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
 * How the course names a thing that was tried, where it stands, and its digest now; null where it is gone.
 * @param {RecordPage} page
 * @param {Pick<Attempt, "kind" | "id" | "quiz">} attempt
 * @returns {{words: string, href?: string, digest: string | null} | null}
 */
export function named({ known, quizzes, addresses }, { kind, id, quiz }) {
  if (kind === "quiz") {
    const facts = quizzes.find((one) => one.quiz === id);
    return facts ? { words: facts.title, href: fill(addresses.quiz, { quiz: id }), digest: null } : null;
  }
  if (!known) return { words: id, digest: null };
  const href = quiz && quizzes.some((one) => one.quiz === quiz) ? fill(addresses.ask, { quiz, questions: encodeURIComponent(id) }) : undefined;
  const written = own(known.written, id);
  if (kind === "question" && written) return { words: written[0], href, digest: written[1] };
  const [first, client] = id.split(/[./]/);
  const drill = kind === "walk" && id.startsWith("drill.") ? own(known.drills, client) : undefined;
  if (drill) return { words: drill, href: fill(addresses.drill, { drill: client }), digest: null };
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
  const address = exercise === walked[0] ? addresses.client : addresses.exercise;
  return { words: `${person}: ${exercise[1]}`, href: fill(address, { client, exercise: first }), digest: null };
}

/** @param {{words: string, href?: string}} thing */
export const link = ({ words, href }) => (href ? make("a", { href }, words) : make("span", {}, words));
