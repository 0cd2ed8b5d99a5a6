// Keeping a course and answering from the copy, with a store and a network that can fail at any file.

import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { test } from "node:test";

import { Copies, keyOf, namesOf } from "../../builder/site/web/copies.js";
import { Broken, keepNewest } from "../../builder/site/web/keep.js";
import { answerPage, answerPart, isOurs, ranged } from "../../builder/site/web/worker.js";

const SCOPE = "https://coach.example/course/";

/** The Cache API, as far as it is used (W3C, Service Workers): a map from address to answer. */
class Store {
  /** @type {Map<string, Map<string, Response>>} */
  held = new Map();
  room = Infinity;
  keys = async () => [...this.held.keys()];
  delete = async (name) => this.held.delete(name);
  open = async (name) => {
    if (!this.held.has(name)) this.held.set(name, new Map());
    const files = /** @type {Map<string, Response>} */ (this.held.get(name));
    return {
      match: async (key) => files.get(key)?.clone(),
      put: async (key, answer) => {
        if (this.room-- <= 0) throw new DOMException("full", "QuotaExceededError");
        files.set(key, answer);
      },
      delete: async ({ url }) => files.delete(url),
      keys: async () => [...files.keys()].map((url) => ({ url })),
    };
  };
}

const hash = (text) => createHash("sha256").update(text).digest("hex").slice(0, 8);

/** A host with a site of two pages and its data, which all carry the build's name. */
class Host {
  asked = [];
  /** @type {Record<string, string>} */
  spoilt = {};
  isUp = true;
  constructor(build) {
    this.build = build;
  }
  get files() {
    const { build } = this;
    return { "index.html": `home ${build}`, "quiz.html": `quiz ${build}`, "quiz.1.js": `data ${build}`, "same.css": "p {}", "404.html": `gone ${build}` };
  }
  get list() {
    const files = Object.fromEntries(Object.entries(this.files).map(([name, text]) => [name, [text.length, hash(text)]]));
    return { mark: hash(this.build), bytes: 44, build: this.build, edition: "", files };
  }
  fetch = async (request) => {
    const url = typeof request === "string" ? request : request.url;
    const [name] = namesOf(url, SCOPE);
    this.asked.push(name);
    if (!this.isUp || this.spoilt[name] === "drop") throw new TypeError("no network");
    if (name === "offline.json") return Response.json(this.list);
    const text = this.spoilt[name] ?? this.files[name];
    return text === undefined ? new Response("", { status: 404 }) : new Response(text, { headers: { "Content-Type": "text/plain" } });
  };
}

const setUp = (build = "A") => {
  const store = new Store();
  return { store, host: new Host(build), copies: new Copies(/** @type {any} */ (store), SCOPE) };
};

const keep = ({ copies, host }, { signal = new AbortController().signal, told = () => {} } = {}) =>
  keepNewest(copies, async () => host.list, { fetch: host.fetch, signal, told });

const open = async ({ copies, host }, name, page) => {
  const later = [];
  const answer = await answerPage({ copies, fetch: host.fetch }, new Request(SCOPE + name), page, (work) => later.push(work));
  await Promise.all(later);
  return answer.text();
};

const part = async ({ copies, host }, name, page) => (await answerPart({ copies, fetch: host.fetch }, new Request(SCOPE + name), page)).text();

test("a copy is whole with its last file and not before, and says how much is here", async () => {
  const all = setUp();
  const told = [];
  await keep(all, { told: (done) => told.push(done) });
  assert.deepEqual(told, [...told].sort((one, other) => one - other));
  assert.equal(told.at(-1), Object.values(all.host.list.files).reduce((sum, [bytes]) => sum + bytes, 0));
  assert.equal((await all.copies.kept()).mark, all.host.list.mark);
  assert.deepEqual(await (await all.copies.kept()).list(), all.host.list);
});

for (const name of Object.keys(new Host("A").files)) {
  test(`broken off at ${name}, a copy answers nothing, and goes on without what is here`, async () => {
    const all = setUp();
    all.host.spoilt[name] = "drop";
    await assert.rejects(keep(all), (fault) => fault instanceof Broken && fault.reason === "network" && fault.file === name);
    assert.equal(await all.copies.kept(), null);
    const here = new Set([...all.store.held.values()].flatMap((files) => [...files.keys()]));
    all.host.isUp = false;
    await assert.rejects(open(all, "quiz.html", "p"), TypeError);
    all.host.isUp = true;
    all.host.spoilt = {};
    all.host.asked = [];
    await keep(all);
    assert.ok(all.host.asked.every((one) => !here.has(keyOf(one, SCOPE))), String(all.host.asked));
    assert.ok(await all.copies.kept());
  });
}

