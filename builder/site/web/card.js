/**
 * One question as a learner meets it, whoever asks: waiting for an answer, answered with its reasons, behind the learner
 * as one row. Works on a copy of the card that `templates/card.html.j2` wrote.
 */

import { answerOf, certaintyChoice, certaintyOf, lock, makeMovable, restore, stillOpen } from "./controls.js";
import { make } from "./dom.js";
import { say } from "./words.js";

/** @typedef {import("./marking.js").Answer} Answer */
/** @typedef {import("./marking.js").Certainty} Certainty */
/** @typedef {{answer: Answer, certainty: Certainty | null, ms?: number}} Given `ms` from when it was shown to the answer */

/**
 * The card waits for an answer; the answer and its reasons are out of sight.
 * @param {HTMLElement} card
 * @param {(given: Given) => void} answer told once everything is filled in
 * @param {{signal: AbortSignal, certain?: boolean}} how `certain`: whether it also asks how sure the learner is
 */
export function ask(card, answer, { signal, certain = false }) {
  const form = formOf(card);
  if (!form) return;
  const shown = performance.now();
  card.querySelector("details.reason")?.remove();
  const status = make("p", { class: "open", role: "status" });
  const tell = (/** @type {string} */ words) => {
    status.textContent = words;
  };
  makeMovable(form, tell, signal);
  if (certain) form.append(certaintyChoice());
  form.append(status, make("button", {}, say("Check my answer")));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const given = answerOf(form);
    const certainty = certaintyOf(form);
    if (!given) tell(stillOpen(form));
    else if (certain && !certainty) tell(say("Say how sure you are first."));
    else answer({ answer: given, certainty, ms: Math.round(performance.now() - shown) });
  }, { signal });
}

/**
 * The card with the answer given, locked, its reasons open.
 * @param {HTMLElement} card
 * @param {Answer} answer
 * @returns {Element | null} the reasons
 */
export function showAnswered(card, answer) {
  const form = formOf(card);
  const folded = card.querySelector("details.reason");
  const reasons = folded?.querySelector(".answer");
  if (!form || !folded || !reasons) return null;
  restore(form, answer);
  lock(form);
  for (const option of reasons.querySelectorAll("[data-option]")) {
    option.classList.toggle("own", [answer].flat().includes(/** @type {HTMLElement} */ (option).dataset.option ?? ""));
  }
  folded.replaceWith(reasons);
  return reasons;
}

/**
 * The verdict, between what was asked and its reasons.
 * @param {HTMLElement} card
 * @param {Element} verdict
 */
export const showVerdict = (card, verdict) => formOf(card)?.after(make("p", { class: "feedback" }, verdict));

/**
 * After a right answer the reasons take one line, and the rest is a tap away.
 * @param {Element} reasons
 */
export function foldWhy(reasons) {
  const why = reasons.querySelector(":scope > .why");
  const others = reasons.querySelectorAll(":scope > .replies > :not(.own)");
  const rest = [...(why?.childNodes ?? []), ...(others.length ? [make("ul", { class: "replies" }, ...others)] : [])];
  if (rest.length) reasons.append(make("details", { class: "why" }, make("summary", {}, say("Show why")), ...rest));
  why?.remove();
  reasons.querySelector(":scope > .replies:empty")?.remove();
}

/**
 * A card closed to one row.
 * @param {HTMLElement} card
 * @param {...Node} row
 */
export const closed = (card, ...row) => make("details", {}, make("summary", {}, ...row), ...card.childNodes);

/** @param {HTMLElement} card */
const formOf = (card) => card.querySelector("form");
