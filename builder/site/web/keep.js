/** Fetches a whole copy of a course, file by file; one that was broken off goes on where it stopped. */

/** @typedef {import("./copies.js").Copies} Copies */
/** @typedef {import("./copies.js").List} List */
/** @typedef {"network" | "room" | "changed" | "stopped" | "refused"} Reason */

import { keyOf } from "./copies.js";

/** Files on their way at a time. */
const AT_ONCE = 6;
/** A site may be replaced while it is fetched; after so many it is told. */
const BUILDS = 3;

/** Why a copy is not whole. */
export class Broken extends Error {
  /**
   * @param {Reason} reason
   * @param {string} [file]
   */
  constructor(reason, file = "") {
    super(reason);
    this.reason = reason;
    this.file = file;
  }
}

/**
 * Keeps the build that the network has. The copy before it stays until the new one is whole.
 * @param {Copies} copies
 * @param {() => Promise<List>} listed asks the network for its list
 * @param {{fetch: typeof globalThis.fetch, signal: AbortSignal, told: (done: number, list: List) => void}} how
 */
export async function keepNewest(copies, listed, how) {
  let before = "";
  for (let build = 1; ; build++) {
    const list = await listed();
    try {
      return await keepAll(copies, list, how);
    } catch (fault) {
      const isNewer = fault instanceof Broken && fault.reason === "changed" && list.mark !== before && build < BUILDS;
      if (!isNewer) throw fault;
      before = list.mark;
    }
  }
}

/**
 * @param {Copies} copies
 * @param {List} list
 * @param {{fetch: typeof globalThis.fetch, signal: AbortSignal, told: (done: number, list: List) => void}} how
 */
async function keepAll(copies, list, { fetch, signal, told }) {
  const others = (await copies.all()).filter((copy) => copy.mark !== list.mark).reverse();
  const copy = await copies.open(list.mark);
  const waiting = Object.entries(list.files);
  let done = 0;
  /** @type {unknown} */
  let fault;
  told(0, list);

  /** @param {string} name @param {string} hash */
  const one = async (name, hash) => {
    if (await isHeld(await copy.get(name), hash)) return;
    for (const other of others) {
      const found = await other.get(name);
      if (await isHeld(found, hash)) return put(name, /** @type {Response} */ (found));
    }
    await put(name, await fetched(fetch, keyOf(name, copies.scope), name, hash, signal));
  };
  /** @param {string} name @param {Response} file */
  const put = (name, file) =>
    copy.put(name, file).catch((refused) => {
      throw new Broken(refused?.name === "QuotaExceededError" ? "room" : "refused", name);
    });
  const some = async () => {
    for (let next; !fault && (next = waiting.shift()); ) {
      const [name, [bytes, hash]] = next;
      try {
        if (signal.aborted) throw new Broken("stopped");
        await one(name, hash);
        told((done += bytes), list);
      } catch (met) {
        fault ??= met;
      }
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, some));
  if (fault) throw fault;
  await copy.close(list);
  await copies.drop(list.mark);
}

/**
 * A file of the network, if it is as the list has it: some other page may answer in its place, and so may another build.
 * @param {typeof globalThis.fetch} fetch
 * @param {string} address
 * @param {string} name
 * @param {string} hash
 * @param {AbortSignal} signal
 */
async function fetched(fetch, address, name, hash, signal) {
  let answer, bytes;
  // Not held by the browser beside the copy: that would take the room twice, and outlive it.
  try {
    answer = await fetch(address, { cache: "no-store", signal });
    bytes = await answer.arrayBuffer();
  } catch {
    throw new Broken(signal.aborted ? "stopped" : "network", name);
  }
  if (!answer.ok || (await digest(bytes)) !== hash) throw new Broken("changed", name);
  // Made anew: an answer that was led on from another address would not be taken for a page.
  return new Response(bytes, { headers: { "Content-Type": answer.headers.get("Content-Type") ?? "" } });
}

/**
 * @param {Response | undefined} file
 * @param {string} hash
 */
const isHeld = async (file, hash) => Boolean(file) && (await digest(await /** @type {Response} */ (file).clone().arrayBuffer())) === hash;

/**
 * The start of the SHA-256, as the builder lists it.
 * @param {ArrayBuffer} bytes
 */
async function digest(bytes) {
  const whole = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return [...whole.slice(0, 4)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