test("a file that is not as it was written is never kept", async () => {
  const all = setUp();
  all.host.spoilt["quiz.html"] = "Pay here";
  await assert.rejects(keep(all), (fault) => fault.reason === "changed" && fault.file === "quiz.html");
  assert.equal(await all.copies.kept(), null);
});

test("a site that is replaced while it is fetched is kept as the new build, whole", async () => {
  const all = setUp();
  let asked = 0;
  const lists = async () => {
    const { list } = all.host;
    if (!asked++) all.host.build = "B"; // between its list and its files
    return list;
  };
  await keepNewest(all.copies, lists, { fetch: all.host.fetch, signal: new AbortController().signal, told: () => {} });
  assert.equal((await all.copies.kept()).mark, hash("B"));
  assert.deepEqual(await all.copies.marks(), [hash("B")]);
});

test("a site that never holds still is given up", async () => {
  const all = setUp();
  let build = 0;
  const lists = async () => new Host(`${build++}`).list;
  await assert.rejects(
    keepNewest(all.copies, lists, { fetch: all.host.fetch, signal: new AbortController().signal, told: () => {} }),
    (fault) => fault.reason === "changed",
  );
  assert.equal(build, 3);
});

test("without room the copy before stays, and is all that answers", async () => {
  for (let room = 0; room < 6; room++) {
    const all = setUp();
    await keep(all);
    all.host.build = "B";
    all.store.room = room;
    await assert.rejects(keep(all), (fault) => fault.reason === "room" || fault.name === "QuotaExceededError");
    all.store.room = Infinity;
    assert.equal((await all.copies.kept()).mark, hash("A"));
    all.host.isUp = false;
    assert.equal(await open(all, "quiz.html", "p"), "quiz A");
    assert.equal(await part(all, "quiz.1.js", "p"), "data A");
  }
});

test("a renewal fetches what has changed alone, and leaves one copy", async () => {
  const all = setUp();
  await keep(all);
  all.host.build = "B";
  all.host.asked = [];
  await keep(all);
  assert.deepEqual(all.host.asked.sort(), ["404.html", "index.html", "quiz.1.js", "quiz.html"]);
  assert.deepEqual(await all.copies.marks(), [hash("B")]);
});

test("stopped by the learner, it says so and keeps what is here", async () => {
  const all = setUp();
  const stop = new AbortController();
  stop.abort();
  await assert.rejects(keep(all, { signal: stop.signal }), (fault) => fault.reason === "stopped");
  assert.equal(await all.copies.kept(), null);
});

test("with a network its pages and data win over any copy", async () => {
  const all = setUp();
  await keep(all);
  all.host.build = "B";
  assert.equal(await open(all, "quiz.html", "p"), "quiz B");
  assert.equal(await part(all, "quiz.1.js", "p"), "data B");
});

// Every way of losing and finding the network between a page and its data, with the same build online and another.
test("no page ever gets data of another build", async () => {
  for (const online of ["A", "B"])
    for (const first of [true, false])
      for (const then of [true, false]) {
        const all = setUp();
        await keep(all);
        all.host.build = online;
        all.host.isUp = first;
        const page = await open(all, "quiz.html?draw=42", "p");
        all.host.isUp = then;
        const got = await part(all, "quiz.1.js", "p").catch(() => "nothing");
        const build = first ? online : "A";
        assert.equal(page, `quiz ${build}`);
        assert.equal(got, first && !then && online === "B" ? "nothing" : `data ${build}`, `${online} ${first} ${then}`);
      }
});

test("a page that nobody has noted gets nothing from the copy", async () => {
  const all = setUp();
  await keep(all);
  all.host.isUp = false;
  await assert.rejects(part(all, "quiz.1.js", "stranger"), TypeError);
  await assert.rejects(part(all, "quiz.1.js", ""), TypeError);
});

test("some forty pages are remembered, the newest among them", async () => {
  const all = setUp();
  await keep(all);
  all.host.isUp = false;
  for (let page = 0; page < 60; page++) await open(all, "quiz.html", `p${page}`);
  const copy = await all.copies.kept();
  const known = await Promise.all(Array.from({ length: 60 }, (_, page) => copy.noted(`p${page}`)));
  assert.deepEqual(known, Array.from({ length: 60 }, (_, page) => (page < 20 ? null : "copy")));
});

