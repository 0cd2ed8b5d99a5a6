// Runs the tables of cases beside this file on the browser's own modules. RIDGE holds published values, SIGNS
// what Python says of every sign in a name, FILES the address of another table of files.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { cell, csv } from "../../builder/site/web/csv.js";
import { LARGEST, read } from "../../builder/site/web/exchange.js";
import { dayNumber, dayText, gap, ridge } from "../../builder/site/web/plan.js";
import { same, shown } from "../../builder/site/web/names.js";
import { fileName } from "../../builder/site/web/record-copy.js";
import { implausible } from "../../builder/site/web/plausible.js";
import { MOST, empty, merge, standing } from "../../builder/site/web/record.js";
import {
  again, bestOf, calibration, early, harmsOf, latest, objectives, quizScores, serious, stopped, sureAndWrong, unasked, unaskedIn, walksTried,
} from "../../builder/site/web/summary.js";

const table = (file) => JSON.parse(readFileSync(new URL(file, import.meta.url), "utf8"));
const attempt = (id, second, more = {}) => ({
  kind: "question", id, digest: "0123456789ab", at: new Date(Date.UTC(2026, 5, 1, 0, 0, second)).toISOString(), objective: "o", mark: 1, first: true,
  ...(more.passed === undefined && { right: (more.mark ?? 1) === 1, known: true, mode: "practise" }), ...more,
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
    const [low, high] = ridge(days);
    assert.ok(Math.abs(gap(days) - (days * (low + high)) / 2) <= 0.5 || gap(days) === 1, `${days}: the middle of the range`);
    assert.ok(days / gap(days) <= 15, `${days}: not too often`);
  }
  assert.deepEqual([gap(1), gap(7), gap(30), gap(365)], [1, 2, 7, 27]);
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
  const many = { format: 2, course: "ankle-squat", attempts: Array(MOST + 1).fill(attempt("a", 1)) };
  assert.equal(read(JSON.stringify(many), "ankle-squat").refused, "many");
  assert.equal(read(JSON.stringify({ ...many, attempts: many.attempts.slice(1) }), "ankle-squat").refused, undefined);
  assert.equal(read(JSON.stringify({ ...many, attempts: [] }).padEnd(LARGEST), "ankle-squat").refused, undefined);
  assert.equal({}.admin, undefined, "nothing reached what objects have");
});

