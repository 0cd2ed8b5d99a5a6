"""Asks whether a client's re-test differs from the first test by more than measurement error.

Asked about the first number that the table reads, by itself or through the tables that feed it, of which the
client has a first test and a re-test and whose error of measurement is above 0. It differs when the
difference of the recorded values exceeds `1.96 * sem * sqrt(1/n1 + 1/n2)`, n1 and n2 the trials of each test
(1 each where `sem_of: session`): the minimal detectable change at 95 %, after J. P. Weir, Journal of Strength
and Conditioning Research 2005;19(1):231-240. Clients without a re-test are left out.

Example: `{id: g-again, family: retest, table: ankle_class, cases: all, objective: measure-ankle}` asks
"Tern, measured again after 3 weeks. Knee-to-wall dorsiflexion: 32° (31, 33, 32) at first, now 39°
(38, 39, 40). Is the difference larger than measurement error alone would make it?"
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.course import Family, Measure, NumberScale
from builder.decide.doubt import exceeds_error, variance
from builder.decide.pathway import measures_behind
from builder.decide.retest import difference
from builder.words import sentences
from builder.words.numbers import quantity

from ..frame import Answer, ClientFacts, Draft, Frame, Says


def drafts(family: Family, about: ClientFacts) -> Iterator[Draft]:
    retest, later = about.case.retest, about.found_again
    measure = _measure(family, about)
    if retest is None or later is None or measure is None or not isinstance(measure.scale, NumberScale):
        return
    text, scale, words = about.wording.text, measure.scale, about.wording.words
    first, again = about.case.readings[measure.name], retest.readings[measure.name]
    found = difference(measure, about.found.recorded[measure.name], later.recorded[measure.name])
    if found.change is None or found.detectable is None:
        return
    answers = (Answer("differs", text("retest-yes")), Answer("same", text("retest-no")))
    right, wrong = answers if found.differs else answers[::-1]
    yield Draft(
        of=about.case.name,
        stem=text(
            "retest-stem",
            client=about.case.client.name,
            after=retest.after,
            measure=measure.label,
            first=sentences.reading(words, measure, first, found.first),
            again=sentences.reading(words, measure, again, found.second),
        ),
        right=right,
        wrong=(wrong,),
        why=text(
            "retest-why",
            apart=quantity(words, abs(found.change), scale.unit),
            sem=quantity(words, scale.sem, scale.unit),
            limit=quantity(words, found.detectable, scale.unit, 2),
        ),
        learnt=f"retest:{measure.name}",
        order=("differs", "same"),
        asks=text("retest-list"),
        source=scale.sem_source,
        case=about.case.name,
        right_name="differs" if found.differs else "same",
    )


def holds(family: Family, about: ClientFacts, says: Says) -> bool:
    """Whether the change, squared, is more than 1.96 squared times the variances of both tests together."""
    measure, later = _measure(family, about), about.found_again
    if measure is None or later is None or not isinstance(measure.scale, NumberScale):
        return False
    first, again = about.found.recorded[measure.name], later.recorded[measure.name]
    assert isinstance(first.value, Fraction)
    assert isinstance(again.value, Fraction)
    both = variance(measure.scale, first.trials) + variance(measure.scale, again.trials)
    return (says == "differs") == exceeds_error(again.value - first.value, both)


def _measure(family: Family, about: ClientFacts) -> Measure | None:
    later = about.found_again
    for name in measures_behind(about.course, family.table):
        measure = about.course.measures[name]
        certain = not isinstance(measure.scale, NumberScale) or measure.scale.sem == 0
        if later and not certain and name in about.found.recorded and name in later.recorded:
            return measure
    return None


FRAME = Frame(("table", "cases"), drafts, holds)
