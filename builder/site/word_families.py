"""Families of words: `breathe`, `breathing` and `breathed` have one stem, and each finds the others.

Stems are those of the Snowball rules for the course's language (M. Porter and others, snowballstem.org; for
English "Porter2"). A language without rules has no families, and search goes by how words start, as it does
anyway.

The browser needs no rules. It gets the families of the course's own words and the endings that these show; by
the endings it places a word that the course does not have (`web/word-families.js`).
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from importlib import import_module

RULES = {
    "ar": "arabic",
    "ca": "catalan",
    "cs": "czech",
    "da": "danish",
    "de": "german",
    "el": "greek",
    "en": "english",
    "eo": "esperanto",
    "es": "spanish",
    "et": "estonian",
    "eu": "basque",
    "fa": "persian",
    "fi": "finnish",
    "fr": "french",
    "ga": "irish",
    "hi": "hindi",
    "hu": "hungarian",
    "hy": "armenian",
    "id": "indonesian",
    "it": "italian",
    "lt": "lithuanian",
    "nb": "norwegian",
    "ne": "nepali",
    "nl": "dutch",
    "nn": "norwegian",
    "no": "norwegian",
    "pl": "polish",
    "pt": "portuguese",
    "ro": "romanian",
    "ru": "russian",
    "sr": "serbian",
    "st": "sesotho",
    "sv": "swedish",
    "ta": "tamil",
    "tr": "turkish",
    "yi": "yiddish",
}
"""Languages to the Snowball rules for them."""

Stem = Callable[[str], str]


@dataclass(frozen=True, slots=True)
class Families:
    """The words of a course that are not their own stem, by their stems."""

    endings: tuple[tuple[str, str], ...]
    """What a stem loses and what it then takes: by `("i", "y")`, `dizzi` becomes `dizzy`."""
    stems: Mapping[str, tuple[int, ...]]
    """Each stem with the numbers of its words' endings."""


def families(language: str, texts: Iterable[str]) -> Families:
    """Those of the words in texts of this language, a BCP 47 tag."""
    stem = stemmer(language)
    if stem is None:
        return Families((), {})
    stem_of: dict[str, str] = {}
    for written in sorted({word for text in texts for word in _written(text)}):
        words, roots = folded(written), folded(stem(written))
        if len(words) == len(roots) == 1:
            stem_of.setdefault(words[0], roots[0])
    ending_of = {word: _ending(root, word) for word, root in stem_of.items() if root != word}
    endings = tuple(sorted(set(ending_of.values())))
    number = {ending: at for at, ending in enumerate(endings)}
    found: dict[str, list[int]] = {}
    for word, ending in ending_of.items():
        found.setdefault(stem_of[word], []).append(number[ending])
    return Families(endings, {root: tuple(sorted(numbers)) for root, numbers in found.items()})


def stemmer(language: str) -> Stem | None:
    """The rules for words in small letters, or None where there are none for the language.

    The module is named, since the package itself takes other versions of the rules where a machine has them.
    """
    name = RULES.get(language.partition("-")[0].lower())
    if name is None:
        return None
    rules = getattr(import_module(f"snowballstemmer.{name}_stemmer"), f"{name.capitalize()}Stemmer")
    stem: Stem = rules().stemWord
    return stem


def folded(text: str) -> list[str]:
    """The words of a text as search compares them: in small letters, without accents. `folded` in
    `web/search.js` does the same."""
    bare = "".join(letter for letter in unicodedata.normalize("NFKD", text) if not _is(letter, "M"))
    return _runs(bare.lower(), "LN")


def _written(text: str) -> Iterator[str]:
    """The words of a text in small letters, with their accents, which the rules of a language go by."""
    yield from _runs(unicodedata.normalize("NFC", text).lower(), "LMN")


def _runs(text: str, kinds: str) -> list[str]:
    return "".join(letter if _is(letter, kinds) else " " for letter in text).split()


def _is(letter: str, kinds: str) -> bool:
    return unicodedata.category(letter)[0] in kinds


def _ending(stem: str, word: str) -> tuple[str, str]:
    same = next(at for at in range(len(stem), -1, -1) if word.startswith(stem[:at]))
    return stem[same:], word[same:]
