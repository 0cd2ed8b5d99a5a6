// The browser's pure modules, and what it keeps on a device.

import assert from "node:assert/strict";
import { test } from "node:test";

import { keep, recordOf, remember, unreadOf } from "../../builder/site/web/device.js";
import { PULL, hang } from "../../builder/site/web/plumb.js";
import { MOST, empty, merge, told } from "../../builder/site/web/record.js";
import { attemptAt, whole } from "../../builder/site/web/tree.js";
import { FORGOTTEN, Store, storeOf } from "../../builder/site/web/store.js";

const attempt = (id, second, more = {}) => ({
  kind: "question", id, digest: "0123456789ab", at: new Date(Date.UTC(2026, 0, 1, 0, 0, second)).toISOString(), objective: "o", mark: 1,
  right: (more.mark ?? 1) === 1, known: true, mode: "practise", ...more,
});
const add = (record, one) => merge(record, { attempts: [one] });

test("the line hangs straight, leans, and keeps within its room", () => {
  assert.deepEqual(hang(["held", "held"], 24), [[0, 0], [0, 0]]);
  assert.deepEqual(hang(["missed", "held", "serious"], 24), [[0, PULL.missed], [PULL.missed, PULL.missed], [PULL.missed, PULL.missed + PULL.serious]]);
  const far = hang(Array(50).fill("serious"), 24);
  assert.equal(far.at(-1)[1], 24);
  assert.ok(PULL.held < PULL.missed && PULL.missed < PULL.minor && PULL.minor < PULL.serious);
});

test("only the first attempt at a question is a first one, whatever its wording", () => {
  let record = empty("ankle");
  record = add(record, attempt("a", 1));
  record = add(record, attempt("a", 2, { mark: 0 }));
  record = add(record, attempt("a", 3, { digest: "ffffffffffff" }));
  record = add(record, attempt("b", 4));
  assert.deepEqual(record.attempts.map(({ first }) => first), [true, false, false, true]);
});

test("merging knows the same attempt again, whichever way round", () => {
  const one = [attempt("a", 1), attempt("a", 5)].reduce(add, empty("ankle"));
  const other = [attempt("a", 3), attempt("a", 5), attempt("b", 2)].reduce(add, empty("ankle"));
  const both = merge(one, other);
  assert.deepEqual(both, merge(other, one));
  assert.deepEqual(both.attempts.map(({ id, first }) => [id, first]), [["a", true], ["b", true], ["a", false], ["a", false]]);
  assert.deepEqual(merge(both, both), both);
});

test("a record stays within its bound and loses old repeats first", () => {
  const many = Array.from({ length: MOST + 5 }, (_, second) => attempt(second < 3 ? `q${second}` : "q0", second));
  const record = merge({ ...empty("ankle"), attempts: many.map((one) => ({ ...one, first: false })) }, empty("ankle"));
  assert.equal(record.attempts.length, MOST);
  assert.deepEqual(record.attempts.filter(({ first }) => first).map(({ id }) => id), ["q0", "q1", "q2"]);
  assert.equal(record.attempts.at(-1).at, many.at(-1).at);
});

test("a store that is shut works from memory and says so", () => {
  const told = [];
  const store = new Store("ankle");
  store.onShut = () => told.push("shut");
  assert.equal(store.get("x"), null);
  store.set("x", { a: 1 });
  assert.deepEqual(store.get("x"), { a: 1 });
  store.drop("x");
  assert.equal(store.get("x"), null);
  store.set("y", 2);
  store.forget();
  assert.equal(store.get("y"), null);
  assert.deepEqual(told, ["shut", "shut"]);
});

/** A browser's storage that holds what is in the map, up to so many signs. */
function storage(kept, room = Infinity) {
  const setItem = (key, value) => {
    const used = [...kept].reduce((sum, [other, text]) => sum + (other === key ? 0 : other.length + text.length), 0);
    if (used + key.length + value.length > room) throw new Error("full");
    kept.set(key, value);
  };
  return new Proxy({}, {
    get: (_, name) => ({ getItem: (key) => kept.get(key) ?? null, setItem, removeItem: (key) => kept.delete(key) })[name],
    ownKeys: () => [...kept.keys()],
    getOwnPropertyDescriptor: () => ({ enumerable: true, configurable: true }),
  });
}

test("a store keeps to its own course", () => {
  const kept = new Map([["casetrue:other:x", "1"], ["broken", "{"]]);
  globalThis.localStorage = storage(kept);
  const store = new Store("ankle");
  store.set("x", [1]);
  assert.deepEqual([...kept.keys()], ["casetrue:other:x", "broken", "casetrue:ankle:x"]);
  kept.set("casetrue:ankle:y", "{");
  assert.equal(store.get("y"), null);
  store.forget();
  assert.deepEqual([...kept.keys()], ["casetrue:other:x", "broken"]);
  delete globalThis.localStorage;
});

