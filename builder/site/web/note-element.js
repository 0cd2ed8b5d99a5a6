/** `<case-note>`: a note of the learner's own at a client or a caution, kept on this device alone. */

import { make } from "./dom.js";
import { NOTE } from "./notes.js";
import { FORGOTTEN, storeOf } from "./store.js";
import { say } from "./words.js";

const LONGEST = 4000;

export class CaseNote extends HTMLElement {
  #life = new AbortController();
  #field = make("textarea", { rows: "4", maxlength: `${LONGEST}`, "aria-label": say("My note") });
  #summary = make("summary", {});

  connectedCallback() {
    const { signal } = (this.#life = new AbortController());
    this.#field.addEventListener("input", () => this.#keep(), { signal });
    document.addEventListener(FORGOTTEN, () => this.#show(), { signal });
    const line = make("p", { class: "soft" }, say("For yourself, kept on this device alone as you type. Deleting your answers deletes it too. No real person belongs here, under any name."));
    this.replaceChildren(make("details", {}, this.#summary, line, this.#field));
    this.#show();
  }

  disconnectedCallback() {
    this.#life.abort();
  }

  get #store() {
    return storeOf(this.dataset.course ?? "");
  }

  get #key() {
    return `${NOTE}${this.dataset.about}`;
  }

  #show() {
    const kept = this.#store.get(this.#key);
    this.#field.value = typeof kept === "string" ? kept : "";
    this.#name();
  }

  #name() {
    this.#summary.textContent = this.#field.value.trim() ? say("My note: kept") : say("My note");
  }

  #keep() {
    if (this.#field.value.trim()) this.#store.set(this.#key, this.#field.value);
    else this.#store.drop(this.#key);
    this.#name();
  }
}
