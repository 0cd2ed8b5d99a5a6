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
import { courseOf, dueOn, fitting, timed } from "./today.js";
import { addressOf } from "./today-address.js";
import { say } from "./words.js";

/** @typedef {{today: number, minutes: number, ids: [id: string, times: number][]}} Begun a sitting: its day, and how often each was answered before it */
/** @typedef {{course: string, plan: string, record: string, index: string, ask: string}} Block addresses, with `{name}` fields; `plan` of the index of what can be asked, `index` of that of what is right */

const [USUAL, ...OTHERS] = [5, 3, 10];
const MINUTES = [USUAL, ...OTHERS];

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
    // Whoever has begun needs no first client.
    document.querySelector(".opening .first")?.toggleAttribute("hidden", attempts.length > 0);
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
    const next = Math.min(...[...all.values()].map((one) => one.due ?? Infinity));
    const wrong = back.length ? ` ${say("Wrong last time: {number}.", { number: back.length })}` : "";
    const sittings = this.#sittings(known, all, today, attempts);
    const none = sittings.length ? say("Nothing has to come back today, so this brings what is new.") : say("Nothing is due today.");
    const said = back.length + due.length
      ? [say("Due today: {number}.", { number: back.length + due.length }), wrong]
      : next < Infinity
        ? [none, " ", say("Next back: {day}", { day: date(next) })]
        : [none, " ", make("a", { href: `${record}#plan` }, say("Choose the day you want to be ready"))];
    return [...sittings, make("p", { class: "due" }, ...said)];
  }

  /**
   * Sittings of some minutes, or the rest of the one that was begun.
   * @param {import("./today.js").Course} known
   * @param {Map<string, import("./standing.js").Standing>} all
   * @param {number} today
   * @param {import("./record.js").Attempt[]} attempts
   */
  #sittings(known, all, today, attempts) {
    const store = storeOf(this.#block.course);
    const lead = (/** @type {string} */ words, /** @type {import("./today.js").Task[]} */ tasks, /** @type {number} */ minutes, kind = "") => {
      const link = make("a", { href: addressOf(known, tasks, this.#block, minutes), class: kind || false }, words);
      link.addEventListener("click", () => store.set("today", { today, minutes, ids: tasks.map(({ item: { id } }) => [id, times(attempts, id)]) }));
      return link;
    };
    const begun = /** @type {Begun | null} */ (store.get("today"));
    const left = begun?.today === today ? leftOf(known, begun, attempts) : [];
    const links = MINUTES.flatMap((minutes) => {
      const tasks = timed(known, all, today, fitting(minutes, attempts));
      return tasks.length ? [lead(minutes === USUAL ? say("Today: {minutes} minutes", { minutes }) : say("{minutes} minutes", { minutes }), tasks, minutes, minutes === USUAL && !left.length ? "button" : "")] : [];
    });
    const rest = begun && left.length ? [lead(say("Go on with today: {left} left", { left: left.length }), left, begun.minutes, "button")] : [];
    const all_ = [...rest, ...links];
    return all_.length ? [make("p", { class: "first sittings" }, ...all_.sort((a, b) => Number(b.className === "button") - Number(a.className === "button")).flatMap((one) => [one, " "]))] : [];
  }
}

/**
 * @param {import("./record.js").Attempt[]} attempts
 * @param {string} wanted
 */
const times = (attempts, wanted) => attempts.filter(({ id }) => id === wanted).length;

/**
 * What of a sitting that was begun today has not been answered since.
 * @param {import("./today.js").Course} known
 * @param {Begun} begun
 * @param {import("./record.js").Attempt[]} attempts
 * @returns {import("./today.js").Task[]} empty where nothing of it was answered, or all
 */
function leftOf({ units }, { ids }, attempts) {
  const open = ids.filter(([id, before]) => times(attempts, id) <= before).map(([id]) => id);
  if (open.length === ids.length) return [];
  const tasks = [...units.values()].flatMap(({ unit, objective, items }) => items.filter(({ id, where }) => open.includes(id) && typeof where !== "string").map((item) => ({ unit, objective, item, back: false })));
  return tasks.sort((a, b) => open.indexOf(a.item.id) - open.indexOf(b.item.id));
}
