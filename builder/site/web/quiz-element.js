/**
 * `<case-quiz>`: a quiz, one question a screen.
 *
 * Without script all questions of the first draw stand on the page, each with its answer in a `<details>`. This
 * element shows them one at a time, marks them, and draws others from the data files beside the page.
 *
 * An address may ask for more: `?draw=42` for the draw of that number, `?ask=ID,ID` for single questions, which
 * count for the learner's record but make no quiz.
 */

import { isBegun } from "./begun.js";
import { FORGOTTEN, remember, storeOf, tellWhenShut } from "./device.js";
import { copy, data, goTo, make } from "./dom.js";
import { FULL_CERTAIN, certainMark, isHeld, markItem, markQuiz, ratio, share } from "./marking.js";
import { drawn, named } from "./quiz-data.js";
import { answered, answerOf, certaintyChoice, certaintyOf, makeMovable, stillOpen } from "./question.js";
import { result, single } from "./quiz-result.js";
import { told, verdictWords } from "./signs.js";
import { say } from "./words.js";

/** @typedef {import("./marking.js").ItemData} ItemData */
/** @typedef {import("./marking.js").Answer} Answer */
/** @typedef {import("./marking.js").Certainty} Certainty */
/** @typedef {import("./marking.js").RatioData} RatioData */
/** @typedef {{answer: Answer, certainty: Certainty | null}} Given */
/** @typedef {import("./quiz-data.js").Asked} Asked */
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
 * @property {string} record where the learner's record stands
 */
