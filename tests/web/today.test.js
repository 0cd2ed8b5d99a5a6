// When things come back, and what a day's practice holds.

import assert from "node:assert/strict";
import { test } from "node:test";

import { keepDays } from "../../builder/site/web/due-store.js";
import { setDays } from "../../builder/site/web/due.js";
import { dayNumber, dayOf, dayText, gap } from "../../builder/site/web/plan.js";
import { standings } from "../../builder/site/web/standing.js";
import { SIZE, courseOf, dueOn, fitting, sitting, start, timed, waysOf } from "../../builder/site/web/today.js";

const FIRST = dayNumber("2026-03-02");
/** Noon, so that it is the same day wherever the test runs. */
const noon = (day, second = 0) => new Date(2026, 2, 2 + day - FIRST, 12, 0, second);
const answer = (id, day, more = {}) => ({ kind: "question", id, at: noon(day).toISOString(), mark: 1, ...more });
const dues = (all) => Object.fromEntries([...all].map(([unit, { due }]) => [unit, due === null ? null : due - FIRST]));

test("what is right comes back after the gap, the same each time, and never on the day itself or later", () => {
  const end = FIRST + 30;
  assert.equal(gap(30), 7);
  let kept = null;
  const attempts = [];
  for (const [day, due] of [[0, 7], [7, 14], [15, 22], [22, 29], [29, null]]) {
    attempts.push(answer("a", FIRST + day));
    kept = setDays(kept, attempts.slice(-1), end);
    assert.deepEqual(dues(standings(attempts, kept, { end, today: FIRST + day })), { a: due });
    assert.deepEqual(kept, { end, days: { a: [attempts.at(-1).at, 7, due && FIRST + due] } });
  }
  assert.deepEqual(dues(standings(attempts.slice(0, 1), null, { end, today: end })), { a: null }, "the day itself asks nothing");
});

test("what is wrong on a day comes back the next day, whatever is answered later on that day", () => {
  for (const end of [null, FIRST + 30]) {
    const tried = [answer("a", FIRST, { mark: 0.5 }), answer("a", FIRST), answer("b", FIRST, { harm: "serious", mark: 0 }), answer("b", FIRST, { mark: 0 })];
    const kept = setDays(null, tried, end);
    const all = standings(tried, null, { end, today: FIRST });
    assert.deepEqual(dues(all), { a: 1, b: 1 });
    assert.deepEqual(dues(standings(tried, kept, { end, today: FIRST })), { a: 1, b: 1 });
    assert.deepEqual([...all.values()].map(({ verdict }) => verdict), ["missed", "unsafe"]);
    const later = [answer("a", FIRST + 1), answer("a", FIRST + 1, { mark: 0 })];
    for (const [one, due] of [[later[0], end && 1 + gap(30)], [later[1], 2]]) {
      const next = [...tried, one];
      const aim = { end, today: FIRST + 1 };
      assert.deepEqual(dues(standings(next, setDays(kept, [one], end), aim)), { a: due, b: 1 }, "the gap stays");
      assert.deepEqual(dues(standings(next, kept, aim)), { a: due, b: 1 }, "whoever set it");
    }
  }
});

test("what was right before it was known sets no day, and what was unsafe for want of asking comes back first", () => {
  const end = FIRST + 30;
  const guess = answer("a", FIRST, { right: true, known: false });
  const rash = answer("b", FIRST, { right: true, known: false, unasked: true });
  const kept = setDays(null, [guess, rash], end);
  assert.deepEqual(Object.keys(kept.days), ["b"]);
  const all = standings([guess, rash], kept, { end, today: FIRST });
  assert.deepEqual(dues(all), { b: 1 });
  assert.equal(all.get("b").verdict, "unsafe");
  const surely = answer("a", FIRST, { right: true, known: true });
  assert.deepEqual(dues(standings([guess, surely], setDays(kept, [surely], end), { end, today: FIRST })), { a: 7 });
});

test("without a day to be ready what is right has no day", () => {
  assert.deepEqual(dues(standings([answer("a", FIRST)], null, { end: null, today: FIRST })), { a: null });
});

test("both formats of the record are read: units and verdicts where they are told, else ids and marks", () => {
  const all = standings(
    [
      answer("g.tern", FIRST, { unit: "plan/stiff", right: false, mark: 1 }),
      answer("first/tern/x", FIRST, { kind: "step", unit: "plan/free", right: true, mark: 0 }),
      answer("first/tern", FIRST, { kind: "walk", mark: 0 }),
      answer("quiz", FIRST, { kind: "quiz", mark: 0 }),
    ],
    null,
    { end: null, today: FIRST },
  );
  assert.deepEqual([...all].map(([unit, { verdict }]) => [unit, verdict]), [["plan/stiff", "missed"], ["plan/free", "held"]]);
});

