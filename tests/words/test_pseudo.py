"""No word of the interface is left outside the catalogue: a whole site in a pseudo-language shows it."""

from __future__ import annotations

from pathlib import Path

import pytest

from ..site.html_pages import pages
from .pseudo import foreign, pseudo, pseudo_site, seen

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


def test_the_pseudo_language_keeps_fields() -> None:
    assert pseudo("Refer to: {who}, now") == "⟦Ŕéƒéŕ ťó: {who}, ñóŵ⟧"
