"""Hostile texts in every field, opened and used in both browsers: nothing runs, speaks, asks or leads away.

`tests/hostile/` reads every text in every field back from the built files; here each text and each field is
met by a real browser at least once.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from tests.hostile.course import Seed
from tests.hostile.values import VALUES

from .conftest import Desk
from .page import Page
from .practice import build

PRESS = """(() => { const form = document.querySelector('.now form, .screen form');
    if (!form) return false;
    form.querySelector('input')?.click();
    for (const input of form.querySelectorAll('input[type=text]')) input.value = '1';
    [...form.querySelectorAll('select')].forEach((select, place) => { select.selectedIndex = place + 1; });
    [...form.querySelectorAll('button')].at(-1)?.click();
    [...document.querySelectorAll('.now > .onwards button, .question > button')].at(-1)?.click();
    return true;
})()"""
"""Answers what is asked, whatever it is, and goes on."""
TOLD = """[window.ran ?? null, location.pathname, document.querySelectorAll(
    'main [onerror], main [onload], main [onclick], main iframe, main style, main base,'
    + 'main img:not([src^="../assets/position-"])').length]"""


TURNS = {"chromium": 0, "firefox": 101}
"""Where in the texts each browser begins; `tests/hostile/` reads every text in every field."""


def test_texts_stay_texts(browser: Desk, serve: Callable[[Path], str], tmp_path: Path) -> None:
    page, turn = browser.page(), TURNS[browser.name]
    course = Seed().write(tmp_path / "course", lambda field, number: VALUES[(number + turn) % len(VALUES)])
    site = build(course, tmp_path / "site")
    for file in sorted(site.rglob("*.html")):
        name = file.relative_to(site).as_posix()
        page.open(serve(site) + name)
        use(page, name)
        assert page.evaluate(TOLD) == [None, f"/{name}", 0], name
        assert page.dialogs == [], name
    assert page.trouble == []


def use(page: Page, name: str) -> None:
    """What a learner does there: walks, answers, draws anew, searches, opens what is folded."""
    kind = name.partition("/")[0]
    if kind in ("clients", "drills") or kind == "quizzes":
        answer_all(page)
    if name == "quizzes/ankle-check.html":
        page.click("button", text="Draw new questions")
        page.wait_for("document.querySelector('.progress')")
        answer_all(page)
        assert page.count(".result") == 1, page.text("main")
    if name == "search.html":
        page.click("input[type=search]")
        page.type("script")
        page.wait_for("document.querySelectorAll('.results a').length")
    page.evaluate("for (const one of document.querySelectorAll('details')) one.open = true; 0")
    if name == "record.html":
        page.wait_for("window.casetrueParts?.handover")


def answer_all(page: Page, most: int = 15) -> None:
    for _ in range(most):
        if not page.evaluate(PRESS):
            return
