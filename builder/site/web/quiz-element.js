/**
 * `<case-quiz>`: a quiz, one question a screen.
 *
 * Without script all questions of the first draw stand on the page, each with its answer in a `<details>`. This
 * element shows them one at a time, marks them, and draws others from the data files beside the page.
 */

import { FORGOTTEN, remember, storeOf, tellWhenShut } from "./device.js";
import { copy, data, goTo, make } from "./dom.js";
import { draw } from "./draw.js";
import { FULL_CERTAIN, certainMark, isHeld, markItem, markQuiz, ratio, share } from "./marking.js";
import { parsed, part } from "./parts.js";
import { answerOf, lock, makeMovable, restore, stillOpen } from "./question.js";
import { result } from "./quiz-result.js";
import { told, verdictWords } from "./signs.js";
import { say } from "./words.js";

/** @typedef {import("./marking.js").ItemData} ItemData */
/** @typedef {import("./marking.js").Answer} Answer */
/** @typedef {import("./marking.js").Certainty} Certainty */
/** @typedef {import("./marking.js").RatioData} RatioData */
/** @typedef {{answer: Answer, certainty: Certainty | null}} Given */
/** @typedef {{item: ItemData, row: HTMLElement}} Asked */
/**
 * @typedef {object} Quiz
 * @property {string} course
 * @property {string} quiz
 * @property {string} edition changes with the quiz and with any question that it can ask
 * @property {number} seed of the draw that stands on the page
 * @property {RatioData} pass_mark
 * @property {"plain" | "certainty"} marking
 * @property {Record<string, string>} objectives name to label
 * @property {ItemData[]} items
 * @property {boolean} more whether other draws can differ
 */
/** @typedef {{seed: number, digests: string[], at: number, given: (Given | null)[]}} Kept */

/** Questions in one data file. */
const PART = 50;

export class CaseQuiz extends HTMLElement {
  /** @type {AbortController} */
  #life = new AbortController();
  /** @type {Quiz} */
  #quiz = data(this);
  /** @type {Asked[]} */
  #first = [];
  /** @type {Asked[]} */
  #asked = [];
  /** @type {(Given | null)[]} */
  #given = [];
  #seed = 0;
  /** The question on the screen; one past the last is the result. */
  #at = 0;
  #screen = make("div", { class: "screen" });
  #notes = make("div", { class: "notes" });

  connectedCallback() {
    this.#life = new AbortController();
    if (!this.#first.length) this.#takeRows();
    const store = storeOf(this.#quiz.course);
    tellWhenShut(store, this.#notes);
    document.addEventListener(FORGOTTEN, () => this.#begin(this.#quiz.seed, this.#first), { signal: this.#life.signal });
    this.#begin(this.#quiz.seed, this.#first);
    void this.#pickUp(store.get(this.#key));
  }

  disconnectedCallback() {
    this.#life.abort();
  }

  get #key() {
    return `quiz:${this.dataset.key}`;
  }

  get #certain() {
    return this.#quiz.marking === "certainty";
  }

  #takeRows() {
    const list = this.querySelector(".questions");
    const rows = /** @type {HTMLElement[]} */ ([...(list?.children ?? [])]);
    this.#first = this.#quiz.items.map((item, index) => ({ item, row: rows[index] }));
    list?.remove();
    this.append(this.#screen, this.#notes);
  }

  /**
   * @param {number} seed
   * @param {Asked[]} asked
   */
  #begin(seed, asked) {
    this.#seed = seed;
    this.#asked = asked;
    this.#given = asked.map(() => null);
    this.#at = 0;
    this.#show();
  }

  /** @param {unknown} value what the store kept */
  async #pickUp(value) {
    const kept = /** @type {Kept | null} */ (value);
    if (!kept || !Array.isArray(kept.given) || !Array.isArray(kept.digests)) return;
    const asked = kept.seed === this.#quiz.seed ? this.#first : await this.#drawn(kept.seed).catch(() => []);
    const same = asked.length === kept.digests.length && asked.every(({ item }, index) => item.digest === kept.digests[index]);
    if (!same) {
      const words = say("The questions have changed since you were here, so the quiz starts afresh.");
      this.#notes.append(make("p", { class: "changed", role: "status" }, words));
      return;
    }
    this.#begin(kept.seed, asked);
    this.#given = asked.map((_, index) => kept.given[index] ?? null);
    this.#at = Math.min(Math.max(0, Number(kept.at) || 0), asked.length);
    this.#show();
  }

