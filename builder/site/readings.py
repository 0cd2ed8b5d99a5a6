"""A client's readings as pages show them."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from markupsafe import Markup

from builder.course import Case, NumberScale
from builder.decide import sureness
from builder.decide.doubt import likely
from builder.decide.sureness import Sure
from builder.words import doubt

from .figures import draw_strip

if TYPE_CHECKING:
    from .site import Site


def strip_of(site: Site, case: Case, name: str, table: str | None = None) -> Markup:
    """One number of a client on its scale; empty for anything but a number that was read.

    With `table`, its lines between outcomes and the band of doubt are drawn: only for a learner who has
    answered.
    """
    reading, measure = case.readings.get(name), site.course.measures.get(name)
    value = site.found(case).get(name)
    if reading is None or measure is None or not isinstance(value, Fraction):
        return Markup("")
    if table is None:
        return site.once_below(("strip", name, reading), draw_strip, site.words, measure, reading, value)
    return draw_strip(site.words, measure, reading, value, site.lines(table, name), _band(site, case, name))


def sure_of(site: Site, case: Case, table: str) -> Sure | None:
    """How sure a client's decision is and what would have changed it; None where nothing is decided."""
    outcome = site.explanation(case, table).decision.outcome
    if outcome is None:
        return None
    return sureness.sure_of(site.words, site.space, case.readings, table, outcome)


def doubt_of(site: Site, case: Case, name: str) -> str:
    """What the band of doubt on a strip shows, and whether its error is assumed; empty where there is no
    band."""
    band, measure = _band(site, case, name), site.course.measures.get(name)
    if band is None or measure is None or not isinstance(measure.scale, NumberScale):
        return ""
    return (
        f"{doubt.likely(site.words, measure.scale, *band)} {doubt.assumed(site.words, measure.scale)}".strip()
    )


def _band(site: Site, case: Case, name: str) -> tuple[float, float] | None:
    value, measure = site.found(case).get(name), site.course.measures.get(name)
    if measure is None or not isinstance(measure.scale, NumberScale) or not isinstance(value, Fraction):
        return None
    if measure.scale.sem == 0:
        return None
    return likely(measure.scale, value, len(case.readings[name].trials))
