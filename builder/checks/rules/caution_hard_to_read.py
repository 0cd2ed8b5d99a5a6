"""A caution is hard to read.

What: by its sentences and words, the text of a caution needs more than the eighth grade of school (the
formula of Flesch and Kincaid; another limit can be set as `reading_grade` in course.yml). Texts of fewer than
thirty words are not judged, and texts in other languages than English neither.

Why: a caution is read in a hurry, by people who are frightened or tired, and by some for whom English is a
second language. General advice on health is asked to stay between the sixth and the eighth grade.

Example:

    text: >
      Immediate discontinuation of all physical intervention is indicated whenever symptomatology suggestive
      of cardiovascular decompensation becomes apparent.

Cure: the hint names the sentences to blame. Cut them in two, and take short words: stop, call, stay. What the
formula counts is not sense: a text below the limit can still be hard, and one above it plain.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..reading import counted, hardest, is_english, sentences
from ..scope import Fault, Scope

CODE = "caution-hard-to-read"

_SHOWN = 90
"""Letters of a sentence that are shown."""


def check(scope: Scope) -> Iterator[Fault]:
    if not is_english(scope.course):
        return
    limit = float(scope.course.about.reading_grade)
    for name, caution in scope.course.cautions.items():
        found = sentences(caution.text)
        text = counted(found)
        if text.is_enough and text.grade > limit:
            blamed = " ".join(f"“{_short(one)}”" for one in hardest(found))
            message = f"The caution {name} reads at grade {text.grade:.1f}; the limit is {limit:g}."
            yield Fault(
                caution.origin.at("text"), f"caution:{name}", message, f"Cut in two, or say plainly: {blamed}"
            )


def _short(text: str) -> str:
    return text if len(text) <= _SHOWN else text[: _SHOWN - 1] + "…"