test("without room for a note a page still opens", async () => {
  const all = setUp();
  await keep(all);
  all.host.isUp = false;
  all.store.room = 0;
  assert.equal(await open(all, "quiz.html", "p"), "quiz A");
});

test("a store that is broken disturbs nothing while there is a network", async () => {
  const all = setUp();
  all.store.keys = () => Promise.reject(new Error("broken"));
  assert.equal(await open(all, "quiz.html", "p"), "quiz A");
  assert.equal(await part(all, "quiz.1.js", "p"), "data A");
});

test("what is not there is told with the site's own page, and the network's answer is left as it is", async () => {
  const all = setUp();
  await keep(all);
  const ask = () => answerPage({ copies: all.copies, fetch: all.host.fetch }, new Request(`${SCOPE}nothing.html`), "p", () => {});
  assert.equal((await ask()).status, 404);
  all.host.isUp = false;
  const answer = await ask();
  assert.equal(answer.status, 404);
  assert.equal(await answer.text(), "gone A");
});

test("an address means a file, whatever it asks for", () => {
  const names = (address) => namesOf(SCOPE + address, SCOPE);
  assert.deepEqual(names(""), ["index.html"]);
  assert.deepEqual(names("quizzes/?ask=a"), ["quizzes/index.html"]);
  assert.deepEqual(names("quiz.html?draw=42#end")[0], "quiz.html");
  assert.deepEqual(names("quiz"), ["quiz", "quiz.html", "quiz/index.html"]);
  assert.deepEqual(names("%C3%BCbung%20(1).html")[0], "übung (1).html");
  assert.deepEqual(names("%E0%A4%A"), []);
});

test("every name has an address of its own that leads back to it", () => {
  const odd = ["a.html", "a b.html", "ü/ä.html", "100%.html", "a#b.html", "a+b&c.html", "a'b.html", "..a/.b.html", "名.html"];
  assert.equal(new Set(odd.map((name) => keyOf(name, SCOPE))).size, odd.length);
  for (const name of odd) assert.equal(namesOf(keyOf(name, SCOPE), SCOPE)[0], name);
});

test("a site has no say in another's addresses, nor in what is written to it or tells of builds", () => {
  const ours = (address, method = "GET") => isOurs(new Request(new URL(address, SCOPE), { method }), SCOPE);
  assert.ok(ours("") && ours("quiz.html?draw=1") && ours("a/offline.json"));
  assert.ok(!ours("../") && !ours("../courses/a.html") && !ours("https://other.example/course/a.html"));
  assert.ok(!ours("quiz.html", "POST") && !ours("offline.json?x") && !ours("offline-files.json") && !ours("sw.js"));
});

test("sites on one host have copies of their own", async () => {
  const store = new Store();
  const scopes = ["https://coach.example/", SCOPE, `${SCOPE}two/`];
  for (const scope of scopes) await new Copies(/** @type {any} */ (store), scope).open("1a2b3c4d");
  for (const scope of scopes) assert.deepEqual(await new Copies(/** @type {any} */ (store), scope).marks(), ["1a2b3c4d"]);
  await new Copies(/** @type {any} */ (store), SCOPE).drop();
  assert.deepEqual((await store.keys()).length, 2);
});

test("sound and film come by the parts that are asked for (RFC 9110, 14.1.2, whose file has 10000 bytes)", async () => {
  const bytes = new Uint8Array(10000).map((_, at) => at % 251);
  const file = () => new Response(bytes, { headers: { "Content-Type": "video/mp4" } });
  const asked = async (range) => {
    const answer = await ranged(file(), range);
    return [answer.status, answer.headers.get("Content-Range"), (await answer.arrayBuffer()).byteLength];
  };
  assert.deepEqual(await asked("bytes=0-499"), [206, "bytes 0-499/10000", 500]);
  assert.deepEqual(await asked("bytes=500-999"), [206, "bytes 500-999/10000", 500]);
  assert.deepEqual(await asked("bytes=9500-"), [206, "bytes 9500-9999/10000", 500]);
  assert.deepEqual(await asked("bytes=9999-20000"), [206, "bytes 9999-9999/10000", 1]);
  assert.deepEqual(await asked("bytes=10000-"), [416, "bytes */10000", 0]);
  assert.deepEqual(await asked(null), [200, null, 10000]);
  assert.deepEqual(await asked("bytes=0-0,-1"), [200, null, 10000]);
  assert.equal(await ranged(undefined, "bytes=0-1"), undefined);
});
