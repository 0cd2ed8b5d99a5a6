// The browser's pure modules. INTERVALS holds published intervals as JSON: [held, of, low, high].

import assert from "node:assert/strict";
import { test } from "node:test";

import { wilson } from "../../builder/site/web/interval.js";
import { PULL, hang } from "../../builder/site/web/plumb.js";
import { MOST, add, empty, merge, parse } from "../../builder/site/web/record.js";
import { Store } from "../../builder/site/web/store.js";

const attempt = (id, second, more = {}) => ({
  kind: "question", id, digest: "d1", at: new Date(Date.UTC(2026, 0, 1, 0, 0, second)).toISOString(), objective: "o", mark: 1, ...more,
});

test("Wilson's interval", () => {
  const published = JSON.parse(process.env.INTERVALS);
  assert.ok(published.length > 4);
  for (const [held, of, low, high] of published) {
    const found = wilson(held, of);
    assert.ok(Math.abs(found[0] - low) < 0.000006 && Math.abs(found[1] - high) < 0.000006, `${held} of ${of}: ${found}`);
  }
});

test("the line hangs straight, leans, and keeps within its room", () => {
  assert.deepEqual(hang(["held", "held"], 24), [[0, 0], [0, 0]]);
  assert.deepEqual(hang(["missed", "held", "serious"], 24), [[0, PULL.missed], [PULL.missed, PULL.missed], [PULL.missed, PULL.missed + PULL.serious]]);
  const far = hang(Array(50).fill("serious"), 24);
  assert.equal(far.at(-1)[1], 24);
  assert.ok(PULL.held < PULL.missed && PULL.missed < PULL.minor && PULL.minor < PULL.serious);
});

test("only the first attempt at a question as it stood is a first one", () => {
  let record = empty("ankle");
  record = add(record, attempt("a", 1));
  record = add(record, attempt("a", 2, { mark: 0 }));
  record = add(record, attempt("a", 3, { digest: "d2" }));
  record = add(record, attempt("b", 4));
  assert.deepEqual(record.attempts.map(({ first }) => first), [true, false, true, true]);
});

test("merging knows the same attempt again, whichever way round", () => {
  const one = [attempt("a", 1), attempt("a", 5)].reduce(add, empty("ankle"));
  const other = [attempt("a", 3), attempt("a", 5), attempt("b", 2)].reduce(add, empty("ankle"));
  const both = merge(one, other);
  assert.deepEqual(both, merge(other, one));
  assert.deepEqual(both.attempts.map(({ id, first }) => [id, first]), [["a", true], ["b", true], ["a", false], ["a", false]]);
  assert.deepEqual(merge(both, both), both);
});

test("what is no record of this course is refused", () => {
  const good = add(empty("ankle"), attempt("a", 1));
  assert.deepEqual(parse(JSON.parse(JSON.stringify(good)), "ankle"), good);
  for (const bad of [
    null, 7, "x", [], {}, { ...good, course: "other" }, { ...good, format: 2 }, { ...good, attempts: {} },
    { ...good, attempts: [null] }, { ...good, attempts: [{ ...good.attempts[0], kind: "cheat" }] },
    { ...good, attempts: [{ ...good.attempts[0], at: "yesterday" }] }, { ...good, attempts: [{ ...good.attempts[0], mark: 2 }] },
    { ...good, attempts: [{ ...good.attempts[0], mark: "1" }] }, { ...good, attempts: [{ ...good.attempts[0], id: 1 }] },
  ]) {
    assert.equal(parse(bad, "ankle"), null, JSON.stringify(bad));
  }
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

test("a store keeps to its own course", () => {
  const kept = new Map([["casetrue:other:x", "1"], ["broken", "{"]]);
  globalThis.localStorage = new Proxy({}, {
    get: (_, name) => ({
      getItem: (key) => kept.get(key) ?? null, setItem: (key, value) => kept.set(key, value), removeItem: (key) => kept.delete(key),
    })[name],
    ownKeys: () => [...kept.keys()],
    getOwnPropertyDescriptor: () => ({ enumerable: true, configurable: true }),
  });
  const store = new Store("ankle");
  store.set("x", [1]);
  assert.deepEqual([...kept.keys()], ["casetrue:other:x", "broken", "casetrue:ankle:x"]);
  kept.set("casetrue:ankle:y", "{");
  assert.equal(store.get("y"), null);
  store.forget();
  assert.deepEqual([...kept.keys()], ["casetrue:other:x", "broken"]);
  delete globalThis.localStorage;
});