test("what is dated ahead counts for nothing", () => {
  assert.equal(standings([answer("a", FIRST + 9)], null, { end: FIRST + 30, today: FIRST }).size, 0);
});

test("a day that is set stays, whatever day it is and in whatever zone; for another aim it follows from the answer", () => {
  const end = FIRST + 60;
  const tried = [answer("a", FIRST), answer("b", FIRST, { mark: 0 })];
  const kept = setDays(null, tried, end);
  kept.days.a[2] += 1;
  for (let today = FIRST; today < end; today += 1) {
    assert.deepEqual(dues(standings(tried, kept, { end, today })), { a: gap(60) + 1, b: 1 });
    assert.deepEqual(dues(standings(tried, kept, { end: end - 30, today: FIRST })), { a: gap(30), b: 1 });
  }
  const { TZ } = process.env;
  for (const zone of ["Pacific/Kiritimati", "Pacific/Pago_Pago"]) {
    process.env.TZ = zone;
    assert.deepEqual(dues(standings(tried, kept, { end, today: FIRST + 2 })), { a: gap(60) + 1, b: 1 }, zone);
  }
  if (TZ === undefined) delete process.env.TZ;
  else process.env.TZ = TZ;
});

test("a kept plan that is damaged is dropped, and the next answer sets it anew", () => {
  const end = FIRST + 30;
  const tried = [answer("a", FIRST)];
  const { at } = tried[0];
  const damaged = [
    7, "x", [], { end }, { end, days: null }, { end, days: [] }, { end, days: { a: 7 } }, { end, days: { a: [] } }, { end, days: { a: [at, -1, 1e9] } },
    { end, days: { a: [at, 7.5, FIRST + 0.5] } }, { end, days: { a: [at, "7", null] } }, { end, days: { a: [at, 1e9, FIRST - 9] } }, { end: "x", days: { a: [at, 1, FIRST] } },
  ];
  for (const kept of damaged) {
    assert.deepEqual(dues(standings(tried, kept, { end, today: FIRST })), { a: 7 }, JSON.stringify(kept));
    const inside = new Map([["plan", kept], ["day", dayText(end)]]);
    const store = { get: (key) => inside.get(key) ?? null, set: (key, value) => inside.set(key, value) };
    keepDays(store, [answer("b", FIRST)]);
    assert.deepEqual(inside.get("plan").days.b, [at, 7, FIRST + 7]);
    assert.deepEqual(dues(standings([...tried, answer("b", FIRST)], inside.get("plan"), { end, today: FIRST + 3 })), { a: 7, b: 7 });
    keepDays(store, tried);
    const [when, every, due] = inside.get("plan").days.a;
    assert.equal(when, at);
    assert.ok(Number.isInteger(every) && every > 0 && (due === null || (Number.isInteger(due) && due > FIRST)), JSON.stringify([kept, every, due]));
  }
  for (const name of ["__proto__", "toString", "constructor"]) {
    const named = [answer(name, FIRST)];
    const kept = JSON.parse(JSON.stringify(setDays(null, named, end)));
    assert.deepEqual(dues(standings(named, kept, { end, today: FIRST })), Object.fromEntries([[name, 7]]));
  }
});

const index = (...units) => ({ quizzes: ["all", "few"], units });

test("questions of one quiz are asked together, and a client is met alone", () => {
  const course = courseOf(index(
    ["u", "o", [["u1", "", "", [0]]]],
    ["v", "p", [["v1", "", "", [1, 0]]]],
    ["w", "q", [["x/tern/s", "tern", "go", "clients/tern.html"]]],
  ));
  const task = (unit) => ({ unit, objective: "", item: course.units.get(unit).items[0], back: false });
  assert.deepEqual(start(course, ["v", "w", "u"].map(task)), { quiz: "all", ids: ["v1", "u1"] });
  assert.deepEqual(start(course, ["w", "u"].map(task)), { address: "clients/tern.html" });
});

test("what was missed comes back with another client, in a question before a walk, and with whom it was asked least", () => {
  const course = courseOf(index(["r", "o", [
    ["x/knot/s", "knot", "go", "clients/knot.html"], ["g.tern", "tern", "go", [0]], ["x/tern/s", "tern", "go", "clients/tern.html"], ["g.rail", "rail", "go", [0]],
  ]]));
  const asked = (...ids) => standings(ids.map(([id, day]) => answer(id, FIRST + day, { mark: 0 })), null, { end: null, today: FIRST + 9 }, course.unitOf).get("r");
  const ways = (...ids) => waysOf(course, "r", asked(...ids)).map(({ id }) => id);
  assert.deepEqual(ways(["g.tern", 0]), ["g.rail", "x/knot/s"]);
  assert.deepEqual(ways(["x/tern/s", 0]), ["g.rail", "x/knot/s"]);
  assert.deepEqual(ways(["g.rail", 0], ["x/knot/s", 1]), ["g.tern", "g.rail", "x/tern/s"]);
  assert.deepEqual(ways(["g.rail", 0], ["g.tern", 0], ["x/knot/s", 0]), ["g.tern", "g.rail", "x/tern/s", "x/knot/s"]);
});

