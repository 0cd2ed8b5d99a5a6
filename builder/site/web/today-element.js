/** `<case-today>`: says on the home page what is due today, where this device keeps a record, and leads to it. */

import { date } from "./date.js";
import { recordOf } from "./device.js";
import { data, make } from "./dom.js";
import { part } from "./parts.js";
import { hasChanged } from "./record.js";
import { now } from "./record-page.js";
import { standingsOf } from "./standing-store.js";
import { FORGOTTEN, storeOf } from "./store.js";
import { latest } from "./summary.js";
import { courseOf, dueOn, sitting } from "./today.js";
import { addressOf } from "./today-address.js";
import { say } from "./words.js";

/** @typedef {{course: string, plan: string, record: string, index: string, ask: string}} Block addresses, with `{name}` fields; `plan` of the index of what can be asked, `index` of that of what is right */

export class CaseToday extends HTMLElement {
  #life = new AbortController();
  /** @type {Block} */
  #block = data(this);

  connectedCallback() {
    const { signal } = (this.#life = new AbortController());
    const again = () => void this.#show();
    document.addEventListener(FORGOTTEN, again, { signal });
    // A page may be left open over night.
    document.addEventListener("visibilitychange", again, { signal });
    addEventListener("storage", again, { signal });
    addEventListener("pageshow", again, { signal });
    again();
  }

  disconnectedCallback() {
    this.#life.abort();
  }

  async #show() {
    const { course, plan, index } = this.#block;
    const store = storeOf(course);
    const tried = () => recordOf(store, course).attempts;
    // What cannot be fetched is not told: nothing else on the page rests on it.
    const begun = tried().length > 0;
    const [known, right] = await Promise.all([
      begun ? part(plan, "plan").then(courseOf, () => null) : null,
      begun ? part(index, "record").catch(() => null) : null,
    ]);
    const attempts = tried();
    this.replaceChildren(...(known && attempts.length ? this.#told(known, attempts) : []), ...this.#changed(right, attempts));
  }

  /**
   * @param {import("./record-page.js").Known | null} right
   * @param {import("./record.js").Attempt[]} attempts
   */
  #changed(right, attempts) {
    const moved = latest(attempts).filter((one) => hasChanged(one, (asked) => now(right, asked)));
    const told = () => say("Right answers that have changed since you answered: {number}.", { number: moved.length });
    return moved.length ? [make("p", {}, told(), " ", make("a", { href: this.#block.record }, say("Look which")))] : [];
  }

  /**
   * @param {import("./today.js").Course} known
   * @param {import("./record.js").Attempt[]} attempts
   */
  #told(known, attempts) {
    const { course, record } = this.#block;
    const { all, today } = standingsOf(storeOf(course), attempts, known.unitOf);
    const { back, due } = dueOn(all, today);
    const tasks = sitting(known, all, today);
    if (tasks.length) {
      const wrong = back.length ? ` ${say("Wrong last time: {number}.", { number: back.length })}` : "";
      return [
        make("p", {}, say("Due today: {number}.", { number: back.length + due.length }), wrong),
        make("p", { class: "first" }, make("a", { class: "button", href: addressOf(known, tasks, this.#block) }, say("Practise today"))),
      ];
    }
    const next = Math.min(...[...all.values()].map((one) => one.due ?? Infinity));
    if (next < Infinity) return [make("p", {}, say("Nothing is due today. Next: {day}", { day: date(next) }))];
    return [make("p", {}, say("Nothing is due today."), " ", make("a", { href: record }, say("Choose the day you want to be ready")))];
  }
}
