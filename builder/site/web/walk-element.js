/**
 * `<case-walk>`: a walk through an exercise, one step at a time.
 *
 * Without script every step stands on the page with its answer in a `<details>`. This element takes those steps
 * as patterns and lays them out as the learner goes: the steps behind as closed rows beside the plumb line, and
 * the one at hand. All that it remembers is the list of answers; everything shown follows from that.
 */

import { changed } from "./changed.js";
import { chance, remember, tellTrouble } from "./device.js";
import { button, copy, data, goTo, make } from "./dom.js";
import { unfold } from "./folded.js";
import { part } from "./parts.js";
import { hangLine, told, verdictWords } from "./signs.js";
import { attemptAt, follow, heardAs, nameOf, whole } from "./tree.js";
import { readAgain, worth } from "./walk-end.js";
import { WalkSteps } from "./walk-steps.js";
import { FORGOTTEN, storeOf } from "./store.js";
import { say } from "./words.js";

/** @typedef {import("./tree.js").WalkData & {course: string, digest: string, ask?: import("./asking.js").AskData}} Walk */
/** @typedef {{digest: string, picks: string[], open: boolean, begun: boolean, sitting?: string, ask?: import("./asked-walk.js").Kept}} Kept `open`: the last answer's reason is still read; `begun`: see `narrow.js` */

export class CaseWalk extends HTMLElement {
  /** @type {AbortController} */
  #life = new AbortController();
  /** @type {Element | null} */
  #another = null;
  /** What waits for the end: the client's re-test, and drills. @type {HTMLElement[]} */
  #later = [];
  /** @type {Walk} */
  #walk = data(this);
  #steps = new WalkSteps(this.#walk, []);
  /** @type {string[]} */
  #picks = [];
  #open = false;
  #sitting = "";
  #soFar = make("ol", { class: "so-far" });
  #best = make("section", { class: "best-way", hidden: true });
  #notes = make("div", { class: "notes" });
  #told = make("div");
  /** Where readings are asked for. @type {import("./asked-walk.js").AskedWalk | null} */
  #asked = null;

