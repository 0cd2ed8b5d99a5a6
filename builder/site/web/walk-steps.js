/** The steps of a walk as rows, each a copy of the pattern that the builder wrote. */

import { decidedLine, shortly, whoLine } from "./asked-about.js";
import { ask, closed, foldWhy, showAnswered, showVerdict } from "./card.js";
import { copy, make } from "./dom.js";
import { told, verdictOn } from "./signs.js";
import { say } from "./words.js";

/** @typedef {import("./plumb.js").Verdict} Verdict */
/** @typedef {import("./tree.js").WalkData} WalkData */

export class WalkSteps {
  /** @type {WalkData} */
  #walk;
  /** Step to how the builder wrote it. @type {Map<string, HTMLElement>} */
  #patterns;

  /**
   * @param {WalkData} walk
   * @param {Iterable<HTMLElement>} patterns
   */
  constructor(walk, patterns) {
    this.#walk = walk;
    this.#patterns = new Map([...patterns].map((pattern) => [pattern.dataset.step ?? "", pattern]));
  }

  /**
   * @param {string} step
   * @param {string} pick
   * @returns {Verdict} by the key alone
   */
  verdict(step, pick) {
    const option = this.#option(step, pick);
    return verdictOn(option?.best ?? false, option?.harm ?? "none");
  }

