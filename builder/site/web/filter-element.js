/**
 * `<case-filter>`: narrows down the list of clients that stands below it. What is chosen is kept in the address
 * (`?objective=…&measure=…&mine=…`), so it survives a reload and can be linked to; and in the store, so that the way
 * back from a client leads to it.
 */

import { begunWalks } from "./begun.js";
import { recordOf } from "./device.js";
import { data, here, make } from "./dom.js";
import { clientOf, fits, standings } from "./narrow.js";
import { part } from "./parts.js";
import { standing } from "./record.js";
import { now } from "./record-page.js";
import { FORGOTTEN, storeOf } from "./store.js";
import { say } from "./words.js";

/** @typedef {[string, string][]} Choices name and label */
/** @typedef {{course: string, index: string, objective: Choices, measure: Choices, rows: [number[], number[]][]}} Block rows: per client, which of the objectives and measures */

export class CaseFilter extends HTMLElement {
  /** @type {Block} */
  #block = data(this);
  #form = make("form");
  #status = make("p", { role: "status" });
  #all = make("button", { type: "button", hidden: true }, say("Show all"));
  #life = new AbortController();
  /** @type {import("./record-page.js").Known | null} */
  #known = null;
  /** @type {HTMLElement[]} */
  #rows = [];
  /** @type {ReturnType<typeof standings>} */
  #standings = new Map();
  /** Clients with a walk under way. @type {Set<string>} */
  #begun = new Set();

  connectedCallback() {
    const { signal } = (this.#life = new AbortController());
    this.#rows = [...document.querySelectorAll(/** @type {"li"} */ (".clients > li"))];
    this.#form.replaceChildren(
      ...this.#choice("objective", say("Objective"), this.#block.objective),
      ...this.#choice("measure", say("Measure"), this.#block.measure),
      ...this.#choice("mine", say("Your clients"), [
        ["untried", say("Not tried yet")], ["begun", say("Started")], ["tried", say("Tried")], ["held", say("Passed")], ["open", say("Not passed yet")],
      ]),
    );
    this.replaceChildren(this.#form, this.#status, this.#all);
    const asked = new URLSearchParams(location.search);
    for (const select of this.#selects) {
      select.value = asked.get(select.name) ?? "";
      if (select.selectedIndex < 0) select.value = "";
    }
    this.#form.addEventListener("change", () => this.#chosen(), { signal });
    this.#all.addEventListener("click", () => {
      this.#form.reset();
      this.#chosen();
      this.#selects[0].focus();
    }, { signal });
    for (const [place, event] of /** @type {const} */ ([[document, FORGOTTEN], [window, "pageshow"]])) {
      place.addEventListener(event, () => this.#look(), { signal });
    }
    this.#look();
    this.#keep();
  }

  disconnectedCallback() {
    this.#life.abort();
  }

  get #selects() {
    return [...this.#form.querySelectorAll("select")];
  }

  /**
   * @param {string} name
   * @param {string} label
   * @param {Choices} choices
   */
  #choice(name, label, choices) {
    const options = choices.map(([value, words]) => make("option", { value }, words));
    const select = make("select", { name, autocomplete: "off" }, make("option", { value: "" }, say("All")), ...options);
    return choices.length ? [make("label", {}, label, select)] : [];
  }

  #chosen() {
    const chosen = this.#selects.filter(({ value }) => value).map(({ name, value }) => [name, value]);
    history.replaceState(null, "", chosen.length ? `?${new URLSearchParams(chosen)}` : here());
    this.#keep();
    this.#narrow();
  }

  #keep() {
    const store = storeOf(this.#block.course);
    if (location.search) store.set("clients", location.search);
    else store.drop("clients");
  }

  /** Reads what is kept and marks who was tried, and with whom a walk is under way. */
  #look() {
    const { course } = this.#block;
    const store = storeOf(course);
    const { attempts } = recordOf(store, course);
    this.#standings = standings(standing(attempts, (attempt) => now(this.#known, attempt)));
    // Where a right answer has changed since, a walk is not passed any more.
    if (!this.#known && attempts.length) {
      part(this.#block.index, "record").then((known) => {
        this.#known = known;
        this.#look();
      }, () => {});
    }
    this.#begun = new Set(begunWalks(store).map(clientOf));
    for (const row of this.#rows) {
      const client = row.dataset.case ?? "";
      const standing = this.#standings.get(client);
      const words = [standing && (standing === "held" ? say("Passed") : say("Not passed yet")), this.#begun.has(client) && say("Started")];
      const mark = words.filter(Boolean).join(" · ");
      row.querySelector(".mine")?.remove();
      if (mark) row.querySelector("a")?.append(make("span", { class: "mine" }, mark));
    }
    this.#narrow();
  }

  #narrow() {
    const at = (/** @type {"objective" | "measure"} */ name) => this.#block[name].findIndex(([value]) => value === this.#value(name));
    const [objective, measure, mine] = [at("objective"), at("measure"), this.#value("mine")];
    let shown = 0;
    this.#rows.forEach((row, index) => {
      const [objectives, measures] = this.#block.rows[index];
      const client = row.dataset.case ?? "";
      const fit =
        (objective < 0 || objectives.includes(objective)) &&
        (measure < 0 || measures.includes(measure)) &&
        fits(this.#standings.get(client), this.#begun.has(client), mine);
      if (row.hidden === fit) row.hidden = !fit;
      shown += Number(fit);
    });
    this.#status.textContent = shown
      ? say("{shown} of {all} clients are shown.", { shown, all: this.#rows.length })
      : say("No client fits all of that. Show all, or choose less.");
    this.#all.hidden = !this.#selects.some(({ value }) => value);
  }

  /** @param {string} name */
  #value(name) {
    return this.#selects.find((select) => select.name === name)?.value ?? "";
  }
}