const KEY = "casetrue:ankle:record";
const ASIDE = "casetrue:ankle:aside:";
const good = attempt("a", 1);
const written = (...attempts) => JSON.stringify({ format: 2, course: "ankle", attempts });

/** A device that keeps this text as the record. */
function device(text, room) {
  const kept = new Map([[KEY, text]]);
  globalThis.localStorage = storage(kept, room);
  return { kept, store: new Store("ankle") };
}

const ids = (text) => JSON.parse(text).attempts.map((one) => one?.id);

test("sound attempts stay when one is not, which is kept aside", () => {
  const { kept, store } = device(written(good, { ...attempt("b", 2), mark: 7 }, attempt("c", 3), null));
  let told = 0;
  store.onAside = () => (told += 1);
  assert.deepEqual(recordOf(store, "ankle").attempts.map(({ id }) => id), ["a", "c"]);
  assert.deepEqual(unreadOf(store, "ankle").map(({ key, text }) => [key, ids(text)]), [[null, ["b", undefined]]]);
  assert.deepEqual([...kept.keys()], [KEY], "looking changes nothing");
  remember(store, "ankle", [attempt("d", 4)]);
  remember(store, "ankle", [attempt("e", 5)]);
  assert.deepEqual(ids(kept.get(KEY)), ["a", "c", "d", "e"]);
  assert.deepEqual(ids(kept.get(`${ASIDE}1`)), ["b", undefined]);
  assert.deepEqual([...kept.keys()].sort(), [`${ASIDE}1`, "casetrue:ankle:plan", KEY].sort());
  assert.equal(told, 1);
  assert.deepEqual(unreadOf(store, "ankle").map(({ key }) => key), ["aside:1"]);
});

test("what cannot be read as a record is kept aside as it is before anything is written", () => {
  const newer = JSON.stringify({ format: 3, course: "ankle", attempts: [good] });
  const foreign = JSON.stringify({ format: 2, course: "other", attempts: [good] });
  for (const text of [newer, foreign, written(good).slice(0, -9), "7", "null", "", JSON.stringify({ format: 2, course: "ankle", attempts: {} })]) {
    const { kept, store } = device(text);
    assert.deepEqual(recordOf(store, "ankle"), empty("ankle"), text);
    remember(store, "ankle", [good]);
    assert.equal(kept.get(`${ASIDE}1`), text);
    assert.deepEqual(ids(kept.get(KEY)), ["a"]);
    kept.set(KEY, text);
    remember(store, "ankle", [good]);
    assert.equal(kept.size, 3, "the record, its plan, and the same text only once");
    kept.set(KEY, `${text} `);
    remember(store, "ankle", [good]);
    assert.equal(kept.get(`${ASIDE}2`), `${text} `);
    store.forget();
    assert.equal(kept.size, 0, "what is aside is forgotten too");
  }
});

test("what format 1 kept is written as format 2, on a device with a name of its own", () => {
  const old = { kind: "question", id: "a", digest: "0123456789ab", at: good.at, objective: "o", mark: 0.5, first: true, quiz: "q", seed: 3, certainty: 2 };
  const { kept, store } = device(JSON.stringify({ format: 1, course: "ankle", attempts: [old] }));
  assert.deepEqual(recordOf(store, "ankle").attempts.map(({ draw, sure, right, mode }) => [draw, sure, right, mode]), [[3, 2, false, "quiz"]]);
  remember(store, "ankle", [attempt("b", 2)]);
  const file = JSON.parse(kept.get(KEY));
  assert.deepEqual([file.format, file.attempts.map(({ id }) => id)], [2, ["a", "b"]]);
  assert.match(file.device, /^[0-9a-f]{16}$/);
  remember(store, "ankle", [attempt("c", 3)]);
  assert.equal(JSON.parse(kept.get(KEY)).device, file.device, "it keeps its name");
  assert.deepEqual([...kept.keys()].sort(), ["casetrue:ankle:plan", KEY].sort(), "nothing was set aside");
});

test("an answer knows the edition that asked, where the page tells it", () => {
  const { store } = device(written());
  globalThis.document = { documentElement: { dataset: { edition: "2026-1" } } };
  remember(store, "ankle", [good]);
  delete globalThis.document;
  assert.equal(recordOf(store, "ankle").attempts[0].edition, "2026-1");
});

