/** `<case-record>`: the learner's record of one course, filled into a page that holds every explanation already. */

import { begunQuizzes, begunWalks } from "./begun.js";
import { FORGOTTEN, recordOf, storeOf, tellWhenShut } from "./device.js";
import { data, make } from "./dom.js";
import { LARGEST, csv, read } from "./exchange.js";
import { part } from "./parts.js";
import { merge } from "./record.js";
import { attemptsTable, byObjective, lookAgain, plan, quizzes, ready, underWay, walks, when } from "./record-views.js";
import { fill } from "./words.js";

/** @typedef {import("./record-views.js").RecordPage} RecordPage */

export class CaseRecord extends HTMLElement {
  #life = new AbortController();
  /** @type {RecordPage} */
  #page = { ...data(this), known: null, tell: (key, values = {}) => fill(this.#page.words[key], values) };

  connectedCallback() {
    this.#life = new AbortController();
    const { signal } = this.#life;
    const again = () => this.#show();
    document.querySelector(".unscripted")?.remove();
    tellWhenShut(this.#store, this.#slot(".notes"));
    this.#store.set("probe", 0);
    this.#store.drop("probe");
    document.addEventListener(FORGOTTEN, () => this.#forget(), { signal });
    addEventListener("storage", again, { signal });
    addEventListener("pageshow", again, { signal });
    this.addEventListener("change", (event) => void this.#changed(/** @type {HTMLInputElement} */ (event.target)), { signal });
    this.addEventListener("click", (event) => this.#do(/** @type {Element} */ (event.target).closest("[data-do]")), { signal });
    this.querySelector("[data-part=attempts] details")?.addEventListener("toggle", again, { signal });
    part(this.#page.index, "record")
      .then((known) => Object.assign(this.#page, { known }))
      .catch(() => {})
      .finally(again);
  }

  disconnectedCallback() {
    this.#life.abort();
  }

  get #store() {
    return storeOf(this.#page.course);
  }

  /** @param {string} selector */
  #slot(selector) {
    return /** @type {HTMLElement} */ (this.querySelector(selector));
  }

  /** @param {string} name */
  #field(name) {
    return /** @type {HTMLInputElement} */ (this.querySelector(`input[name=${name}]`));
  }

  /** @param {string} name of a kept text */
  #kept(name) {
    const value = this.#store.get(name);
    return typeof value === "string" ? value : "";
  }

  #show() {
    const { attempts } = recordOf(this.#store, this.#page.course);
    const day = this.#kept("day");
    const learner = this.#kept("learner");
    // A quiz is the sum of its questions, a step a part of its walk: each is counted once.
    const tries = attempts.filter(({ kind }) => kind === "question" || kind === "walk").length;
    if (this.#field("day") !== document.activeElement) this.#field("day").value = day;
    this.#field("learner").value = learner;
    const open = this.querySelector("[data-part=attempts] details")?.hasAttribute("open");
    const begun = underWay(this.#page, this.#begun());
    /** @type {Record<string, (Node | string)[]>} */
    const parts = {
      begun,
      objectives: byObjective(this.#page, attempts),
      again: lookAgain(this.#page, attempts),
      ready: ready(this.#page, attempts),
      plan: plan(this.#page, attempts, day, new Date()),
      quizzes: quizzes(this.#page, attempts),
      walks: walks(this.#page, attempts),
      attempts: open ? attemptsTable(this.#page, attempts) : [""],
      learner: [learner || "\u00a0"],
      dates: attempts.length ? [`${tries}: ${when(attempts[0].at)} \u2013 ${when(attempts[attempts.length - 1].at)}`] : [],
    };
    for (const slot of /** @type {NodeListOf<HTMLElement>} */ (this.querySelectorAll("[data-fill]"))) {
      slot.replaceChildren(...(parts[slot.dataset.fill ?? ""] ?? []));
    }
    for (const section of /** @type {NodeListOf<HTMLElement>} */ (this.querySelectorAll("[data-part]"))) {
      const name = section.dataset.part ?? "";
      if (name === "begun") section.hidden = !begun.length;
      else if (name === "none") section.hidden = begun.length > 0 || attempts.length > 0;
      else section.hidden = !attempts.length || parts[name]?.length === 0;
    }
  }

  /**
   * Walks and quizzes that were answered in part.
   * @returns {{kind: "walk" | "quiz", id: string}[]}
   */
  #begun() {
    return [
      ...begunWalks(this.#store).map((id) => ({ kind: /** @type {const} */ ("walk"), id })),
      ...begunQuizzes(this.#store).map((id) => ({ kind: /** @type {const} */ ("quiz"), id })),
    ];
  }

  /** What other parts of the page forgot in storage, this one also held in memory. */
  #forget() {
    this.#store.forget();
    this.#slot(".taken").replaceChildren();
    this.#show();
  }

  /** @param {HTMLInputElement} field */
  async #changed(field) {
    if (field.name === "copy") return this.#take(field);
    const value = field.value.trim();
    if (value) this.#store.set(field.name, value);
    else this.#store.drop(field.name);
    return this.#show();
  }

  /** @param {Element | null} button */
  #do(button) {
    const what = /** @type {HTMLElement | null} */ (button)?.dataset.do;
    if (what === "print" || what === "plan") {
      document.documentElement.dataset.print = what;
      addEventListener("afterprint", () => delete document.documentElement.dataset.print, { once: true });
      print();
    } else if (what) this.#save(what);
  }

  /** @param {string} kind */
  #save(kind) {
    const { course, version, build } = this.#page;
    const record = recordOf(this.#store, course);
    const { format, attempts } = record;
    const text = kind === "csv" ? csv(attempts) : `${JSON.stringify({ format, course, version, build, learner: this.#kept("learner"), attempts }, null, 1)}\n`;
    const url = URL.createObjectURL(new Blob([text], { type: kind === "csv" ? "text/csv" : "application/json" }));
    make("a", { href: url, download: `record-${course}.${kind}` }).click();
    setTimeout(() => URL.revokeObjectURL(url), 60_000);
  }

  /** @param {HTMLInputElement} field */
  async #take(field) {
    const [file] = field.files ?? [];
    if (!file) return;
    const told = await this.#taken(file);
    field.value = "";
    this.#slot(".taken").replaceChildren(make("p", { class: told.refused ? "shut" : false }, told.words));
  }

  /**
   * @param {File} file
   * @returns {Promise<{refused?: boolean, words: string}>}
   */
  async #taken(file) {
    const { course, tell } = this.#page;
    const found = file.size > LARGEST ? { refused: /** @type {const} */ ("size") } : read(await file.text(), course);
    if ("refused" in found) return { refused: true, words: tell(`no_${found.refused}`, { value: found.value ?? "" }) };
    const name = found.file.learner?.trim() ?? "";
    const own = this.#kept("learner");
    if (name && own && name.toLowerCase() !== own.toLowerCase()) return { refused: true, words: tell("no_learner", { value: name }) };
    const before = recordOf(this.#store, course);
    if (name && !own && before.attempts.length) return { refused: true, words: tell("no_name", { value: name }) };
    const after = merge(before, { format: 1, course, attempts: found.file.attempts });
    this.#store.set("record", after);
    if (name && !own) this.#store.set("learner", name);
    this.#show();
    const fresh = after.attempts.length - before.attempts.length;
    return { words: tell("taken", { fresh, known: found.file.attempts.length - fresh }) };
  }
}
