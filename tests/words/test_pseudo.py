"""No word of the interface is left outside the catalogue: a whole site in a pseudo-language shows it."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.cli.main import casetrue
from builder.words import catalogue

from ..site.html_pages import pages
from .pseudo import foreign, mask, pseudo, seen, write_catalogue

ROOT = Path(__file__).parents[2]
ANKLE = ROOT / "tests" / "courses" / "ankle"
COURSES = {"demo": [ROOT / "course_src"], "small": [ANKLE, ANKLE.with_name("drills")]}
KNOWN = r"doi:\S+|https?://\S+|\b[0-9a-f]{8}\b|\b\d+ s\b|casetrue:[\w-]+:"
"""Addresses, the mark of a build, seconds by their sign (SI), and how names in a browser's store start."""


def build(name: str, folder: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    own = folder / "course"
    for course in COURSES[name]:
        shutil.copytree(course, own, dirs_exist_ok=True)
    mask(own)
    write_catalogue(folder / "locales")
    monkeypatch.setattr(catalogue, "LOCALES", folder / "locales")
    done = CliRunner().invoke(casetrue, ["build", "--course", str(own), "--out", str(folder / "site")])
    assert done.exit_code == 0, done.output
    return folder / "site"


@pytest.mark.parametrize("name", COURSES)
def test_every_word_of_every_page_comes_from_the_catalogue_or_the_course(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = build(name, tmp_path, monkeypatch)
    found = {}
    for uri, page in pages(site):
        assert "⟦" in page.text_content(), uri
        if left := foreign(list(seen(page)), KNOWN):
            found[uri] = left
    assert found == {}


def test_the_pseudo_language_keeps_fields() -> None:
    assert pseudo("Send on to: {who}, now") == "⟦Šéñď óñ ťó: {who}, ñóŵ⟧"
