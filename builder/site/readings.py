"""A client's readings as pages show them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from builder.course import Case

from .figures import lines_of, strip

if TYPE_CHECKING:
    from .site import Site


def strip_of(site: Site, case: Case, name: str, table: str | None = None) -> Markup:
    """One number of a client on its scale; empty for anything but a number that was read.

    With `table`, its lines between outcomes are drawn: only for a learner who has answered.
    """
    value = site.found(case).get(name)
    if value is None or isinstance(value, str | bool):
        return Markup("")
    measure = site.course.measures[name]
    lines = lines_of(site.course.tables[table], measure) if table is not None else ()
    return strip(site.words, measure, case.readings[name], value, lines)
