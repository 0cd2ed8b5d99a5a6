// The law of paced breathing, over lengths that a page may ask for and lengths that it never should.

import assert from "node:assert/strict";
import { test } from "node:test";

import { MOST_BREATHS, MOST_PAUSE, REST, SETTLE, at, fullness, round } from "../../builder/site/web/pace.js";

const odd = [-Infinity, -1, 0, 0.5, 1, 2.5, 3, 5, 5.01, 7, 12, 1e9, Infinity, NaN, undefined, null, "4", {}];
const every = odd.flatMap((pause) => odd.flatMap((breaths) => [...odd.slice(2, 9), NaN, 1e9].map((out) => ({ out, pause, in: out, breaths }))));

test("the bounds are those of the course format", () => {
  assert.deepEqual([MOST_PAUSE, MOST_BREATHS], [5, 5]);
});

test("no pause in the first breath, none longer than the most, no more breaths than the most, then a rest", () => {
  assert.ok(every.length > 2000);
  for (const lengths of every) {
    const steps = round(lengths);
    const breaths = new Set(steps.map(({ breath }) => breath));
    breaths.delete(0);
    assert.ok(breaths.size >= 1 && breaths.size <= MOST_BREATHS, JSON.stringify(lengths));
    for (const { kind, breath, seconds } of steps) {
      assert.ok(Number.isFinite(seconds) && seconds > 0 && seconds <= REST, JSON.stringify(lengths));
      if (kind === "pause") assert.ok(breath > 1 && seconds <= MOST_PAUSE, JSON.stringify(lengths));
    }
    assert.equal(steps.at(-1).kind, "rest");
    assert.equal(steps.filter(({ kind }) => kind === "rest").length, 1);
  }
});

test("a pause comes about only by taps, a second for each breath that was comfortable, and never all at once", () => {
  for (const lengths of every) {
    for (const taps of [[], [1], [2], [1, 1, 1], [1, 2, 3, 4], [4, 3, 2, 1], [0, 9, -1, NaN]]) {
      const pauses = round(lengths, taps).filter(({ kind }) => kind === "pause");
      let before = 0;
      for (const { breath, seconds } of pauses) {
        const earned = new Set(taps.filter((tap) => tap >= 1 && tap < breath)).size;
        assert.ok(seconds <= earned && seconds <= before + 1, JSON.stringify([lengths, taps]));
        before = seconds;
      }
      if (!taps.includes(1) && !taps.includes(2)) assert.equal(pauses.length, 0);
    }
  }
});

test("a tap changes nothing that came before it", () => {
  const lengths = { out: 6, pause: 4, in: 3, breaths: 4 };
  const before = round(lengths, [1]);
  const after = round(lengths, [1, 3]);
  const until = before.findLastIndex(({ breath }) => breath === 3) + 1;
  assert.deepEqual(after.slice(0, until), before.slice(0, until));
});

test("a round breath by breath", () => {
  const kinds = round({ out: 6, pause: 4, in: 3, breaths: 2 }, [1]).map(({ kind, seconds }) => [kind, seconds]);
  assert.deepEqual(kinds, [["settle", SETTLE], ["out", 6], ["in", 3], ["out", 6], ["pause", 1], ["in", 3], ["rest", REST]]);
  assert.ok(round({ out: 6, pause: 0, in: 3, breaths: 5 }).every(({ kind }) => kind !== "pause"));
});

test("every second of a round belongs to one step, and after the rest it is over", () => {
  const steps = round({ out: 6, pause: 4, in: 3, breaths: 3 }, [1, 2]);
  const whole = steps.reduce((sum, { seconds }) => sum + seconds, 0);
  let last = -1;
  for (let time = 0; time < whole; time += 0.25) {
    const place = at(steps, time);
    assert.ok(place.index === last || place.index === last + 1);
    assert.ok(place.left > 0 && place.left <= steps[place.index].seconds);
    assert.ok(place.share >= 0 && place.share < 1);
    last = place.index;
  }
  assert.equal(last, steps.length - 1);
  assert.equal(at(steps, whole), null);
  assert.equal(at(steps, -5).index, 0);
});

test("the trunk empties, waits and fills without a jump", () => {
  const steps = round({ out: 6, pause: 4, in: 3, breaths: 3 }, [1, 2]);
  const whole = steps.reduce((sum, { seconds }) => sum + seconds, 0);
  let before = 1;
  for (let time = 0; time < whole; time += 0.05) {
    const { index, share } = at(steps, time);
    const full = fullness(steps[index].kind, share);
    assert.ok(full >= 0 && full <= 1 && Math.abs(full - before) < 0.05, `${time}: ${before} to ${full}`);
    before = full;
  }
});
