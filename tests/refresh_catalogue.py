"""Writes builder/words/casetrue.pot anew: every message that pages, questions and walks say.

Usage: .venv/bin/python tests/refresh_catalogue.py

A translation starts by `pybabel init -i builder/words/casetrue.pot -D casetrue -d builder/words/locales -l
LANGUAGE`, and follows later changes by `pybabel update` with the same options.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from pathlib import Path

import jinja2
from babel.messages.catalog import Catalog
from babel.messages.extract import extract
from babel.messages.pofile import write_po
from jinja2 import nodes

ROOT = Path(__file__).parents[1]
BUILDER = ROOT / "builder"
POT = BUILDER / "words" / "casetrue.pot"
KEYWORDS = {"say": None, "count": (1, 2)}
SILENT = ("cli", "checks", "problems", "source")
"""Rooms whose words are for educators at their desk: they stay English."""
_HEAD = """# The words of Casetrue's interface, to be translated.
# `{name}` stands for what is filled in: keep it as it is, and put it where your language wants it.
# tests/refresh_catalogue.py writes this file.
#"""

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
    if file.suffix == ".py" or (file.suffix == ".js" and file.parent.name == "web"):
        method = "python" if file.suffix == ".py" else "javascript"
        with file.open("rb") as source:
            for _, message, _, _ in extract(
                method, source, KEYWORDS, options={"parse_template_string": True}
            ):
                yield message
    elif file.name.endswith(".html.j2") or (file.suffix == ".html" and "theme" in file.parts):
        yield from _in_template(file.read_text("utf-8"))


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
    catalogue = Catalog(project="Casetrue", header_comment=_HEAD)
    for message, file in messages():
        catalogue.add(message, locations=[(file, 0)])
    written = io.BytesIO()
    write_po(written, catalogue, width=0, sort_output=True, include_lineno=False)
    head, rest = written.getvalue().decode("utf-8").split("\n\n", 1)
    head = re.sub(r'(?m)^"(?!MIME|Content).*\n?', "", head).rstrip("\n")
    # Babel takes a bare per cent sign for a field of Python's older formatting.
    rest = re.sub(r"(?m)^#, python-format\n|, python-format$", "", rest)
    return f"{head}\n\n{rest}"


if __name__ == "__main__":
    POT.write_text(template(), encoding="utf-8")
