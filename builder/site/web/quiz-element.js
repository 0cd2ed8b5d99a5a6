/**
 * `<case-quiz>`: a quiz, one question a screen.
 *
 * Without script all questions of the first draw stand on the page, each with its answer in a `<details>`. This
 * element shows them one at a time, marks them, and draws others from the data files beside the page.
 *
 * An address may ask for more: `?draw=42` for the draw of that number, with `&until=2026-12-04` as a task until that day,
 * `?ask=ID,ID` for single questions, which count for the learner's record but make no quiz.
 */

import { isBegun } from "./begun.js";
import { ask, foldWhy, showAnswered, showVerdict } from "./card.js";
import { changed } from "./changed.js";
import { chance, remember, tellTrouble } from "./device.js";
import { button, copy, data, goTo, here, make } from "./dom.js";
import { drawn, named } from "./quiz-data.js";
import { part } from "./parts.js";
import { moves, progress, verdictOf } from "./quiz-screens.js";
import { Sitting } from "./sitting.js";
import { FORGOTTEN, storeOf } from "./store.js";
import { say } from "./words.js";

/** @typedef {import("./card.js").Given} Given */
/** @typedef {import("./quiz-data.js").Asked} Asked */
/**
 * @typedef {object} Page
 * @property {string} course
 * @property {number} seed of the draw that stands on the page
 * @property {Record<string, string>} objectives name to label
 * @property {import("./marking.js").ItemData[]} items
 * @property {boolean} more whether other draws can differ
 * @property {string} record where the learner's record stands
 * @property {string} task where the script stands that tells of a task
 * @property {string} result where the script stands that tells the result
 */
/** @typedef {Page & import("./sitting.js").Rules & import("./quiz-data.js").Source} Quiz */
/** @typedef {{seed: number, digests: string[], at: number, given: (Given | null)[], sitting?: string, task?: string}} Kept */

export class CaseQuiz extends HTMLElement {
  /** @type {AbortController} */
  #life = new AbortController();
  /** @type {Quiz} */
  #quiz = data(this);
  /** @type {Asked[]} */
  #first = [];
  /** @type {Asked[]} */
  #asked = [];
  #sitting = new Sitting(this.#quiz, 0, []);
  /** Counts what was begun or asked for, so that what comes late from the network begins nothing. */
  #turn = 0;
  /** The question on the screen; one past the last is the result. */
  #at = 0;
  /** When a sitting of some minutes ends, by the clock of this page. */
  #ends = Infinity;
  /** Questions not answered yet, as the learner left them. @type {Map<number, HTMLElement>} */
  #left = new Map();
  #screen = make("div", { class: "screen" });
  #notes = make("div", { class: "notes" });
  #moved = make("div");
  #task = make("div", { class: "task", role: "status" });

