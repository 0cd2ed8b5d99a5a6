/** The browser's side of the tables of cases. */

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";

import { folded, searcher } from "../../builder/site/web/search.js";
import { familiesOf } from "../../builder/site/web/word-families.js";

const read = (name) => JSON.parse(readFileSync(join(process.env.CASES, name), "utf-8"));
const cases = read("cases.json");

test("words are seen as the table says", () => {
  for (const { text, words } of cases.folded) assert.deepEqual(folded(text), words);
});

test("words that somebody types have the stems of the table", () => {
  for (const { name, texts, endings, stems, as_the_rules, apart } of cases.families) {
    const { typed } = familiesOf({ endings, stems }, new Set(texts.flatMap(folded)));
    for (const [word, stem] of Object.entries({ ...as_the_rules, ...apart })) assert.equal(typed(word), stem, `${name}: ${word}`);
  }
});

test("words of the course have the stems that Python wrote down", () => {
  for (const { endings, stems, of } of cases.whole ?? []) {
    const { stemOf, typed } = familiesOf({ endings, stems }, new Set(Object.keys(of)));
    for (const [word, stem] of Object.entries(of)) assert.deepEqual([stemOf(word), typed(word)], [stem, stem], word);
  }
});

test("words that a course lacks are mostly placed as the rules place them", () => {
  for (const { endings, stems, of, lacking, least, most } of cases.whole ?? []) {
    const { typed } = familiesOf({ endings, stems }, new Set(Object.keys(of)));
    const there = new Set(Object.values(of));
    const found = Object.entries(lacking).map(([word, stem]) => ({ stem, typed: typed(word) }));
    const akin = found.filter(({ stem }) => there.has(stem));
    const right = akin.filter(({ stem, typed }) => stem === typed).length / akin.length;
    const strange = found.filter(({ stem, typed }) => there.has(typed) && typed !== stem).length / found.length;
    assert.ok(right >= least, `${right} of ${akin.length} words are found by their family`);
    assert.ok(strange <= most, `${strange} of ${found.length} words find another family`);
  }
});

/** A small index. @param {string} query */
const uris = (query) =>
  searcher({
    cautions: 2,
    kinds: ["Caution", "Lesson", "Term"],
    labels: ["Blood pressure, upper number"],
    entries: [
      ["cautions/lift.html", 0, "Lifting", [], "Breathe out. Never hold the breath in pregnancy."],
      ["cautions/pregnancy.html", 0, "Pregnancy", [0], "No strain."],
      ["breath.html", 1, "Breathing", [], "Raised blood pressure: breathe lightly."],
      ["glossary.html#pregnancy", 2, "Pregnancy", [], "Carrying a child."],
      ["glossary.html#pressure", 2, "Raised blood pressure", [], "Two numbers."],
    ],
    endings: [["", "e"], ["", "ing"], ["", "ion"], ["", "ly"], ["", "y"]],
    stems: { breath: [0, 1], hypertens: [2], lift: [1], light: [3], pregnanc: [4] },
    synonyms: [["Pregnancy", "pregnant", "with child"], ["Raised blood pressure", "hypertension", "high blood pressure"]],
  })(query).map(({ uri }) => uri);

test("cautions come first, then title before label before text", () => {
  assert.deepEqual(uris("breathing"), ["cautions/lift.html", "breath.html"]);
  assert.deepEqual(uris("pregnancy"), ["cautions/pregnancy.html", "cautions/lift.html", "glossary.html#pregnancy"]);
});

test("any word of a family finds the others, and every word is needed", () => {
  assert.deepEqual(uris("breathe lifting"), ["cautions/lift.html"]);
  assert.deepEqual(uris("lightly breath"), ["breath.html"]);
  assert.deepEqual(uris("breathion"), ["cautions/lift.html", "breath.html"], "a word that nobody wrote, by an ending that another has");
  assert.deepEqual(uris("breathless"), uris("breath"), "by how a long word starts");
  assert.deepEqual(uris("breast"), []);
});

test("what people type for a term finds what names the term", () => {
  assert.deepEqual(uris("pregnant"), ["cautions/pregnancy.html", "cautions/lift.html", "glossary.html#pregnancy"]);
  assert.deepEqual(uris("with child"), ["cautions/pregnancy.html", "cautions/lift.html", "glossary.html#pregnancy"]);
  assert.deepEqual(uris("hyperten"), ["glossary.html#pressure", "breath.html"], "as it is typed");
  assert.deepEqual(uris("high blood pressure breathing"), ["breath.html"], "with another word beside it");
  assert.deepEqual(uris("pressure high"), [], "in their order");
  assert.deepEqual(uris("Raised blood pressure"), ["breath.html", "glossary.html#pressure"].reverse());
});
