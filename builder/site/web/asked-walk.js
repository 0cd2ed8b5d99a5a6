/** A walk whose readings stay closed until the learner asks: what was asked, and what follows from it at each step. */

import { foundList, panel, takeReadings } from "./ask-panel.js";
import { inOneGo, isKnown, minutes, unsafeFor } from "./asking.js";
import { make } from "./dom.js";
import { verdictWords } from "./signs.js";
import { say } from "./words.js";

/** @typedef {import("./asking.js").AskData} AskData */
/** @typedef {import("./plumb.js").Verdict} Verdict */
/** @typedef {{measure: string, answer: string, right: boolean, harm: import("./marking.js").Harm}} Weighed what a client's words were taken for */
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
   * @param {(weighed?: Weighed) => void} changed told when something was asked or noted
   * @returns {Element[]}
   */
  between(names, changed) {
    const { measures } = this.#data;
    const last = this.#last === null ? [] : inOneGo(this.#data, this.#last);
    const own = this.#kept.asked.filter((number) => names.includes(measures[number].name) && !last.includes(number));
    return [
      ...(own.length ? [foundList(this.#data, this.#readings, this.#found, own)] : []),
      ...panel(this.#data, this.#readings, this.#found, {
        ask: (number) => {
          this.#kept.asked.push(...inOneGo(this.#data, number).filter((one) => !this.#kept.asked.includes(one)));
          this.#last = number;
          changed();
        },
        note: (number, value) => {
          this.#kept.noted[number] = value;
          this.#last = number;
          changed(weighed(measures[number], value));
        },
      }),
    ];
  }

  /**
   * Keeps how much was asked when a step was decided, and judges it.
   * @param {string} step
   * @param {number} place
   * @param {string} pick
   * @returns {{known?: boolean, unasked?: true}} as the record holds it
   */
  decide(step, place, pick) {
    this.#kept.when[place] = this.#kept.asked.length;
    this.#last = null;
    const { known, twin } = this.#judged(step, place, pick);
    return { ...(this.#data.steps[step] && { known }), ...(twin && { unasked: true }) };
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
   * The verdict on an answer, by what had been asked.
   * @param {string} step
   * @param {number} place
   * @param {string} pick
   * @param {Verdict} verdict by the key alone
   * @returns {{verdict: Verdict, words: string}}
   */
  verdict(step, place, pick, verdict) {
    const { known, twin } = this.#judged(step, place, pick);
    if (twin) return { verdict: "serious", words: verdict === "held" ? say("Right for this client, and unsafe: not enough asked") : say("Not right, and unsafe: not enough asked") };
    return { verdict, words: known || verdict !== "held" ? verdictWords(verdict) : say("Right, not yet known") };
  }

  /**
   * What is told of what was decided too soon.
   * @param {string} step
   * @param {number} place
   * @param {string} pick
   * @param {boolean} right
   * @returns {Element[]}
   */
  tooSoon(step, place, pick, right) {
    const { known, twin } = this.#judged(step, place, pick);
    if (twin) return [this.#twin(twin)];
    return known || !right ? [] : [make("p", {}, say("What you asked does not settle it. Other clients give the same answers and are decided otherwise."))];
  }

  /**
   * Whether some of these measures were not asked for.
   * @param {string[]} names
   */
  isOpen(names) {
    return names.some((name) => this.#data.measures.some((one, number) => one.name === name && !this.#kept.asked.includes(number)));
  }

  /** @param {import("./asking.js").Twin} twin */
  #twin({ change, right }) {
    return make(
      "div",
      { class: "twin" },
      make("p", {}, say("Another client could give the same answers to all that you asked. This answer would harm them:")),
      make("ul", {}, ...change.map(([label, reading]) => make("li", {}, `${label}: `, make("b", {}, reading)))),
      ...(right ? [make("p", {}, say("Right for them: {answer}.", { answer: right }))] : []),
    );
  }

  /**
   * How many decisions were made before they were known.
   * @param {string[]} path
   * @param {string[]} picks
   */
  early(path, picks) {
    return picks.filter((pick, place) => !this.#judged(path[place], place, pick).known).length;
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
   * @param {{safe: boolean, early: number}} asked of these decisions, as `isSafe` and `early` tell
   * @param {number} of decisions
   * @returns {Element[]}
   */
  worth({ safe, early }, of) {
    const { least } = this.#data;
    const spent = minutes(this.#data, this.#kept.asked);
    return [
      ...(safe ? [] : [make("p", { class: "harm" }, say("You decided before you had asked enough to be safe. So this is not passed, whatever the mark."))]),
      make("p", { class: "soft" }, least === null ? say("Asking took {spent} min.", { spent }) : say("Asking took {spent} min; {least} min are enough for every decision here. To ask more may be wise, and costs no mark.", { spent, least })),
      ...(early ? [make("p", {}, say("Decided before it was known: {early} of {of}. That is guessing: other clients give the same answers and are decided otherwise.", { early, of }))] : []),
      make("p", { class: "soft" }, say("Each step above opens to its whole reason.")),
    ];
  }
}

/**
 * @param {import("./asking.js").Askable} measure
 * @param {number} value
 * @returns {Weighed | undefined}
 */
function weighed({ name, values, key }, value) {
  const [answer, harm] = values?.[value] ?? [];
  return answer === undefined || harm === undefined ? undefined : { measure: name, answer, right: value === key, harm };
}