/** @typedef {{seed: number, digests: string[], at: number, given: (Given | null)[]}} Kept */

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
  /** The number of the draw; 0 for single questions. */
  #seed = 0;
  /** Counts what was begun or asked for, so that what comes late from the network begins nothing. */
  #turn = 0;
  /** The question on the screen; one past the last is the result. */
  #at = 0;
  /** Questions not answered yet, as the learner left them. @type {Map<number, HTMLElement>} */
  #left = new Map();
  #screen = make("div", { class: "screen" });
  #notes = make("div", { class: "notes" });

  connectedCallback() {
    this.#life = new AbortController();
    if (!this.#first.length) this.#takeRows();
    const store = storeOf(this.#quiz.course);
    tellWhenShut(store, this.#notes);
    // Single questions are no part of what was kept: they begin anew as they are.
    const afresh = () => (this.#asked.length && !this.#seed ? this.#begin(0, this.#asked) : this.#beginFirst());
    document.addEventListener(FORGOTTEN, afresh, { signal: this.#life.signal });
    this.#open();
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

  /** What the address asks for, else what was under way. */
  #open() {
    const address = new URLSearchParams(location.search);
    const ids = address.get("ask");
    if (ids) return this.#askSingle([...new Set(ids.split(","))]);
    const kept = this.#kept();
    const seed = this.#quiz.more ? Number(/^[1-9]\d{0,3}$/.exec(address.get("draw") ?? "")) : 0;
    if (!seed || seed === kept?.seed) return this.#pickUp(kept);
    if (!kept || !isBegun(kept.given)) {
      return this.#reach(() => this.#drawn(seed), this.#afresh(), (asked) => this.#begin(seed, asked));
    }
    const goOn = this.#button(say("Go on with them"), () => {
      this.#name("");
      this.#pickUp(kept, true);
    });
    const leave = this.#button(say("Leave them for number {seed}", { seed }), () => this.#draw(seed, goOn), "quiet");
    this.#tell(say("You are in the middle of other questions, drawn with number {seed}.", { seed: kept.seed }), goOn, leave);
    return undefined;
  }

  /**
   * @param {number} seed
   * @param {Asked[]} asked
   * @param {(Given | null)[]} [given]
   * @param {number} [at]
   */
  #begin(seed, asked, given = [], at = 0) {
    this.#turn += 1;
    this.#seed = seed;
    this.#asked = asked;
    this.#given = asked.map((_, index) => given[index] ?? null);
    this.#at = Math.min(Math.max(0, at), asked.length);
    this.#left.clear();
    this.#show();
  }

  #beginFirst() {
    this.#begin(this.#quiz.seed, this.#first);
  }

  /** @returns {Kept | null} */
  #kept() {
    const kept = /** @type {Kept | null} */ (storeOf(this.#quiz.course).get(this.#key));
    return kept && Array.isArray(kept.given) && Array.isArray(kept.digests) ? kept : null;
  }

  /**
   * @param {Kept | null} kept
   * @param {boolean} [move] whether to take the reader along
   */
  #pickUp(kept, move = false) {
    if (!kept) return this.#beginFirst();
    const { seed, digests, given, at } = kept;
    return this.#reach(() => this.#drawn(seed), this.#afresh(), (asked) => {
      const same = asked.length === digests.length && asked.every(({ item }, index) => item.digest === digests[index]);
      if (same) this.#begin(seed, asked, given, Number(at) || 0);
      else {
        this.#note(say("The questions have changed since you were here, so the quiz starts afresh."));
        this.#beginFirst();
      }
      if (move) this.#arrive();
    });
  }

  /**
   * Single questions, apart from what is kept of the quiz.
   * @param {string[]} ids
   */
  #askSingle(ids) {
    const { quiz } = this.#quiz;
    const toQuiz = make("a", { href: `${quiz}.html` }, say("Go to the quiz"));
    this.#reach(() => named(quiz, ids, this.#first), toQuiz, (asked) => {
      const gone = say("A question that you chose is no longer in this quiz.");
      if (!asked.length) this.#tell(gone, toQuiz);
      else {
        if (asked.length < ids.length) this.#note(gone);
        this.#begin(0, asked);
      }
    });
  }

  /**
   * Begins with questions that may have to be fetched. Until they are here nothing can be answered, so that
   * nothing is written over what is kept.
   * @param {() => Promise<Asked[]>} fetch
   * @param {Element} other what the learner can do where they cannot be reached
   * @param {(asked: Asked[]) => void} begin
   */
  #reach(fetch, other, begin) {
    const again = () => this.#reach(fetch, other, (asked) => {
      begin(asked);
      this.#arrive();
    });
    const fail = () => goTo(this.#tell(
      say("The questions cannot be reached now. Try again when you are online."),
      this.#button(say("Try again"), again),
      other,
    ));
    this.#tell(say("The questions are being fetched."));
    const turn = (this.#turn += 1);
    const onTime = (/** @type {(asked: Asked[]) => void} */ act) => (/** @type {Asked[]} */ asked) => {
      if (turn === this.#turn) act(asked);
    };
    fetch().then(onTime(begin), onTime(fail));
  }

  /**
   * Says something in place of a question.
   * @param {string} words
   * @param {...Element} ways on from here
   */
  #tell(words, ...ways) {
    const told = make("p", { role: "status" }, words);
    this.#screen.replaceChildren(told, make("p", { class: "onwards" }, ...ways));
    return told;
  }

  /** @param {string} words */
  #note(words) {
    this.#notes.append(make("p", { class: "changed", role: "status" }, words));
  }

  #afresh() {
    return this.#button(say("Leave them and start afresh"), () => {
      this.#beginFirst();
      this.#arrive();
    }, "quiet");
  }

  /** @param {string} query for the address of this page */
  #name(query) {
    history.replaceState(null, "", query || location.pathname);
  }

  #keep() {
    if (!this.#seed) return;
    /** @type {Kept} */
    const kept = { seed: this.#seed, digests: this.#asked.map(({ item }) => item.digest), at: this.#at, given: this.#given };
    storeOf(this.#quiz.course).set(this.#key, kept);
  }

  /**
   * @param {number} seed
   * @returns {Promise<Asked[]>}
   */
  async #drawn(seed) {
    return seed === this.#quiz.seed ? this.#first : drawn(this.#quiz.quiz, seed);
  }

  /**
   * Begins a draw that the learner chose.
   * @param {number} seed
   * @param {Element} other as for `#reach`
   */
  #draw(seed, other) {
    this.#reach(() => this.#drawn(seed), other, (asked) => {
      this.#begin(seed, asked);
      this.#name(`?draw=${seed}`);
      this.#keep();
      this.#arrive();
    });
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
    goTo(this.#screen.querySelector("h2"), this.#screen);
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
    this.#screen.replaceChildren(this.#progress(), this.#left.get(this.#at) ?? this.#question(), this.#moves());
    return undefined;
  }

  #question() {
    const question = copy(this.#asked[this.#at].row, "-now");
    const screen = make("section", { class: "question" }, ...question.childNodes);
    const form = screen.querySelector("form");
    const reason = screen.querySelector("details.reason");
    if (!form || !reason) return screen;
    if (this.#given[this.#at]) this.#showAnswered(screen, form, reason);
    else {
      this.#ask(form, reason);
      this.#left.set(this.#at, screen);
    }
    return screen;
  }

  #progress() {
    const words = say("Question {number} of {of}", { number: this.#at + 1, of: this.#asked.length });
    const ticks = this.#given.map((given, index) => {
      const state = given ? (isHeld(this.#mark(index)) ? "held" : "missed") : "open";
      return make("span", { class: `tick ${state}${index === this.#at ? " here" : ""}` });
    });
    return make(
      "div",
      { class: "progress" },
      make("p", {}, words, " ", make("span", { class: "soft" }, say("{answered} answered", { answered: this.#given.filter(Boolean).length }))),
      this.#seed ? "" : make("p", { class: "soft" }, single()),
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
    this.#left.delete(this.#at);
    const mark = share(this.#mark(this.#at));
    const { course, quiz } = this.#quiz;
    const attempt = { kind: /** @type {const} */ ("question"), id: item.id, digest: item.digest, at: new Date().toISOString(), objective: item.objective, mark, quiz };
    const drawn = this.#seed ? { seed: this.#seed } : {};
    const attempts = [{ ...attempt, ...drawn, ...(given.certainty ? { certainty: given.certainty } : {}) }];
    remember(storeOf(course), course, this.#seed && this.#given.every(Boolean) ? [...attempts, this.#whole(attempt.at)] : attempts);
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
    answered(form, reason, this.#given[this.#at]?.answer);
    form.after(make("p", { class: "feedback" }, this.#told(this.#at)));
    const last = this.#given.every(Boolean);
    screen.append(this.#button(last ? say("See the result") : say("Go on"), () => this.#goOn()));
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
    const outcomes = this.#asked.map(({ item }, index) => ({ objective: item.objective, held: isHeld(this.#mark(index)) }));
    const rows = this.#asked.map((_, index) => this.#closed(index));
    const { quiz, pass_mark: pass, objectives, record } = this.#quiz;
    const draws = this.#seed > 0 && this.#quiz.more;
    const draw = (/** @type {number} */ seed) => this.#draw(seed, this.#button(say("Back"), () => this.#show(), "quiet"));
    const [chance] = crypto.getRandomValues(new Uint32Array(1));
    const missed = this.#asked.filter((_, index) => !outcomes[index].held).map(({ item }) => item.id);
    const onwards = make(
      "p",
      { class: "onwards" },
      draws ? this.#button(say("Draw new questions"), () => draw(2 + (chance % 9998))) : "",
      this.#button(say("Answer these again"), () => this.#again(), draws ? "quiet" : ""),
      missed.length ? make("a", { href: `?ask=${missed.map(encodeURIComponent)}` }, say("Answer the missed ones again")) : "",
      ...(this.#seed ? [] : [make("a", { href: `${quiz}.html` }, say("Go to the quiz")), make("a", { href: record }, say("My record"))]),
    );
    this.#screen.replaceChildren(result({
      marks: this.#marks(), full: this.#full, pass, answered: outcomes, objectives, rows, onwards,
      seed: this.#seed, draw: draws ? draw : null,
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
    if (form && reason) answered(form, reason, this.#given[index]?.answer);
    const stem = make("span", { class: "place" }, inside.querySelector(".stem")?.textContent?.trim() ?? "");
    const asked = make("span", { class: "asked" }, inside.querySelector("h2")?.textContent ?? "");
    return make("li", {}, make("details", {}, make("summary", {}, stem, asked, this.#told(index)), ...inside.childNodes));
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

/** @param {number} mark */
const signed = (mark) => (mark > 0 ? `+${mark}` : `${mark}`.replace("-", "\u2212"));
