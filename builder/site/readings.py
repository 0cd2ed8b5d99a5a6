"""A client's readings as pages show them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from builder.course import Case, NumberScale
from builder.decide.grid import recorded

from .figures import lines_of, strip

if TYPE_CHECKING:
    from .site import Site


def strip_of(site: Site, case: Case, name: str, table: str | None = None) -> Markup:
    """One number of a client on its scale; empty for anything but a number that was read.

    With `table`, its lines between outcomes are drawn: only for a learner who has answered.
    """
    measure = site.course.measures.get(name)
    reading = case.readings.get(name)
    if measure is None or reading is None or not isinstance(measure.scale, NumberScale):
        return Markup("")
    value = recorded(measure, reading)
    if value is None or isinstance(value, str | bool):
        return Markup("")
    lines = lines_of(site.course.tables[table], measure) if table is not None else ()
    return strip(site.words, measure, reading, value, lines)
