/** `<case-record>`: the learner's record of one course, filled into a page that holds every explanation already. */

import { begunQuizzes, begunWalks } from "./begun.js";
import { editionOf, keep, recordOf, tellWhenShut, unreadOf } from "./device.js";
import { data, goTo, make } from "./dom.js";
import { shown } from "./names.js";
import { notesText } from "./notes.js";
import { part } from "./parts.js";
import { ready } from "./ready.js";
import { hasChanged, standing } from "./record.js";
import { fileName, nameOf, save, unreadNote } from "./record-copy.js";
import { now, outcome, when } from "./record-page.js";
import { glance } from "./record-glance.js";
import { changed, safety, sureness } from "./record-safety.js";
import { FORGOTTEN, storeOf } from "./store.js";
import { latest } from "./summary.js";
import { say } from "./words.js";
import { attemptsTable, byObjective, lookAgain, quizzes, underWay, walks } from "./record-views.js";

/** @typedef {import("./record-page.js").RecordPage} RecordPage */

/** @param {object} file */
const textOf = (file) => `${JSON.stringify(file, null, 1)}\n`;

export class CaseRecord extends HTMLElement {
  #life = new AbortController();
  /** @type {RecordPage} */
  #page = { ...data(this), known: null };
  /** What `plan-main.js` has, once it is loaded. @type {ReturnType<typeof import("./record-plan.js").planner> | null} */
  #plan = null;
  #unread = make("div", { class: "no-print" });
  #unreadTexts = "";
  /** @type {any} what `handover-main.js` has, once it is loaded */
  #handover = null;

