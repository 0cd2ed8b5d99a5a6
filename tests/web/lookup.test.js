/** The pure modules of search and of the list of clients. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { clientOf, fits, standings } from "../../builder/site/web/narrow.js";
import { searcher } from "../../builder/site/web/search.js";

const INDEX = {
  cautions: 0,
  endings: [],
  stems: {},
  synonyms: [],
  kinds: ["Client", "Lesson"],
  labels: ["Knee angle", "Hip width"],
  entries: [
    ["a.html", 0, "Łucja", [0, 1], "A knee that clicks on stairs."],
    ["b.html", 1, "Knee to wall", [], ""],
    ["c.html", 0, "Zoë Straße", [1], Array.from({ length: 60 }, (_, at) => `w${at}`).join(" ")],
  ],
};
const find = searcher(INDEX);
const uris = (query) => find(query).map(({ uri }) => uri);

test("title before label before text, all words needed", () => {
  assert.deepEqual(uris("knee"), ["b.html", "a.html"]);
  assert.deepEqual(uris("knee stairs"), ["a.html"]);
  assert.deepEqual(uris("hip"), ["a.html", "c.html"]);
  assert.deepEqual(uris("knee nowhere"), []);
});

test("starts of words, without accents and case", () => {
  assert.deepEqual(uris("zoe"), ["c.html"]);
  assert.deepEqual(uris("ZOË str"), ["c.html"]);
  assert.deepEqual(uris("nee"), []);
  assert.deepEqual(uris("ｋｎｅｅ"), ["b.html", "a.html"]);
});

test("no words find nothing", () => {
  for (const query of ["", "  ", "!?", "'\"<>"]) assert.deepEqual(uris(query), []);
});

test("snippets show the match", () => {
  assert.equal(find("hip")[0].snippet, "Hip width");
  assert.equal(find("w30")[0].snippet.startsWith("… w24 w25"), true);
  assert.equal(find("w30")[0].snippet.endsWith("w49 …"), true);
  assert.equal(find("zoe")[0].snippet.startsWith("w0 w1"), true);
  assert.equal(find("wall")[0].snippet, "");
});

const walk = (id, passed) => ({ kind: "walk", id, passed });

test("the last walk of each exercise counts", () => {
  const found = standings([
    walk("first/tern", false), walk("first/tern", true), walk("first/knot", true), walk("more/knot", false),
    walk("more/rail", false), walk("first/rail", true), { kind: "question", id: "x/crake", passed: true },
  ]);
  assert.deepEqual(Object.fromEntries(found), { tern: "held", knot: "open", rail: "open" });
});

test("what a learner may ask for", () => {
  const ways = ["untried", "begun", "tried", "held", "open", "", "nonsense"];
  const fitting = (standing, begun) => ways.filter((way) => fits(standing, begun, way));
  assert.deepEqual(fitting(undefined, false), ["untried", "", "nonsense"]);
  assert.deepEqual(fitting(undefined, true), ["begun", "", "nonsense"], "neither tried nor untried");
  assert.deepEqual(fitting("held", false), ["tried", "held", "", "nonsense"]);
  assert.deepEqual(fitting("held", true), ["begun", "tried", "held", "", "nonsense"]);
  assert.deepEqual(fitting("open", false), ["tried", "open", "", "nonsense"]);
  assert.deepEqual(fitting("open", true), ["begun", "tried", "open", "", "nonsense"]);
});

test("whose a walk is", () => {
  assert.equal(clientOf("walk:first-visit/tern-03"), "tern-03");
});
