/** Looks words up in the list that the builder made (`builder/site/search.py`). Pure: knows no page. */

import { familiesOf } from "./word-families.js";

/** @typedef {[string, number, string, number[], string]} Row address, kind, title, labels, text */
/** @typedef {{cautions: number, kinds: string[], labels: string[], entries: Row[], synonyms: string[][]} & import("./word-families.js").Families} Index `cautions`: so many entries at the start are; `synonyms`: a term and what people type for it */
/** @typedef {{uri: string, kind: string, title: string, snippet: string}} Found */
/** @typedef {{start: string, families: string[]}} Wanted what a word begins with, or the stems of words that stand side by side */
/** @typedef {{words: string, stems: string}} Field */

/** What a match in title, labels and text is worth. */
const WORTH = [16, 4, 1];
/** Words of a text shown before and from the match on. */
const [BEFORE, FROM] = [6, 20];

/**
 * Words in lower case and without accents. `folded` in `builder/site/word_families.py` does the same.
 * @param {string} text
 * @returns {string[]}
 */
export const folded = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];

/** Words in a row, with a space on either side of each. @param {string[]} words */
const inRow = (words) => ` ${words.join(" ")} `;

/**
 * @param {Index} index
 * @returns {(query: string) => Found[]} what holds every word of the query, the start of one, one of its family, or the
 *   term that it stands for: cautions first, then title before label before text, else in the order of the list
 */
export function searcher({ cautions, kinds, labels, entries, endings, stems, synonyms }) {
  const split = entries.map(([, , title, numbers, text]) => [title, numbers.map((number) => labels[number]).join(", "), text].map(folded));
  const { stemOf, typed } = familiesOf({ endings, stems }, new Set([...split, synonyms.map((some) => some.flatMap(folded))].flat(2)));
  const field = (/** @type {string[]} */ words) => ({ words: inRow(words), stems: inRow(words.map(stemOf)) });
  const rows = entries.map(([uri, kind, title, numbers, text], at) => ({ uri, kind: kinds[kind], title, names: numbers.map((number) => labels[number]), text, caution: at < cautions, fields: split[at].map(field) }));
  const terms = synonyms.flatMap(([term, ...others]) => others.map((other) => ({ term: inRow(folded(term).map(stemOf)), other: folded(other) })));

  /** @param {string[]} words @returns {Wanted[]} for each word */
  const wantedBy = (words) => {
    const stem = words.map(typed);
    const wanted = words.map((word, at) => ({ start: ` ${word}`, families: [inRow([stem[at]])] }));
    for (const { term, other } of terms)
      for (let from = 0; from + other.length <= words.length; from++)
        if (other.every((word, at) => word.startsWith(words[from + at]) || stemOf(word) === stem[from + at]))
          other.forEach((_, at) => wanted[from + at].families.push(term));
    return wanted;
  };

  return (query) => {
    const wanted = wantedBy(folded(query));
    if (!wanted.length) return [];
    const holds = (/** @type {string} */ text) => wanted.some((one) => found(field(folded(text)), one));
    const together = Math.max(...wanted.flatMap(({ families }) => families.map((family) => family.split(" ").length - 2)));
    return rows
      .map((row) => ({ row, score: scoreOf(row.fields, wanted) }))
      .filter(({ score }) => score)
      .sort((a, b) => Number(b.row.caution) - Number(a.row.caution) || b.score - a.score)
      .map(({ row: { uri, kind, title, names, text } }) => ({
        uri, kind, title,
        // Made when it is shown: few of what is found are.
        get snippet() { return snippet(text, names, together, holds); },
      }));
  };
}

/**
 * @param {Field} field
 * @param {Wanted} wanted
 */
const found = ({ words, stems }, { start, families }) => words.includes(start) || families.some((family) => stems.includes(family));

/**
 * @param {Field[]} fields
 * @param {Wanted[]} wanted
 * @returns {number} 0 unless every word is found
 */
function scoreOf(fields, wanted) {
  const scores = wanted.map((one) => WORTH[fields.findIndex((field) => found(field, one))] ?? 0);
  return scores.every(Boolean) ? scores.reduce((sum, score) => sum + score) : 0;
}

/**
 * The text around the first match in it; else the labels that match, else how the text begins.
 * @param {string} text
 * @param {string[]} names
 * @param {number} together words that a match may span
 * @param {(text: string) => boolean} holds
 */
function snippet(text, names, together, holds) {
  const words = text.split(" ");
  const at = words.findIndex((_, from) => holds(words.slice(from, from + together).join(" ")));
  const held = at < 0 ? names.filter(holds) : [];
  if (held.length) return held.join(", ");
  const from = Math.max(0, at - BEFORE);
  const cut = words.slice(from, Math.max(at, 0) + FROM);
  return `${from ? "… " : ""}${cut.join(" ")}${from + cut.length < words.length ? " …" : ""}`;
}
