"""The site: pages made from a course, whatever theme they are shown in.

How a page comes about
----------------------
`Site` (site.py) holds the course's `answers` and the words around them. Each file in `pages/` is one kind
of page: a generator `pages(site)` of `Page` and `Asset` (page.py), entered in `pages/__init__.py`. A page's
body is the HTML in `<main>`, made when it is asked for; it starts with the only `<h1>`, knows no theme, and
comes from a template in `templates/`:

    draw = site.drawn("table.html.j2", uri, table=table)

Templates escape everything. They see, beside what is passed in:

    answers, course             what the course comes to (builder.answers), and the course
    say(text, **values)         the interface's words; count(one, many, n)
    href(uri)                   a relative link from this page; made from `addresses`
    prose(text), line(text)     an educator's CommonMark as blocks, or as one line without blocks
    number(value, unit)         a number with its unit
    once(key, macro, *given)    what a macro makes, made once for all pages of a folder
    once_below                  the same for a whole depth of folders
    excerpts, items, walks      prose cut in two, a question, a walk: as pages show them
    sentences                   builder.words.sentences, reasons as sentences
    figures                     builder.site.figures, SVG from numbers; strip_of(case, measure, table),
                                pictures_of(case, measure), layers_of(items)
    sure_of, doubt_of           how sure a decision is and what would have changed it; only once answered
    retest_of                   what a client's re-test shows; only once the walk is done

`templates/parts.html.j2` holds the macros that several pages share (a caution, a source, a client's readings,
the safety line).

No style attribute, no inline script; inert data goes in `<script type="application/json">`, written by
`inert(value)`. Style is in `style/*.css`, joined by name into `assets/casetrue.css`; behaviour in `web/`,
bundled to `assets/casetrue.js` and to scripts that some pages add. Every page works without script.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .page import Asset, Page
    from .site import Site

__all__ = ["Asset", "Page", "Site"]


def __getattr__(name: str) -> object:
    """Imported when asked for: whether a site is up to date needs the cache alone."""
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from . import page, site

    return getattr(site if name == "Site" else page, name)
