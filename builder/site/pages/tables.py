"""Decision tables: the rules in sentences, and as a tree."""

from __future__ import annotations

from collections.abc import Iterator

from builder.decide.pathway import order
from builder.words.sentences import label, table_label

from .. import prose, uris
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
        yield Page(
            here,
            table_label(table),
            "table",
            site.render("table.html.j2", here, table=table, first=first),
            prose.plain(table.question),
            prose.plain(table.question),
            tuple(label(course, name) for name in table.inputs),
            trail=((uris.TABLES, heading),),
            source=table.origin.file or None,
        )
