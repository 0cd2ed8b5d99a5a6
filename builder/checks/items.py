"""Written questions as item-writing checks see them, and what English sentences give away.

The checks follow guidelines for multiple-choice items: T. M. Haladyna, S. M. Downing, M. C. Rodriguez, "A
Review of Multiple-Choice Item-Writing Guidelines for Classroom Assessment", Applied Measurement in Education
2002;15(3):309-334; and the NBME Item-Writing Guide, 2020. How a program can hold them is our own. They know
English alone, and leave a course in another language be.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from builder.course import Place, Question
from builder.questions.numbers import read_number

from .scope import Fault, Scope

_SENTENCE = re.compile(r"[^.?!:]+[.?!:]?")
_WORD = re.compile(r"[A-Za-z]+(?:['\u2019][a-z]+)?")
_MARKED = re.compile(r"\*\*[^*]+\*\*|__[^_]+__|\*[^*]+\*")
"""Words that are set apart in bold or in italics."""
_EMPTY = frozenset(
    _WORD.findall("""
    a about after again all also an and any are as at be because been before being best both but by can
    client clients coach could did do does doing done during each first for from further had has have having
    he her here hers him his how i if in into is it its just last like likely made make makes may me more
    most much must my next no nor not now of off on once one only or other our out over own part put same
    say she should since so some still such take takes taken than that the their them then there these they
    this those through to too two under until up upon us use used using very was way we were what when where
    whether which while who whom whose why will with within without would you your yes
    """)
)
"""Words that say nothing of their own."""


@dataclass(frozen=True)
class Asked:
    """A written question with options."""

    question: Question

    @property
    def stem(self) -> str:
        return self.question.stem

    @cached_property
    def asking(self) -> str:
        """The sentence that asks: the last with a question mark, else the last."""
        found = [one.strip() for one in _SENTENCE.findall(self.stem) if _WORD.search(one)]
        return next((one for one in reversed(found) if one.endswith("?")), found[-1] if found else "")

    @cached_property
    def texts(self) -> tuple[str, ...]:
        return tuple(" ".join(option.text.split()) for option in self.question.options)

    @cached_property
    def keys(self) -> tuple[int, ...]:
        """The places of the right options."""
        return tuple(place for place, option in enumerate(self.question.options) if option.key)

    @property
    def key(self) -> int | None:
        """The place of the only right option."""
        return self.keys[0] if self.question.kind == "one" and len(self.keys) == 1 else None

    @cached_property
    def wrong(self) -> tuple[int, ...]:
        return tuple(place for place in range(len(self.texts)) if place not in self.keys)

    def at(self, *keys: str | int) -> Place:
        return self.question.origin.at(*keys)

    def fault(self, message: str, hint: str, *keys: str | int) -> Fault:
        """A fault of this question; its id begins the message."""
        return Fault(self.at(*keys), f"question:{self.question.id}", f"{self.question.id}: {message}", hint)


def asked(scope: Scope) -> Iterator[Asked]:
    """Every written question with options to choose from, of a course in English."""
    if scope.course.about.language.lower().split("-")[0] == "en":
        for question in scope.course.questions.values():
            if isinstance(question, Question) and question.options:
                yield Asked(question)


def words(text: str) -> list[str]:
    """The words of a text in small letters."""
    return [word.lower() for word in _WORD.findall(text)]


def content(text: str) -> set[str]:
    """The words that carry meaning, without their endings."""
    return {stemmed(word) for word in words(text) if word not in _EMPTY and len(word) > 2}


def stemmed(word: str) -> str:
    """A word without the commonest endings of English: `lifting`, `lifts` and `lifted` are one."""
    word = re.sub(r"['\u2019]s?\Z", "", word)
    for ending in ("ingly", "edly", "ing", "ied", "ies", "ed", "es", "ly", "s"):
        if word.endswith(ending) and len(word) - len(ending) >= 3 and not word.endswith("ss"):
            word = word[: -len(ending)]
            break
    return re.sub(r"(.)\1\Z", r"\1", word).rstrip("e")


def plain(text: str) -> str:
    """The text without what is set apart in bold or in italics."""
    return _MARKED.sub(" ", text)


_AMOUNT = re.compile(r"[-\u2212+]?[0-9]+(?:[.,][0-9]+)?")


def amounts(text: str) -> list[Fraction]:
    """The numbers that stand in a text, in order."""
    return [number for one in _AMOUNT.findall(text) if (number := read_number(one.lstrip("-"))) is not None]


def phrase_in(text: str, words_: str) -> re.Match[str] | None:
    """Where one of some words (a pattern) stands in a text as a word of its own."""
    return re.search(rf"\b(?:{words_})\b", text, re.IGNORECASE)