  connectedCallback() {
    this.#life = new AbortController();
    const { signal } = this.#life;
    const again = () => this.#show();
    document.querySelector(".unscripted")?.remove();
    this.#slot(".notes").before(this.#unread);
    tellWhenShut(this.#store, this.#slot(".notes"));
    this.#store.set("probe", 0);
    this.#store.drop("probe");
    document.addEventListener(FORGOTTEN, () => this.#forget(), { signal });
    addEventListener("storage", again, { signal });
    addEventListener("pageshow", again, { signal });
    for (const name of ["input", "change"]) {
      this.addEventListener(name, (event) => this.#changed(/** @type {HTMLInputElement} */ (event.target), name), { signal });
    }
    this.#fold(signal);
    this.addEventListener("click", (event) => this.#do(/** @type {Element} */ (event.target).closest("[data-do]")), { signal });
    this.querySelector("[data-part=attempts] details")?.addEventListener("toggle", again, { signal });
    this.querySelector("details.hand-over")?.addEventListener("toggle", () => {
      this.#nameDevice();
      this.#reach().catch(() => {});
    }, { signal });
    part(this.#page.index, "record")
      .then((known) => Object.assign(this.#page, { known }))
      .catch(() => {})
      .finally(again);
    Promise.all([part(this.#page.plan.script, "planner"), part(this.#page.plan.index, "plan")])
      .then(([planner, index]) => (this.#plan = planner(index)))
      .catch(() => {})
      .finally(again);
  }

  /**
   * On a phone all but the first glance is folded. Paper cannot unfold.
   * @param {AbortSignal} signal
   */
  #fold(signal) {
    const folds = () => /** @type {HTMLDetailsElement[]} */ ([...this.querySelectorAll(".fold")]);
    const led = document.getElementById(location.hash.slice(1));
    if (matchMedia("(max-width: 47.99em)").matches) for (const one of folds()) one.open = one.contains(led);
    /** @type {HTMLDetailsElement[]} */
    let shut = [];
    addEventListener("beforeprint", () => {
      shut = folds().filter(({ open }) => !open);
      for (const one of shut) one.open = true;
    }, { signal });
    addEventListener("afterprint", () => shut.forEach((one) => (one.open = false)), { signal });
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

  /** @param {import("./record.js").Attempt} attempt */
  #now = (attempt) => now(this.#page.known, attempt);

  #show() {
    const { attempts: all } = recordOf(this.#store, this.#page.course);
    const attempts = standing(all, this.#now);
    const kept = this.#store.get("day");
    const day = typeof kept === "string" ? kept : "";
    const learner = nameOf(this.#store);
    // A quiz is the sum of its questions, a step a part of its walk: each is counted once.
    const tries = all.filter(({ kind }) => kind === "question" || kind === "walk").length;
    for (const [name, value] of [["day", day], ["learner", learner]]) {
      if (this.#field(name) !== document.activeElement) this.#field(name).value = value;
    }
    const open = this.querySelector("[data-part=attempts] details")?.hasAttribute("open");
    const begun = underWay(this.#page, this.#begun());
    const plan = this.#plan?.(this.#page, this.#store, attempts) ?? null;
    /** @type {Record<string, (Node | string)[]>} */
    const parts = {
      glance: all.length ? glance(this.#page, attempts, all, plan) : [],
      begun,
      changed: changed(this.#page, latest(all).filter((one) => hasChanged(one, this.#now))),
      safety: safety(this.#page, attempts, all),
      sure: sureness(this.#page, attempts),
      owner: this.#handover ? this.#owner() : [],
      objectives: byObjective(this.#page, attempts),
      again: lookAgain(this.#page, attempts),
      ready: ready(this.#page, attempts),
      plan: plan?.nodes ?? [""],
      quizzes: quizzes(this.#page, attempts),
      walks: walks(this.#page, attempts),
      attempts: open ? attemptsTable(this.#page, all) : [""],
      learner: [learner || "\u00a0"],
      dates: all.length ? [`${tries}: ${when(all[0].at)} \u2013 ${when(all[all.length - 1].at)}`] : [],
    };
    this.#showUnread();
    for (const slot of /** @type {NodeListOf<HTMLElement>} */ (this.querySelectorAll("[data-fill]"))) {
      slot.replaceChildren(...(parts[slot.dataset.fill ?? ""] ?? []));
    }
    for (const section of /** @type {NodeListOf<HTMLElement>} */ (this.querySelectorAll("[data-part]"))) {
      const name = section.dataset.part ?? "";
      if (name === "begun") section.hidden = !begun.length;
      else if (name === "none") section.hidden = begun.length > 0 || all.length > 0;
      else if (name !== "plan") section.hidden = !all.length || parts[name]?.length === 0;
    }
    if (all.length && location.hash === "#hand-over") this.#lead();
  }

  /** Opens what the address leads to, once. */
  #lead() {
    const handOver = /** @type {HTMLDetailsElement | null} */ (this.querySelector("#hand-over:not([data-led])"));
    if (!handOver) return;
    Object.assign(handOver, { open: true }).dataset.led = "";
    goTo(handOver.querySelector("summary"), handOver);
  }

  #showUnread() {
    const { course } = this.#page;
    const drop = (/** @type {string} */ key) => {
      this.#store.drop(key);
      this.#showUnread();
    };
    const unread = unreadOf(this.#store, course);
    const texts = unread.map(({ text }) => text).join("\0");
    // What was saved stays told as such for as long as nothing else is there to be told.
    if (texts === this.#unreadTexts) return;
    this.#unreadTexts = texts;
    this.#unread.replaceChildren(...unread.map((one) => unreadNote(one, course, drop, this.#life.signal)));
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

  #forget() {
    this.#slot(".taken").replaceChildren();
    this.#show();
  }

  /**
   * What is typed is kept at once, since whoever leaves the page may not leave the field before.
   * @param {HTMLInputElement} field
   * @param {string} event
   */
  #changed(field, event) {
    if (field.name === "practice") return this.#show();
    if (field.name === "notes") return undefined;
    if (field.name === "copy") return event === "change" && void this.#take(field);
    const value = field.name === "learner" ? shown(field.value) : field.value;
    if (event === "change") field.value = value;
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

  /** Loads what saves, shows and takes in copies. */
  async #reach() {
    this.#handover ??= await part(this.#page.handover, "handover");
    this.#show();
    return this.#handover;
  }

  /** @param {string} kind of file; `owner` for the copy that is handed over */
  async #save(kind) {
    this.#nameDevice();
    const { course, device = "", learner = "", attempts } = this.#file();
    const name = fileName(course, learner, device, kind === "owner" ? "json" : kind);
    const notes = kind !== "owner" && this.#field("notes").checked ? notesText(this.#store) : "";
    if (notes) save(fileName(`notes-${course}`, learner, device, "txt"), "text/plain", notes);
    if (kind === "csv") return save(name, "text/csv", (await this.#reach()).csv(attempts));
    return save(name, "application/json", textOf(kind === "owner" ? this.#ownerFile() : this.#file()));
  }

  /** A copy names the device that it was saved on: so does what is shown of it before. */
  #nameDevice() {
    const kept = recordOf(this.#store, this.#page.course);
    if (!kept.device) keep(this.#store, this.#page.course, kept);
  }

  /** All that this device knows, as it is saved. */
  #file() {
    const { course, version, build } = this.#page;
    const { format, device = "", attempts } = recordOf(this.#store, course);
    const edition = editionOf();
    return { format, course, version, build, ...(edition && { edition }), device, learner: nameOf(this.#store), attempts };
  }

  #ownerFile() {
    const file = this.#file();
    return this.#handover.fileOf(file, standing(file.attempts, this.#now), this.#field("practice").checked);
  }

  /** What the owner will see of the copy that would be saved now. */
  #owner() {
    const file = this.#ownerFile();
    return this.#handover.preview(this.#page, file, () => textOf(file), this.#field("practice").checked);
  }

  /** What the course says of what a file tells. */
  async #known() {
    const { known, quizzes, items } = this.#page;
    return {
      quizzes: Object.fromEntries(quizzes.map((quiz) => [quiz.quiz, quiz])),
      items: await part(items, "record-items").catch(() => ({})),
      outcome: (/** @type {import("./record.js").Attempt} */ attempt) => known && outcome(known, attempt),
      now: this.#now,
    };
  }

  /** @param {HTMLInputElement} field */
  async #take(field) {
    const [file] = field.files ?? [];
    if (!file) return;
    const told = await this.#reach().then(
      async ({ take }) => take(this.#store, this.#page.course, file, await this.#known()),
      () => ({ refused: true, words: say("Files cannot be taken in now. Try again when you are online.") }),
    );
    field.value = "";
    this.#slot(".taken").replaceChildren(make("p", { class: told.refused ? "shut" : false }, told.words));
    this.#show();
  }
}
