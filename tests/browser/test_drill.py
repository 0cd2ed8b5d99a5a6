"""A drill's page: its pacer by keyboard and by tap, with reduced motion, without script; its walk."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from ..conftest import ANKLE, DRILLS
from .page import Page
from .practice import answer_step, build, go_on, tab_to_button

PAGE = "drills/wall_side.html"
READ = "I have read this"
STEPPED = """(() => {
    let time = 0;
    performance.now = () => time;
    requestAnimationFrame(function tick() { time += 500; requestAnimationFrame(tick); });
})()"""
"""The page's clock goes on half a second a frame: fast, and on no machine does it pass over a step."""
HELD = "window.time = 0; performance.now = () => time; 0"
"""The page's clock stands until the test moves `time`, in milliseconds."""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("drill")
    course = Path(shutil.copytree(ANKLE, folder / "course"))
    shutil.copytree(DRILLS, course, dirs_exist_ok=True)
    return build(course, folder / "site")


def told(page: Page) -> str:
    return page.text("breath-pacer")


def start(page: Page) -> None:
    page.evaluate(HELD)
    tab_to_button(page, READ)
    page.press("Enter")
    assert page.evaluate("document.activeElement.textContent") == "Start"
    page.press("Enter")


def test_the_stop_list_comes_first_and_must_be_read(page, site):
    page.open(site / PAGE)
    assert page.count("breath-pacer button") == 1
    assert "Dizzy, light-headed, or tingling fingers or lips" in told(page)
    assert "Stop if you are dizzy, tingling or short of air." in told(page)
    assert not page.sees(".pacing")
    tab_to_button(page, READ)
    page.press("Enter")
    assert "No pause" in told(page)
    assert page.evaluate("document.querySelector('breath-pacer input[value=none]').checked"), "starts without"
    assert "A pause of 4 s, only for: Plan: Squat deep" in told(page)


@pytest.mark.parametrize("stop", ["Enter", "Space", "Escape"])
def test_one_key_stops(page, site, stop):
    page.open(site / PAGE)
    start(page)
    assert page.text(".pacing .now") == "Settle. Breathe as you like."
    assert page.evaluate("document.activeElement.textContent") == "Stop"
    assert page.sees(".pacing svg")
    page.press(stop)
    assert not page.sees(".pacing")
    assert "Stopped. Breathe as you like." in told(page)
    assert page.evaluate("document.activeElement.matches('.ended')")
    tab_to_button(page, "Start again")
    page.press("Enter")
    assert page.sees("breath-pacer button", READ), "the stop list again"
    assert page.trouble == []


def test_one_tap_anywhere_on_it_stops(browser, site):
    page = browser.page(width=360)
    page.open(site / PAGE)
    page.evaluate(HELD)
    page.tap("breath-pacer button", READ)
    page.tap("breath-pacer button", "Start")
    page.tap(".pacing .seconds")
    assert "Stopped." in told(page)
    assert page.trouble == []


def steps(page: Page) -> list[list[str]]:
    """What the pacer tells, in order, until it rests."""
    page.evaluate(
        """window.told = [];
        new MutationObserver(() => {
            const now = document.querySelector('.pacing .now')?.textContent;
            const count = document.querySelector('.pacing .count')?.textContent;
            if (now && (told.at(-1)?.[0] !== now || told.at(-1)?.[1] !== count)) told.push([now, count]);
        }).observe(document.querySelector('breath-pacer'), {childList: true, subtree: true}); 0"""
    )
    page.press("Enter")
    page.wait_for("told.some(([now]) => now.startsWith('Rest'))")
    return page.evaluate("told")


def test_a_round_without_a_pause(page, site):
    page.open(site / PAGE)
    page.evaluate(STEPPED)
    tab_to_button(page, READ)
    page.press("Enter")
    breaths = [
        [what, f"Breath {number} of 4"] for number in range(1, 5) for what in ("Breathe out", "Breathe in")
    ]
    assert steps(page) == [
        ["Settle. Breathe as you like.", ""],
        *breaths,
        ["Rest. Breathe as you like.", ""],
    ]
    page.wait_for("document.querySelector('breath-pacer .ended')")
    assert "The rest is over." in told(page)


def test_the_first_breath_has_no_pause_even_where_one_is_chosen(page, site):
    page.open(site / PAGE)
    page.evaluate(STEPPED)
    tab_to_button(page, READ)
    page.press("Enter")
    page.click("breath-pacer .choice", "A pause of 4 s")
    page.evaluate("[...document.querySelectorAll('breath-pacer button')].at(-1).focus()")
    found = steps(page)
    assert ["Pause", "Breath 1 of 4"] not in found
    assert [count for what, count in found if what == "Pause"] == [
        f"Breath {number} of 4" for number in (2, 3, 4)
    ]


def test_reduced_motion_shows_words_and_seconds_alone(browser, site):
    page = browser.page(motion=False)
    page.open(site / PAGE)
    start(page)
    page.evaluate(f"time = {1000 * (int(page.text('.pacing .seconds')) - 2)}; 0")
    page.wait_for("document.querySelector('.pacing .seconds').textContent === '2'")
    assert not page.sees(".pacing svg")
    assert page.evaluate("document.querySelector('.pacing path').getAttribute('d')") is None
    assert page.sees(".pacing .now")
    assert page.sees(".pacing .seconds")


def test_what_is_spoken_changes_with_the_step_not_with_the_second(page, site):
    page.open(site / PAGE)
    start(page)
    assert page.evaluate("document.querySelector('.pacing .now').getAttribute('role')") == "status"
    assert page.evaluate("document.querySelector('.pacing .seconds').getAttribute('aria-hidden')") == "true"
    assert (
        page.evaluate("document.querySelectorAll('.pacing [role=status], .pacing [aria-live]').length") == 1
    )


def test_without_script_the_lengths_and_the_stop_list_are_there(browser, site):
    page = browser.page(script=False)
    page.open(site / PAGE)
    assert not page.sees("breath-pacer")
    assert "none, or up to 4\N{NO-BREAK SPACE}s" in page.text(".lengths")
    assert "Short of air" in page.text("#stop")


def test_a_drill_without_breath_has_no_pacer(page, site):
    page.open(site / "drills" / "slow_squat.html")
    assert page.count("breath-pacer") == 0
    assert not any("pacer" in address for address in page.requests)


def test_the_fault_finding_walk_by_keyboard(page, site):
    page.open(site / "drills" / "wall_side.faults.html")
    assert "Set up: The feet press before the tilt" in page.text("case-walk")
    answer_step(page, "a", "That holds")
    go_on(page)
    answer_step(page, "e", "That does not hold, and it could do serious harm")
    assert "Heel pain under load" in page.text(".now .caution")
    assert page.trouble == []
