/**
 * `<case-walk>`: a walk through an exercise, one step at a time.
 *
 * Without script every step stands on the page with its answer in a `<details>`. This element takes those steps
 * as patterns and lays them out as the learner goes: the steps behind as closed rows beside the plumb line, and
 * the one at hand. All that it remembers is the list of answers; everything shown follows from that.
 */

import { FORGOTTEN, remember, storeOf, tellWhenShut } from "./device.js";
import { copy, data, goTo, make } from "./dom.js";
import { percent, ratio, share } from "./marking.js";
import { answerOf, lock, restore, stillOpen } from "./question.js";
import { hangLine, told } from "./signs.js";
import { follow } from "./tree.js";
import { say } from "./words.js";

/** @typedef {import("./plumb.js").Verdict} Verdict */
/** @typedef {import("./tree.js").WalkData & {course: string, digest: string}} Walk */
/** @typedef {{digest: string, picks: string[], open: boolean, begun: boolean}} Kept `open`: the last answer's reason is still read; `begun`: see `narrow.js` */

export class CaseWalk extends HTMLElement {
  /** @type {AbortController} */
  #life = new AbortController();
  /** @type {Map<string, HTMLElement>} */
  #patterns = new Map();
  /** @type {Element | null} */
  #another = null;
  /** @type {HTMLElement | null} what the client's re-test shows */
  #later = null;
  /** @type {Walk} */
  #walk = data(this);
  /** @type {string[]} */
  #picks = [];
  #open = false;
  #soFar = make("ol", { class: "so-far" });
  #best = make("section", { class: "best-way", hidden: true });
  #notes = make("div", { class: "notes" });
  #shut = make("div");

