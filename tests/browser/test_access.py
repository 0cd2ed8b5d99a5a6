"""Every kind of page in every state is open to everyone (WCAG 2.2, A and AA).

axe-core finds what a program can find. The rest is tried here as a person would: by Tab alone, with
reduced motion, in forced colours, at 320 px (which is 400 % zoom of 1280 px), on paper. `DEVELOPERS.md` has the
script for what only a person can hear and see.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Literal

import pytest

from .conftest import Desk
from .page import Page
from .practice import narrow_faults
from .states import KINDS, whole_site

WIDTHS = (320, 360, 1280)
_KIND = re.compile(r'<body class="ct-page kind-([a-z-]+)')
ASK = ("client", "drill-walk", "drill", "quiz", "record", "search", "clients")
"""Kinds whose script builds what a learner presses."""


@pytest.fixture(scope="session")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return whole_site(tmp_path_factory.mktemp("whole"))


def test_every_kind_of_page_is_listed(whole: Path) -> None:
    built = {_KIND.search(file.read_text("utf-8"))[1] for file in whole.rglob("*.html")}  # type: ignore[index]
    assert built == set(KINDS)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("kind", KINDS)
def test_axe_finds_nothing(
    browser: Desk,
    whole: Path,
    serve: Callable[[Path], str],
    axe: Callable[[Page], list[str]],
    kind: str,
    scheme: Literal["light", "dark"],
) -> None:
    page, found = browser.page(scheme=scheme, motion=False), []
    for state in KINDS[kind](page, serve(whole)):
        for width in WIDTHS:
            page.size(width, 800)
            told = [*axe(page), *(f"too wide: {one}" for one in page.too_wide)]
            if width == 360:
                told += narrow_faults(page)
            found += [f"{state} at {width}: {one}" for one in told]
    assert found == []
    assert page.trouble == []
