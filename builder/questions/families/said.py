"""Asks what a client's own words come to.

The right answer is the reading that the case has, which no page shows before it is answered. Wrong ones are
the measure's other values, those first that it would be gravest to take the words for. Each is judged by what
the tables come to with it, against the cautions truly met. Nobody is asked about who says nothing of it.

Example: `{id: g-heard, family: said, measure: heel_pain, cases: all, objective: measure-ankle}` asks "Tern
says: “Only when I stub it.” What does that come to for “Heel pain”?"
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import ChoiceScale, Family, NumberScale
from builder.decide.harm import TOLD
from builder.words.sentences import found

from ..frame import Answer, ClientFacts, Draft, Frame, Says
from ..options import shown
from ..units import reading_unit

WRONG = 4


def drafts(family: Family, about: ClientFacts) -> Iterator[Draft]:
    measure = about.course.measures.get(family.measure or "")
    words = about.case.said.get(family.measure or "")
    if measure is None or words is None or isinstance(measure.scale, NumberScale):
        return
    key = about.found.values.get(measure.name)
    if key is None:
        return
    values = tuple(measure.scale.values) if isinstance(measure.scale, ChoiceScale) else (True, False)
    text = about.wording.text

    def said(value: object) -> str:
        assert isinstance(value, str | bool)
        return found(about.wording.words, about.course, measure.name, value)

    def wrong(value: str | bool) -> Answer:
        return Answer(value, said(value), text("said-other"), about.weighed.misheard(measure.name, value))

    by_text = {said(value): value for value in values if value != key}
    others = [wrong(by_text[one]) for one in shown(f"{family.id}.{about.case.name}", list(by_text))]
    others.sort(key=lambda one: -TOLD.index(one.acted.told if one.acted else "none"))
    yield Draft(
        of=about.case.name,
        stem=text("said-stem", client=about.case.client.name, words=words, measure=measure.label),
        right=Answer(key, said(key)),
        wrong=tuple(others),
        why=text("said-why", value=said(key)),
        learnt=reading_unit(measure.name),
        order=values,
        asks=text("said-list", measure=measure.label),
        source=measure.source,
        case=about.case.name,
        right_name=str(key),
    )


def holds(family: Family, about: ClientFacts, says: Says) -> bool:
    """Whether it is what was read of the client."""
    reading = about.case.readings.get(family.measure or "")
    return reading is not None and reading.finding == says and type(reading.finding) is type(says)


FRAME = Frame(("measure", "cases"), drafts, holds, most_wrong=WRONG)
