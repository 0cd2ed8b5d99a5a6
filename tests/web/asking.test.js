// What was asked, as Python judges it.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { inOneGo, isKnown, minutes, unsafeFor } from "../../builder/site/web/asking.js";

const { asked, spent } = JSON.parse(readFileSync(process.env.CASES, "utf-8"));

test("a decision is known, or unsafe for want of asking, just as Python says", () => {
  assert.ok(asked.length > 100);
  for (const { step, answer, numbers, known, apart } of asked) {
    assert.equal(isKnown(step, numbers), known);
    assert.deepEqual(unsafeFor(step, answer, numbers)?.apart ?? null, apart);
  }
});

test("what is read in one go is asked for in one go", () => {
  const data = { measures: [{ together: [0, 2] }, {}, { together: [0, 2] }], told: [] };
  assert.deepEqual([0, 1, 2].map((number) => inOneGo(data, number)), [[0, 2], [1], [0, 2]]);
});

test("what the story tells takes no time", () => {
  for (const { data, numbers, least } of spent) assert.equal(minutes(data, numbers), least);
});
