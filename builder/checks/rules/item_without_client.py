"""A question about a client can be answered without the client.

What: a question names a `case`, and nothing in it speaks of that client: not their name, nor a measure, a
reading or a word of their story; or a family's right answer is the same for every client that it asks about.

Why: readers learn to skip the readings, which is the opposite of what a coach must do.

Example:

    - {id: q-one, case: tern, stem: How many trials make a mean?, ...}

Cure: ask about what was found of this client, or take `case` away. Give the family clients with other
answers. (Haladyna and others 2002; NBME 2020, the vignette must be needed.)
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from builder.course import Case, Family

from ..items import amounts, asked, content
from ..scope import Fault, Scope

CODE = "item-without-client"

_FEWEST = 4
"""Clients of a family about whom it can be told."""


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        case = scope.course.cases.get(one.question.case or "")
        if case is not None and not any(option.means for option in one.question.options):
            said = [one.stem, *one.texts, one.question.why, *(option.why for option in one.question.options)]
            if not content(" ".join(said)) & _told(scope, case) and not _numbers(said) & _read(case):
                yield one.fault(
                    f"nothing in it speaks of {case.client.name}.",
                    "Ask about what was found of this client, or take `case` away.",
                    "case",
                )
    if "question" not in scope.unread and "case" not in scope.unread:
        yield from _alike(scope)


def _alike(scope: Scope) -> Iterator[Fault]:
    keys: dict[str, list[str]] = defaultdict(list)
    for item in scope.answers.bank:
        if item.family and item.case and item.right:
            keys[item.family].append(item.right)
    for name, rights in keys.items():
        family = scope.course.questions[name]
        if len(rights) >= _FEWEST and len(set(rights)) == 1 and isinstance(family, Family):
            message = (
                f"{name}: the right answer is the same for all {len(rights)} clients that it asks about."
            )
            hint = "Let it ask about clients with other answers as well."
            yield Fault(family.origin.at("cases"), f"question:{name}", message, hint)


def _told(scope: Scope, case: Case) -> set[str]:
    """The words that speak of a client: name, story, and the measures that were read."""
    course = scope.course
    texts = [case.client.name, case.client.about, case.story]
    for name in case.readings:
        measure = course.measures.get(name)
        texts += [measure.label, *(getattr(measure.scale, "values", {}).values())] if measure else []
    return content(" ".join(texts))


def _numbers(texts: list[str]) -> set[object]:
    return {number for text in texts for number in amounts(text)}


def _read(case: Case) -> set[object]:
    return {trial for reading in case.readings.values() for trial in reading.trials}