  connectedCallback() {
    this.#life = new AbortController();
    if (!this.#patterns.size) this.#takePatterns();
    const store = storeOf(this.#walk.course);
    tellWhenShut(store, this.#shut);
    document.addEventListener(FORGOTTEN, () => this.#startAgain(), { signal: this.#life.signal });
    this.#pickUp(store.get(this.#key));
    this.#show();
    this.#leadBack(store.get("clients"));
  }

  disconnectedCallback() {
    this.#life.abort();
  }

  get #key() {
    return `walk:${this.dataset.key}`;
  }

  #takePatterns() {
    for (const step of this.querySelectorAll("[data-step]")) {
      this.#patterns.set(/** @type {HTMLElement} */ (step).dataset.step ?? "", /** @type {HTMLElement} */ (step));
    }
    this.#another = this.querySelector(".another");
    this.#another?.remove();
    this.#later = this.querySelector(".later");
    for (const part of this.querySelectorAll(":scope > .all-steps, :scope > .others")) part.remove();
    this.append(this.#notes, make("div", { class: "both-ways" }, this.#soFar, this.#best), this.#later ?? "");
  }

  /** @param {unknown} value what the store kept */
  #pickUp(value) {
    const kept = /** @type {Kept | null} */ (value);
    this.#picks = [];
    this.#open = false;
    try {
      if (kept?.digest !== this.#walk.digest) throw new RangeError("another walk");
      follow(this.#walk, kept.picks);
      this.#picks = kept.picks;
      this.#open = kept.open && kept.picks.length > 0;
      if (this.#begun) this.#sayResumed();
    } catch {
      // The answers kept, if any, belong to no way through this walk: it starts afresh.
      storeOf(this.#walk.course).drop(this.#key);
    }
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
    const again = this.#button(say("Start this walk again"), () => this.#startAgain(true), "quiet");
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
    const kept = { digest: this.#walk.digest, picks: this.#picks, open: this.#open, begun: this.#begun };
    storeOf(this.#walk.course).set(this.#key, kept);
  }

  /** @param {boolean} [move] whether to take the reader along */
  #startAgain(move = false) {
    storeOf(this.#walk.course).drop(this.#key);
    this.#later?.removeAttribute("open");
    this.#picks = [];
    this.#open = false;
    this.#endResumed();
    this.#show();
    if (move) goTo(this.#soFar.querySelector("h3"));
  }

  #show() {
    const { path, done } = follow(this.#walk, this.#picks);
    const finished = done && !this.#open;
    const behind = this.#open ? this.#picks.length - 1 : this.#picks.length;
    const rows = this.#picks.slice(0, behind).map((pick, index) => this.#past(path[index], pick, index, finished));
    const verdicts = this.#picks.slice(0, behind).map((pick, index) => this.#verdict(path[index], pick));
    rows.push(finished ? this.#end(path[behind]) : this.#now(path[behind], behind));
    this.#soFar.replaceChildren(...rows);
    hangLine(rows, verdicts);
    this.#showBest(finished);
    if (this.#later) this.#later.hidden = !finished;
    this.#placeShut();
  }

  /** That nothing can be kept is told where the learner is when it first happens, from then on above the steps. */
  #placeShut() {
    if (!this.#shut.firstChild) return;
    const here = !this.#shut.parentNode && this.#soFar.querySelector(".feedback, .working");
    if (here) here.after(this.#shut);
    else this.#notes.append(this.#shut);
  }

  /**
   * @param {string} step
   * @param {string} pick
   * @returns {Verdict}
   */
  #verdict(step, pick) {
    const option = this.#walk.steps[step].options.find(({ id }) => id === pick);
    if (option?.best) return "held";
    return option?.harm === "serious" || option?.harm === "minor" ? option.harm : "missed";
  }

  /**
   * A fresh copy of a step as the builder wrote it.
   * @param {string} step
   * @param {number} place
   */
  #copyOf(step, place) {
    const pattern = this.#patterns.get(step);
    if (!pattern) throw new Error(`no step ${step}`);
    const row = copy(pattern, `-${place + 1}`);
    const title = row.querySelector("h3");
    row.querySelector(".place")?.remove();
    if (!row.querySelector(".end")) title?.prepend(make("span", { class: "place" }, say("Step {number}", { number: place + 1 })), " ");
    return row;
  }

  /**
   * The step at hand: to be answered, or answered and its reason to be read.
   * @param {string} step
   * @param {number} place
   */
  #now(step, place) {
    const row = this.#copyOf(step, place);
    row.classList.add("now");
    const form = row.querySelector("form");
    const reason = row.querySelector("details.reason");
    if (!form || !reason) return row;
    if (this.#open) {
      this.#answered(row, form, reason, step, this.#picks[place]);
      const title = make("p", { class: "feedback" }, told(this.#verdict(step, this.#picks[place])));
      form.after(title);
      row.append(this.#button(say("Go on"), () => this.#goOn()));
      return row;
    }
    reason.remove();
    const open = make("p", { class: "open", role: "status" });
    this.#offerReadings(row, place);
    form.append(open, make("button", {}, say("Answer")));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const answer = answerOf(form);
      if (typeof answer === "string") this.#answer(answer);
      else open.textContent = stillOpen(form);
    }, { signal: this.#life.signal });
    return row;
  }

  /**
   * Puts an answer into a copied step and opens its reason.
   * @param {HTMLElement} row
   * @param {HTMLFormElement} form
   * @param {Element} reason
   * @param {string} step
   * @param {string} pick
   * @param {boolean} [everything] shows the replies to answers not given too
   */
  #answered(row, form, reason, step, pick, everything = false) {
    restore(form, pick);
    lock(form);
    const { kind, options } = this.#walk.steps[step];
    const chosen = options.find(({ id }) => id === pick);
    const answer = reason.querySelector(".answer");
    if (!answer) return;
    for (const reply of answer.querySelectorAll("[data-option]")) {
      const own = /** @type {HTMLElement} */ (reply).dataset.option === pick;
      reply.classList.toggle("own", own);
      if (!own && !everything && !chosen?.best) reply.remove();
    }
    for (const caution of answer.querySelectorAll("[data-opened-by]")) {
      const opens = /** @type {HTMLElement} */ (caution).dataset.openedBy?.split(" ").includes(pick);
      if (!opens && !everything && !chosen?.best) caution.remove();
    }
    if (kind === "decide" && !chosen?.best) {
      answer.append(make("p", { class: "follows" }, say("The walk goes on with what holds.")));
    }
    reason.replaceWith(answer);
    row.classList.add("answered");
  }

  /**
   * The client's readings stay one tap away: after the question, which has the focus, and before its answers.
   * @param {HTMLElement} row
   * @param {number} place
   */
  #offerReadings(row, place) {
    const readings = document.querySelector("[data-readings]");
    if (!readings) return;
    const shown = copy(readings, `-again-${place + 1}`);
    shown.removeAttribute("data-readings");
    row.querySelector("legend")?.after(make("details", { class: "readings" }, make("summary", {}, say("Look at the readings")), shown));
  }

  /**
   * A step behind the learner, closed to one row.
   * @param {string} step
   * @param {string} pick
   * @param {number} place
   * @param {boolean} finished
   */
  #past(step, pick, place, finished) {
    const row = this.#copyOf(step, place);
    const form = row.querySelector("form");
    const reason = row.querySelector("details.reason");
    if (form && reason) this.#answered(row, form, reason, step, pick, finished);
    const asked = row.querySelector("h3");
    const said = row.querySelector(".chosen > span:not(.yours)")?.textContent ?? "";
    const verdict = this.#verdict(step, pick);
    const summary = make(
      "summary",
      {},
      make("span", { class: "asked" }, asked?.textContent ?? ""),
      make("span", { class: "said" }, say("You: {answer}", { answer: said })),
      told(verdict),
    );
    const inside = make("details", {}, summary, ...row.childNodes);
    row.replaceChildren(inside);
    row.classList.add("past", verdict);
    return row;
  }

  /**
   * The end, what the walk is worth, and where to go from here.
   * @param {string} step
   */
  #end(step) {
    const row = this.#copyOf(step, this.#picks.length);
    const result = follow(this.#walk, this.#picks);
    const missed = result.steps.filter(({ held }) => !held).map(({ step }) => step);
    const again = missed.flatMap((name) => [...(this.#patterns.get(name)?.querySelectorAll(".again a") ?? [])]);
    const onwards = make("p", { class: "onwards" });
    if (this.#picks.length) onwards.append(this.#button(say("Walk it again"), () => this.#startAgain(true)), " ");
    const other = this.#another?.querySelector("a");
    if (other) onwards.append(copy(other, ""));
    row.classList.add("now", "ended");
    if (this.#picks.length) {
      row.querySelector("h3")?.after(...worth(this.#walk, result));
      row.append(...readAgain(again));
    }
    if (onwards.childNodes.length) row.append(onwards);
    return row;
  }

  /** @param {boolean} finished */
  #showBest(finished) {
    this.#best.hidden = !finished || !this.#picks.length || !this.#walk.best_path.length;
    if (this.#best.hidden) return this.#best.replaceChildren();
    const rows = this.#walk.best_path.map((name) => {
      const { options } = this.#walk.steps[name];
      const pattern = this.#patterns.get(name);
      const best = new Set(options.filter((option) => option.best).map(({ id }) => id));
      const answers = [...(pattern?.querySelectorAll("label") ?? [])].filter((label) => best.has(label.querySelector("input")?.value ?? ""));
      return make(
        "li",
        {},
        make("span", { class: "asked" }, textOf(pattern?.querySelector("h3"))),
        ...answers.map((answer) => make("span", { class: "said" }, textOf(answer))),
      );
    });
    hangLine(rows, rows.slice(1).map(() => "held"));
    this.#best.replaceChildren(make("h3", {}, say("The best way")), make("ol", { class: "so-far" }, ...rows));
    return undefined;
  }

  /** @param {string} pick */
  #answer(pick) {
    this.#picks = [...this.#picks, pick];
    this.#open = true;
    this.#moved();
    goTo(this.#soFar.querySelector(".feedback"));
  }

  #goOn() {
    this.#open = false;
    const result = follow(this.#walk, this.#picks);
    if (result.done) this.#record(result);
    this.#moved();
    goTo(this.#soFar.querySelector(".now h3"));
  }

  #moved() {
    this.#endResumed();
    this.#keep();
    this.#show();
  }

  /** @param {import("./tree.js").WalkMark} result */
  #record(result) {
    const { course, exercise, digest } = this.#walk;
    const id = [exercise, this.#walk.case].filter(Boolean).join("/");
    const at = new Date().toISOString();
    const harm = result.serious ? "serious" : result.steps.some((step) => step.harm === "minor") ? "minor" : "none";
    const steps = result.steps.filter(({ objective }) => objective).map(({ step, held, objective }) => ({
      kind: /** @type {const} */ ("step"), id: `${id}/${step}`, digest, at, objective: objective ?? "", mark: held ? 1 : 0,
    }));
    remember(storeOf(course), course, [{ kind: "walk", id, digest, at, objective: "", mark: share(result.mark), harm, held: result.held }, ...steps]);
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

/** @param {Element | null | undefined} element */
const textOf = (element) => {
  const twin = /** @type {Element | undefined} */ (element?.cloneNode(true));
  twin?.querySelector(".place")?.remove();
  return twin?.textContent?.trim() ?? "";
};

/**
 * What a walk is worth, with its working.
 * @param {Walk} walk
 * @param {import("./tree.js").WalkMark} result
 */
function worth(walk, result) {
    const parts = [
    make("p", { class: "outcome" }, told(result.held ? "held" : result.serious ? "serious" : "missed", result.held ? say("This walk holds") : say("This walk does not hold yet"))),
    make("p", { class: "working" }, say("{held} of {of} steps held at the first answer: {share}%. The pass mark is {pass}%.", {
      held: result.heldSteps,
      of: result.of,
      share: percent(result.mark),
      pass: percent(ratio(...walk.pass_mark)),
    })),
  ];
  if (result.serious) {
    parts.push(make("p", { class: "harm" }, say("One answer could have done serious harm. That is why the walk does not hold, whatever its mark.")));
  }
  return parts;
}

/** @param {Element[]} links */
function readAgain(links) {
  const seen = new Map(links.map((link) => [link.getAttribute("href"), link]));
  if (!seen.size) return [];
  const items = [...seen.values()].map((link) => make("li", {}, copy(link, "")));
  return [make("h4", {}, say("Read again")), make("ul", { class: "read-again" }, ...items)];
}
