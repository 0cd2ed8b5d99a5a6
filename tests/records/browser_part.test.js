// Runs the tables of cases beside this file on the browser's own modules. RIDGE holds published values, SIGNS
// what Python says of every sign in a name, FILES the address of another table of files.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { LARGEST, cell, csv, read } from "../../builder/site/web/exchange.js";
import { dayNumber, dayText, gap, reviews, ridge } from "../../builder/site/web/plan.js";
import { same, shown } from "../../builder/site/web/names.js";
import { MOST, empty, merge } from "../../builder/site/web/record.js";
import { again, bestOf, firstTries, heldIn, latest, objectives, wholes } from "../../builder/site/web/summary.js";

const table = (file) => JSON.parse(readFileSync(new URL(file, import.meta.url), "utf8"));
const attempt = (id, second, more = {}) => ({
  kind: "question", id, digest: "0123456789ab", at: new Date(Date.UTC(2026, 5, 1, 0, 0, second)).toISOString(), objective: "o", mark: 1, first: true, ...more,
});

test("gaps keep to the published ridge", () => {
  const { week, year } = JSON.parse(process.env.RIDGE);
  assert.deepEqual(ridge(7).map((share) => Math.round(100 * share)), week);
  assert.deepEqual(ridge(365).map((share) => Math.round(100 * share)), year);
  const shares = Array.from({ length: 400 }, (_, index) => ridge(index + 1)[0]);
  shares.slice(1).forEach((share, index) => assert.ok(share <= shares[index], "the share never grows with the time"));
  assert.deepEqual(ridge(3), ridge(7));
  assert.deepEqual(ridge(800), ridge(365));
  for (let days = 1; days < 1000; days += 1) {
    const after = reviews(days);
    const steps = after.map((day, index) => day - (after[index - 1] ?? 0));
    assert.ok(steps.every((step) => step === gap(days)), `${days}: equal gaps`);
    assert.ok(after.every((day) => day > 0 && day < days) && (after.at(-1) ?? 0) + gap(days) >= days, `${days}: up to the day`);
    assert.ok(after.length <= 14, `${days}: ${after.length} reviews`);
  }
  assert.deepEqual(reviews(7), [2, 4, 6]);
  assert.deepEqual(reviews(1), []);
});

test("days", () => {
  assert.equal(dayNumber("1970-01-02"), 1);
  assert.equal(dayText(dayNumber("2028-02-29")), "2028-02-29");
  for (const none of ["", "2026-02-30", "2026-2-3", "tomorrow", "2026-06-01T00:00", "12026-01-01"]) assert.equal(dayNumber(none), null, none);
});

test("files are taken or refused", () => {
  const cases = table(process.env.FILES ?? "files.json");
  assert.ok(cases.length > 90);
  for (const { name, text, refused, unread } of cases) {
    const found = read(text, "ankle-squat");
    assert.deepEqual([found.refused ?? null, found.unread], [refused, unread], name);
    if (found.file) assert.equal(found.file.attempts.length, JSON.parse(text).attempts.length - unread.length, name);
  }
  assert.equal(read(" ".repeat(LARGEST + 1), "ankle-squat").refused, "size");
  const many = { format: 1, course: "ankle-squat", attempts: Array(MOST + 1).fill(attempt("a", 1)) };
  assert.equal(read(JSON.stringify(many), "ankle-squat").refused, "many");
  assert.equal(read(JSON.stringify({ ...many, attempts: many.attempts.slice(1) }), "ankle-squat").refused, undefined);
  assert.equal(read(JSON.stringify({ ...many, attempts: [] }).padEnd(LARGEST), "ankle-squat").refused, undefined);
  assert.equal({}.admin, undefined, "nothing reached what objects have");
});

test("records become one", () => {
  const cases = table("merges.json");
  assert.ok(cases.length > 5);
  for (const { name, records, merged } of cases) {
    const whole = records.map((attempts) => ({ format: 1, course: "c", attempts }));
    for (const some of [whole, [...whole].reverse()]) {
      const both = some.reduce(merge);
      assert.deepEqual(both.attempts, merged, name);
      assert.deepEqual(merge(both, both), both, name);
      assert.deepEqual(some.reduce(merge, both), both, name);
    }
  }
});

