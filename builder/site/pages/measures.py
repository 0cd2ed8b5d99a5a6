"""Every measure: its scale, its error, what is usual, who reads it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain

from markupsafe import Markup

from builder.answers import addresses
from builder.course import COMMON_PRACTICE, ChoiceScale, Measure, NumberScale
from builder.words.numbers import quantity, span

from .. import prose
from ..citations import cite
from ..figures import draw_reading
from ..page import Page, Part
from ..site import Site


@dataclass(frozen=True, slots=True)
class Usual:
    text: str
    source: str


def pages(site: Site) -> Iterator[Page]:
    measures = site.course.measures.values()
    if not measures:
        return
    body = site.drawn(
        "measures.html.j2",
        addresses.MEASURES,
        facts=lambda measure: tuple(_facts(site, measure)),
        example_of=lambda measure: _example(site, measure),
        references=lambda measure: tuple(_usual(site, measure)),
        taken=frozenset(chain.from_iterable(case.readings for case in site.course.cases.values()))
        - {measure.name for measure in measures if measure.of_client},
        read_by=lambda name: [one for one in site.course.tables.values() if name in one.inputs],
        lessons=frozenset(lesson.file for lesson in site.course.lessons),
    )
    parts = tuple(Part(one.name, one.label, _searchable(one)) for one in measures)
    yield Page(
        addresses.MEASURES, site.words.say("Measures"), "measures", body, parts=parts, source="measures.yml"
    )


def _example(site: Site, measure: Measure) -> Markup:
    """The measure drawn at the middle of its scale, with the number; empty where it is not drawn."""
    scale = measure.scale
    if not isinstance(scale, NumberScale):
        return Markup()
    steps = int((scale.stop - scale.start) / scale.step / 2)
    return draw_reading(site.words, site.course, measure, scale.start + steps * scale.step, told=True)


def _searchable(measure: Measure) -> str:
    values = measure.scale.values.values() if isinstance(measure.scale, ChoiceScale) else ()
    return " ".join([prose.plain(measure.note or ""), ", ".join(values)])


def _facts(site: Site, measure: Measure) -> Iterator[tuple[str, str]]:
    say, scale = site.words.say, measure.scale
    if isinstance(scale, ChoiceScale):
        yield say("Answers"), "; ".join(scale.values.values())
        return
    if not isinstance(scale, NumberScale):
        yield say("Answers"), say("yes or no")
        return
    if measure.of_client:
        yield say("Ages"), span(site.words, scale.start, scale.stop, scale.unit)
        return
    yield (
        say("Scale"),
        say(
            "{range}, in steps of {step}",
            range=span(site.words, scale.start, scale.stop, scale.unit),
            step=quantity(site.words, scale.step, scale.unit),
        ),
    )
    if scale.sem == 0:
        yield say("Reading error"), say("taken as none")
        return
    assumed = scale.sem_source in (None, COMMON_PRACTICE)
    error = quantity(site.words, scale.sem, scale.unit)
    yield (
        say("Reading error"),
        (
            say("standard error {error} (assumed)", error=error)
            if assumed
            else say("standard error {error} ({source})", error=error, source=_short(site, scale.sem_source))
        ),
    )
    yield (
        say("More trials"),
        (say("make the error smaller") if scale.sem_of == "trial" else say("do not make the error smaller")),
    )


def _usual(site: Site, measure: Measure) -> Iterator[Usual]:
    scale = measure.scale
    if not isinstance(scale, NumberScale):
        return
    for one in scale.reference:
        text = site.words.say(
            "Reference for {who}: {range}.",
            who=one.who,
            range=span(site.words, one.low, one.high, scale.unit),
        )
        yield Usual(text, one.source)


def _short(site: Site, source: str | None) -> str:
    return cite(site.words, site.course, source or "").short
