/** A walk whose readings stay closed until the learner asks: what was asked, and what follows from it at each step. */

import { foundList, panel, takeReadings } from "./ask-panel.js";
import { isKnown, minutes, unsafeFor } from "./asking.js";
import { make } from "./dom.js";
import { told } from "./signs.js";
import { say } from "./words.js";

/** @typedef {import("./asking.js").AskData} AskData */
/** @typedef {{asked: number[], noted: Record<number, number>, when: number[], earlier: Record<number, string[]>}} Kept `when`: how much was asked when each step was decided; `earlier`: what was answered there before the learner asked on */

export class AskedWalk {
  /** @type {AskData} */
  #data;
  #readings;
  /** @type {Kept} */
  #kept;
  /** @type {number | null} */
  #last = null;
  #place;

  /**
   * @param {AskData} data
   * @param {Element} place where the page shows the readings; what was found stands there from now on
   */
  constructor(data, place) {
    this.#data = data;
    this.#place = make("div", {});
    place.before(this.#place);
    this.#readings = takeReadings(place);
    this.#kept = this.#fresh();
  }

  /** @returns {Kept} */
  #fresh() {
    return { asked: [...this.#data.told], noted: {}, when: [], earlier: {} };
  }

  get kept() {
    return this.#kept;
  }

  get earlier() {
    return this.#kept.earlier;
  }

  /** @param {Kept} [kept] nothing where the walk is begun */
  take(kept) {
    this.#kept = kept ?? this.#fresh();
    this.#last = null;
  }

  /** Shows all that was found, where the page shows readings. */
  showFound() {
    this.#place.replaceChildren(foundList(this.#data, this.#readings, this.#found, this.#kept.asked));
  }

  get #found() {
    return { ...this.#kept, last: this.#last };
  }

  /**
   * What stands between a question and its answers.
   * @param {string[]} names the measures that the question reads
   * @param {() => void} changed told when something was asked or noted
   * @returns {Element[]}
   */
  between(names, changed) {
    const { measures } = this.#data;
    const own = this.#kept.asked.filter((number) => names.includes(measures[number].name) && number !== this.#last);
    return [
      ...(own.length ? [foundList(this.#data, this.#readings, this.#found, own)] : []),
      ...panel(this.#data, this.#readings, this.#found, {
        ask: (number) => {
          if (!this.#kept.asked.includes(number)) this.#kept.asked.push(number);
          this.#last = number;
          changed();
        },
        note: (number, value) => {
          this.#kept.noted[number] = value;
          this.#last = number;
          changed();
        },
      }),
    ];
  }

  /**
   * Keeps how much was asked when a step was decided.
   * @param {string} step
   * @param {number} place
   * @returns {{known?: boolean}}
   */
  decide(step, place) {
    this.#kept.when[place] = this.#kept.asked.length;
    this.#last = null;
    const one = this.#data.steps[step];
    return one ? { known: isKnown(one, this.#kept.asked) } : {};
  }

  /**
   * Asks on at a step that was decided too soon.
   * @param {number} place
   * @param {string} pick
   */
  askOn(place, pick) {
    this.#kept.earlier[place] = [...(this.#kept.earlier[place] ?? []), pick];
  }

  /**
   * @param {string} step
   * @param {number} place
   * @param {string} pick
   */
  #judged(step, place, pick) {
    const one = this.#data.steps[step];
    const asked = this.#kept.asked.slice(0, this.#kept.when[place]);
    return one ? { known: isKnown(one, asked), twin: unsafeFor(one, pick, asked) } : { known: true, twin: undefined };
  }

  /**
   * What was decided too soon: in place of the verdict, and what is told of it.
   * @param {string} step
   * @param {number} place
   * @param {string} pick
   * @param {boolean} right
   * @returns {{verdict: Element | null, more: Element[]} | null} null where nothing is to be told
   */
  tooSoon(step, place, pick, right) {
    const { known, twin } = this.#judged(step, place, pick);
    if (twin) {
      const verdict = right ? told("serious", say("Right for this client, and unsafe: you had not asked enough")) : null;
      return { verdict, more: [this.#twin(twin)] };
    }
    if (known || !right) return null;
    return { verdict: told("held", say("Right, not yet known")), more: [make("p", {}, say("What you asked does not settle it: other clients answer alike and are decided otherwise."))] };
  }

  /** @param {import("./asking.js").Twin} twin */
  #twin({ change, right }) {
    return make(
      "div",
      { class: "twin" },
      make("p", {}, say("Someone else answers alike to all that you asked, and would come to harm by this answer:")),
      make("ul", {}, ...change.map(([label, reading]) => make("li", {}, `${label}: `, make("b", {}, reading)))),
      ...(right ? [make("p", {}, say("Right for them: {answer}.", { answer: right }))] : []),
    );
  }

  /**
   * Whether no decision stands for which too little was asked to be safe.
   * @param {string[]} path
   * @param {string[]} picks
   */
  isSafe(path, picks) {
    return !picks.some((pick, place) => this.#judged(path[place], place, pick).twin);
  }

  /**
   * What the asking was worth, at the end.
   * @param {string[]} path
   * @param {string[]} picks
   * @returns {Element[]}
   */
  worth(path, picks) {
    const { least } = this.#data;
    const spent = minutes(this.#data, this.#kept.asked);
    const early = picks.filter((pick, place) => !this.#judged(path[place], place, pick).known).length;
    return [
      ...(this.isSafe(path, picks) ? [] : [make("p", { class: "harm" }, told("serious", say("You decided before you had asked enough to be safe. Not passed yet.")))]),
      make("p", { class: "soft" }, least === null ? say("Asking took {spent} min.", { spent }) : say("Asking took {spent} min; {least} min are enough for every decision here. It costs no mark.", { spent, least })),
      ...(early ? [make("p", { class: "soft" }, say("Decided before it was known: {early} of {of}.", { early, of: picks.length }))] : []),
    ];
  }
}
