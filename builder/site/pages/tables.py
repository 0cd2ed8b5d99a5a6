"""Decision tables: the rules in sentences, and as a tree."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from markupsafe import Markup

from builder.answers import addresses
from builder.course import Case, Table
from builder.decide.budget import Unfinished
from builder.decide.pathway import feeds, order
from builder.words.sentences import label, table_label

from .. import figures, prose
from ..page import Page
from ..site import Site


def pages(site: Site) -> Iterator[Page]:
    course, words = site.course, site.words
    if not course.tables:
        return
    names = order(course)
    tables = [course.tables[name] for name in (*names, *sorted(set(course.tables) - set(names)))]
    heading = words.say("Decision tables")
    yield Page(
        addresses.TABLES, heading, "tables", site.drawn("tables.html.j2", addresses.TABLES, tables=tables)
    )
    first = next(iter(course.cases.values()), None)
    for table in tables:
        here = addresses.table(table.name)
        yield Page(
            here,
            table_label(table),
            "table",
            partial(_body, site, here, table, first),
            prose.plain(table.question),
            prose.plain(table.question),
            tuple(label(course, name) for name in table.inputs),
            trail=((addresses.TABLES, heading),),
            source=table.origin.file or None,
        )


def _body(site: Site, here: str, table: Table, first: Case | None) -> str:
    drawing, pruned = _tree(site, table)
    return site.render("table.html.j2", here, table=table, first=first, drawing=drawing, pruned=pruned)


def _tree(site: Site, table: Table) -> tuple[Markup | None, bool]:
    """A table's tree, and whether branches that nobody can reach are left out: the whole tree where finding
    them takes too long. Only what other tables decide can keep clients from a branch."""
    if feeds(site.course, table.name) and table.name in site.answers.space.tables:
        try:
            return figures.draw_tree(site.words, site.course, table, space=site.answers.space), True
        except Unfinished:
            pass
    return figures.draw_tree(site.words, site.course, table), False
