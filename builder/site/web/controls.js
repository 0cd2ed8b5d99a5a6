/** The controls of a question: reading them, putting an answer back, locking them. `card.js` lays them out. */

import { make } from "./dom.js";
import { mayGroup, readNumber } from "./marking.js";
import { say } from "./words.js";

/** @typedef {import("./marking.js").Answer} Answer */
/** @typedef {import("./marking.js").Certainty} Certainty */

/** The name of the controls that tell how sure the learner is; they stand in the same form. */
const CERTAINTY = "certainty";

/**
 * The answer given, or null while something is still open.
 * @param {HTMLFormElement} form
 * @returns {Answer | null}
 */
export function answerOf(form) {
  const chosen = [...form.querySelectorAll(`input:checked:not([name=${CERTAINTY}])`)].map((input) => /** @type {HTMLInputElement} */ (input).value);
  switch (form.dataset.kind) {
    case "one":
      return chosen[0] ?? null;
    case "several":
      return chosen.length ? chosen.sort() : null;
    case "number": {
      const input = field(form);
      const text = input?.value.trim() ?? "";
      return readNumber(text) && !mayGroup(text, input?.dataset.decimal ?? ".") ? text : null;
    }
    case "order":
      return rowsOf(form).map((row) => row.dataset.option ?? "");
    case "pairs": {
      const picked = [...form.querySelectorAll("select")].map((select) => select.value);
      return picked.every(Boolean) ? picked : null;
    }
  }
  return null;
}

/** @param {HTMLFormElement} form */
const field = (form) => /** @type {HTMLInputElement | null} */ (form.querySelector("input[inputmode]"));

/**
 * What is still open, in words, for a question that has no full answer.
 * @param {HTMLFormElement} form
 */
export function stillOpen(form) {
  switch (form.dataset.kind) {
    case "number":
      return say("Write the number alone, such as 5.");
    case "pairs":
      return say("Choose one for every line first.");
    default:
      return say("Choose an answer first.");
  }
}

/**
 * Puts an answer back into the controls.
 * @param {HTMLFormElement} form
 * @param {Answer} answer
 */
export function restore(form, answer) {
  const values = /** @type {string[]} */ ([answer].flat());
  switch (form.dataset.kind) {
    case "number": {
      const input = field(form);
      if (input) input.value = values[0];
      return;
    }
    case "order": {
      const rows = rowsOf(form);
      for (const id of values) {
        const row = rows.find((one) => one.dataset.option === id);
        if (row) row.parentNode?.append(row);
      }
      return;
    }
    case "pairs":
      form.querySelectorAll("select").forEach((select, index) => {
        select.value = values[index];
      });
      return;
    default:
      for (const input of form.querySelectorAll("input")) input.checked = values.includes(input.value);
  }
}

/**
 * The rows to put in order.
 * @param {HTMLFormElement} form
 */
const rowsOf = (form) => /** @type {HTMLLIElement[]} */ ([...form.querySelectorAll(".order > li")]);

/**
 * Gives an order question its two buttons a row, in place of the numbered boxes that serve without script.
 * @param {HTMLFormElement} form
 * @param {(words: string) => void} tell says aloud where a row went
 * @param {AbortSignal} signal
 */
export function makeMovable(form, tell, signal) {
  for (const row of rowsOf(form)) {
    const text = row.querySelector(".what")?.textContent ?? "";
    row.querySelector("select")?.remove();
    for (const [by, word] of /** @type {[number, string][]} */ ([
      [-1, say("Move up")],
      [1, say("Move down")],
    ])) {
      const button = make("button", { type: "button", class: "move", "aria-label": `${word}: ${text}` }, word);
      button.addEventListener("click", () => move(row, by, tell, button), { signal });
      row.append(button);
    }
  }
}

/**
 * @param {HTMLLIElement} row
 * @param {number} by
 * @param {(words: string) => void} tell
 * @param {HTMLButtonElement} button keeps the focus
 */
function move(row, by, tell, button) {
  const list = /** @type {Element} */ (row.parentNode);
  const rows = [...list.children];
  const to = rows.indexOf(row) + by;
  if (to >= 0 && to < rows.length) {
    if (by < 0) rows[to].before(row);
    else rows[to].after(row);
    button.focus();
  }
  const place = [...list.children].indexOf(row) + 1;
  tell(say("{what}: now in place {place} of {of}", { what: row.querySelector(".what")?.textContent ?? "", place, of: rows.length }));
}

/**
 * Locks a question and marks what was chosen, by words beside it.
 * @param {HTMLFormElement} form
 */
export function lock(form) {
  for (const fieldset of form.querySelectorAll("fieldset")) fieldset.disabled = true;
  for (const place of form.querySelectorAll(".order select")) place.remove();
  for (const input of form.querySelectorAll("input:checked")) {
    const label = input.closest("label");
    label?.classList.add("chosen");
    label?.append(make("span", { class: "yours" }, say("your answer")));
  }
}

export function certaintyChoice() {
  const choices = [say("Not sure"), say("Fairly sure"), say("Very sure")].map((words, index) =>
    make("label", { class: "choice" }, make("input", { type: "radio", name: CERTAINTY, value: `${index + 1}` }), make("span", {}, words)),
  );
  return make("fieldset", { class: "sure" }, make("legend", {}, say("How sure are you?")), make("div", { class: "choices" }, ...choices));
}

/**
 * How sure the learner says to be, or null while that is open.
 * @param {HTMLFormElement} form
 * @returns {Certainty | null}
 */
export function certaintyOf(form) {
  const picked = /** @type {HTMLInputElement | null} */ (form.querySelector(`input[name=${CERTAINTY}]:checked`));
  return picked ? /** @type {Certainty} */ (Number(picked.value)) : null;
}
