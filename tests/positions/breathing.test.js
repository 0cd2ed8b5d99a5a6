// How a body moves, as Python draws it.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { between, blows, fullness, pointsOf, smooth } from "../../builder/site/web/breathing.js";

const { cycles, ways } = JSON.parse(readFileSync(process.env.CASES, "utf-8"));

test("the lungs are as full at every moment", () => {
  for (const { cycle, stops, full } of cycles) {
    for (const [seconds, wanted] of full) assert.ok(Math.abs(fullness(cycle, seconds, stops) - wanted) < 1e-9, `${cycle} ${seconds}`);
  }
});

test("a path is the same curve to a tenth, and gives its points back", () => {
  for (const { points, closed, way } of ways) {
    const own = smooth(points, closed);
    const [mine, theirs] = [own, way].map((one) => one.match(/-?\d+(\.\d+)?/g).map(Number));
    assert.equal(mine.length, theirs.length);
    mine.forEach((value, at) => assert.ok(Math.abs(value - theirs[at]) < 0.11, `${value} ${theirs[at]}`));
    assert.deepEqual(pointsOf(way), points);
    assert.deepEqual(between(points, points, 0.3), points);
  }
});

test("air goes out while it goes out, and not while the breath halts", () => {
  const cycle = [6, 0.5, 3];
  assert.deepEqual([1, 3, 5, 6.2, 8, 10.5].map((at) => blows(cycle, at, false)), [true, true, true, false, false, true]);
  assert.deepEqual([1, 3, 5].map((at) => blows(cycle, at, true)), [true, false, true]);
});
