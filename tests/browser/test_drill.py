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
    page.open((site / PAGE).as_uri() + "?pause=allowed")
    assert page.count("breath-pacer button") == 1
    assert "Dizzy, light-headed, or tingling fingers or lips" in told(page)
    assert "Stop if you are dizzy, tingling or short of air." in told(page)
    assert not page.sees(".pacing")
    tab_to_button(page, READ)
    page.press("Enter")
    assert "No pause" in told(page)
    assert page.evaluate("document.querySelector('breath-pacer input[value=none]').checked"), "starts without"
    assert "A pause, up to 4\N{NO-BREAK SPACE}s" in told(page) or "A pause, up to 4 s" in told(page)


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


def test_no_pause_without_a_client_who_may_have_one(page, site):
    page.open(site / PAGE)
    page.evaluate(HELD)
    tab_to_button(page, READ)
    page.press("Enter")
    assert page.count("breath-pacer input") == 0
    assert "No pause here. A pause is for a client whose answers allow it" in told(page)
    page.click("breath-pacer button", text="Start")
    assert page.count(".pacing button") == 1, "nothing makes it longer"


def test_the_way_from_a_client_allows_a_pause_where_their_outcome_does(page, site):
    page.open(site / "clients" / "knot-05.html")
    for value in ("clear", "free", "a"):
        answer_step(page, value, "Right")
        assert not page.sees(".later")
        go_on(page)
    page.click("summary", text="Drills for this client: look once you have decided")
    page.click(".later a", text="On the side, feet on the wall")
    page.wait_for("location.search === '?pause=allowed' && document.querySelector('breath-pacer button')")
    page.click("breath-pacer button", text=READ)
    assert page.count("breath-pacer input[name=pause]") == 2


def test_a_pause_grows_by_a_second_after_a_tap_and_never_in_the_first_breath(page, site):
    page.open((site / PAGE).as_uri() + "?pause=allowed")
    page.evaluate(HELD)
    tab_to_button(page, READ)
    page.press("Enter")
    page.click("breath-pacer .choice", "A pause, up to 4")
    page.click("breath-pacer button", text="Start")
    assert page.evaluate("document.querySelector('.pacing .quiet').disabled"), "not while settling"

    def at(seconds: float, words: str, count: str) -> None:
        page.evaluate(f"time = {1000 * seconds}; 0")
        page.wait_for(f"document.querySelector('.pacing .now').textContent === {words!r}")
        assert page.text(".pacing .count") == count

    # settle 3; breath 1: out 6, in 3; then out 6, a pause of what was earned, in 3
    at(4, "Breathe out", "Breath 1 of 4")
    page.click(".pacing button", text="Comfortable")
    assert page.sees(".pacing"), "which stops nothing"
    assert page.evaluate("document.querySelector('.pacing .quiet').disabled"), "once a breath"
    at(9.5, "Breathe in", "Breath 1 of 4")
    at(18.5, "Pause", "Breath 2 of 4")
    at(19.5, "Breathe in", "Breath 2 of 4")
    at(28.5, "Pause", "Breath 3 of 4")
    page.click(".pacing button", text="Comfortable")
    at(29.5, "Breathe in", "Breath 3 of 4")
    at(38.5, "Pause", "Breath 4 of 4")
    at(39.9, "Pause", "Breath 4 of 4")
    assert page.evaluate("document.querySelector('.pacing .quiet').disabled"), "no breath is left to lengthen"


@pytest.mark.parametrize("width", [360, 390, 1280])
def test_the_pacer_stays_in_view_wherever_it_is_started(browser, site, width):
    page = browser.page(width=width, height=844)
    page.open(site / PAGE)
    page.evaluate(HELD)
    page.click("breath-pacer button", text=READ)
    last = "[...document.querySelectorAll('breath-pacer button')].at(-1)"
    for block in ("end", "start", "center"):
        page.evaluate(f"{last}.scrollIntoView({{block: '{block}'}}); 0")
        page.evaluate(f"{last}.click(); 0")
        top, bottom, seen = page.evaluate(
            "(r => [r.top, r.bottom, innerHeight])(document.querySelector('.pacing').getBoundingClientRect())"
        )
        assert top >= -1
        assert bottom <= seen + 1
        page.press("Escape")
        page.click("breath-pacer button", text="Start again")
        page.click("breath-pacer button", text=READ)


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
    answer_step(page, "a", "Right")
    go_on(page)
    answer_step(page, "e", "Unsafe")
    assert "Heel pain under load" in page.text(".now .caution")
    assert page.trouble == []
