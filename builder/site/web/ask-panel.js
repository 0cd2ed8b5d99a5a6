/** How a learner asks, looks and measures: what was found so far, and a list of the rest, grouped, with minutes. */

import { inOneGo } from "./asking.js";
import { make } from "./dom.js";
import { told, verdictOn } from "./signs.js";
import { say } from "./words.js";

/** @typedef {import("./asking.js").AskData} AskData */
/** @typedef {{asked: number[], noted: Record<number, number>, last: number | null}} Found `noted`: what the learner took the client's words for; `last`: what was asked just now */

/** Measure to how the page shows its reading; a measure without one was not taken. @typedef {Map<string, {value: Element, drawn: Element | null}>} Readings */

/**
 * Takes the readings off the page, so that they can be asked for.
 * @param {Element} place
 * @returns {Readings}
 */
export function takeReadings(place) {
  const rows = /** @type {HTMLElement[]} */ ([...place.querySelectorAll("tr[data-measure]:not(.drawn)")]);
  /** @type {Readings} */
  const readings = new Map(rows.flatMap((row) => {
    // Where the number is to be estimated first, it stays folded here too.
    const value = row.querySelector(".estimate") ?? row.querySelector(".value");
    const drawn = row.nextElementSibling?.matches(".drawn") ? row.nextElementSibling.querySelector("td > *") : null;
    return value ? [[row.dataset.measure ?? "", { value, drawn }]] : [];
  }));
  place.remove();
  return readings;
}

/**
 * What was found so far of some measures, as a list.
 * @param {AskData} data
 * @param {Readings} readings
 * @param {Found} found
 * @param {number[]} numbers
 */
export function foundList({ measures }, readings, { noted }, numbers) {
  return make("ul", { class: "short" }, ...numbers.map((number) => {
    const { label, name, values, key } = measures[number];
    const words = readings.get(name)?.value.cloneNode(true) ?? make("span", { class: "value" }, say("not taken today"));
    const meant = values && number in noted ? [" ", make("b", {}, values[key ?? 0][0])] : [];
    return make("li", { "data-measure": name }, make("span", {}, label), " ", words, ...meant);
  }));
}

/**
 * The button that opens what can be asked, and words that wait to be weighed; and what was found last.
 * @param {AskData} data
 * @param {Readings} readings
 * @param {Found} found
 * @param {{ask: (number: number) => void, note: (number: number, value: number) => void}} act
 * @returns {Element[]}
 */
export function panel(data, readings, found, act) {
  const left = data.measures.filter((_, number) => isNext(data, found.asked, number)).length;
  const list = make("div", { id: "to-ask", popover: true, class: "to-ask" });
  const ask = (/** @type {number} */ number) => {
    list.hidePopover?.();
    act.ask(number);
  };
  list.append(make("p", { class: "soft" }, say("Minutes are what it takes with a client. They cost no mark.")), ...heard(data, found, ask), ...HOW.flatMap((how) => group(data, found, how, ask)));
  const open = make("button", { type: "button", class: "quiet", popovertarget: list.id, disabled: list.childElementCount < 2 }, say("Ask or measure ({left} left)", { left }));
  return [make("div", { class: "asking" }, open, list), ...(found.last === null ? [] : [reply(data, readings, found, found.last, act.note)])];
}

/** So many meanings of a client's words, at most, stand open as buttons. */
const FEW = 4;
const HOW = /** @type {const} */ (["ask", "look", "measure"]);

/** @param {"ask" | "look" | "measure"} how */
const verb = (how) => (how === "ask" ? say("Ask") : how === "look" ? say("Look at") : say("Take a reading"));

/**
 * @param {AskData} data
 * @param {Found} found
 * @param {"ask" | "look" | "measure"} how
 * @param {(number: number) => void} ask
 */
function group(data, { asked }, how, ask) {
  const { measures } = data;
  const open = measures.flatMap((one, number) => (one.how === how && isNext(data, asked, number) ? [number] : []));
  return choices(verb(how), open.map((number) => {
    const go = inOneGo(data, number).map((one) => measures[one]);
    return [number, go.map(({ label }) => label).join(", "), say("{minutes} min", { minutes: go.reduce((all, one) => all + one.minutes, 0) })];
  }), ask);
}

/**
 * Whether it can still be asked for, and is the first of what is read in one go.
 * @param {AskData} data
 * @param {number[]} asked
 * @param {number} number
 */
const isNext = (data, asked, number) => !asked.includes(number) && inOneGo(data, number).find((one) => !asked.includes(one)) === number;

/**
 * Words that were heard, and of which the learner has not said what they come to.
 * @param {AskData} data
 * @param {Found} found
 * @param {(number: number) => void} ask
 */
function heard({ measures }, { asked, noted }, ask) {
  const open = asked.filter((number) => measures[number].values && !(number in noted));
  return choices(say("Weigh what was said"), open.map((number) => [number, measures[number].label, ""]), ask);
}

/**
 * @param {string} title
 * @param {[number: number, label: string, takes: string][]} rows
 * @param {(number: number) => void} choose
 * @returns {Element[]}
 */
function choices(title, rows, choose) {
  if (!rows.length) return [];
  return [make("p", {}, title), make("ul", {}, ...rows.map(([number, label, takes]) => {
    const button = make("button", { type: "button", class: "quiet" }, label, " ", make("span", { class: "soft" }, takes));
    button.addEventListener("click", () => choose(number));
    return make("li", {}, button);
  }))];
}

/**
 * What was just found: a reading, a drawing where there is one, or words, of which the learner says what they come to.
 * @param {AskData} data
 * @param {Readings} readings
 * @param {Found} found
 * @param {number} number
 * @param {(number: number, value: number) => void} note
 */
function reply(data, readings, found, number, note) {
  const { name, label, values, key = 0 } = data.measures[number];
  const box = make("div", { class: "found-now", role: "status", tabindex: "-1" }, foundList(data, readings, { ...found, noted: {} }, inOneGo(data, number)));
  for (const one of inOneGo(data, number)) {
    const drawn = readings.get(data.measures[one].name)?.drawn;
    if (drawn) box.append(drawn.cloneNode(true));
  }
  if (!values || !readings.has(name)) return box;
  if (number in found.noted) {
    const [, harm] = values[found.noted[number]];
    const held = found.noted[number] === key;
    const [[taken], [value]] = [values[found.noted[number]], values[key]];
    box.append(make("p", {}, told(verdictOn(held, harm)), " ", held ? say("These words come to: {value}.", { value }) : say("You took these words for: {taken}. They come to: {value}.", { taken, value })));
    return box;
  }
  if (values.length <= FEW) {
    // Few meanings stand open, each one press.
    box.append(make("p", {}, say("What do these words come to?")), ...values.flatMap(([words], at) => {
      const take = make("button", { type: "button", class: "quiet" }, words);
      take.addEventListener("click", () => note(number, at));
      return [take, " "];
    }));
    return box;
  }
  const options = values.map(([words], at) => make("option", { value: `${at}` }, words));
  const choose = make("select", { "aria-label": say("What do these words come to? {measure}", { measure: label }) }, make("option", { value: "" }, say("What do these words come to?")), ...options);
  const write = make("button", { type: "button", class: "quiet" }, say("Note it"));
  write.addEventListener("click", () => choose.value && note(number, Number(choose.value)));
  box.append(choose, " ", write);
  return box;
}