  /**
   * A step that waits for an answer, with what it asks about before its answers. Everything else that was found stands
   * below, so that nothing comes between a question and its answers.
   * @param {string} step
   * @param {string[]} path the steps before it
   * @param {(given: import("./card.js").Given) => void} answer
   * @param {AbortSignal} signal
   * @param {(names: string[]) => Element[]} [asked] what stands for the readings where they are asked for
   */
  waiting(step, path, answer, signal, asked) {
    const row = this.row(step, path.length);
    row.classList.add("now");
    if (path.length) row.prepend(...whoLine());
    const names = this.reads(step);
    const between = asked && names.length ? asked(names) : shortly(names);
    row.querySelector("legend")?.after(...between, ...decidedLine(this.#decided(row, path)));
    ask(row, answer, { signal });
    return row;
  }

  /**
   * The last step answered, its reason to be read.
   * @param {string} step
   * @param {number} place
   * @param {string} pick
   * @param {Element[]} onwards
   * @param {Element} verdict
   * @param {{more: Element[], open: boolean}} [asked] where readings are asked for: what is told of what was decided
   *   too soon, and whether some that the step reads were not asked for
   */
  answered(step, place, pick, onwards, verdict, asked = { more: [], open: false }) {
    const row = this.row(step, place);
    row.classList.add("now");
    const reasons = this.#answer(row, step, pick);
    if (asked.open) this.#withhold(reasons, asked.more.length > 0 && this.verdict(step, pick) === "held");
    showVerdict(row, verdict);
    row.querySelector(".feedback")?.after(...asked.more);
    row.append(make("p", { class: "onwards" }, ...onwards));
    return row;
  }

  /**
   * Reasons name readings that the learner may still ask for, so they wait for the end.
   * @param {Element | null} reasons
   * @param {boolean} all
   */
  #withhold(reasons, all) {
    if (all) return reasons?.remove();
    for (const one of reasons?.querySelectorAll(":scope > .why, .replies > :not(.own)") ?? []) one.remove();
    reasons?.append(make("p", { class: "soft" }, say("The whole reason names readings that you have not asked for. It is shown at the end.")));
    return undefined;
  }

  /**
   * A step behind the learner, closed to one row.
   * @param {string} step
   * @param {number} place
   * @param {string} pick
   * @param {boolean} finished
   * @param {{verdict: Verdict, words: string, open: boolean}} judged
   */
  past(step, place, pick, finished, { verdict, words, open }) {
    const row = this.row(step, place);
    const reasons = this.#answer(row, step, pick, finished);
    if (open && !finished) this.#withhold(reasons, false);
    const said = row.querySelector(".chosen > span:not(.yours)")?.textContent ?? "";
    row.replaceChildren(closed(
      row,
      make("span", { class: "asked" }, row.querySelector("h3")?.textContent ?? ""),
      make("span", { class: "said" }, say("You: {answer}", { answer: said })),
      told(verdict, words),
    ));
    row.classList.add("past", verdict);
    return row;
  }

  /**
   * A fresh copy of a step as the builder wrote it.
   * @param {string} step
   * @param {number} place
   */
  row(step, place) {
    const pattern = this.#patterns.get(step);
    if (!pattern) throw new Error(`no step ${step}`);
    const row = copy(pattern, `-${place + 1}`);
    const title = row.querySelector("h3");
    row.querySelector(".place")?.remove();
    if (!row.querySelector(".end")) title?.prepend(make("span", { class: "place" }, say("Step {number}", { number: place + 1 })), " ");
    return row;
  }

  /** @param {string} step */
  title(step) {
    return textOf(this.#patterns.get(step)?.querySelector("h3"));
  }

  /**
   * The measures that a step reads.
   * @param {string} step
   */
  reads(step) {
    return this.#patterns.get(step)?.dataset.reads?.split(" ") ?? [];
  }

  /**
   * What was decided on the way that a step rests on, by the key.
   * @param {HTMLElement} row
   * @param {string[]} path
   */
  #decided(row, path) {
    const wanted = row.dataset.restsOn?.split(" ") ?? [];
    const on = path.filter((step) => wanted.includes(this.#walk.steps[step].table ?? ""));
    return on.map((step) => this.#patterns.get(step)?.querySelector(".key b")?.textContent ?? "");
  }

  /** The rows of the best way: what is asked, and what holds. */
  best() {
    return this.#walk.best_path.map((step) => {
      const pattern = this.#patterns.get(step);
      const best = new Set(this.#walk.steps[step].options.filter((option) => option.best).map(({ id }) => id));
      const answers = [...(pattern?.querySelectorAll("label") ?? [])].filter((label) => best.has(label.querySelector("input")?.value ?? ""));
      return make(
        "li",
        {},
        make("span", { class: "asked" }, textOf(pattern?.querySelector("h3"))),
        ...answers.map((answer) => make("span", { class: "said" }, textOf(answer))),
      );
    });
  }

  /**
   * The links to what some steps rest on, each once.
   * @param {string[]} steps
   */
  links(steps) {
    const links = steps.flatMap((step) => [...(this.#patterns.get(step)?.querySelectorAll(".again a") ?? [])]);
    return [...new Map(links.map((link) => [link.getAttribute("href"), link])).values()];
  }

  /**
   * @param {string} step
   * @param {string} pick
   */
  #option(step, pick) {
    return this.#walk.steps[step].options.find(({ id }) => id === pick);
  }

  /**
   * Puts an answer into a copied step and opens its reason.
   * @param {HTMLElement} row
   * @param {string} step
   * @param {string} pick
   * @param {boolean} [everything] shows the replies to answers not given too
   */
  #answer(row, step, pick, everything = false) {
    const reasons = showAnswered(row, pick);
    if (!reasons) return null;
    const best = this.#option(step, pick)?.best;
    if (!everything && !best) {
      for (const reply of reasons.querySelectorAll("[data-option]:not(.own)")) reply.remove();
      for (const caution of reasons.querySelectorAll("[data-opened-by]")) {
        if (!/** @type {HTMLElement} */ (caution).dataset.openedBy?.split(" ").includes(pick)) caution.remove();
      }
    }
    if (this.#walk.steps[step].kind === "decide" && !best) {
      reasons.append(make("p", { class: "follows" }, say("We go on from the right answer.")));
    }
    if (best && !everything) foldWhy(reasons);
    row.classList.add("answered");
    return reasons;
  }
}

/** @param {Element | null | undefined} element */
const textOf = (element) => {
  const twin = /** @type {Element | undefined} */ (element?.cloneNode(true));
  twin?.querySelector(".place")?.remove();
  return twin?.textContent?.trim() ?? "";
};
