/** The copy for the owner: what goes into it, and what the owner will see of it, which is read from it alone. */

import { make } from "./dom.js";
import { isAnswer, isEarly } from "./record.js";
import { named, whole } from "./record-page.js";
import { notStopped, stoppedOf } from "./record-safety.js";
import { quizScores, serious, stopped, unasked } from "./summary.js";
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
 * The copy for the owner, as it is saved.
 * @param {Omit<import("./exchange.js").RecordFile, "attempts">} head
 * @param {Attempt[]} attempts that count, marked
 * @param {boolean} practice
 * @returns {import("./exchange.js").RecordFile}
 */
export const fileOf = (head, attempts, practice) => ({
  ...head, attempts: forOwner(attempts, practice), stopped: Object.fromEntries(stopped(attempts)),
});

/**
 * What the owner will see: all of it comes from the copy itself.
 * @param {RecordPage} page
 * @param {import("./exchange.js").RecordFile} file
 * @param {() => string} text of the file, word for word
 * @param {boolean} practice
 */
export function preview(page, file, text, practice) {
  const { attempts, learner, device = "", version, build, edition } = file;
  const clients = new Map(Object.entries(file.stopped ?? {}));
  const missed = notStopped(page, clients);
  const quizzes = [...quizScores(attempts)].map(([name, { counting: [first], passed, passedLater, seen, left }]) => [
    `${titleOf(page, name)}:`,
    first ? say("first sitting {share}%, {passed}.", { share: whole(first.mark), passed: passed ? say("passed") : say("not passed") }) : say("no sitting that counts."),
    ...(passedLater ? [say("Passed at sitting {number}.", { number: passedLater })] : []),
    ...(seen ? [say("Questions seen before: {number} times.", { number: seen })] : []),
    ...(left ? [say("Left half way: {number}.", { number: left })] : []),
  ].join(" "));
  const tasks = [...new Set(attempts.flatMap(({ task }) => task ?? []))];
  const lines = [
    learner ? say("Name: {learner}.", { learner }) : say("No name. Write yours above, so that the owner knows whose it is."),
    say("Device: {device}.", { device: device.slice(0, 8) }),
    say("Course: {version}.", { version: [version, edition ?? build].filter(Boolean).join(", ") }),
    ...(clients.size ? [`${stoppedOf(clients)}.${missed ? ` ${say("Not stopped at the first answer: {who}.", { who: missed })}` : ""}`] : []),
    say("Unsafe answers: {number}.", { number: serious(attempts).length }),
    ...(practice ? [say("Unsafe for want of asking: {number}.", { number: unasked(attempts).length })] : []),
    ...quizzes,
    ...tasks.map((task) => task.split("/")).map(([quiz, draw = "", day = ""]) =>
      say("Asked for: {quiz}, draw {draw}, until {day}.", { quiz: titleOf(page, quiz), draw, day })),
    say("Answers: {number}, each with its time, how long it took and what you chose.", { number: attempts.filter(isAnswer).length }),
    practice ? say("What you practised goes along.") : say("What you practised stays here."),
    say("The owner sees this beside what others did: whom you stopped, unsafe answers, what was right at first, what you were very sure of, and what you chose about each client."),
  ];
  return [
    make("ul", {}, ...lines.map((line) => make("li", {}, line))),
    folded(say("Every answer in the copy: {number}", { number: attempts.length }), () => answers(page, attempts)),
    folded(say("The copy, word for word"), () => make("pre", { tabindex: "0" }, text())),
    make("p", { class: "onwards" }, make("button", { type: "button", "data-do": "owner" }, say("Save the copy for the owner"))),
  ];
}

/**
 * @param {RecordPage} page
 * @param {string} name of a quiz
 */
const titleOf = ({ quizzes }, name) => quizzes.find(({ quiz }) => quiz === name)?.title ?? name;

/**
 * Filled once it is opened: there may be thousands.
 * @param {string} words
 * @param {() => Element} fill
 */
function folded(words, fill) {
  const details = make("details", {}, make("summary", {}, words));
  details.addEventListener("toggle", () => details.childElementCount < 2 && details.append(fill()));
  return details;
}

/**
 * @param {RecordPage} page
 * @param {Attempt[]} attempts
 */
function answers(page, attempts) {
  /** @type {Record<string, string>} */
  const harms = { none: "", minor: say("could do harm"), arguable: say("may be unsafe"), serious: say("unsafe") };
  const sure = ["", say("Not sure"), say("Fairly sure"), say("Very sure")];
  const heads = [say("When"), say("What"), say("You chose"), say("Result"), say("How sure"), say("Seconds")];
  const rows = attempts.map((one) => [
    one.at.replace("T", " ").slice(0, 16),
    named(page, one)?.words ?? one.id,
    [one.answer ?? ""].flat().join(" "),
    [
      isAnswer(one) ? (one.right ? say("right") : say("not right")) : one.passed ? say("passed") : say("not passed"),
      one.unasked ? say("unsafe for want of asking") : isEarly(one) ? say("before it was known") : harms[one.harm ?? "none"],
      ...(isAnswer(one) && one.first === false ? [say("not the first time")] : []),
    ].filter(Boolean).join(", "),
    sure[one.sure ?? 0],
    one.ms === undefined ? "" : String(Math.round(one.ms / 1000)),
  ]);
  return make(
    "div",
    { class: "wide", tabindex: "0", role: "region", "aria-label": say("Every answer in the copy: {number}", { number: attempts.length }) },
    make(
      "table",
      {},
      make("thead", {}, make("tr", {}, ...heads.map((words) => make("th", { scope: "col" }, words)))),
      make("tbody", {}, ...rows.map((cells) => make("tr", {}, ...cells.map((words) => make("td", {}, words))))),
    ),
  );
}
