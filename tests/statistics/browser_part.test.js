// The browser's modules on the tables beside this file.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { clientOf, firstAnswers } from "../../builder/site/web/first-answers.js";
import { clustered, wilson } from "../../builder/site/web/interval.js";
import { needed, readiness } from "../../builder/site/web/readiness.js";

const table = (file) => JSON.parse(readFileSync(new URL(file, import.meta.url), "utf8"));
const near = (found, wanted, within, told) => found.forEach((one, at) => assert.ok(Math.abs(one - wanted[at]) < within, `${told}: ${found}, not ${wanted}`));

test("Wilson's interval", () => {
  const published = table("intervals.json");
  assert.ok(published.length > 4);
  for (const [held, of, ...ends] of published) near(wilson(held, of), ends, 0.000006, `${held} of ${of}`);
});

test("intervals where answers hang together", () => {
  const cases = table("clustered.json");
  assert.ok(cases.length > 10);
  for (const [groups, ...ends] of cases) {
    const answers = groups.flatMap(([held, of], at) => Array.from({ length: of }, (_, n) => ({ held: n < held, client: `c${at}` })));
    near(clustered(answers), ends, 1e-9, JSON.stringify(groups));
  }
  const alone = [true, true, false].map((held) => ({ held, client: null }));
  assert.deepEqual(clustered(alone), wilson(2, 3));
});

test("chances of passing", () => {
  const cases = table("chances.json");
  assert.ok(cases.length > 30);
  for (const [rows, least, ...wanted] of cases) {
    const { low, chance, high } = readiness(rows.map(([questions, right, wrong, serious]) => ({ questions, right: [right, wrong], serious })), least);
    near([low, chance, high], wanted, 1e-9, JSON.stringify(rows));
  }
});

test("how many must be right", () => {
  assert.deepEqual([needed(16, [4, 5]), needed(5, [1, 1]), needed(10, [4, 5]), needed(3, [1, 3])], [13, 5, 8, 1]);
});

test("first answers, and whom they are about", () => {
  const ids = ["q-knee-wall-1", "g-plan.tern-03", "first-visit/tern-03/class"];
  assert.deepEqual(ids.map((id) => clientOf({ id })), [null, "tern-03", "tern-03"]);
  assert.equal(clientOf({ id: "q-knee-wall-1", client: "wren" }), "wren");
  const one = { kind: "question", digest: "", at: "", objective: "o", mark: 1, first: true };
  const found = firstAnswers([
    { ...one, id: "g.tern", mark: 0.5, harm: "serious" }, { ...one, id: "a", right: true, mark: 0 },
    { ...one, id: "b", first: false }, { ...one, id: "w/tern", objective: "" },
  ]);
  assert.deepEqual(found, { o: [{ held: false, client: "tern", harm: "serious" }, { held: true, client: null, harm: undefined }] });
});
