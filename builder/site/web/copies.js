/**
 * The copies of one course that a browser keeps: a cache each, named by the build that it holds. A copy is whole once its
 * own list of files stands in it; until then nobody is answered from it.
 */

/** @typedef {{mark: string, bytes: number, build: string, edition: string}} Head what a copy comes to */
/** @typedef {Head & {files: Record<string, [number, string]>}} List each file with its bytes and the start of its SHA-256 */
/** @typedef {"copy" | "same"} From a page came from the copy, or from the network out of the same build */

/** What the network's build comes to; asked past the copy. */
export const HEAD = "offline.json";
/** Its list of files; under the same name a copy holds its own. */
export const LIST = "offline-files.json";
/** Before the name of each page that a copy has noted; no file of a site is hidden. */
const NOTES = ".page/";
/** Pages that are remembered. */
const MOST = 40;

export class Copies {
  /**
   * @param {CacheStorage} caches
   * @param {string} scope the address of the site's folder
   */
  constructor(caches, scope) {
    this.caches = caches;
    this.scope = scope;
    // No path of an address holds a space.
    this.prefix = `casetrue ${new URL(scope).pathname} `;
  }

  /** The marks of all copies, whole or not, the oldest first. */
  async marks() {
    const names = await this.caches.keys();
    return names.filter((name) => name.startsWith(this.prefix)).map((name) => name.slice(this.prefix.length));
  }

  /** @param {string} mark */
  async open(mark) {
    return new Copy(await this.caches.open(this.prefix + mark), this.scope, mark);
  }

  /** Every copy, whole or not. */
  async all() {
    return Promise.all((await this.marks()).map((mark) => this.open(mark)));
  }

  /** The newest whole copy. */
  async kept() {
    for (const copy of (await this.all()).reverse()) if (await copy.isWhole()) return copy;
    return null;
  }

  /**
   * Deletes every copy.
   * @param {string} [mark] but this one
   */
  async drop(mark) {
    for (const other of await this.marks()) if (other !== mark) await this.caches.delete(this.prefix + other);
  }
}

export class Copy {
  /**
   * @param {Cache} cache
   * @param {string} scope
   * @param {string} mark
   */
  constructor(cache, scope, mark) {
    this.cache = cache;
    this.scope = scope;
    this.mark = mark;
  }

  async isWhole() {
    return Boolean(await this.cache.match(keyOf(LIST, this.scope)));
  }

  /** @returns {Promise<List | null>} of a whole copy */
  async list() {
    const found = await this.cache.match(keyOf(LIST, this.scope));
    return found ? found.json() : null;
  }

  /** @param {List} list with this the copy is whole */
  async close(list) {
    await this.cache.put(keyOf(LIST, this.scope), new Response(JSON.stringify(list)));
  }

  /**
   * What stands under an address of the site, whatever the address asks for behind a `?`.
   * @param {string} address
   */
  async at(address) {
    for (const name of namesOf(address, this.scope)) {
      const found = await this.get(name);
      if (found) return found;
    }
    return undefined;
  }

  /** @param {string} name */
  get(name) {
    return this.cache.match(keyOf(name, this.scope));
  }

  /**
   * @param {string} name
   * @param {Response} file
   */
  put(name, file) {
    return this.cache.put(keyOf(name, this.scope), file);
  }

  /**
   * Notes where an open page came from. The worker may end at any moment, so that its own memory does not do.
   * @param {string} page
   * @param {From} from
   */
  async note(page, from) {
    if (!page) return;
    await this.#write(page, from).catch(() => {}); // no room left: the page is not known then
  }

  /**
   * @param {string} page
   * @param {From} from
   */
  async #write(page, from) {
    const start = keyOf(NOTES, this.scope);
    const noted = (await this.cache.keys()).filter((one) => one.url.startsWith(start));
    await Promise.all(noted.slice(0, Math.max(0, noted.length - MOST + 1)).map((one) => this.cache.delete(one)));
    await this.put(NOTES + page, new Response(from));
  }

  /**
   * @param {string} page
   * @returns {Promise<From | null>}
   */
  async noted(page) {
    const found = page && (await this.get(NOTES + page));
    return found ? /** @type {From} */ (await found.text()) : null;
  }
}

/**
 * @param {string} name of a file, from the site's folder
 * @param {string} scope
 */
export const keyOf = (name, scope) => new URL(name.split("/").map(encodeURIComponent).join("/"), scope).href;

/**
 * The names of the files that an address may mean: hosts show a folder by its `index.html`, and some a page without its
 * ending.
 * @param {string} address
 * @param {string} scope
 */
export function namesOf(address, scope) {
  const path = new URL(address).pathname.slice(new URL(scope).pathname.length);
  /** @type {string} */
  let name;
  try {
    name = decodeURIComponent(path);
  } catch {
    return [];
  }
  return /(^|\/)$/.test(name) ? [`${name}index.html`] : [name, `${name}.html`, `${name}/index.html`];
}
