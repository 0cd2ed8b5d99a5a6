// Runs the tables of cases in the folder CASES on the browser's own modules.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";

import { draw, pcg32 } from "../../builder/site/web/draw.js";
import { harmOf, isHeld, markItem, markQuiz, mayGroup, percent, ratio, readNumber } from "../../builder/site/web/marking.js";
import { answer, follow } from "../../builder/site/web/tree.js";

// Whole numbers too long for JSON.parse are kept as text.
const read = (file) => {
  const text = readFileSync(join(process.env.CASES, file), "utf8");
  return JSON.parse(text.replace(/([[ ,])(-?\d{16,})(?=[,\]])/g, '$1"$2"'));
};

const same = (found, [n, d], name) => assert.equal(found.n * BigInt(d), BigInt(n) * found.d, name);

const cases = read("cases.json");

test("numbers as typed", () => {
  for (const { text, value } of cases.numbers) {
    const found = readNumber(text);
    if (value === null) assert.equal(found, null, JSON.stringify(text));
    else same(found ?? assert.fail(`${JSON.stringify(text)} is a number`), value, JSON.stringify(text));
  }
  assert.ok(cases.numbers.length > 0);
});

test("single questions", () => {
  for (const item of cases.items) {
    const mark = markItem(item, item.answer);
    same(mark, item.mark, item.name);
    assert.equal(isHeld(mark), item.mark[0] === item.mark[1], item.name);
  }
  assert.ok(cases.items.length > 0);
});

test("harms", () => {
  for (const item of cases.harms) assert.equal(harmOf(item, item.answer), item.told, item.name);
  assert.ok(cases.harms.length > 0);
});

test("quizzes", () => {
  for (const { name, marks, serious, pass_mark, mark, held } of cases.quizzes) {
    const ratios = marks.map(([n, d]) => ({ n: BigInt(n), d: BigInt(d) }));
    const found = markQuiz(ratios, pass_mark, serious);
    same(found.mark, mark, name);
    assert.equal(found.held, held, name);
  }
  assert.ok(cases.quizzes.length > 0);
});

test("per cent are never rounded up", () => {
  for (const [n, d, shown] of [[4, 5, 80], [2, 3, 66], [399, 500, 79], [1, 1, 100], [0, 1, 0], [-1, 3, -34], [-2, 1, -200]])
    assert.equal(percent(ratio(n, d)), shown);
});

test("walks", () => {
  const { walks, cases: walked } = read("walk_cases.json");
  for (const { name, walk, picks, result } of walked) {
    const data = walks[walk];
    if (result === null) {
      assert.throws(() => follow(data, picks), RangeError, name);
      continue;
    }
    const found = follow(data, picks);
    const { at, done, path, serious, held, cautions, objectives } = found;
    const steps = found.steps.map((step) => [step.step, step.held, step.harm]);
    assert.deepEqual(
      { at, done, path, steps, held_steps: found.heldSteps, of: found.of, serious, held, cautions, objectives },
      result,
      name,
    );
    same(found.mark, result.of ? [result.held_steps, result.of] : [Number(steps.every((step) => step[1])), 1], name);
    stepByStep(data, picks, found, name);
  }
  assert.ok(walked.length > 0);
});

function stepByStep(data, picks, whole, name) {
  let so_far = [];
  const opened = [...follow(data, []).cautions];
  for (const pick of picks) {
    const step = answer(data, so_far, pick);
    so_far = step.picks;
    opened.push(...step.cautions);
    assert.equal(step.next, whole.path[so_far.length], name);
    assert.equal(step.done, data.steps[step.next].kind === "end", name);
  }
  assert.deepEqual(opened, whole.cautions, name);
}

test("draws", () => {
  const { pcg32: published, draws } = read("draw_cases.json");
  const next = pcg32(published.seed, BigInt(published.stream));
  assert.deepEqual(published.numbers.map(next), published.numbers);
  for (const { name, data, seed, drawn } of draws) assert.deepEqual(draw(data, seed), drawn, name);
  assert.ok(draws.length > 0);
});

test("a mark that may stand between thousands is told from the language's own decimal mark", () => {
  for (const [text, mark, asks] of [
    ["1.234", ",", true], ["1,234", ".", true], ["-12.500", ",", true], [" 999.999 ", ",", true],
    ["1,234", ",", false], ["1.234", ".", false], ["3.5", ",", false], ["3,5", ",", false], ["0.125", ",", false],
    ["1234.567", ",", false], ["12.50", ",", false], ["1234", ",", false], [".125", ",", false],
  ]) {
    assert.equal(mayGroup(text, mark), asks, `${text} where ${mark} is the decimal mark`);
  }
});
