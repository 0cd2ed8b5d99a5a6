"""The help pages: every code has one, in the same parts, and the document is fresh."""

from __future__ import annotations

from pathlib import Path

import pytest

import builder.checks
from builder.checks.pages import document, page
from builder.problems import CODES

DOCUMENT = Path(builder.checks.__file__).parent / "CHECKS.md"


@pytest.mark.parametrize("code", CODES)
def test_every_code_has_a_page_in_four_parts(code: str):
    title, *parts = page(code).split("\n\n")
    assert title == CODES[code].title
    starts = [part.split(":")[0] for part in parts if not part.startswith("    ")]
    assert starts[:4] == ["What", "Why", "Example", "Cure"]


def test_the_document_is_fresh():
    written = DOCUMENT.read_text(encoding="utf-8")
    assert written == document(), "run `bash tests/refresh-checks`"


def test_an_unknown_code_has_no_page():
    with pytest.raises(KeyError):
        page("no-such-code")
