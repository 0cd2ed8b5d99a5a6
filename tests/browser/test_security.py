"""Every page of the demo and of a course that has everything, from a server and from disk, is quiet.

No error on the console, no breach of the content security policy, no failed or foreign request.
"""

from __future__ import annotations

import os
import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest

from .conftest import Desk
from .page import Page

DEMO = Path(__file__).parents[2] / "site_demo"
_POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy" content="([^"]*)">')
_SCRIPT = re.compile(r"<script\b([^>]*)>", re.IGNORECASE)


@pytest.fixture(scope="module")
def demo() -> Path:
    """As it stands in the repository; that it is fresh is checked beside the tests."""
    return DEMO


@pytest.fixture(params=["demo", "whole"])
def site(request: pytest.FixtureRequest) -> Path:
    return request.getfixturevalue(request.param)


def names(site: Path) -> list[str]:
    return sorted(file.relative_to(site).as_posix() for file in site.rglob("*.html"))


def test_every_page_has_a_tight_policy(site: Path) -> None:
    """W3C Content Security Policy Level 3. No inline script but inert data, so that no hash is needed."""
    for name in names(site):
        text = (site / name).read_text("utf-8")
        found = _POLICY.findall(text)
        assert len(found) == 1, name
        assert text.index("Content-Security-Policy") < text.index("<script"), name
        rules = dict(rule.strip().partition(" ")[::2] for rule in found[0].split(";"))
        assert rules == {
            "default-src": "'none'",
            "script-src": "'self'",
            "style-src": "'self'",
            "img-src": "'self' data:",
            "font-src": "'self'",
            "media-src": "'self'",
            "connect-src": "'self'",
            "worker-src": "'self'",
            "manifest-src": "'self'",
            "object-src": "'none'",
            "form-action": "'none'",
            "base-uri": "'none'",
        }, name
        for attributes in _SCRIPT.findall(text):
            assert ' src="' in attributes or 'type="application/json"' in attributes, (name, attributes)
        assert not re.search(r"<[a-z][^>]*\s(style|on[a-z]+)=", text, re.IGNORECASE), name


def opened(site: Path, *, all_of_them: bool) -> list[str]:
    """All pages; or of each folder the first two and every tenth. Each browser opens all of them in one of
    two ways, and these in the other; with TRIALS set, all in both."""
    every = names(site)
    if all_of_them or "TRIALS" in os.environ:
        return every
    place: Counter[str] = Counter()
    some = []
    for name in every:
        folder = name.rpartition("/")[0]
        if place[folder] < 2 or place[folder] % 10 == 0:
            some.append(name)
        place[folder] += 1
    return some


def test_every_page_is_quiet_over_http(
    page: Page, browser: Desk, site: Path, serve: Callable[[Path], str]
) -> None:
    for name in opened(site, all_of_them=browser.name == "chromium"):
        page.open(serve(site) + name)
    assert page.trouble == []
    assert page.dialogs == []


def test_every_page_is_quiet_from_disk(page: Page, browser: Desk, site: Path) -> None:
    for name in opened(site, all_of_them=browser.name == "firefox"):
        if name != "404.html":  # servers alone show it; its addresses start at the root
            page.open(site / name)
    assert page.trouble == []
    assert page.dialogs == []
