/**
 * What this device keeps for one course. A browser may block storage or have none left: then the page
 * works on with what it holds in memory, and says so once.
 */

const ASIDE = "aside:";

export class Store {
  /** Keys written while storage was shut. @type {Map<string, string>} */
  #memory = new Map();

  /** @param {string} course its name; other folders opened from the same disk share one storage */
  constructor(course) {
    this.prefix = `casetrue:${course}:`;
    /** Written for a moment when all is forgotten, so that other pages hear of it. */
    this.mark = `${this.prefix}forgotten`;
    /** Told when a value could not be kept. @type {(() => void) | undefined} */
    this.onShut = undefined;
    /** Told when something that could not be read was set aside. @type {(() => void) | undefined} */
    this.onAside = undefined;
  }

  /**
   * @param {string} key
   * @returns {unknown} the value kept, or null where there is none or it cannot be read
   */
  get(key) {
    try {
      return JSON.parse(this.text(key) ?? "null");
    } catch {
      return null;
    }
  }

  /**
   * @param {string} key
   * @returns {string | null} what is kept, as it is written; null where there is none
   */
  text(key) {
    return this.#memory.get(this.prefix + key) ?? this.onDisk(key);
  }

  /**
   * @param {string} key
   * @returns {string | null} what the storage itself holds, whatever is in memory
   */
  onDisk(key) {
    try {
      return localStorage.getItem(this.prefix + key);
    } catch {
      return null;
    }
  }

  /**
   * @param {string} key
   * @param {unknown} value
   */
  set(key, value) {
    const text = JSON.stringify(value);
    if (!this.#write(key, text)) this.hold(key, text);
  }

  /**
   * Keeps a text in memory alone.
   * @param {string} key
   * @param {string} text
   */
  hold(key, text) {
    this.#memory.set(this.prefix + key, text);
    this.onShut?.();
  }

  /**
   * Keeps a text that cannot be read beside what is read, the same one only once.
   * @param {string} text
   * @returns {boolean} whether it is kept on this device
   */
  setAside(text) {
    const aside = this.asides;
    if ([...aside.values()].includes(text)) return true;
    let number = 1;
    while (aside.has(`${ASIDE}${number}`)) number += 1;
    const kept = this.#write(`${ASIDE}${number}`, text);
    if (kept) this.onAside?.();
    return kept;
  }

  /** What was set aside: key to text. */
  get asides() {
    return new Map(this.keys(ASIDE).sort().map((key) => [key, this.text(key) ?? ""]));
  }

  /**
   * @param {string} key
   * @param {string} text
   */
  #write(key, text) {
    try {
      localStorage.setItem(this.prefix + key, text);
      this.#memory.delete(this.prefix + key);
      return true;
    } catch {
      return false;
    }
  }

  /** @param {string} key */
  drop(key) {
    const name = this.prefix + key;
    this.#memory.delete(name);
    try {
      localStorage.removeItem(name);
    } catch {
      // Nothing can be kept here, so there is nothing to drop.
    }
  }

  /**
   * @param {string} start
   * @returns {string[]} the keys kept on this device that start so
   */
  keys(start) {
    try {
      const names = Object.keys(localStorage).filter((name) => name.startsWith(this.prefix + start));
      return names.map((name) => name.slice(this.prefix.length));
    } catch {
      return [];
    }
  }

  /** Forgets everything of this course on this device. */
  forget() {
    this.#memory.clear();
    for (const key of this.keys("")) this.drop(key);
    try {
      localStorage.setItem(this.mark, "");
      localStorage.removeItem(this.mark);
    } catch {
      // Nothing is kept here, so no other page has anything to forget.
    }
  }

  /**
   * What another page did to the storage: forgets here too where it forgot everything.
   * @param {StorageEvent} event
   * @returns {boolean} whether it did
   */
  heard({ key, newValue }) {
    const all = key === null || (key === this.mark && newValue !== null);
    if (all) this.#memory.clear();
    return all;
  }
}

/** Fired on `document` once everything was forgotten, on this page or on another one. */
export const FORGOTTEN = "casetrue-forgotten";

/** One store a course for all scripts of a page. */
const shared = /** @type {typeof globalThis & {casetrueStores?: Map<string, Store>}} */ (globalThis);
const stores = (shared.casetrueStores ??= new Map());

/**
 * @param {string} course
 * @returns {Store}
 */
export function storeOf(course) {
  const known = stores.get(course);
  if (known) return known;
  const store = new Store(course);
  stores.set(course, store);
  addEventListener("storage", (event) => store.heard(event) && document.dispatchEvent(new CustomEvent(FORGOTTEN)));
  return store;
}
