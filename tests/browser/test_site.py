"""What every page shares, in a real browser: the way around, the skip link, the choice of colours."""

from __future__ import annotations

from pathlib import Path

from .conftest import Desk
from .page import Page


def test_the_way_around_works_by_keyboard_at_phone_width(browser: Desk, site: Path) -> None:
    page = browser.page(width=320)
    page.open(site / "clients" / "index.html")
    page.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"
    page.tab_to(".menu", most=3)
    page.press("Enter")
    for _ in range(12):
        page.press("Tab")
        if page.evaluate("document.activeElement.tagName") == "SUMMARY":
            break
    assert page.evaluate("document.activeElement.textContent.trim()") == "More"
    page.press("Enter")
    page.press("Tab")
    box = page.evaluate(
        "(({left, right, top}) => [left, right, top])(document.activeElement.getBoundingClientRect())"
    )
    assert page.evaluate("document.activeElement.textContent") == "Decision tables"
    assert box[0] >= 0
    assert box[1] <= 320
    assert box[2] >= 0
    page.press("Escape")
    assert page.evaluate("document.activeElement.className") == "menu"


def test_the_skip_link_goes_to_the_page(page: Page, site: Path) -> None:
    page.open(site / "about.html")
    ground = "getComputedStyle(document.querySelector('main')).backgroundColor"
    before = page.evaluate(ground)
    page.press("Tab", "Enter")
    page.wait_for("location.hash")
    page.press("Tab")
    assert page.evaluate("document.querySelector('main').contains(document.activeElement)")
    assert page.evaluate(ground) == before, "the page is no part that a link points out"


def test_the_choice_of_colours_is_kept(browser: Desk, site: Path) -> None:
    page = browser.page(scheme="light")
    page.open(site / "index.html")
    ground = "getComputedStyle(document.documentElement).backgroundColor"
    light = page.evaluate(ground)
    page.click("button.scheme")
    dark = page.evaluate(ground)
    assert dark != light
    page.open(site / "about.html")
    assert page.evaluate(ground) == dark
    page.click("button.scheme")
    assert page.evaluate(ground) == light


def test_without_script_there_is_no_dead_button(browser: Desk, site: Path) -> None:
    page = browser.page(script=False)
    for kind in ("index.html", "clients/tern-03.html", "quizzes/all-kinds.html"):
        page.open(site / kind)
        shown = "[...document.querySelectorAll('button')].filter(b => b.offsetParent !== null).length"
        assert page.evaluate(shown) == 0, kind
