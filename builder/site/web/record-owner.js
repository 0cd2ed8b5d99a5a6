/** The copy for the owner: what goes into it, and what the owner will see of it. */

import { make } from "./dom.js";
import { isAnswer } from "./record.js";
import { whole } from "./record-page.js";
import { notStopped, stoppedOf } from "./record-safety.js";
import { quizScores, serious, stopped } from "./summary.js";
import { say } from "./words.js";

/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {import("./record-page.js").RecordPage} RecordPage */

/**
 * Quizzes and tests; practice only on request.
 * @param {Attempt[]} attempts that count, marked
 * @param {boolean} practice
 */
const forOwner = (attempts, practice) => attempts.filter(({ mode, kind }) => practice || kind === "quiz" || mode === "quiz" || mode === "test");

/**
 * What the owner will see.
 * @param {RecordPage} page
 * @param {Attempt[]} attempts that count, marked
 * @param {boolean} practice
 * @param {{learner: string, device: string}} who
 */
export function preview(page, attempts, practice, { learner, device }) {
  const sent = forOwner(attempts, practice);
  const clients = stopped(attempts);
  const missed = notStopped(page, clients);
  const unsafe = serious(sent).length;
  const quizzes = [...quizScores(sent)].map(([name, { counting: [first], passed, passedLater, seen, left }]) => [
    `${page.quizzes.find(({ quiz }) => quiz === name)?.title ?? name}:`,
    first ? say("first sitting {share}%, {passed}.", { share: whole(first.mark), passed: passed ? say("passed") : say("not passed") }) : say("no sitting that counts."),
    ...(passedLater ? [say("Passed at sitting {number}.", { number: passedLater })] : []),
    ...(seen ? [say("Questions seen before: {number} times.", { number: seen })] : []),
    ...(left ? [say("Left half way: {number} times.", { number: left })] : []),
  ].join(" "));
  const lines = [
    learner ? say("Name: {learner}.", { learner }) : say("No name. Write yours above, so that the owner knows whose it is."),
    say("Device: {device}.", { device: device.slice(0, 8) }),
    ...(clients.size ? [`${stoppedOf(clients)}.${missed ? ` ${say("Not stopped at the first answer: {who}.", { who: missed })}` : ""}`] : []),
    say("Unsafe answers: {number}.", { number: unsafe }),
    ...quizzes,
    say("Answers: {number}, each with its time, how long it took and what you chose.", { number: sent.filter(isAnswer).length }),
    practice ? say("What you practised goes along.") : say("What you practised stays here."),
  ];
  return [
    make("ul", {}, ...lines.map((line) => make("li", {}, line))),
    make("p", { class: "onwards" }, make("button", { type: "button", "data-do": "owner" }, say("Save the copy for the owner"))),
  ];
}

/**
 * What of a record goes into the copy for the owner.
 * @param {Attempt[]} attempts that count, marked
 * @param {boolean} practice
 */
export const fileOf = (attempts, practice) => ({ stopped: Object.fromEntries(stopped(attempts)), attempts: forOwner(attempts, practice) });
