"""A course in a language that nobody speaks, so that every word on a page shows where it comes from.

Interface words become `⟦Áñšŵéŕ⟧`: accented and in brackets. The course's own become full-width letters. A
plain letter that is left on a page came from neither: nobody could translate it.
"""

from __future__ import annotations

import contextlib
import io
import json
import re
import shutil
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from babel.messages.pofile import read_po, write_po
from click.testing import CliRunner
from lxml import html

from builder.cli.main import casetrue
from builder.words import catalogue

POT = Path(__file__).parents[2] / "builder" / "words" / "casetrue.pot"
LANGUAGE = "qps"
PLAIN = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
ACCENTED = str.maketrans(PLAIN, "áƀçďéƒğĥíĵķľɱñóƥǫŕšťúṽŵẋýžÁƁÇĎÉƑĞĤÍĴĶĽṀÑÓƤǪŔŠŤÚṼŴẊÝŽ")
WIDE = str.maketrans(PLAIN, "".join(chr(ord(letter) + 0xFEE0) for letter in PLAIN))

PROSE = frozenset(
    [
        "about", "accreditation", "after", "after_harm", "ask", "because", "cause", "change", "contact",
        "container-title", "end", "given", "how", "label", "left", "literal", "name", "note", "provider",
        "publisher", "question", "reply", "right", "role", "say", "scope", "sign", "stem",
        "stop_when", "story", "summary", "text", "title", "unit", "version", "who", "why",
    ]
)  # fmt: skip
"""Keys whose texts people read."""
LISTS = frozenset(["cues", "good", "items", "names", "spare", "stop", "synonyms"])
"""Keys whose lists hold such texts."""


def pseudo(message: str) -> str:
    """The message in the pseudo-language, its fields kept."""
    parts = re.split(r"(\{\w+\})", message)
    return f"⟦{''.join(part if part.startswith('{') else part.translate(ACCENTED) for part in parts)}⟧"


def write_catalogue(folder: Path) -> None:
    """The whole catalogue in the pseudo-language, below a folder of languages."""
    with POT.open("rb") as file:
        read = read_po(file, locale="en", ignore_obsolete=True)
    read.fuzzy = False
    for message in read:
        if isinstance(message.id, tuple):
            message.string = tuple(pseudo(text) for text in message.id)
        elif message.id:
            message.string = pseudo(message.id)
    written = io.BytesIO()
    write_po(written, read)
    target = folder / LANGUAGE / "LC_MESSAGES" / "casetrue.po"
    target.parent.mkdir(parents=True)
    target.write_bytes(written.getvalue())


def mask(course: Path) -> None:
    """Rewrites a course folder: full-width letters in whatever people read, and the pseudo-language."""
    for file in sorted(course.rglob("*.yml")):
        read = yaml.load(file.read_text("utf-8"), _Undated)
        if file.name == "mkdocs.yml":
            read["site_name"] = read["site_name"].translate(WIDE)
        else:
            read = _wide(read, prose=PROSE | {"family"} if file.name == "sources.yml" else PROSE)
        if file.name == "course.yml":
            read["language"] = LANGUAGE
        if "table" in read:
            read.setdefault("title", read["table"].translate(WIDE))
        file.write_text(json.dumps(read, ensure_ascii=False), "utf-8")
    for file in sorted(course.rglob("*.md")):
        file.write_text(_wide_markdown(file.read_text("utf-8")), "utf-8")


def _wide(value: Any, key: str = "", prose: frozenset[str] = PROSE) -> Any:
    if isinstance(value, dict):
        if key in ("under", "said") and all(isinstance(each, str) for each in value.values()):
            return {name: each.translate(WIDE) for name, each in value.items()}
        # `right` is prose in a question of pairs, and an outcome's name in a confusion.
        kept = {"right"} if "answered" in value else set()
        return {name: each if name in kept else _wide(each, name, prose) for name, each in value.items()}
    if isinstance(value, list):
        if key == "values":
            return {name: {"label": name.translate(WIDE)} for name in value}
        texts = key in LISTS
        return [
            _wide_text(each) if texts and isinstance(each, str) else _wide(each, "", prose) for each in value
        ]
    return _wide_text(value) if key in prose and isinstance(value, str) else value


def _wide_text(text: str) -> str:
    """What code leads to stays: units that have a sign, links, lesson files."""
    if text in ("deg", "percent") or text.endswith(".md"):
        return text
    return _wide_markdown(text)


def _wide_markdown(text: str) -> str:
    parts = re.split(r"(\]\([^)]*\)|<!--.*?-->|https?://\S+|\{[:#.][^}]*\})", text, flags=re.DOTALL)
    return "".join(part if place % 2 else part.translate(WIDE) for place, part in enumerate(parts))


class _Undated(yaml.SafeLoader):
    """Dates stay as they are written."""


_Undated.yaml_implicit_resolvers = {
    sign: [(tag, pattern) for tag, pattern in resolvers if tag != "tag:yaml.org,2002:timestamp"]
    for sign, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
}

ATTRIBUTES = ("alt", "aria-description", "aria-label", "aria-placeholder", "aria-roledescription", "label",
              "placeholder", "title", "data-dark", "data-light")  # fmt: skip


UNSEEN = ("script", "style", "cite")
"""What is not read, and works that bear their name in every language."""


def seen(page: html.HtmlElement) -> Iterator[str]:
    """Every text of a page that people see or hear."""
    for element in page.iter():
        if not isinstance(element.tag, str) or element.tag in UNSEEN:
            continue
        yield element.text or ""
        yield from (element.get(name, "") for name in ATTRIBUTES)
        if element.tag == "meta" and element.get("name") == "description":
            yield element.get("content", "")
    yield from (element.tail or "" for element in page.iter())


KNOWN = "|".join(
    [
        r"doi:\S+|https?://\S+",
        r"\b[0-9a-f]{8,16}\b",  # marks of builds and questions
        r"\be\d+-e\d+\b",  # pages of a volume that is not printed
        r"\b\d+\ss\b",  # seconds, by their sign in the SI
        r"\b([A-Z][a-z]{2}, )?[A-Z][a-z]{2} \d{1,2}, \d{4}\b",  # dates, in the browser's own words
        r"casetrue:[\w-]+:",  # how names in a browser's store start
    ]
)
"""What is no word of any language."""


def foreign(texts: Iterable[str]) -> list[str]:
    """The texts with a plain letter in them that cannot be told by `KNOWN`."""
    return sorted(
        {" ".join(text.split()) for text in texts if re.search("[A-Za-z]", re.sub(KNOWN, "", text))}
    )


def pseudo_course(folder: Path, *courses: Path) -> Path:
    """These courses, one laid over the other, and the catalogue, in the pseudo-language."""
    for course in courses:
        shutil.copytree(course, folder / "course", dirs_exist_ok=True)
    mask(folder / "course")
    write_catalogue(folder / "locales")
    return folder / "course"


@contextlib.contextmanager
def pseudo_words(folder: Path) -> Iterator[None]:
    """The interface speaks the pseudo-language that `pseudo_course` has put there."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(catalogue, "LOCALES", folder / "locales")
        yield


def pseudo_site(folder: Path, *courses: Path) -> Path:
    """The built site of these courses in the pseudo-language."""
    course = pseudo_course(folder, *courses)
    with pseudo_words(folder):
        options = ["--course", str(course), "--out", str(folder / "site")]
        done = CliRunner().invoke(casetrue, ["build", *options])
    assert done.exit_code == 0, (done.output, done.exception)
    return folder / "site"
