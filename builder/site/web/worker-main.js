/** The worker of the site: `sw.js` in its folder. It is registered when a learner asks to keep the course. */

import { Copies } from "./copies.js";
import { answerPage, answerPart, isOurs } from "./worker.js";

/** As far as it is used here. @typedef {ExtendableEvent & {request: Request, clientId: string, resultingClientId: string, respondWith: (answer: Promise<Response>) => void}} FetchEvent */
/** @typedef {Event & {waitUntil: (work: Promise<unknown>) => void}} ExtendableEvent */
/** @typedef {EventTarget & {registration: ServiceWorkerRegistration, skipWaiting: () => Promise<void>}} Worker */

const worker = /** @type {Worker} */ (/** @type {unknown} */ (self));
const { scope } = worker.registration;
const around = { copies: new Copies(caches, scope), fetch: fetch.bind(self) };

// It remembers nothing itself, so a new one can take over at any moment.
worker.addEventListener("install", () => void worker.skipWaiting());

worker.addEventListener("fetch", (met) => {
  const event = /** @type {FetchEvent} */ (met);
  const { request } = event;
  if (!isOurs(request, scope)) return;
  event.respondWith(
    request.mode === "navigate"
      ? answerPage(around, request, event.resultingClientId, (work) => event.waitUntil(work))
      : answerPart(around, request, event.clientId),
  );
});
