/**
 * What this device keeps for one course. A browser may block storage or have none left: then the page
 * works on with what it holds in memory, and says so once.
 */

export class Store {
  /** Keys written while storage was shut. @type {Map<string, string>} */
  #memory = new Map();

  /** @param {string} course its name; other folders opened from the same disk share one storage */
  constructor(course) {
    this.prefix = `casetrue:${course}:`;
    /** Told when a value could not be kept. @type {(() => void) | undefined} */
    this.onShut = undefined;
  }

  /**
   * @param {string} key
   * @returns {unknown} the value kept, or null where there is none or it cannot be read
   */
  get(key) {
    const name = this.prefix + key;
    try {
      return JSON.parse(this.#memory.get(name) ?? localStorage.getItem(name) ?? "null");
    } catch {
      return null;
    }
  }

  /**
   * @param {string} key
   * @param {unknown} value
   */
  set(key, value) {
    const name = this.prefix + key;
    const text = JSON.stringify(value);
    try {
      localStorage.setItem(name, text);
      this.#memory.delete(name);
    } catch {
      this.#memory.set(name, text);
      this.onShut?.();
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
  }
}