test("records become one", () => {
  const cases = table("merges.json");
  assert.ok(cases.length > 5);
  for (const { name, records, merged } of cases) {
    const whole = records.map((attempts) => ({ format: 2, course: "c", attempts }));
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

test("format 1 is read as format 2 would have written it", () => {
  for (const { name, old, new: wanted } of table("conversions.json")) {
    const found = read(JSON.stringify({ format: 1, course: "c", attempts: [old] }), "c");
    assert.deepEqual(found.file.attempts, [wanted], name);
    assert.deepEqual(read(JSON.stringify({ format: 2, course: "c", attempts: [wanted] }), "c").file.attempts, [wanted], name);
  }
});

test("what a record amounts to, as in Python", () => {
  for (const { name, attempts, ...wanted } of table("summaries.json")) {
    const all = merge(empty("c"), { attempts }).attempts;
    const counts = [...objectives(all)].filter(([, { first }]) => first[1]).map(([objective, { first }]) => [objective, first]);
    const scores = [...quizScores(all)].map(([quiz, { counting, passed, passedLater, seen, left }]) => [quiz, [counting[0]?.mark ?? null, passed, passedLater ?? null, counting.length, seen, left]]);
    const walks = {};
    for (const [id, ways] of walksTried(all)) {
      const count = (walks[id.split("/")[0]] ??= [0, 0, 0, 0, 0, 0]);
      const harms = harmsOf(ways);
      const own = [ways.ends.length, ways.ends.filter(({ passed }) => passed).length, ways.left.length, ...["minor", "serious"].map((harm) => harms.filter((one) => one === harm).length), unaskedIn(ways)];
      own.forEach((number, at) => (count[at] += number));
    }
    // Steps of format 1 tell of no sitting: they are no walks by themselves.
    const exercises = Object.fromEntries(Object.entries(walks).filter(([, count]) => count.some(Boolean)));
    const found = {
      objectives: Object.fromEntries(counts), quizzes: Object.fromEntries(scores), exercises, stopped: Object.fromEntries(stopped(all)),
      serious: serious(all).map(({ id }) => id), unasked: unasked(all).map(({ id }) => id), early: early(all).map(({ id }) => id), calibration: Object.fromEntries(calibration(all)), sure_and_wrong: sureAndWrong(all).map(({ id }) => id),
    };
    assert.deepEqual(found, wanted, name);
  }
});

test("what has another right answer now counts for nothing, as in Python", () => {
  for (const { name, attempts, now, left } of table("standing.json")) {
    const asked = ({ kind, id }) => {
      const [key, digest] = now[`${kind} ${id}`] ?? [];
      return key ? { key, digest } : null;
    };
    const found = standing(attempts, asked).map(({ kind, id, at, first, passed }) => [id, Number(at.slice(17, 19)), first, ...(kind === "walk" ? [passed] : [])]);
    assert.deepEqual(found, left, name);
  }
});

test("what cannot be true is doubted, as in Python", () => {
  const { today, quizzes, items, outcomes, keys, cases } = table("plausible.json");
  const known = { quizzes, items, outcome: ({ id }) => outcomes[id], now: ({ id }) => (keys[id] ? { key: keys[id] } : null) };
  assert.ok(cases.length > 30);
  for (const { name, attempts, reasons } of cases) {
    const found = implausible(attempts, known, today);
    assert.deepEqual(attempts.map((one) => found.get(one) ?? null), reasons, name);
  }
});

test("spreadsheets run nothing", () => {
  for (const { value, written } of table("cells.json")) assert.equal(cell(value), written, JSON.stringify(value));
  for (const sign of ["=", "+", "-", "@", "\t", "\r", "\n"]) assert.match(cell(`${sign}1`), /^"?'/, JSON.stringify(sign));
  assert.deepEqual([cell("a"), cell(0.5), cell(false), cell('a "b", c'), cell("")], ["a", "0.5", "false", '"a ""b"", c"', ""]);
  const lines = csv([attempt("=HYPERLINK(1)", 1, { objective: "@x", sure: 2, answer: ["=1", "b"] })]).split("\r\n");
  assert.deepEqual(lines, [
    "at,kind,id,unit,client,objective,answer,mark,right,known,unasked,passed,harm,breaks,first,counts,quiz,draw,task,watcher,sure,ms,mode,sitting,edition,key,digest",
    "2026-06-01T00:00:01.000Z,question,'=HYPERLINK(1),,,'@x,'=1 b,1,true,true,,,,,true,,,,,,2,,practise,,,,0123456789ab",
    "",
  ]);
});

test("what a record amounts to", () => {
  const all = [
    attempt("a", 1, { mark: 0 }), attempt("b", 2), attempt("a", 3, { first: false }), attempt("b", 4, { mark: 0.5, first: false }),
    attempt("w/k", 5, { kind: "walk", objective: "", mark: 0.9, passed: false, harm: "serious" }),
    attempt("w/k/s", 5, { kind: "step", mark: 0 }), attempt("gone", 6, { mark: 0 }), attempt("c", 7),
  ];
  assert.deepEqual(latest(all.slice(0, 4)).map(({ id, mark }) => [id, mark]), [["a", 1], ["b", 0.5]]);
  assert.deepEqual(objectives(all).get("o"), { first: [2, 5], last: [2, 5] });
  assert.deepEqual(again(all).map(({ id }) => id), ["gone", "w/k", "b"]);
  const left = [attempt("v/k/s", 8, { kind: "step", mark: 0, harm: "serious" }), attempt("v/k/t", 9, { kind: "step" }), attempt("v/k/u", 9, { kind: "step", unasked: true, known: false })];
  assert.deepEqual(again([...all, ...left]).map(({ id }) => id), ["v/k/u", "v/k/s", "gone", "w/k", "b"], "a walk that was left counts by its steps");
  assert.deepEqual([...walksTried(all).keys()], ["w/k"]);
  const best = bestOf([attempt("q", 1, { mark: 0.2 }), attempt("q", 2, { mark: 0.7, passed: false }), attempt("q", 3, { mark: 0.7, passed: true }), attempt("q", 4, { mark: 0.7, passed: true })]);
  assert.equal(best.at, attempt("q", 3).at);
});

test("a file's name tells people apart and is safe anywhere", () => {
  const device = "0a1b2c3d4e5f6071";
  assert.equal(fileName("ankle", "Wren  Hollis", device, "json"), "record-ankle-Wren-Hollis-0a1b2c3d.json");
  assert.equal(fileName("ankle", "", device, "csv"), "record-ankle-0a1b2c3d.csv");
  assert.equal(fileName("ankle", '../=Żó:ł*w?"<>|\\/.', device, "json"), "record-ankle-Żó-ł-w-0a1b2c3d.json");
  assert.ok(fileName("ankle", "x".repeat(100), device, "json").length < 80);
});
