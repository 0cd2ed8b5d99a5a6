/** `<case-search>`: a form and what it finds. The list to look through loads when it is first wanted. */

import { here, make } from "./dom.js";
import { part } from "./parts.js";
import { searcher } from "./search.js";
import { say } from "./words.js";

/** Results shown at once. */
const MOST = 50;
/** Milliseconds without a key before results follow. */
const PAUSE = 150;

export class CaseSearch extends HTMLElement {
  /** @type {Promise<(query: string) => import("./search.js").Found[]> | undefined} */
  #searcher;
  #field = make("input", { type: "search", name: "q", id: "q", autocomplete: "off", enterkeyhint: "search" });
  #status = make("p", { role: "status" });
  #list = make("ol", { class: "list results" });
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #soon;

  connectedCallback() {
    const form = make("form", { role: "search" }, make("label", { for: "q" }, say("Words to look for")), this.#field, make("button", { class: "button" }, say("Search")));
    this.replaceChildren(form, this.#status, this.#list);
    form.onsubmit = (event) => {
      event.preventDefault();
      void this.#search();
    };
    this.#field.oninput = () => {
      clearTimeout(this.#soon);
      this.#soon = setTimeout(() => void this.#search(), PAUSE);
    };
    this.#field.onfocus = () => void this.#load().catch(() => {});
    this.#field.value = new URLSearchParams(location.search).get("q") ?? "";
    if (this.#field.value) void this.#search();
  }

  #load() {
    return (this.#searcher ??= part(this.dataset.index ?? "", "search").then(searcher));
  }

  async #search() {
    clearTimeout(this.#soon);
    const query = this.#field.value.trim();
    history.replaceState(null, "", query ? `?${new URLSearchParams({ q: query })}` : here());
    try {
      const find = await this.#load();
      if (query === this.#field.value.trim()) this.#show(query, find(query));
    } catch {
      this.#searcher = undefined;
      this.#status.textContent = say("Search cannot be reached now. Try again when you are online.");
    }
  }

  /**
   * @param {string} query
   * @param {import("./search.js").Found[]} found
   */
  #show(query, found) {
    this.#status.textContent = !query
      ? ""
      : !found.length
        ? say("Nothing found for “{words}”. Try fewer words, or only how a word starts.", { words: query })
        : found.length > MOST
          ? say("{number} found. The first {most} are shown; more words find less.", { number: found.length, most: MOST })
          : say("{number} found.", { number: found.length });
    this.#list.replaceChildren(
      ...found.slice(0, MOST).map(({ uri, kind, title, snippet }) =>
        make("li", {}, make("a", { href: uri }, title), make("p", {}, make("span", { class: "kind" }, kind), snippet && ` · ${snippet}`)),
      ),
    );
  }
}