test("what waits longest comes first, new things are dealt out by objective, and what is known comes last", () => {
  const row = (unit, objective) => [unit, objective, [[`${unit}1`, "", "", [0]]]];
  const course = courseOf(index(row("a", "o"), row("b", "o"), row("c", "p"), ...["d", "e", "f", "g"].map((unit) => row(unit, "q")), row("h", "r")));
  const tried = [answer("e1", FIRST + 3), answer("g1", FIRST + 2), answer("f1", FIRST + 6), answer("d1", FIRST + 5, { mark: 0 }), answer("h1", FIRST + 7, { mark: 0 })];
  const aim = { end: FIRST + 7, today: FIRST + 8 };
  const all = standings(tried, null, aim, course.unitOf);
  assert.deepEqual(dueOn(all, aim.today), { back: ["d", "h"], due: [] });
  const asked = (size) => sitting(course, all, aim.today, size).map(({ unit }) => unit);
  assert.deepEqual(asked(4), ["d", "h", "a", "c"]);
  assert.deepEqual(asked(6), ["d", "h", "a", "c", "b", "g"]);
  const soon = { end: FIRST + 40, today: FIRST + 30 };
  assert.deepEqual(dueOn(standings(tried.reverse(), null, soon, course.unitOf), soon.today), { back: ["d", "h"], due: ["g", "e", "f"] });
});

/** Numbers from 0 to below 1, the same in every run (Park and Miller, Communications of the ACM 1988;31:1192-1201). */
function chance(seed) {
  let state = seed;
  return () => (state = (state * 48271) % 2147483647) / 2147483647;
}

/** A course and a record by chance: rules with clients, written questions, steps that only a walk asks for. */
function drawn(seed) {
  const next = chance(seed);
  const below = (n) => Math.floor(next() * n);
  const clients = Array.from({ length: 1 + below(6) }, (_, at) => `c${at}`);
  const units = Array.from({ length: 1 + below(30) }, (_, at) => {
    const sign = ["stop", "go", "", ""][below(4)];
    const with_ = sign ? clients.filter(() => next() < 0.5) : [];
    const rows = with_.flatMap((client) => [
      [`f${at}.${client}`, client, sign, [below(2)]], ...(next() < 0.5 ? [[`x/${client}/s${at}`, client, sign, `clients/${client}.html`]] : []),
    ]);
    return [`u${at}`, `o${below(4)}`, rows.length ? rows : [[`q${at}`, "", "", [0]]]];
  });
  const course = courseOf(index(...units));
  const days = 1 + below(12);
  const tries = units.flatMap(([, , rows]) => Array.from({ length: below(4) }, () => rows[below(rows.length)]));
  const attempts = tries.map(([id, , , where]) => answer(id, FIRST + below(days), {
    kind: typeof where === "string" ? "step" : "question", mark: next() < 0.5 ? 1 : 0, harm: next() < 0.2 ? "serious" : "none",
  })).sort((a, b) => (a.at < b.at ? -1 : 1));
  const aim = { end: next() < 0.3 ? null : FIRST + days + below(40), today: FIRST + days - below(2) };
  return { course, all: standings(attempts, null, aim, course.unitOf), today: aim.today };
}

