/** A learner's name as it is shown, and when two names are one learner's. `builder/records/names.py` does the same. Pure. */

const SPACES = /[\t-\r\x85\xa0\u1680\u2000-\u200a\u2028\u2029\u202f\u205f\u3000 ]+/gu;
/** What turns the direction of the text around it (Unicode Standard Annex 9), and halves of signs. */
const ODD = /[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\p{Cs}]/gu;
/** Signs that show nothing, and the braille blank. */
const UNSEEN = /[\p{Default_Ignorable_Code_Point}\u2800]/gu;

/**
 * A name as typed, without what would turn the text around it; empty where nothing of it can be seen.
 * @param {string} text
 */
export function shown(text) {
  const name = spaced(text.replace(ODD, ""));
  return spaced(name.replace(UNSEEN, "")) && name;
}

/**
 * What two names have in common that are one learner's: all but capitals, spaces, widths and unseen signs.
 * @param {string} text
 */
export const same = (text) => spaced(text.replace(ODD, "").replace(UNSEEN, "").normalize("NFKC").toUpperCase().toLowerCase());

/** @param {string} text */
const spaced = (text) => text.replace(SPACES, " ").replace(/^ | $/g, "");
