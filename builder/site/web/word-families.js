/**
 * Which family a word is of, by what the builder wrote of the course's own words (`builder/site/word_families.py`). Pure:
 * knows no page and no language.
 */

/** @typedef {{endings: [string, string][], stems: Record<string, number[]>}} Families what a stem loses and takes; the endings of each stem's words */

/** Letters that a stem has at least before a word is placed there by its ending. */
const SHORT = 3;
/** Letters that two words share from the start on before the next one may differ. */
const ALIKE = 6;

/**
 * @param {Families} families
 * @param {Set<string>} words all that the course has
 */
export function familiesOf({ endings, stems }, words) {
  /** @type {Map<string, string>} */
  const listed = new Map();
  for (const [stem, numbers] of Object.entries(stems))
    for (const number of numbers) {
      const [loses, takes] = endings[number];
      listed.set(stem.slice(0, stem.length - loses.length) + takes, stem);
    }
  const here = (/** @type {string} */ word) => listed.get(word) ?? word;
  const known = [...new Set([...words].map(here))].sort();
  const there = new Set(known);

  /** The longest stem that makes the word by an ending that some word of the course has. @param {string} word */
  const byEnding = (word) =>
    [["", ""], ...endings]
      .filter(([, takes]) => word.endsWith(takes))
      .map(([loses, takes]) => word.slice(0, word.length - takes.length) + loses)
      .filter((stem) => stem.length >= SHORT && there.has(stem))
      .sort((a, b) => b.length - a.length)[0];

  /** Where nothing else is found: the stem that differs in its last letter alone, as of `pregnancy` from `pregnant`. @param {string} word */
  const byStart = (word) =>
    word.length <= ALIKE || [...words].some((other) => other.startsWith(word))
      ? undefined
      : known.find((stem) => stem.length === word.length && stem.startsWith(word.slice(0, -1)));

  return {
    /** The stem of a word of the course. */
    stemOf: here,
    /** The stem that a word has which somebody typed. @param {string} word */
    typed: (word) => (words.has(word) ? here(word) : (byEnding(word) ?? byStart(word) ?? word)),
  };
}