test("names", () => {
  for (const { text, ...wanted } of table("names.json")) assert.deepEqual({ shown: shown(text), same: same(text) }, wanted, JSON.stringify(text));
});

test("which signs a name cannot show, and which it is cleaned of", () => {
  // Which signs show nothing is Unicode's own list here: the engine's Default_Ignorable_Code_Point.
  const { signs: count, ...wanted } = JSON.parse(process.env.SIGNS);
  const signs = [...Array(0x20000).keys(), ...Array.from({ length: 0x1100 }, (_, at) => 0xe0000 + at)];
  assert.equal(signs.length, count);
  const blank = signs.filter((sign) => !shown(String.fromCodePoint(sign)));
  const cleaned = signs.filter((sign) => shown(`a${String.fromCodePoint(sign)}b`) !== `a${String.fromCodePoint(sign)}b`);
  assert.deepEqual({ blank, cleaned }, wanted);
});

test("what a record amounts to, as in Python", () => {
  for (const { name, attempts, ...wanted } of table("summaries.json")) {
    const all = merge(empty("c"), { format: 1, course: "c", attempts }).attempts;
    const counts = [...objectives(all)].filter(([, { first }]) => first[1]).map(([objective, { first }]) => [objective, first]);
    const scores = [...wholes(all, "quiz")].map(([quiz, ends]) => [quiz, [ends[0].mark, bestOf(ends).mark, heldIn(bestOf(ends)), ends.length]]);
    const walks = {};
    for (const { id, harm, ...one } of [...wholes(all, "walk").values()].flat()) {
      const count = (walks[id.split("/")[0]] ??= [0, 0, 0, 0]);
      [true, heldIn(one), harm === "minor", harm === "serious"].forEach((is, at) => (count[at] += Number(is)));
    }
    assert.deepEqual({ objectives: Object.fromEntries(counts), quizzes: Object.fromEntries(scores), exercises: walks }, wanted, name);
  }
});

test("spreadsheets run nothing", () => {
  for (const { value, written } of table("cells.json")) assert.equal(cell(value), written, JSON.stringify(value));
  for (const sign of ["=", "+", "-", "@", "\t", "\r", "\n"]) assert.match(cell(`${sign}1`), /^"?'/, JSON.stringify(sign));
  assert.deepEqual([cell("a"), cell(0.5), cell(false), cell('a "b", c'), cell("")], ["a", "0.5", "false", '"a ""b"", c"', ""]);
  const lines = csv([attempt("=HYPERLINK(1)", 1, { objective: "@x", certainty: 2 })]).split("\r\n");
  assert.deepEqual(lines, [
    "at,kind,id,digest,objective,mark,held,first,quiz,seed,certainty,harm",
    "2026-06-01T00:00:01.000Z,question,'=HYPERLINK(1),0123456789ab,'@x,1,,true,,,2,",
    "",
  ]);
});

test("what a record amounts to", () => {
  const all = [
    attempt("a", 1, { mark: 0 }), attempt("b", 2), attempt("a", 3, { first: false }), attempt("b", 4, { mark: 0.5, first: false }),
    attempt("w/k", 5, { kind: "walk", objective: "", mark: 0.9, held: false, harm: "serious" }),
    attempt("w/k/s", 5, { kind: "step", mark: 0 }), attempt("gone", 6, { mark: 0 }), attempt("c", 7),
  ];
  assert.deepEqual(latest(all.slice(0, 4)).map(({ id, mark }) => [id, mark]), [["a", 1], ["b", 0.5]]);
  assert.deepEqual(objectives(all).get("o"), { first: [2, 5], last: [2, 5] });
  assert.deepEqual(firstTries(all).get("o"), [2, 2]);
  const now = ({ id }) => ({ a: "0123456789ab", b: "0123456789ab", c: "ffffffffffff", "w/k": null })[id];
  assert.deepEqual(again(all, now).map(({ attempt: { id }, changed }) => [id, changed]), [["c", true], ["w/k", false], ["b", false]]);
  assert.deepEqual([...wholes(all, "walk").keys()], ["w/k"]);
  assert.equal(bestOf([attempt("q", 1, { mark: 0.2 }), attempt("q", 2, { mark: 0.7 }), attempt("q", 3, { mark: 0.7 })]).at, attempt("q", 2).at);
});
