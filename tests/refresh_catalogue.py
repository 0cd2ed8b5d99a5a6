"""Writes builder/words/casetrue.pot anew, every message that pages, questions and walks say, and
builder/site/web/dist/words.json, which of them each script of the browser part says.

Usage: .venv/bin/python tests/refresh_catalogue.py

Every translation follows: what is new stands in it without words, to be filled in, and what is no longer said
goes. A new one starts by `pybabel init -i builder/words/casetrue.pot -D casetrue -d builder/words/locales -l
LANGUAGE`.
"""

from __future__ import annotations

import io
import json
import re
from collections.abc import Iterator
from itertools import takewhile
from pathlib import Path

import jinja2
from babel.messages.catalog import Catalog
from babel.messages.extract import extract
from babel.messages.pofile import read_po, write_po
from jinja2 import nodes

from builder.site.browser_words import LIST
from builder.words.catalogue import LOCALES

ROOT = Path(__file__).parents[1]
BUILDER = ROOT / "builder"
POT = BUILDER / "words" / "casetrue.pot"
WEB = BUILDER / "site" / "web"
KEYWORDS = {"say": None, "phrase": None, "count": (1, 2)}
SILENT = ("cli", "checks", "problems", "source")
"""Rooms whose words are for educators at their desk: they stay English."""
_HEAD = """# The words of Casetrue's interface, to be translated.
# `{name}` stands for what is filled in: keep it as it is, and put it where your language wants it.
# tests/refresh_catalogue.py writes this file.
#"""

_SAID = re.compile(r'\bsay\(\s*("(?:[^"\\]|\\.)*")')

Message = str | tuple[str, str]


def messages() -> Iterator[tuple[Message, str]]:
    """Each message (one and many as a pair) with the file that says it."""
    for file in sorted(BUILDER.rglob("*")):
        inside = file.relative_to(BUILDER)
        if inside.parts[0] in SILENT or "dist" in inside.parts:
            continue
        for message in _in_file(file):
            yield message, file.relative_to(ROOT).as_posix()


def _in_file(file: Path) -> Iterator[Message]:
    if file.suffix == ".py":
        with file.open("rb") as source:
            for _, message, _, _ in extract("python", source, KEYWORDS):
                yield message
    elif file.suffix == ".js" and file.parent.name == "web":
        yield from said(file.read_text("utf-8"))
    elif file.name.endswith(".html.j2") or (file.suffix == ".html" and "theme" in file.parts):
        yield from _in_template(file.read_text("utf-8"))


def said(module: str) -> list[str]:
    """What a browser module says: always plain texts, so that they are found without reading the language."""
    return [json.loads(text) for text in _SAID.findall(module)]


def _in_template(text: str) -> Iterator[Message]:
    """The calls of `say` and `count`, by whatever name they are reached: `casetrue.say` too."""
    for call in jinja2.Environment().parse(text).find_all(nodes.Call):
        name = call.node.name if isinstance(call.node, nodes.Name) else getattr(call.node, "attr", None)
        texts = [
            each.value for each in call.args if isinstance(each, nodes.Const) and isinstance(each.value, str)
        ]
        if name == "say":
            (one,) = texts
            yield one
        elif name == "count":
            one, many = texts
            yield one, many


def template() -> str:
    """The whole of casetrue.pot. It tells no date, so that it changes with the messages alone."""
    return _written(_listed(Catalog(project="Casetrue", header_comment=_HEAD)))


def translation(file: Path) -> str:
    """The whole of a translation as it has to be: its own words, for the messages that are said now."""
    text = file.read_text("utf-8")
    was = read_po(io.StringIO(text))
    head = "".join(takewhile(lambda line: line.startswith("#"), text.splitlines(keepends=True)))
    catalogue = _listed(Catalog(was.locale, header_comment=head.rstrip("\n"), fuzzy=False))
    for message in catalogue:
        known = was.get(message.id)
        if message.id and known is not None and isinstance(known.id, type(message.id)):
            message.string = known.string
            message.flags |= known.flags & {"fuzzy"}
            message.user_comments = known.user_comments
    return _written(catalogue)


def _listed(catalogue: Catalog) -> Catalog:
    for message, file in messages():
        catalogue.add(message, locations=[(file, 0)])
    return catalogue


def _written(catalogue: Catalog) -> str:
    written = io.BytesIO()
    write_po(written, catalogue, width=0, sort_output=True, include_lineno=False)
    head, rest = written.getvalue().decode("utf-8").split("\n\n", 1)
    head = re.sub(r'(?m)^"(?!MIME|Content|Language:|Plural).*\n?', "", head).rstrip("\n")
    # Babel takes a bare per cent sign for a field of Python's older formatting.
    rest = re.sub(r"(?m)^#, python-format\n|, python-format$", "", rest)
    return f"{head}\n\n{rest}"


LATER = (
    "walk",
    "asking",
    "quiz",
    "draw",
    "task",
    "result",
    "record",
    "plan",
    "chances",
    "handover",
    "pacer",
    "figure",
    "clients",
    "search",
    "today",
    "note",
    "keep",
    "worker",
)
SCRIPTS = {"casetrue": "main.js"} | {name: f"{name}-main.js" for name in LATER}
"""Script to the module that it begins with, as in builder/site/web/bundle."""
_IMPORT = re.compile(r'(?m)^import [^;]*?from "\./([^"]+)";')


def modules(first: str) -> set[str]:
    """A browser module and all that it imports."""
    found: set[str] = set()
    waiting = [first]
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.add(name)
            waiting += _IMPORT.findall((WEB / name).read_text("utf-8"))
    return found


def browser_list() -> str:
    """The whole of words.json."""
    said = {
        script: sorted({str(message) for name in modules(first) for message in _in_file(WEB / name)})
        for script, first in SCRIPTS.items()
    }
    return json.dumps(said, ensure_ascii=False, indent=1) + "\n"


if __name__ == "__main__":
    POT.write_text(template(), encoding="utf-8")
    for each in sorted(LOCALES.glob("*/LC_MESSAGES/casetrue.po")):
        each.write_text(translation(each), encoding="utf-8")
    LIST.write_text(browser_list(), encoding="utf-8")
