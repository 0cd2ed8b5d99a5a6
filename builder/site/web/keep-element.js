/** `<case-keep>`: keeps the whole course on this device when the learner asks for it, renews the copy and removes it. */

import { Copies } from "./copies.js";
import { button, data, goTo, make } from "./dom.js";
import { Broken, keepNewest } from "./keep.js";
import { say } from "./words.js";

/** @typedef {import("./copies.js").Head} Head */
/** @typedef {{worker: string, offline: string, files: string}} Block addresses */

/** @param {number} bytes */
const megabytes = (bytes) => Math.max(1, Math.ceil(bytes / 1e6));

export class CaseKeep extends HTMLElement {
  #life = new AbortController();
  /** @type {Block} */
  #block = data(this);
  #status = make("p", { role: "status" });
  #rest = make("div");

  connectedCallback() {
    this.#life = new AbortController();
    this.replaceChildren(this.#status, this.#rest);
    void this.#show();
  }

  disconnectedCallback() {
    this.#life.abort();
  }

  get #copies() {
    return new Copies(caches, this.#scope);
  }

  get #scope() {
    return new URL(".", new URL(this.#block.worker, location.href)).href;
  }

  /**
   * Says how things stand, read anew each time: another page may have kept or removed the copy.
   * @param {string} [news]
   */
  async #show(news = "") {
    const cannot = impossible();
    if (cannot) return this.#tell(cannot);
    try {
      const [online, copies, worker] = await Promise.all([
        this.#asked(this.#block.offline).catch(() => null),
        this.#copies.all(),
        navigator.serviceWorker.getRegistration(this.#scope),
      ]);
      const kept = worker ? await this.#copies.kept() : null;
      const list = kept && (await kept.list());
      if (list) this.#held(list, online, copies.length > 1, news);
      else if (copies.length) this.#half(Boolean(online), news);
      else if (online) this.#offer(online, news);
      else this.#tell(news);
    } catch {
      this.#tell(say("This browser cannot keep a course. A private window may be the reason."));
    }
  }

  /**
   * @param {Head} online
   * @param {string} news
   */
  #offer(online, news) {
    const size = say("It takes {number} MB, and then opens without a network too.", { number: megabytes(online.bytes) });
    this.#tell(news, make("p", {}, this.#button(say("Keep this course on this device"), () => this.#keep()), " ", size));
  }

  /**
   * @param {boolean} canGoOn
   * @param {string} news
   */
  #half(canGoOn, news) {
    const goOn = canGoOn ? [this.#button(say("Go on"), () => this.#keep()), " "] : [];
    this.#tell(news || say("Not all of this course is on this device yet."), make("p", {}, ...goOn, this.#remover()));
  }

  /**
   * @param {Head} kept
   * @param {Head | null} online
   * @param {boolean} isBegun whether a newer copy is here in part
   * @param {string} news
   */
  #held(kept, online, isBegun, news) {
    const edition = kept.edition || say("build {build}", { build: kept.build });
    const told = [make("p", {}, say("Kept on this device: {edition}. It opens without a network.", { edition }))];
    /** @type {(Node | string)[]} */
    const renew = [];
    if (online && online.mark !== kept.mark) {
      const size = { number: megabytes(online.bytes) };
      told.push(make("p", {}, isBegun ? say("A newer one is here in part.") : say("The course has changed since. The new copy takes {number} MB.", size)));
      renew.push(this.#button(isBegun ? say("Go on") : say("Renew the copy"), () => this.#keep()), " ");
    }
    this.#tell(news, ...told, make("p", {}, ...renew, this.#remover()));
  }

  async #keep() {
    const stop = new AbortController();
    const signal = AbortSignal.any?.([stop.signal, this.#life.signal]) ?? stop.signal;
    const bar = make("progress", { "aria-label": say("How much is here") });
    const said = make("span");
    this.#tell(say("The course is on its way. You can leave this page and go on later."), make("p", {}, bar, " ", said), make("p", {}, this.#button(say("Stop here"), () => stop.abort())));
    goTo(this.#status);
    /** @param {number} done @param {Head} list */
    const told = (done, list) => {
      bar.max = list.bytes;
      bar.value = done;
      said.textContent = say("{done} of {all} MB", { done: Math.floor(done / 1e6), all: megabytes(list.bytes) });
    };
    let news;
    try {
      await navigator.serviceWorker.register(this.#block.worker, { updateViaCache: "none" }).catch(() => {
        throw new Broken("refused");
      });
      await navigator.serviceWorker.ready;
      await keepNewest(this.#copies, () => this.#asked(this.#block.files), { fetch: fetch.bind(window), signal, told });
      news = say("All of it is here.");
    } catch (fault) {
      news = why(fault);
    }
    await this.#show(news);
    goTo(this.#status);
  }

  #remover() {
    return this.#button(say("Remove the copy"), async () => {
      await this.#copies.drop();
      await (await navigator.serviceWorker.getRegistration(this.#scope))?.unregister();
      await this.#show(say("The copy is removed."));
      goTo(this.#status);
    });
  }

  /**
   * What the network has, never what the browser holds of it.
   * @param {string} address
   */
  async #asked(address) {
    const answer = await fetch(address, { cache: "no-store" }).catch(() => null);
    if (!answer?.ok) throw new Broken("network");
    return answer.json().catch(() => {
      throw new Broken("network");
    });
  }

  /**
   * @param {string} news
   * @param {...Node} rest
   */
  #tell(news, ...rest) {
    this.#status.textContent = news;
    this.#rest.replaceChildren(...rest);
  }

  /**
   * @param {string} words
   * @param {() => void} act
   */
  #button(words, act) {
    return button(words, act, { signal: this.#life.signal, kind: "quiet" });
  }
}

/** Why nothing can be kept here at all; empty where it can. */
function impossible() {
  if (location.protocol === "file:") return say("Opened from disk, this course needs no network.");
  if (!isSecureContext) return say("To keep this course on a device, open it at an address that begins with https.");
  if (!navigator.serviceWorker || !("caches" in window)) return say("This browser cannot keep a course. A private window may be the reason.");
  return "";
}

/** @param {unknown} fault */
function why(fault) {
  const { reason, file } = fault instanceof Broken ? fault : new Broken("refused");
  if (reason === "network") return say("The network broke off. What is here stays: go on when you are online.");
  if (reason === "room") return say("There is no room for it on this device. Make room and go on, or remove the copy.");
  if (reason === "changed") return say("{file} did not arrive as it was written. The site may be changing now: go on later.", { file });
  if (reason === "stopped") return say("Stopped. What is here stays.");
  return say("This browser did not let it be kept.");
}
