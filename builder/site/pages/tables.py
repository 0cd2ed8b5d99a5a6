"""Decision tables: the rules in sentences, and as a tree."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from builder.course import Table
from builder.decide.budget import Unfinished
from builder.decide.pathway import feeds, order
from builder.words.sentences import label, table_label

from .. import figures, prose, uris
from ..page import Page
from ..site import Site


def pages(site: Site) -> Iterator[Page]:
    course, words = site.course, site.words
    if not course.tables:
        return
    names = order(course)
    tables = [course.tables[name] for name in (*names, *sorted(set(course.tables) - set(names)))]
    heading = words.say("Decision tables")
    yield Page(uris.TABLES, heading, "tables", site.render("tables.html.j2", uris.TABLES, tables=tables))
    first = next(iter(course.cases.values()), None)
    for table in tables:
        here = uris.table(table.name)
        drawing, pruned = _tree(site, table)
        yield Page(
            here,
            table_label(table),
            "table",
            site.render("table.html.j2", here, table=table, first=first, drawing=drawing, pruned=pruned),
            prose.plain(table.question),
            prose.plain(table.question),
            tuple(label(course, name) for name in table.inputs),
            trail=((uris.TABLES, heading),),
            source=table.origin.file or None,
        )


def _tree(site: Site, table: Table) -> tuple[Markup | None, bool]:
    """A table's tree, and whether branches that nobody can reach are left out: the whole tree where finding
    them takes too long. Only what other tables decide can keep clients from a branch."""
    if feeds(site.course, table.name) and table.name in site.space.tables:
        try:
            return figures.draw_tree(site.words, site.course, table, space=site.space), True
        except Unfinished:
            pass
    return figures.draw_tree(site.words, site.course, table), False