  #keep() {
    /** @type {Kept} */
    const kept = { seed: this.#seed, digests: this.#asked.map(({ item }) => item.digest), at: this.#at, given: this.#given };
    storeOf(this.#quiz.course).set(this.#key, kept);
  }

  /**
   * The questions of another draw, from the data files.
   * @param {number} seed
   * @returns {Promise<Asked[]>}
   */
  async #drawn(seed) {
    const { quiz } = this.#quiz;
    const file = (/** @type {number} */ number) => part(`${quiz}.${number}.js`, `${quiz}.${number}`);
    const numbers = draw(await file(0), seed);
    return Promise.all(numbers.map(async (number) => {
      const { questions, readings } = await file(Math.floor(number / PART) + 1);
      const { item, html } = questions[number % PART];
      const row = make("li", { class: "question" }, ...parsed(html));
      for (const place of row.querySelectorAll("[data-readings-of]")) {
        place.append(...parsed(readings[place.getAttribute("data-readings-of") ?? ""] ?? ""));
      }
      return { item, row };
    }));
  }

  async #drawNew() {
    const [seed] = crypto.getRandomValues(new Uint32Array(1));
    try {
      this.#begin(2 + (seed % 9998), await this.#drawn(2 + (seed % 9998)));
      this.#keep();
      this.#arrive();
    } catch {
      this.#notes.append(make("p", { role: "status" }, say("The other questions cannot be reached now. Try again when you are online.")));
    }
  }

  #again() {
    this.#begin(this.#seed, this.#asked);
    this.#keep();
    this.#arrive();
  }

  /** @param {number} at */
  #go(at) {
    this.#at = at;
    this.#keep();
    this.#show();
    this.#arrive();
  }

  #arrive() {
    goTo(this.#screen.querySelector("h2"));
  }

  /** The next question that waits for an answer, else the result. */
  #goOn() {
    const open = [...this.#given.keys()].filter((index) => !this.#given[index]);
    this.#go(open.find((index) => index > this.#at) ?? open[0] ?? this.#asked.length);
  }

  /** @param {number} index */
  #mark(index) {
    return markItem(this.#asked[index].item, this.#given[index]?.answer ?? null);
  }

  #show() {
    if (this.#at >= this.#asked.length) return this.#showResult();
    const { row } = this.#asked[this.#at];
    const question = copy(row, "-now");
    const screen = make("section", { class: "question" }, ...question.childNodes);
    const form = screen.querySelector("form");
    const reason = screen.querySelector("details.reason");
    this.#screen.replaceChildren(this.#progress(), screen, this.#moves());
    if (!form || !reason) return undefined;
    if (this.#given[this.#at]) this.#showAnswered(screen, form, reason);
    else this.#ask(form, reason);
    return undefined;
  }

  #progress() {
    const words = say("Question {number} of {of}", { number: this.#at + 1, of: this.#asked.length });
    const answered = this.#given.filter(Boolean).length;
    const ticks = this.#given.map((given, index) => {
      const state = given ? (isHeld(this.#mark(index)) ? "held" : "missed") : "open";
      return make("span", { class: `tick ${state}${index === this.#at ? " here" : ""}` });
    });
    return make(
      "div",
      { class: "progress" },
      make("p", {}, words, " ", make("span", { class: "soft" }, say("{answered} answered", { answered }))),
      make("div", { class: "ticks", "aria-hidden": "true" }, ...ticks),
    );
  }

  #moves() {
    const all = this.#given.every(Boolean);
    return make(
      "nav",
      { class: "moves", "aria-label": say("Questions") },
      this.#at > 0 ? this.#button(say("Back"), () => this.#go(this.#at - 1), "quiet") : "",
      this.#at < this.#asked.length - 1 ? this.#button(say("Forward"), () => this.#go(this.#at + 1), "quiet") : "",
      all ? this.#button(say("Your result"), () => this.#go(this.#asked.length), "quiet") : "",
    );
  }

  /**
   * @param {HTMLFormElement} form
   * @param {Element} reason
   */
  #ask(form, reason) {
    reason.remove();
    const { signal } = this.#life;
    const status = make("p", { class: "open", role: "status" });
    const tell = (/** @type {string} */ words) => {
      status.textContent = words;
    };
    makeMovable(form, tell, signal);
    if (this.#certain) form.append(certaintyChoice());
    form.append(status, make("button", {}, say("Answer")));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const answer = answerOf(form);
      const certainty = certaintyOf(form);
      if (!answer) tell(stillOpen(form));
      else if (this.#certain && !certainty) tell(say("Say how sure you are first."));
      else this.#answer({ answer, certainty });
    }, { signal });
  }

  /** @param {Given} given */
  #answer(given) {
    const { item } = this.#asked[this.#at];
    this.#given[this.#at] = given;
    const mark = share(this.#mark(this.#at));
    const { course, quiz } = this.#quiz;
    const attempt = { kind: /** @type {const} */ ("question"), id: item.id, digest: item.digest, at: new Date().toISOString(), objective: item.objective, mark, quiz, seed: this.#seed };
    const attempts = [given.certainty ? { ...attempt, certainty: given.certainty } : attempt];
    remember(storeOf(course), course, this.#given.every(Boolean) ? [...attempts, this.#whole(attempt.at)] : attempts);
    this.#keep();
    this.#show();
    goTo(this.#screen.querySelector(".feedback"));
  }

  /**
   * The attempt at the whole quiz.
   * @param {string} at
   * @returns {Omit<import("./record.js").Attempt, "first">}
   */
  #whole(at) {
    const { quiz, edition, pass_mark: pass } = this.#quiz;
    const { mark, held } = markQuiz(this.#marks(), this.#full, pass);
    return { kind: "quiz", id: quiz, digest: edition, at, objective: "", mark: Math.max(0, share(mark)), held, quiz, seed: this.#seed };
  }

  get #full() {
    return this.#certain ? FULL_CERTAIN : 1;
  }

  /** What each question earned. */
  #marks() {
    return this.#asked.map((_, index) => {
      const mark = this.#mark(index);
      const certainty = this.#given[index]?.certainty;
      return this.#certain ? ratio(certainty ? certainMark(isHeld(mark), certainty) : 0) : mark;
    });
  }

  /**
   * @param {Element} screen
   * @param {HTMLFormElement} form
   * @param {Element} reason
   */
  #showAnswered(screen, form, reason) {
    this.#open(form, reason, this.#at);
    form.after(make("p", { class: "feedback" }, this.#told(this.#at)));
    const last = this.#given.every(Boolean);
    screen.append(this.#button(last ? say("See the result") : say("Go on"), () => this.#goOn()));
  }

  /**
   * Puts the answer given into a question and opens the reasons.
   * @param {HTMLFormElement} form
   * @param {Element} reason
   * @param {number} index
   */
  #open(form, reason, index) {
    const given = this.#given[index];
    if (!given) return;
    restore(form, given.answer);
    lock(form);
    for (const option of reason.querySelectorAll("[data-option]")) {
      option.classList.toggle("own", [given.answer].flat().includes(/** @type {HTMLElement} */ (option).dataset.option ?? ""));
    }
    reason.replaceWith(...(reason.querySelectorAll(".answer")));
  }

  /** @param {number} index */
  #told(index) {
    const mark = this.#mark(index);
    const certainty = this.#given[index]?.certainty;
    const verdict = isHeld(mark) ? "held" : "missed";
    const words = verdict === "missed" && mark.n ? say("Part of that holds") : verdictWords(verdict);
    if (!this.#certain || !certainty) return told(verdict, words);
    return told(verdict, say("{verdict} (mark {mark})", { verdict: words, mark: signed(certainMark(isHeld(mark), certainty)) }));
  }

  #showResult() {
    const answered = this.#asked.map(({ item }, index) => ({ objective: item.objective, held: isHeld(this.#mark(index)) }));
    const rows = this.#asked.map((_, index) => this.#closed(index));
    const { pass_mark: pass, objectives, more } = this.#quiz;
    const onwards = make("p", { class: "onwards" });
    if (more) onwards.append(this.#button(say("Draw new questions"), () => void this.#drawNew()), " ");
    onwards.append(this.#button(say("Answer these again"), () => this.#again(), more ? "quiet" : ""));
    this.#screen.replaceChildren(result({
      marks: this.#marks(), full: this.#full, pass, answered, objectives, rows, seed: this.#seed, onwards,
    }));
    return undefined;
  }

  /**
   * A question behind the learner, closed to one row.
   * @param {number} index
   */
  #closed(index) {
    const { row } = this.#asked[index];
    const inside = copy(row, `-${index + 1}`);
    const form = inside.querySelector("form");
    const reason = inside.querySelector("details.reason");
    if (form && reason) this.#open(form, reason, index);
    const asked = make("span", { class: "asked" }, inside.querySelector("h2")?.textContent ?? "");
    return make("li", {}, make("details", {}, make("summary", {}, asked, this.#told(index)), ...inside.childNodes));
  }

  /**
   * @param {string} words
   * @param {() => void} act
   * @param {string} [kind]
   */
  #button(words, act, kind = "") {
    const button = make("button", { type: "button", class: kind || false }, words);
    button.addEventListener("click", act, { signal: this.#life.signal });
    return button;
  }
}

const CERTAINTY = "certainty";

function certaintyChoice() {
  const choices = [say("Not sure"), say("Fairly sure"), say("Very sure")].map((words, index) =>
    make("label", { class: "choice" }, make("input", { type: "radio", name: CERTAINTY, value: `${index + 1}` }), make("span", {}, words)),
  );
  return make("fieldset", { class: "sure" }, make("legend", {}, say("How sure are you?")), make("div", { class: "choices" }, ...choices));
}

/**
 * @param {HTMLFormElement} form
 * @returns {Certainty | null}
 */
function certaintyOf(form) {
  const picked = /** @type {HTMLInputElement | null} */ (form.querySelector(`input[name=${CERTAINTY}]:checked`));
  return picked ? /** @type {Certainty} */ (Number(picked.value)) : null;
}

/** @param {number} mark */
const signed = (mark) => (mark > 0 ? `+${mark}` : `${mark}`.replace("-", "\u2212"));
