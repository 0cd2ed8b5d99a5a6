"""The templates' surroundings: escaping on, undefined names refused, the interface's words at hand."""

from __future__ import annotations

import json
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

import jinja2
from markupsafe import Markup, escape

from builder.course import RESERVED_SOURCES, SENDS_ON
from builder.words import Words, numbers, sentences

from . import figures, practice, uris
from .citations import cite
from .compiled import COMPILED
from .readings import doubt_of, strip_of, sure_of
from .retest import retest_of

if TYPE_CHECKING:
    from .site import Site

TEMPLATES = Path(__file__).parent / "templates"


def environment(site: Site) -> jinja2.Environment:
    """Jinja for the page bodies of one site."""
    env = jinja2.Environment(
        loader=jinja2.FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=False,
        auto_reload=False,
        bytecode_cache=COMPILED,
    )
    env.globals.update(
        site=site,
        href=site.href,
        prose=site.prose,
        line=site.line,
        once=site.once,
        once_below=site.once_below,
        once_read=site.once_read,
        course=site.course,
        words=site.words,
        say=_saying(site.words),
        count=site.words.count,
        number=_quantity,
        sentences=sentences,
        figures=figures,
        practice=practice,
        strip_of=strip_of,
        doubt_of=doubt_of,
        sure_of=sure_of,
        retest_of=retest_of,
        cite=lambda name: cite(site.words, site.course, name),
        reserved=RESERVED_SOURCES,
        sends_on=SENDS_ON,
        uris=uris,
        inert=inert,
    )
    return env


def inert(value: object) -> Markup:
    """JSON for a `<script type="application/json">`: nothing in it can end the block or start a comment."""
    text = json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    for sign in "<>&\u2028\u2029":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return Markup(text)


def _saying(words: Words) -> Callable[..., str]:
    """`Words.say` for templates: what takes no values is looked up and escaped once."""
    known: dict[str, Markup] = {}

    def say(message: str, /, **values: object) -> str:
        if values:
            return words.say(message, **values)
        if message not in known:
            known[message] = escape(words.say(message))
        return known[message]

    return say


def _quantity(value: Fraction | int | float, unit: str = "") -> str:
    """With its unit on the same line."""
    return numbers.quantity(value, unit).replace(" ", "\N{NO-BREAK SPACE}")
