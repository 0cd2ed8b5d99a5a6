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

from builder.course import Family, Measure, NumberScale
from builder.decide.found import Found
from builder.decide.pathway import measures_behind
from builder.decide.retest import difference
from builder.words import sentences
from builder.words.numbers import quantity

from ..item import Item, ItemOption
from .family import ClientFacts, item_id


def write(family: Family, about: ClientFacts) -> Item | None:
    retest, later = about.case.retest, about.found_again
    if retest is None or later is None:
        return None
    measure = _measure(family, about, later)
    if measure is None or not isinstance(measure.scale, NumberScale):
        return None
    words, scale = about.words, measure.scale
    first, again = about.case.readings[measure.name], retest.readings[measure.name]
    found = difference(measure, about.found.recorded[measure.name], later.recorded[measure.name])
    if found.change is None or found.detectable is None:
        return None
    return Item(
        id=item_id(family, about.case),
        kind="one",
        objective=family.objective,
        stem=words.say(
            "{client}, measured again after {after}. {measure}: {first} at first, now {again}. Is the "
            "difference larger than measurement error alone would make it?",
            client=about.case.client.name,
            after=retest.after,
            measure=measure.label,
            first=sentences.reading(words, measure, first, found.first),
            again=sentences.reading(words, measure, again, found.second),
        ),
        key="a" if found.differs else "b",
        right="differs" if found.differs else "same",
        learnt=f"retest:{measure.name}",
        options=(
            ItemOption("a", words.say("Yes, it is larger than measurement error")),
            ItemOption("b", words.say("No, measurement error alone could make it")),
        ),
        why=words.say(
            "The difference is {apart}. The standard error of one reading is {sem}. In 95 of 100 re-tests of "
            "someone who has not changed, the difference stays within {limit}.",
            apart=quantity(abs(found.change), scale.unit),
            sem=quantity(scale.sem, scale.unit),
            limit=quantity(found.detectable, scale.unit, 2),
        ),
        source=scale.sem_source,
        case=about.case.name,
        family=family.id,
        asks=words.say("Is the difference larger than measurement error alone would make it?"),
    )


def _measure(family: Family, about: ClientFacts, later: Found) -> Measure | None:
    for name in measures_behind(about.course, family.table):
        measure = about.course.measures[name]
        certain = not isinstance(measure.scale, NumberScale) or measure.scale.sem == 0
        if not certain and name in about.found.recorded and name in later.recorded:
            return measure
    return None