test("what an attempt tells of an answer and of what was asked", () => {
  const asked = { unit: "screen/pain", client: "rail-06", key_digest: "0a1b2c3d", breaks: { b: ["pain"], c: ["pain", "heat"] }, stops: ["a", "d"] };
  assert.deepEqual(told(asked, "a"), { known: true, answer: "a", key: "0a1b2c3d", unit: "screen/pain", client: "rail-06", stopped: true });
  assert.deepEqual(told(asked, ["b", "c"]), { known: true, answer: ["b", "c"], key: "0a1b2c3d", unit: "screen/pain", client: "rail-06", breaks: ["pain", "heat"], stopped: false });
  assert.deepEqual(told({ unit: "", client: null, key_digest: "0a1b2c3d", breaks: {}, stops: [] }, "12"), { known: true, answer: "12", key: "0a1b2c3d" });
});

test("a walk tells of each answer and of its end", () => {
  const step = { objective: null, cautions: [], sends_on: false, kind: "ask", key_digest: "0a1b2c3d", unit: "step:e/s" };
  const options = [{ id: "a", best: true, go: "end", harm: "none", cautions: [] }, { id: "b", best: false, go: "s", harm: "serious", cautions: [] }];
  const end = { ...step, kind: "end", options: [], key_digest: "" };
  const walk = { exercise: "e", case: "k", digest: "0123456789ab", start: "s", best_path: ["s", "end"], pass_mark: [4, 5], steps: { s: { ...step, options, breaks: { b: ["pain"] } }, end } };
  const when = { at: good.at, sitting: "0a1b2c3d4e5f6071" };
  assert.deepEqual(attemptAt(walk, [], "b", { ...when, ms: 7 }), {
    kind: "step", id: "e/k/s", digest: "0123456789ab", objective: "", mark: 0, right: false, harm: "serious", mode: "practise", known: true, answer: "b",
    key: "0a1b2c3d", unit: "step:e/s", client: "k", breaks: ["pain"], ms: 7, ...when,
  });
  assert.equal(whole(walk, ["b"], when), null, "not at its end");
  assert.deepEqual(whole(walk, ["b", "a"], when), { kind: "walk", id: "e/k", digest: "0123456789ab", objective: "", mark: 0, passed: false, harm: "serious", mode: "practise", ...when });
  assert.equal(attemptAt({ ...walk, case: "" }, [], "a", when).id, "e/s", "a drill's walk has no client");
});

test("a record takes the number that is free", () => {
  const { kept, store } = device("1");
  kept.set(`${ASIDE}2`, "2");
  for (const text of ["3", "4"]) {
    kept.set(KEY, text);
    keep(store, "ankle", empty("ankle"));
  }
  assert.deepEqual([1, 2, 3].map((number) => kept.get(`${ASIDE}${number}`)), ["3", "2", "4"]);
});

test("where nothing can be kept aside, what cannot be read stays and the record is in memory", () => {
  const text = JSON.stringify({ format: 3, course: "ankle", attempts: [good, attempt("b", 2)] });
  const { kept, store } = device(text, text.length + 40);
  let shut = 0;
  store.onShut = () => (shut += 1);
  for (const one of [good, attempt("c", 3)]) {
    remember(store, "ankle", [one]);
    assert.deepEqual([...kept], [[KEY, text]]);
  }
  assert.deepEqual(recordOf(store, "ankle").attempts.map(({ id }) => id), ["a", "c"]);
  assert.deepEqual(unreadOf(store, "ankle"), [{ key: null, text }]);
  assert.equal(shut, 4, "the record and its plan, twice");
});

test("what one page forgets, the others forget too", () => {
  const heard = [];
  let listen;
  globalThis.addEventListener = (name, act) => name === "storage" && (listen = act);
  globalThis.document = { dispatchEvent: ({ type }) => heard.push(type) };
  globalThis.localStorage = storage(new Map(), 0);
  const store = storeOf("ankle");
  assert.equal(storeOf("ankle"), store);
  store.set("walk:x", 1);
  for (const event of [
    { key: "casetrue:ankle:walk:x", newValue: null }, { key: "casetrue:ankle:forgotten", newValue: null }, { key: "casetrue:other:forgotten", newValue: "" },
  ]) listen(event);
  assert.deepEqual([heard, store.get("walk:x")], [[], 1]);
  listen({ key: "casetrue:ankle:forgotten", newValue: "" });
  assert.deepEqual([heard, store.get("walk:x")], [[FORGOTTEN], null]);
  listen({ key: null, newValue: null });
  assert.equal(heard.length, 2);
  const wrote = [];
  globalThis.localStorage = { setItem: (key, value) => wrote.push([key, value]), removeItem: (key) => wrote.push([key]) };
  store.forget();
  assert.deepEqual(wrote, [["casetrue:ankle:forgotten", ""], ["casetrue:ankle:forgotten"]]);
  delete globalThis.localStorage;
  delete globalThis.document;
  delete globalThis.addEventListener;
});
