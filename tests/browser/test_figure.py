"""Bodies that breathe: still until asked, moving in real time, to be paused; and what is asked about them."""

from __future__ import annotations

from pathlib import Path

import pytest

from .page import Page, until
from .practice import narrow_faults

DEMO = Path(__file__).parents[2] / "site_demo"
DRILL = "drills/wall_side.html"
LOOK = "quizzes/whole-course.html?ask=g-look-side.neck_works"
TRUNK = "document.querySelector('.moving .trunk').getAttribute('d')"


def moving(page: Page) -> bool:
    before = page.evaluate(TRUNK)
    page.evaluate("new Promise(done => setTimeout(done, 250))")
    return page.evaluate(TRUNK) != before


@pytest.fixture
def drill(browser, serve) -> Page:
    page = browser.page(width=390, height=844)
    page.open(serve(DEMO) + DRILL)
    page.wait_for("document.querySelector('case-figure .ways button')")
    return page


def test_it_stands_still_until_it_is_asked_to_move_and_can_be_paused(drill):
    assert not drill.sees(".moving")
    drill.click("case-figure .ways button", text="Show it moving")
    until(lambda: moving(drill))
    drill.click("case-figure .ways button", text="Pause")
    assert not moving(drill)
    drill.click("case-figure .ways button", text="Go on")
    until(lambda: moving(drill))
    assert drill.trouble == []


def test_three_stills_say_the_same_without_script(browser, serve):
    page = browser.page(width=390, height=844, script=False)
    page.open(serve(DEMO) + DRILL)
    assert page.evaluate("document.querySelector('case-figure').querySelectorAll('.stills svg').length") == 3
    assert "At the end of the breath in" in page.text(".stills")
    assert "Seen from above" in page.text("case-figure")
    assert page.count(".ways") == 0
    words = page.evaluate("document.querySelector('case-figure').textContent")
    assert "the pelvis" in words.lower() or "the belly" in words.lower(), "what is seen stands in words"


def test_what_is_seen_is_answered_and_stands_beside_the_good_one(browser, serve):
    page = browser.page(width=390, height=844)
    page.open(serve(DEMO) + LOOK)
    page.wait_for("document.querySelector('.screen case-figure .ways button')")
    assert "neck" not in page.text(".screen h2").lower(), "the question names no sign"
    page.click(".screen .choice", text="Nothing is off")
    page.click(".screen form > button", text="Check my answer")
    assert "Not right" in page.text(".screen .feedback")
    assert "What good looks like:" in page.text(".screen")
    assert page.count(".screen case-figure") == 2
    record = "localStorage[Object.keys(localStorage).find(key => key.endsWith(':record'))]"
    kept = page.evaluate(f"JSON.parse({record}).attempts.at(-1)")
    assert (kept["unit"], kept["right"]) == ("fault:wall_side/neck_works", False)
    assert page.trouble == []


def test_a_number_is_read_off_a_drawing_that_does_not_tell_it(browser, serve):
    page = browser.page(width=390, height=844)
    page.open(serve(DEMO) + "quizzes/whole-course.html?ask=g-read-angle.osei-01")
    page.wait_for("document.querySelector('.screen .trials svg')")
    assert "126" not in page.evaluate(
        "document.querySelector('.screen .trials').outerHTML.replace(/[^>]*</g, '<')"
    )
    page.tab_to(".screen input", most=8)
    page.type("120")
    page.press("Enter")
    assert "Right" in page.text(".screen .feedback")
    page.click(".screen summary", text="Show why")
    assert "126°" in page.text(".screen .why .trials")
    assert page.trouble == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_pictures_are_open_to_everyone(browser, axe, serve, scheme):
    width = 320 if (scheme == "light") == (browser.name == "chromium") else 1280
    page = browser.page(width=width, height=844, scheme=scheme, motion=False)
    for where in (DRILL, LOOK, "measures.html", "positions.html"):
        page.open(serve(DEMO) + where)
        page.wait_for("document.querySelector('main svg.body')")
        assert axe(page) == [], where
        assert page.too_wide == [], where
        if width == 320:
            assert narrow_faults(page) == [], where
    assert page.trouble == []
