/** The end of a quiz: the mark with its working, objective by objective, and every question with its reasons. */

import { bars } from "./bars.js";
import { make } from "./dom.js";
import { byObjective, markQuiz, percent, ratio, share } from "./marking.js";
import { told } from "./signs.js";
import { say } from "./words.js";

/** @typedef {import("./marking.js").Ratio} Ratio */

/**
 * @param {object} quiz
 * @param {Ratio[]} quiz.marks one a question
 * @param {number} quiz.full what one question is worth at most
 * @param {import("./marking.js").RatioData} quiz.pass
 * @param {{objective: string, held: boolean}[]} quiz.answered
 * @param {Record<string, string>} quiz.objectives
 * @param {Element[]} quiz.rows every question, closed
 * @param {number} quiz.seed the number of the draw; 0 for single questions
 * @param {((seed: number) => void) | null} quiz.draw null where every draw asks the same
 * @param {Element} quiz.onwards
 */
export function result({ marks, full, pass, answered, objectives, rows, seed, draw, onwards }) {
  const count = say("{held} of {of} questions held.", { held: answered.filter((one) => one.held).length, of: answered.length });
  return make(
    "section",
    { class: "result" },
    make("h2", {}, say("Your result")),
    ...(seed ? whole() : [make("p", {}, count), make("p", {}, single())]),
    make("h3", {}, say("Your questions, with every reason")),
    make("ol", { class: "answered" }, ...rows),
    onwards,
    ...(draw ? numbered(seed, draw) : []),
  );

  function whole() {
    const { mark, held } = markQuiz(marks, full, pass);
    const sum = marks.reduce((all, one) => all + share(one), 0);
    const working = say("{sum} of {full} marks: {share}%. The pass mark is {pass}%.", {
      sum: `${Math.round(100 * sum) / 100}`.replace("-", "\u2212"),
      full: full * marks.length,
      share: percent(mark),
      pass: percent(ratio(...pass)),
    });
    return [
      make("p", { class: "outcome" }, told(held ? "held" : "missed", held ? say("That reaches the pass mark") : say("That does not reach the pass mark yet"))),
      make("p", { class: "working" }, count, " ", working),
      make("h3", {}, say("By objective")),
      bars(byObjective(answered), objectives),
      make("p", { class: "soft" }, say("An interval (Wilson 1927) shows where the true share may well lie, if these questions stand for all.")),
    ];
  }
}

/** What single questions are, told while they are asked and at their end. */
export const single = () => say("These are single questions, not the whole quiz. Your record keeps the answers; no pass mark counts.");

/**
 * The draw by its number: to hand on, and to ask for.
 * @param {number} seed
 * @param {(seed: number) => void} draw
 */
function numbered(seed, draw) {
  const input = make("input", { type: "number", min: "1", max: "9999", required: true });
  const form = make("form", { class: "onwards" }, make("label", { class: "number" }, say("Number"), " ", input), make("button", { class: "quiet" }, say("Draw by number")));
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