  connectedCallback() {
    this.#life = new AbortController();
    const { asking } = this.dataset;
    const readings = document.querySelector("[data-readings]");
    if (!asking || !readings || !this.#walk.ask) return this.#begin();
    // Where the script cannot be reached, readings lie open as in any other walk.
    part(asking, "asking").then(({ AskedWalk }) => {
      if (this.#walk.ask) this.#asked = new AskedWalk(this.#walk.ask, readings);
    }, () => {}).then(() => this.isConnected && this.#begin());
    return undefined;
  }

  #begin() {
    if (!this.contains(this.#soFar)) this.#takeSteps();
    const store = storeOf(this.#walk.course);
    const { signal } = this.#life;
    tellTrouble(store, this.#told);
    document.addEventListener(FORGOTTEN, () => this.#startAgain(), { signal });
    // A page that comes back as it was left may know what was gone on with, or forgotten, since.
    addEventListener("pageshow", ({ persisted }) => persisted && this.#pickUp(), { signal });
    this.#pickUp();
    this.#notes.before(...changed(store, this.#walk.course, Object.entries(this.#walk.steps).map(([name, { key_digest: key, stops, cautions }]) => ({
      id: `${nameOf(this.#walk)}/${name}`, key, words: this.#steps.title(name), first: !!stops || cautions.length > 0,
    }))));
    this.#leadBack(store.get("clients"));
  }

  disconnectedCallback() {
    this.#life.abort();
  }

  get #key() {
    return `walk:${this.dataset.key}`;
  }

  /** What stands on the page becomes the patterns. */
  #takeSteps() {
    this.#steps = new WalkSteps(this.#walk, this.querySelectorAll(/** @type {"li"} */ ("[data-step]")));
    this.#another = this.querySelector(".another");
    this.#another?.remove();
    this.#later = [...this.querySelectorAll(/** @type {"details"} */ (".later"))];
    for (const part of this.querySelectorAll(":scope > .all-steps, :scope > .others")) part.remove();
    this.append(this.#notes, make("div", { class: "both-ways" }, this.#soFar, this.#best), ...this.#later, ...this.querySelectorAll(":scope > .about"));
    // The question comes first, and what was found after it: beside it on a desk, below it on a phone.
    const found = document.querySelector(".found");
    if (found && this.parentElement?.matches(".decide")) this.parentElement.after(found);
  }

  /** Takes up what the store kept. */
  #pickUp() {
    const store = storeOf(this.#walk.course);
    const kept = /** @type {Kept | null} */ (store.get(this.#key));
    this.#picks = [];
    this.#open = false;
    this.#asked?.take();
    this.#endResumed();
    try {
      if (kept?.digest !== this.#walk.digest) throw new RangeError("another walk");
      follow(this.#walk, kept.picks);
      this.#picks = kept.picks;
      this.#asked?.take(kept.ask);
      this.#sitting = kept.sitting ?? chance();
      this.#open = kept.open && kept.picks.length > 0;
      if (this.#begun) this.#sayResumed();
    } catch {
      // The answers kept, if any, belong to no way through this walk: it starts afresh.
      store.drop(this.#key);
    }
    this.#show();
  }

  /** Whether the walk is under way: something answered, the end not seen. */
  get #begun() {
    return this.#picks.length > 0 && (this.#open || !follow(this.#walk, this.#picks).done);
  }

  /** At the top of the page and above the steps. */
  #sayResumed() {
    const goOn = make("a", { class: "button", href: "#walk" }, say("Go on where you stopped"));
    goOn.addEventListener("click", (event) => {
      event.preventDefault();
      goTo(this.#soFar.querySelector(".now h3"));
    }, { signal: this.#life.signal });
    document.querySelector("h1")?.after(make("p", { class: "resumed" }, goOn));
    const again = this.#button(say("Start this client again"), () => this.#startAgain(true), "quiet");
    this.#notes.append(make("p", { class: "resumed" }, `${say("You were here before. Your answers are still here.")} `, again));
  }

  #endResumed() {
    for (const sign of document.querySelectorAll(".resumed")) sign.remove();
  }

  /**
   * The way back from a client leads to the list as it was last narrowed down.
   * @param {unknown} query
   */
  #leadBack(query) {
    const back = /** @type {HTMLAnchorElement | null} */ (document.querySelector(".above a"));
    if (this.#walk.case && back && typeof query === "string") back.search = query;
  }

  #keep() {
    /** @type {Kept} */
    const kept = { digest: this.#walk.digest, picks: this.#picks, open: this.#open, begun: this.#begun, sitting: this.#sitting, ...(this.#asked && { ask: this.#asked.kept }) };
    storeOf(this.#walk.course).set(this.#key, kept);
  }

  /** @param {boolean} [move] whether to take the reader along */
  #startAgain(move = false) {
    storeOf(this.#walk.course).drop(this.#key);
    for (const one of this.#later) one.removeAttribute("open");
    this.#picks = [];
    this.#open = false;
    this.#asked?.take();
    this.#endResumed();
    this.#show();
    if (move) goTo(this.#soFar.querySelector("h3"));
  }

  #show() {
    const { path, done } = follow(this.#walk, this.#picks);
    const tables = (/** @type {string[]} */ steps) => new Set(steps.map((step) => this.#walk.steps[step].table));
    const decided = tables(path.slice(0, this.#picks.length));
    for (const found of document.querySelectorAll("[data-readings]")) unfold(found, tables(Object.keys(this.#walk.steps)), decided);
    this.#asked?.showFound();
    const finished = done && !this.#open;
    const behind = this.#open ? this.#picks.length - 1 : this.#picks.length;
    const past = this.#picks.slice(0, behind);
    const judged = past.map((pick, index) => this.#judge(path[index], index, pick));
    const rows = past.map((pick, index) => this.#steps.past(path[index], index, pick, finished, judged[index]));
    rows.push(finished ? this.#end(path[behind]) : this.#now(path[behind], behind, path.slice(0, behind)));
    this.#soFar.replaceChildren(...rows);
    hangLine(rows, judged.map(({ verdict }) => verdict));
    this.#showBest(finished);
    for (const one of this.#later) one.hidden = !finished;
    this.#placeTold();
  }

  /**
   * The verdict on an answer, and whether some readings that its step reads are still closed.
   * @param {string} step
   * @param {number} place
   * @param {string} pick
   */
  #judge(step, place, pick) {
    const verdict = this.#steps.verdict(step, pick);
    const judged = this.#asked?.verdict(step, place, pick, verdict) ?? { verdict, words: verdictWords(verdict) };
    return { ...judged, open: this.#asked?.isOpen(this.#steps.reads(step)) ?? false };
  }

  /** What this device cannot do is told where the learner is when it first happens, from then on above the steps. */
  #placeTold() {
    if (!this.#told.firstChild) return;
    const here = !this.#told.parentNode && this.#soFar.querySelector(".feedback, .working");
    if (here) here.after(this.#told);
    else this.#notes.append(this.#told);
  }

  /**
   * The step at hand: to be answered, or answered and its reason to be read.
   * @param {string} step
   * @param {number} place
   * @param {string[]} path the steps before it
   */
  #now(step, place, path) {
    const asked = this.#asked;
    if (!this.#open) {
      const between = asked && ((/** @type {string[]} */ names) => asked.between(names, (weighed) => this.#found(weighed)));
      return this.#steps.waiting(step, path, (given) => this.#answer(given), this.#life.signal, between ?? undefined);
    }
    const pick = this.#picks[place];
    const { verdict, words, open } = this.#judge(step, place, pick);
    const more = asked?.tooSoon(step, place, pick, this.#steps.verdict(step, pick) === "held") ?? [];
    const askOn = more.length ? [this.#button(say("Ask on"), () => this.#askOn(place))] : [];
    const onwards = [...askOn, this.#button(say("Next"), () => this.#goOn(), more.length ? "quiet" : "")];
    return this.#steps.answered(step, place, pick, onwards, told(verdict, words), { more, open });
  }

  /**
   * Something was asked, or words were weighed.
   * @param {import("./asked-walk.js").Weighed} [weighed]
   */
  #found(weighed) {
    const { course } = this.#walk;
    if (weighed) remember(storeOf(course), course, [heardAs(this.#walk, weighed, new Date().toISOString())]);
    this.#keep();
    this.#show();
    goTo(this.#soFar.querySelector(".found-now"));
  }

  /**
   * The learner asks on and decides again.
   * @param {number} place
   */
  #askOn(place) {
    this.#asked?.askOn(place, this.#picks[place]);
    this.#picks = this.#picks.slice(0, place);
    this.#open = false;
    this.#moved();
    goTo(this.#soFar.querySelector(".now h3"));
  }

  /**
   * The end, what the walk is worth, and where to go from here.
   * @param {string} step
   */
  #end(step) {
    const row = this.#steps.row(step, this.#picks.length);
    const result = follow(this.#walk, this.#picks, this.#asked?.earlier);
    const onwards = make("p", { class: "onwards" });
    if (this.#picks.length) onwards.append(this.#button(say("Try it again"), () => this.#startAgain(true)), " ");
    const other = this.#another?.querySelector("a");
    if (other) onwards.append(copy(other, ""));
    row.classList.add("now", "ended");
    if (this.#picks.length) {
      const rash = this.#picks.flatMap((pick, place) => (this.#judge(result.path[place], place, pick).verdict === "serious" ? [result.path[place]] : []));
      const missed = [...result.steps.filter(({ held }) => !held).map(({ step }) => step), ...rash];
      const asked = { safe: this.#asked?.isSafe(result.path, this.#picks) ?? true, early: this.#asked?.early(result.path, this.#picks) ?? 0 };
      row.querySelector("h3")?.after(...worth(result, this.#walk.pass_mark, asked), ...(this.#asked?.worth(asked, this.#picks.length) ?? []));
      row.append(...readAgain(this.#steps.links(missed)));
    }
    if (onwards.childNodes.length) row.append(onwards);
    return row;
  }

  /** @param {boolean} finished */
  #showBest(finished) {
    const { path, steps } = follow(this.#walk, this.#picks, this.#asked?.earlier);
    // Whoever went the best way need not read it again.
    const went = steps.every(({ held }) => held) && path.join() === this.#walk.best_path.join();
    this.#best.hidden = !finished || !this.#picks.length || !this.#walk.best_path.length || went;
    if (this.#best.hidden) return this.#best.replaceChildren();
    const rows = this.#steps.best();
    hangLine(rows, rows.slice(1).map(() => "held"));
    this.#best.replaceChildren(make("h3", {}, say("The best way")), make("ol", { class: "so-far" }, ...rows));
    return undefined;
  }

  /**
   * What is answered is recorded at once, since a walk may be left.
   * @param {import("./card.js").Given} given
   */
  #answer({ answer, ms }) {
    const pick = `${answer}`;
    const { course } = this.#walk;
    if (!this.#picks.length) this.#sitting = chance();
    const place = this.#picks.length;
    const known = this.#asked?.decide(follow(this.#walk, this.#picks).at, place, pick);
    remember(storeOf(course), course, [attemptAt(this.#walk, this.#picks, pick, { at: new Date().toISOString(), sitting: this.#sitting, ms, ...known })]);
    this.#picks = [...this.#picks, pick];
    this.#open = true;
    this.#moved();
    goTo(this.#soFar.querySelector(".feedback"));
  }

  #goOn() {
    this.#open = false;
    const { course } = this.#walk;
    const asked = this.#asked && { earlier: this.#asked.earlier, safe: this.#asked.isSafe(follow(this.#walk, this.#picks).path, this.#picks) };
    const end = whole(this.#walk, this.#picks, { at: new Date().toISOString(), sitting: this.#sitting }, asked ?? undefined);
    if (end) remember(storeOf(course), course, [end]);
    this.#moved();
    const now = this.#soFar.querySelector(".now");
    goTo(now?.querySelector("h3"), now, now?.querySelector(".choices"));
  }

  #moved() {
    this.#endResumed();
    this.#keep();
    this.#show();
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