test("a day's practice keeps its laws on any course and record", () => {
  let full = 0;
  for (let seed = 1; seed <= 3000; seed += 1) {
    const { course, all, today } = drawn(seed);
    const told = `seed ${seed}`;
    const tasks = sitting(course, all, today);
    const { back, due } = dueOn(all, today);
    assert.equal(tasks.length > 0, back.length + due.length > 0, told);
    if (!tasks.length) continue;
    full += Number(tasks.length === SIZE);
    const units = tasks.map(({ unit }) => unit);
    const signs = tasks.map(({ item }) => item.sign);
    assert.ok(tasks.length <= SIZE, told);
    assert.equal(new Set(units).size, units.length, told);
    const offered = new Set([...course.units.values()].flatMap(({ items }) => items.map(({ sign }) => sign)));
    for (const sign of ["stop", "go"]) assert.equal(signs.includes(sign), offered.has(sign), `${told}: ${sign}`);
    const returning = tasks.filter((one) => one.back);
    const others = tasks.length - returning.length;
    assert.ok(returning.length <= others || (others <= 1 && returning.length <= 2), `${told}: at most half`);
    const left = [...course.units.keys()].filter((unit) => !units.includes(unit));
    const free = left.filter((unit) => !back.includes(unit) && (all.get(unit)?.on ?? 0) < today);
    if (tasks.length < SIZE) assert.deepEqual(free, [], `${told}: nothing is left out where there is room`);
    if (left.some((unit) => back.includes(unit))) assert.ok(returning.length >= Math.min(others, SIZE / 2), `${told}: half are returns where there are as many`);
    const must = (unit) => ["stop", "go"].includes(course.units.get(unit).items[0].sign);
    const verdict = (unit) => all.get(unit)?.verdict;
    if (back.some((unit) => verdict(unit) === "unsafe" && !units.includes(unit))) {
      assert.ok(returning.every(({ unit }) => verdict(unit) === "unsafe" || must(unit)), `${told}: the unsafe first`);
    }
    if (due.some((unit) => !units.includes(unit))) assert.ok(units.every((unit) => all.has(unit) || must(unit)), `${told}: what is due before what is new`);
    for (const { unit, item } of tasks) {
      assert.ok(all.get(unit)?.on !== today || must(unit), `${told}: what was answered today rests`);
      const { items } = course.units.get(unit);
      assert.ok(items.includes(item), told);
      const met = items.filter(({ id }) => all.get(unit)?.ids.has(id)).map(({ client }) => client);
      if (items.some(({ client }) => client && !met.includes(client))) assert.ok(!met.includes(item.client), `${told}: another client`);
    }
    tasks.forEach(({ objective }, at) => {
      if (at && objective === tasks[at - 1].objective) assert.ok(tasks.slice(at).every((one) => one.objective === objective), `${told}: mixed`);
    });
    assert.deepEqual(sitting(course, all, today), tasks, told);
  }
  assert.ok(full > 300, `only ${full} were full`);
});

test("a day is where the device is", () => {
  assert.equal(dayText(dayOf(new Date(2026, 2, 2, 0, 0))), "2026-03-02");
  assert.equal(dayText(dayOf(new Date(2026, 2, 2, 23, 59))), "2026-03-02");
});

test("as much fits into some minutes as one's own median time allows, within bounds", () => {
  const took = (...all) => all.map((ms) => answer("a", FIRST, { ms }));
  assert.equal(fitting(5, []), 6, "45 seconds each where nothing is known");
  assert.equal(fitting(5, took(30_000, 30_000, 999_000)), 10);
  assert.equal(fitting(10, took(20_000, 40_000)), 20, "between the two middle ones");
  assert.equal(fitting(3, took(100)), 12, "nobody reads faster than this");
  assert.equal(fitting(3, took(9_000_000)), 4, "four at least");
  assert.equal(fitting(5, [answer("w", FIRST, { kind: "walk", ms: 1 })]), 6, "whole walks have no time of one answer");
  assert.equal(fitting(5, [...took(...Array(60).fill(200_000)), ...took(...Array(50).fill(30_000))]), 10, "the last fifty count");
});

test("a timed sitting is asked by one quiz, unless something else is due, and never has one client twice in a row where another is left", () => {
  let several = 0;
  for (let seed = 1; seed <= 2000; seed += 1) {
    const { course, all, today } = drawn(seed);
    const tasks = timed(course, all, today, 10);
    const { back, due } = dueOn(all, today);
    const quizzes = tasks.map(({ item }) => item.where);
    const one = tasks.every(({ item }) => typeof item.where !== "string" && `${item.where}` === `${quizzes[0]}`);
    assert.ok(one || back.length + due.length > 0, `seed ${seed}`);
    if (back.length + due.length) assert.ok(tasks.some(({ unit }) => [...back, ...due].includes(unit)), `seed ${seed}: what is due`);
    tasks.forEach(({ item, objective }, at) => {
      const before = tasks[at - 1];
      if (!at || !item.client || item.client !== before.item.client) return;
      several += 1;
      const rest = tasks.slice(at);
      const others = rest.filter((each) => each.objective !== before.objective);
      assert.ok(objective !== before.objective ? others.every((each) => each.item.client === item.client) : rest.every((each) => each.item.client === item.client), `seed ${seed}: another client`);
    });
    assert.equal(timed(course, all, today, 4).length <= 4, true);
  }
  assert.ok(several > 10, "tried");
});

test("clients whom the learner never met come before known ones", () => {
  const course = courseOf(index(["r", "o", [["g.tern", "tern", "go", [0]], ["g.rail", "rail", "go", [0]], ["g.knot", "knot", "go", [0]]]], ["s", "o", [["h.rail", "rail", "stop", [0]]]]));
  assert.deepEqual(waysOf(course, "r", undefined, new Set(["tern"])).map(({ client }) => client), ["rail", "knot", "tern"]);
  const all = standings([answer("h.rail", FIRST)], null, { end: null, today: FIRST + 1 }, course.unitOf);
  assert.equal(timed(course, all, FIRST + 1, 4).find(({ unit }) => unit === "r").item.client, "tern");
});
