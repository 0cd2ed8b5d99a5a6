"""How easily English texts of a course are read: the grade of Flesch and Kincaid.

Source: J. P. Kincaid and others, "Derivation of new readability formulas", Research Branch Report 8-75, Naval
Technical Training Command, 1975: grade = 0.39 words per sentence + 11.8 syllables per word - 15.59. It counts
words and syllables. It does not know whether a text makes sense, whether its words are known, or how it
looks; on short texts it swings widely. Syllables are counted by a word list with rules for other words
(syllapy), which hold for most words, not for all.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from markdown_it import MarkdownIt
from syllapy import count as syllables_of

from builder.course import Course, Question

FEWEST = 30
"""Words below which no grade is told of a text."""
TARGET = 8.0
"""The grade that general advice on health should not pass: sixth to eighth grade (as quoted in Clinical
Orthopaedics and Related Research 2010, PMC3049622; quoted figures differ)."""

_PARSER = MarkdownIt("commonmark", {"html": False}).enable("table")
_SENTENCE = re.compile(r"(?<=[.!?])[\"')\u2019\u201d]*\s+(?=[\"'(\u2018\u201c]*[A-Z0-9])")
_WORD = re.compile(r"[A-Za-z]+(?:['\u2019-][A-Za-z]+)*")


@dataclass(frozen=True, slots=True)
class Counted:
    """What a text holds."""

    sentences: int
    words: int
    syllables: int

    @property
    def grade(self) -> float:
        """The grade, as told of years at school in the United States; can be below 0. Needs a word."""
        return 0.39 * self.words / self.sentences + 11.8 * self.syllables / self.words - 15.59

    @property
    def is_enough(self) -> bool:
        return self.words >= FEWEST


def is_english(course: Course) -> bool:
    return course.about.language.lower().split("-")[0] == "en"


def sentences(markdown: str) -> list[str]:
    """The sentences of a prose text. A heading, a list item or a cell ends one; code is none."""
    found: list[str] = []
    for token in _PARSER.parse(markdown):
        if token.type == "inline":
            text = "".join(
                " " if part.type in ("softbreak", "hardbreak") else part.content
                for part in token.children or ()
                if part.type in ("text", "softbreak", "hardbreak")
            )
            found += [one for one in _SENTENCE.split(" ".join(text.split())) if _WORD.search(one)]
    return found


def syllables(word: str) -> int:
    """The syllables of a word; at least one."""
    return max(1, int(syllables_of(word.lower())))


def counted(some: Iterable[str]) -> Counted:
    """What some sentences hold together."""
    listed = list(some)
    words = [word for one in listed for word in _WORD.findall(one)]
    return Counted(len(listed), len(words), sum(syllables(word) for word in words))


def hardest(some: Iterable[str], most: int = 2) -> list[str]:
    """The sentences of the highest grade, the hardest first; those of fewer than eight words are left out."""
    graded = [(counted([one]), one) for one in some]
    long = [(one.grade, text) for one, text in graded if one.words >= 8]
    return [text for _, text in sorted(long, key=lambda one: -one[0])[:most]]


@dataclass(frozen=True, slots=True)
class Ease:
    """How one kind of text reads."""

    kind: str
    texts: int
    together: Counted
    worst: tuple[str, float] | None
    """The text of the highest grade among those with words enough, and its grade."""


def eases(course: Course, lessons: Iterable[tuple[str, str]]) -> Iterator[Ease]:
    """How lessons, stories, questions, options and cautions read; kinds without a word are left out.
    `lessons` are names with Markdown."""
    questions = [one for one in course.questions.values() if isinstance(one, Question)]
    kinds: dict[str, list[tuple[str, str]]] = {
        "lessons": list(lessons),
        "stories": [(name, case.story) for name, case in course.cases.items()],
        "questions": [(one.id, one.stem) for one in questions],
        "options": [(one.id, "\n\n".join(o.text for o in one.options)) for one in questions],
        "cautions": [(name, caution.text) for name, caution in course.cautions.items()],
    }
    for kind, texts in kinds.items():
        by_name = {name: sentences(text) for name, text in texts}
        together = counted(one for some in by_name.values() for one in some)
        if together.words:
            each = {name: counted(some) for name, some in by_name.items() if some}
            graded = {name: one.grade for name, one in each.items() if one.is_enough}
            worst = max(graded.items(), key=lambda one: (one[1], one[0]), default=None)
            yield Ease(kind, len(each), together, worst)
