"""No word of the interface is left outside the catalogue: a whole site in a pseudo-language shows it."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner
from lxml import html

from builder.answers import Answers
from builder.cli.main import casetrue
from builder.source import load

from ..records.answered import answered
from ..site.html_pages import pages
from .pseudo import foreign, pseudo, pseudo_course, pseudo_site, pseudo_words, seen

ROOT = Path(__file__).parents[2]
ANKLE = ROOT / "tests" / "courses" / "ankle"
COURSES = {"demo": [ROOT / "course_src"], "small": [ANKLE, ANKLE.with_name("drills")]}


@pytest.mark.parametrize("name", COURSES)
def test_every_word_of_every_page_comes_from_the_catalogue_or_the_course(name: str, tmp_path: Path) -> None:
    site = pseudo_site(tmp_path, *COURSES[name])
    found = {}
    for uri, page in pages(site):
        assert "⟦" in page.text_content(), uri
        if left := foreign(seen(page)):
            found[uri] = left
    assert found == {}


def test_every_word_of_the_owners_pages_comes_from_there_too(tmp_path: Path) -> None:
    course = pseudo_course(tmp_path, *COURSES["demo"])
    answers = Answers(load(course).course)
    folder = tmp_path / "handed-over"
    folder.mkdir()
    for number, right in enumerate((True, False, False, True, False)):
        name = f"\uff21\uff42 {number}"
        (folder / f"{number}.json").write_bytes(answered(answers, name, right))
    old = json.loads((folder / "4.json").read_text("utf-8"))
    for one in old["attempts"]:
        one |= {"key": "0" * 8} if one["kind"] == "question" else {"quiz": "gone", "id": "gone"}
    old["attempts"].append({})
    (folder / "4.json").write_text(json.dumps(old), "utf-8")
    for more in (["--names"], []):
        out = tmp_path / f"out{len(more)}"
        every = sorted(map(str, folder.glob("*.json")))
        given = ["records", *every, "--course", str(course), "--today", "2026-06-30", "--out", str(out)]
        with pseudo_words(tmp_path):
            done = CliRunner().invoke(casetrue, [*given, *more])
        assert done.exit_code == 1, (done.output, done.exception)
        for name in ("index.html", "wall.html"):
            page = html.parse(out / name).getroot()
            assert foreign(re.sub(OWN, "", text) for text in seen(page)) == [], name


OWN = r"\b[B-Z]\d{2,}\b|\d\.json|\bgone\b|\b[gq]-[\w.-]+|--names|--format json"
"""What calls coaches, files, questions and things that are gone, and options of the command."""


def test_the_pseudo_language_keeps_fields() -> None:
    assert pseudo("Refer to: {who}, now") == "⟦Ŕéƒéŕ ťó: {who}, ñóŵ⟧"