  connectedCallback() {
    this.#life = new AbortController();
    if (!this.#first.length) this.#takeRows();
    const store = storeOf(this.#quiz.course);
    const { signal } = this.#life;
    tellTrouble(store, this.#notes);
    // Single questions are no part of what was kept: they begin anew as they are.
    const isSingle = () => this.#asked.length > 0 && !this.#sitting.seed;
    document.addEventListener(FORGOTTEN, () => (isSingle() ? this.#begin(0, this.#asked) : this.#beginFirst()), { signal });
    // A page that comes back as it was left may know what was gone on with, or forgotten, since.
    addEventListener("pageshow", ({ persisted }) => persisted && !isSingle() && this.#open(), { signal });
    this.#open();
  }

  disconnectedCallback() {
    this.#life.abort();
  }

  get #key() {
    return `quiz:${this.dataset.key}`;
  }

  #takeRows() {
    const list = this.querySelector(".questions");
    const rows = /** @type {HTMLElement[]} */ ([...(list?.children ?? [])]);
    this.#first = this.#quiz.items.map((item, index) => ({ item, row: rows[index] }));
    list?.remove();
    this.append(this.#task, this.#moved, this.#screen, this.#notes);
    // The question comes first; what is told of the quiz stands below it.
    this.append(...document.querySelectorAll(".beforehand"));
  }

  /** What the address asks for, else what was under way. */
  #open() {
    const address = new URLSearchParams(location.search);
    const ids = address.get("ask");
    if (ids) return this.#askSingle([...new Set(ids.split(","))]);
    const seed = Number(/^[1-9]\d{0,3}$/.exec(address.get("draw") ?? ""));
    if (!address.has("until")) return this.#openDraw(this.#quiz.more ? seed : 0);
    return part(this.#quiz.task, "task").then(({ taskOf, odd }) => {
      const task = taskOf(address, this.#quiz);
      if (!task) this.#note(odd());
      this.#openDraw(task && seed, task);
    }, () => this.#openDraw(0));
  }

  /**
   * @param {number | ""} seed of the draw that is asked for; nothing for what was under way
   * @param {string} [task] that it answers
   */
  #openDraw(seed, task) {
    const kept = this.#kept();
    if (!seed || seed === kept?.seed) return this.#pickUp(kept, false, task);
    if (!kept || !isBegun(kept.given)) {
      return this.#reach(() => this.#drawn(seed), this.#afresh(), (asked) => this.#begin(seed, asked, task));
    }
    const goOn = this.#button(say("Go on with them"), () => {
      this.#name("");
      this.#pickUp(kept, true);
    });
    const leave = this.#button(say("Leave them for number {seed}", { seed }), () => this.#draw(seed, goOn, task), "quiet");
    this.#tell(say("Other questions are under way, drawn with number {seed}.", { seed: kept.seed }), goOn, leave);
    return undefined;
  }

  /**
   * @param {number} seed
   * @param {Asked[]} asked
   * @param {string} [task] that it answers
   * @param {(Given | null)[]} [given]
   * @param {number} [at]
   * @param {string} [name] of the sitting
   */
  #begin(seed, asked, task = "", given = [], at = 0, name = chance()) {
    this.#turn += 1;
    this.#asked = asked;
    this.#sitting = new Sitting(this.#quiz, seed, asked.map(({ item }) => item), given, name, task);
    this.#at = Math.min(Math.max(0, at), asked.length);
    this.#left.clear();
    const { course } = this.#quiz;
    this.#moved.replaceChildren(...changed(storeOf(course), course, asked.map(({ item: { id, key_digest: key, digest, stops, harm }, row }) => ({
      id, key, digest, words: row.querySelector("h2")?.textContent ?? id, first: stops.length > 0 || Object.values(harm).includes("serious"),
    }))));
    this.#show();
  }

  #beginFirst() {
    this.#begin(this.#quiz.seed, this.#first);
  }

  /** What the learner is asked for, if anything. */
  #tellTask() {
    const sitting = this.#sitting;
    this.#task.replaceChildren();
    if (sitting.task) {
      part(this.#quiz.task, "task").then(
        ({ notice }) => sitting === this.#sitting && this.#task.replaceChildren(...notice(sitting, this.#quiz)),
        () => {},
      );
    }
  }

  /** @returns {Kept | null} */
  #kept() {
    const kept = /** @type {Kept | null} */ (storeOf(this.#quiz.course).get(this.#key));
    return kept && Array.isArray(kept.given) && Array.isArray(kept.digests) ? kept : null;
  }

  /**
   * @param {Kept | null} kept
   * @param {boolean} [move] whether to take the reader along
   * @param {string} [asked] the task that the address names
   */
  #pickUp(kept, move = false, asked) {
    if (!kept) return this.#beginFirst();
    const { seed, digests, given, at, sitting, task = asked } = kept;
    return this.#reach(() => this.#drawn(seed), this.#afresh(), (asked) => {
      const same = asked.length === digests.length && asked.every(({ item }, index) => item.digest === digests[index]);
      if (same) this.#begin(seed, asked, task, given, Number(at) || 0, sitting);
      else {
        this.#note(say("The questions have changed, so the quiz starts afresh."));
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
    const toQuiz = this.#toQuiz();
    this.#reach(() => named(this.#quiz, ids, this.#first), toQuiz, (asked) => {
      const gone = say("A question that you chose is no longer in this quiz.");
      if (!asked.length) this.#tell(gone, toQuiz);
      else {
        if (asked.length < ids.length) this.#note(gone);
        const minutes = Number(new URLSearchParams(location.search).get("minutes"));
        if (minutes > 0) this.#ends = performance.now() + minutes * 60_000;
        // How many the quiz asks and where it is passed are no matter of single questions.
        for (const one of document.querySelectorAll(".rules, .asks")) one.remove();
        this.#begin(0, asked);
      }
    });
  }

  #toQuiz() {
    return make("a", { href: here() }, say("Go to the quiz"));
  }

  /**
   * Begins with what may have to be fetched. Until it is here nothing can be answered, so that nothing is written over
   * what is kept.
   * @template Found
   * @param {() => Promise<Found>} fetch
   * @param {Element} other what the learner can do where it cannot be reached
   * @param {(found: Found) => void} begin
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
    const onTime = (/** @type {(found: Found) => void} */ act) => (/** @type {Found} */ found) => {
      if (turn === this.#turn) act(found);
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
    history.replaceState(null, "", query || here());
  }

  #keep() {
    const { seed, items, given, name, task } = this.#sitting;
    if (!seed) return;
    /** @type {Kept} */
    const kept = { seed, digests: items.map(({ digest }) => digest), at: this.#at, given, sitting: name, ...(task && { task }) };
    storeOf(this.#quiz.course).set(this.#key, kept);
  }

  /**
   * @param {number} seed
   * @returns {Promise<Asked[]>}
   */
  async #drawn(seed) {
    return seed === this.#quiz.seed ? this.#first : drawn(this.#quiz, seed);
  }

  /**
   * Begins a draw that the learner chose.
   * @param {number} seed
   * @param {Element} other as for `#reach`
   * @param {string} [task]
   */
  #draw(seed, other, task) {
    this.#reach(() => this.#drawn(seed), other, (asked) => {
      this.#begin(seed, asked, task);
      if (!task) this.#name(`?draw=${seed}`);
      this.#keep();
      this.#arrive();
    });
  }

  #again() {
    this.#begin(this.#sitting.seed, this.#asked, this.#sitting.task);
    this.#keep();
    this.#arrive();
  }

  /** @param {number} at */
  #go(at) {
    this.#at = this.#endOnTime() ? this.#asked.length : at;
    this.#keep();
    this.#show(true);
  }

  /** Once its minutes are over, a sitting is what was answered in them: nothing that is open counts against anyone. */
  #endOnTime() {
    const { given, name } = this.#sitting;
    if (performance.now() < this.#ends || !given.some(Boolean)) return false;
    this.#ends = Infinity;
    const isAnswered = (/** @type {unknown} */ _, /** @type {number} */ index) => !!given[index];
    this.#note(say("The minutes are over. What is left comes another time."));
    this.#begin(0, this.#asked.filter(isAnswered), "", given.filter(isAnswered), given.length, name);
    return true;
  }

  #arrive() {
    const card = this.#screen.querySelector(".question") ?? this.#screen;
    goTo(card.querySelector("h2"), card, card.querySelector(".ask"));
  }

  /** @param {boolean} [move] whether to take the reader along */
  #show(move = false) {
    const { items } = this.#sitting;
    this.#tellTask();
    if (this.#at >= items.length) return this.#showResult(move);
    const way = (/** @type {string} */ words, /** @type {number} */ to) => this.#button(words, () => this.#go(to), "quiet");
    this.#screen.replaceChildren(
      progress(this.#sitting, this.#at),
      this.#left.get(this.#at) ?? this.#question(),
      moves(this.#sitting, this.#at, way),
    );
    if (move) this.#arrive();
    return undefined;
  }

  #question() {
    const card = make("section", { class: "question" }, ...copy(this.#asked[this.#at].row, "-now").childNodes);
    const answer = this.#sitting.given[this.#at]?.answer;
    if (answer) {
      const reasons = showAnswered(card, answer);
      if (reasons && this.#sitting.holds(this.#at)) foldWhy(reasons);
      showVerdict(card, verdictOf(this.#sitting, this.#at));
      const words = this.#sitting.isDone ? say("See the result") : say("Next");
      card.append(this.#button(words, () => this.#go(this.#sitting.next(this.#at))));
    } else {
      ask(card, (given) => this.#answer(given), { signal: this.#life.signal, certain: this.#sitting.certain });
      this.#left.set(this.#at, card);
    }
    return card;
  }

  /** @param {Given} given */
  #answer(given) {
    const { course } = this.#quiz;
    this.#left.delete(this.#at);
    remember(storeOf(course), course, this.#sitting.give(this.#at, given, new Date().toISOString()));
    this.#fetchResult().catch(() => {});
    this.#keep();
    this.#show();
    goTo(this.#screen.querySelector(".feedback"));
  }

  /** What tells the result is fetched while the quiz is answered. */
  #fetchResult() {
    return part(this.#quiz.result, "result");
  }

  /** @param {boolean} move */
  #showResult(move) {
    const sitting = this.#sitting;
    this.#reach(() => this.#fetchResult(), this.#button(say("Back"), () => this.#go(0), "quiet"), (tell) => {
      if (sitting === this.#sitting) this.#screen.replaceChildren(this.#result(tell));
      if (move) this.#arrive();
    });
  }

  /** @param {typeof import("./quiz-result.js")} tell */
  #result({ closedRow, result })  {
    const sitting = this.#sitting;
    const { objectives, record } = this.#quiz;
    const draws = sitting.seed > 0 && this.#quiz.more;
    const draw = (/** @type {number} */ seed) => this.#draw(seed, this.#button(say("Back"), () => this.#show(), "quiet"));
    const [any] = crypto.getRandomValues(new Uint32Array(1));
    const { missed } = sitting;
    const onwards = make(
      "p",
      { class: "onwards" },
      draws ? this.#button(say("Draw new questions"), () => draw(2 + (any % 9998))) : "",
      this.#button(say("Answer these again"), () => this.#again(), draws ? "quiet" : ""),
      missed.length ? make("a", { href: `?ask=${missed.map(encodeURIComponent)}` }, say("Answer the wrong ones again")) : "",
      ...(sitting.seed ? [] : [this.#toQuiz(), make("a", { href: record }, say("My record"))]),
    );
    const rows = this.#asked.map(({ row }, index) => closedRow(sitting, index, row));
    return result(sitting, { course: this.#quiz.course, objectives, rows, onwards, draw: draws ? draw : null });
  }

  /**
   * @param {string} words
   * @param {() => void} act
   * @param {string} [kind]
   */
  #button(words, act, kind) {
    return button(words, act, { signal: this.#life.signal, kind });
  }
}
