/**
 * What the worker answers. While there is a network it changes nothing: pages and data come from there, so that no right
 * answer is an old one. Without a network the kept copy answers, of one build alone: a page that came from it gets all of
 * its files from it, and one that came from the network gets one from it only where both are of the same build.
 */

/** @typedef {import("./copies.js").Copies} Copies */
/** @typedef {import("./copies.js").Copy} Copy */
/** @typedef {(request: Request | string, how?: RequestInit) => Promise<Response>} Fetch */
/** @typedef {{copies: Copies, fetch: Fetch}} Around */

import { HEAD, LIST } from "./copies.js";

/** Asked anew even where the browser still holds it: what it holds may be of another build, with another right answer. */
const ANEW = /** @type {RequestInit} */ ({ cache: "no-cache" });

/** What tells of builds comes from the network alone. */
const PAST = [HEAD, LIST, "sw.js"];

/**
 * Whether the worker has a say in a request at all.
 * @param {Request} request
 * @param {string} scope
 */
export function isOurs(request, scope) {
  const address = request.url.replace(/[?#].*/s, "");
  return request.method === "GET" && address.startsWith(scope) && !PAST.includes(address.slice(scope.length));
}

/**
 * A store that is broken answers nothing, and disturbs nothing.
 * @param {Copies} copies
 */
const newest = (copies) => copies.kept().catch(() => null);

/**
 * A page.
 * @param {Around} around
 * @param {Request} request
 * @param {string} page the id that it will have
 * @param {(work: Promise<void>) => void} later what may go on once the page is answered
 */
export async function answerPage({ copies, fetch }, request, page, later) {
  const kept = await newest(copies);
  if (!kept) return fetch(request);
  try {
    const answer = await fetch(request, ANEW);
    later(noteSame(kept, fetch, page));
    return answer;
  } catch {
    await kept.note(page, "copy");
    return (await kept.at(request.url)) ?? missing(kept);
  }
}

/**
 * Notes a page of the network that is of the kept build.
 * @param {Copy} kept
 * @param {Fetch} fetch
 * @param {string} page
 */
async function noteSame(kept, fetch, page) {
  try {
    const head = await (await fetch(kept.scope + HEAD, { cache: "no-store" })).json();
    if (head.mark === kept.mark) await kept.note(page, "same");
  } catch {
    // Not known, so the page gets nothing from the copy.
  }
}

/** @param {Copy} kept */
async function missing(kept) {
  const page = await kept.get("404.html");
  return page ? new Response(page.body, { status: 404, headers: page.headers }) : Response.error();
}

/**
 * A file that a page asks for.
 * @param {Around} around
 * @param {Request} request
 * @param {string} page the id of the page
 */
export async function answerPart({ copies, fetch }, request, page) {
  const kept = await newest(copies);
  const from = kept && (await kept.noted(page).catch(() => null));
  const held = async () => (kept && from ? ranged(await kept.at(request.url), request.headers.get("Range")) : undefined);
  if (from === "copy") return (await held()) ?? fetch(request);
  try {
    return await (kept ? fetch(request, ANEW) : fetch(request));
  } catch (fault) {
    const found = await held();
    if (found) return found;
    throw fault;
  }
}

/**
 * The bytes that were asked for: some browsers play sound and film by such parts alone (RFC 9110, 14).
 * @param {Response | undefined} file
 * @param {string | null} range
 */
export async function ranged(file, range) {
  const asked = /^bytes=(\d+)-(\d*)$/.exec(range ?? "");
  if (!file || !asked) return file;
  const whole = await file.blob();
  const first = Number(asked[1]);
  const last = Math.min(asked[2] ? Number(asked[2]) : Infinity, whole.size - 1);
  const type = file.headers.get("Content-Type") ?? "";
  if (first > last) return new Response(null, { status: 416, headers: { "Content-Range": `bytes */${whole.size}` } });
  const headers = { "Content-Type": type, "Content-Range": `bytes ${first}-${last}/${whole.size}` };
  return new Response(whole.slice(first, last + 1, type), { status: 206, headers });
}
