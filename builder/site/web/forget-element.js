/** `<case-forget>`: forgets everything of one course on this device, once it is asked twice. */

import { button, goTo, make } from "./dom.js";
import { FORGOTTEN, storeOf } from "./store.js";
import { say } from "./words.js";

export class CaseForget extends HTMLElement {
  #life = new AbortController();

  connectedCallback() {
    this.#life = new AbortController();
    document.addEventListener(FORGOTTEN, () => this.#done(), { signal: this.#life.signal });
    this.#offer();
  }

  disconnectedCallback() {
    this.#life.abort();
  }

  #offer() {
    this.replaceChildren(this.#button(say("Delete my answers on this device"), () => this.#ask()));
  }

  #ask() {
    const question = make("p", {}, say("Delete all your answers in this course on this device? They cannot be brought back."));
    const keep = this.#button(say("Keep them"), () => {
      this.#offer();
      goTo(this.querySelector("button"));
    });
    this.replaceChildren(question, this.#button(say("Delete them"), () => this.#forget()), " ", keep);
    goTo(question);
  }

  #forget() {
    storeOf(this.dataset.course ?? "").forget();
    document.dispatchEvent(new CustomEvent(FORGOTTEN));
    goTo(this.querySelector("p"));
  }

  #done() {
    this.replaceChildren(make("p", {}, say("Your answers are deleted.")));
  }

  /**
   * @param {string} words
   * @param {() => void} act
   */
  #button(words, act) {
    return button(words, act, { signal: this.#life.signal, kind: "quiet" });
  }
}
