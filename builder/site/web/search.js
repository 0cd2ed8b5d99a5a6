/** Looks words up in the list that the builder made (`builder/site/search.py`). Pure: knows no page. */

/** @typedef {[string, number, string, number[], string]} Row address, kind, title, labels, text */
/** @typedef {{kinds: string[], labels: string[], entries: Row[]}} Index */
/** @typedef {{uri: string, kind: string, title: string, snippet: string}} Found */

/** What a match in title, labels and text is worth. */
const WORTH = [16, 4, 1];
/** Words of a text shown before and from the match on. */
const [BEFORE, FROM] = [6, 20];

/**
 * Words in lower case, without accents, each with a space before it.
 * @param {string} text
 */
const folded = (text) =>
  ["", ...(text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [])].join(" ");

/**
 * @param {Index} index
 * @returns {(query: string) => Found[]} what holds every word of the query, or the start of one: title before
 *   label before text, else in the order of the list
 */
export function searcher({ kinds, labels, entries }) {
  const rows = entries.map(([uri, kind, title, numbers, text]) => {
    const names = numbers.map((number) => labels[number]).join(", ");
    return { uri, kind: kinds[kind], title, names, text, fields: [title, names, text].map(folded) };
  });
  return (query) => {
    const wanted = folded(query).split(" ").slice(1).map((word) => ` ${word}`);
    if (!wanted.length) return [];
    return rows
      .map((row) => ({ row, score: scoreOf(row.fields, wanted) }))
      .filter(({ score }) => score)
      .sort((a, b) => b.score - a.score)
      .map(({ row: { uri, kind, title, names, text } }) => ({ uri, kind, title, snippet: snippet(text, names, wanted) }));
  };
}

/**
 * @param {string[]} fields
 * @param {string[]} wanted
 * @returns {number} 0 unless every word is found
 */
function scoreOf(fields, wanted) {
  const scores = wanted.map((word) => WORTH[fields.findIndex((field) => field.includes(word))] ?? 0);
  return scores.every(Boolean) ? scores.reduce((sum, score) => sum + score) : 0;
}

/**
 * The text around the first match in it; else the labels that match, else how the text begins.
 * @param {string} text
 * @param {string} names
 * @param {string[]} wanted
 */
function snippet(text, names, wanted) {
  const holds = (/** @type {string} */ part) => wanted.some((word) => folded(part).includes(word));
  const words = text.split(" ");
  const at = words.findIndex(holds);
  if (at < 0 && holds(names)) return names.split(", ").filter(holds).join(", ");
  const from = Math.max(0, at - BEFORE);
  const cut = words.slice(from, Math.max(at, 0) + FROM);
  return `${from ? "… " : ""}${cut.join(" ")}${from + cut.length < words.length ? " …" : ""}`;
}
