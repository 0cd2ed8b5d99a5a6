/**
 * Which family a word is of, by what the builder wrote of the course's own words (`builder/site/word_families.py`). Pure:
 * knows no page and no language.
 */

/** @typedef {{endings: [string, string][], stems: Record<string, number[]>}} Families what a stem loses and takes; the endings of each stem's words */

/** Letters that a word has at least before an ending. */
const SHORT = 3;
/** Letters from the start on that make two long words alike, and the most that may follow them. */
const [ALIKE, MORE] = [6, 4];

/**
 * @param {Families} families
 * @param {Set<string>} words all that the course has
 */
export function familiesOf({ endings, stems }, words) {
  /** @type {Map<string, string>} */
  const listed = new Map();
  /** Ending to those that stand in its place in other words of a family. @type {Map<string, Set<string>>} */
  const instead = new Map([["", new Set([""])]]);
  for (const [stem, numbers] of Object.entries(stems)) {
    const family = numbers.map((number) => stem.slice(0, stem.length - endings[number][0].length) + endings[number][1]);
    for (const word of family) listed.set(word, stem);
    for (const one of [stem, ...family])
      for (const other of [stem, ...family]) {
        const same = shared(one, other);
        const ending = one.slice(same);
        instead.set(ending, (instead.get(ending) ?? new Set()).add(other.slice(same)));
      }
  }
  const stemOf = (/** @type {string} */ word) => listed.get(word) ?? word;
  /** Words and stems to their stems. */
  const there = new Map([...words].flatMap((word) => [[stemOf(word), stemOf(word)], [word, stemOf(word)]]));

  /** The family of the word that differs by an ending, as words of some family do; the longest start decides. @param {string} word */
  function byEnding(word) {
    for (let at = word.length; at >= SHORT; at--)
      for (const ending of instead.get(word.slice(at)) ?? []) {
        const stem = there.get(word.slice(0, at) + ending);
        if (stem !== undefined) return stem;
      }
    return undefined;
  }

  /** Where nothing else is found: the stem that starts a long word, its last letter aside, as of `pregnancy` and `pregnant`. @param {string} word */
  function byStart(word) {
    if ([...words].some((other) => other.startsWith(word))) return undefined;
    const alike = [...new Set(there.values())]
      .map((stem) => ({ stem, same: shared(stem, word) }))
      .filter(({ stem, same }) => same >= Math.max(ALIKE, stem.length - 1) && same >= word.length - MORE);
    return alike.sort((a, b) => b.same - a.same || (a.stem < b.stem ? -1 : 1))[0]?.stem;
  }

  return {
    /** The stem of a word of the course. */
    stemOf,
    /** The stem of a word that somebody typed. @param {string} word */
    typed: (word) => (words.has(word) ? stemOf(word) : (byEnding(word) ?? byStart(word) ?? word)),
  };
}

/**
 * @param {string} one
 * @param {string} other
 * @returns {number} letters that both begin with
 */
function shared(one, other) {
  let at = 0;
  while (at < one.length && one[at] === other[at]) at++;
  return at;
}
