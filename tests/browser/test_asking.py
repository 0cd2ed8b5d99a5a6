"""Ask, listen, measure, decide: a client of the demo whose readings stay closed until they are asked for."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from .page import Page
from .practice import narrow_faults

DEMO = Path(__file__).parents[2] / "site_demo"
OSEI = "clients/osei-01.html"
RASH = "Right for this client, and unsafe: not enough asked"
RECORD = "casetrue:breath-trunk:record"


@pytest.fixture
def phone(browser, serve) -> Page:
    page = browser.page(width=390, height=844)
    page.open(serve(DEMO) + OSEI)
    page.wait_for("document.querySelector('.asking')")
    return page


def ask(page: Page, what: str) -> None:
    page.click(".asking > button")
    page.click(".to-ask button", text=what)


def decide(page: Page, answer: str) -> str:
    page.click(".now .choice", text=answer)
    page.click(".now form > button", text="Check my answer")
    return page.text(".feedback").strip()


def attempts(page: Page) -> list[dict[str, object]]:
    key = page.evaluate("Object.keys(localStorage).find(key => key.endsWith(':record'))")
    kept: list[dict[str, object]] = json.loads(page.call("key => localStorage[key]", key))["attempts"]
    return kept


def test_words_are_heard_and_weighed_by_keyboard_alone(phone):
    assert "None named" not in phone.text("main"), "nothing is known before it is asked for"
    assert not phone.sees(".to-ask")
    phone.tab_to(".asking > button", most=6)
    phone.press("Enter")
    phone.tab_to(".to-ask button", text="Warning sign today")
    phone.press("Enter")
    assert phone.evaluate("document.activeElement.matches('.found-now')"), phone.focus
    assert "I yawn" in phone.text(".found-now")
    assert "None named" not in phone.text(".found-now .short"), "the words alone"
    phone.tab_to(".found-now select", most=2)
    phone.type("None")
    phone.tab_to(".found-now button", most=2)
    phone.press("Enter")
    assert "Right" in phone.text(".found-now")
    assert "These words come to: None named." in phone.text(".found-now")
    assert "None named" in phone.text(".found"), "what was found stands with the story"
    assert decide(phone, "Go on") == "Right"
    assert phone.trouble == []


def test_words_taken_for_less_than_they_say_are_told_as_unsafe(phone, serve):
    phone.open(serve(DEMO) + "clients/ruta-01.html")
    phone.wait_for("document.querySelector('.asking')")
    assert "like a belt" in phone.text(".now .short"), "the story tells them"
    phone.click(".asking > button")
    assert "Weigh what was said" in phone.text(".to-ask")
    phone.click(".to-ask button", text="Warning sign today")
    phone.tab_to(".found-now select", most=2)
    phone.type("None")
    phone.click(".found-now button", text="Note it")
    assert "Unsafe" in phone.text(".found-now")
    assert "You took these words for: None named. They come to: Pain or pressure in the chest" in phone.text(
        ".found-now"
    )
    (heard,) = attempts(phone)
    assert (heard["unit"], heard["right"], heard["harm"]) == ("reading:warning_sign", False, "serious")
    phone.open(serve(DEMO) + "record.html")
    phone.wait_for("document.querySelector('[data-fill=glance] .harm')")
    assert "Unsafe answers: 1." in phone.text("[data-fill=glance]")
    safety = phone.evaluate("document.querySelector('[data-part=safety]').textContent")
    assert "Ruta: what their words come to" in safety


def test_right_by_luck_is_told_as_unsafe_until_the_learner_asks_on(phone):
    assert decide(phone, "Go on") == RASH
    twin = phone.text(".twin")
    assert "Warning sign today" in twin
    assert "Right for them:" in twin
    assert "None named" not in phone.text("main"), "the client's own reading can still be asked for"
    assert attempts(phone)[-1]["known"] is False
    assert attempts(phone)[-1]["unasked"] is True
    phone.reload()
    assert phone.sees(".twin"), "what was told is told again"
    phone.click("button", text="Ask on")
    ask(phone, "Warning sign today")
    assert decide(phone, "Go on") == "Right"
    first, second = attempts(phone)
    assert (first["first"], first["known"], first["right"]) == (True, False, True)
    assert (second["first"], second["known"], second["right"]) == (False, True, True)
    assert not phone.sees("button", text="Ask on")


WAY = [
    ("Go on to the form", ["Warning sign today"]),
    ("Below 130", ["Blood pressure, upper number, Blood pressure, lower number"]),
    ("Yes, go on", ["Health condition", "Pain at the front"]),
    ("Wide", ["Infrasternal angle"]),
    ("One group limited", ["Straight-leg raise", "Inward rotation"]),
    ("On the side", ["Pain when lying on the side"]),
]


def whole_way(page: Page, leave_out: str = "") -> None:
    for answer, measures in WAY:
        for measure in measures:
            if measure != leave_out:
                ask(page, measure)
        decide(page, answer)
        page.click(".now .onwards button", text="Next")


def test_whoever_asks_enough_passes_and_hears_how_long_it_took(phone):
    whole_way(phone)
    end = phone.text(".now")
    assert "Passed" in end
    assert "Asking took" in end
    assert "are enough for every decision here. To ask more may be wise, and costs no mark." in end
    assert "Decided before it was known" not in end
    assert attempts(phone)[-1]["passed"] is True
    assert phone.trouble == []


def test_whoever_leaves_a_sign_unasked_has_not_passed_and_it_stays_told(phone, serve):
    whole_way(phone, leave_out="Warning sign today")
    end = phone.text(".now")
    assert "Not passed yet" in end
    assert "You decided before you had asked enough to be safe. So this is not passed" in end
    assert (attempts(phone)[-1]["passed"], attempts(phone)[-1]["unasked"]) == (False, True)
    assert RASH in phone.text(".past")
    phone.reload()
    phone.wait_for("document.querySelector('.past')")
    assert RASH in phone.text(".past"), "also when the learner comes back"
    phone.open(serve(DEMO) + "record.html")
    phone.wait_for("document.querySelector('[data-fill=glance] .harm')")
    assert "Unsafe for want of asking: " in phone.text("[data-fill=glance]")
    safety = phone.evaluate("document.querySelector('[data-part=safety]').textContent")
    assert "would have come to harm" in safety
    assert "They count neither as right nor as wrong." in safety
    walks = phone.evaluate("document.querySelector('[data-part=walks]').textContent")
    assert "unsafe for want of asking: 1" in walks
    assert "Unsafe for want of asking in 1 of 1." in walks


def test_reasons_give_away_no_reading_that_was_not_asked_for(phone):
    assert decide(phone, "Stop and refer") == "Not right"
    assert "shown at the end" in phone.text(".now")
    assert not phone.sees(".now .why")
    phone.click(".now .onwards button", text="Next")
    for answer, measures in WAY[1:]:
        for measure in measures:
            ask(phone, measure)
        decide(phone, answer)
        phone.click(".now .onwards button", text="Next")
    phone.click(".past summary")
    assert phone.sees(".past .why"), "at the end all is told"


def test_what_only_is_not_known_costs_nothing(phone):
    for answer, measures in WAY[:3]:
        for measure in measures:
            ask(phone, measure)
        decide(phone, answer)
        phone.click(".now .onwards button", text="Next")
    told = decide(phone, "Wide")
    assert told == "Right, not yet known"
    assert "Other clients give the same answers and are decided otherwise" in phone.text(".now")
    phone.click("button", text="Next")
    assert [one["right"] for one in attempts(phone)] == [True] * 4
    assert [one["known"] for one in attempts(phone)] == [True, True, True, False]
    assert "Right, not yet known" in phone.text(".past:nth-child(4)")


def test_what_was_asked_is_there_when_the_learner_comes_back(phone):
    ask(phone, "Warning sign today")
    ask(phone, "Infrasternal angle")
    decide(phone, "Go on")
    phone.reload()
    phone.wait_for("document.querySelector('.now')")
    assert "I yawn" in phone.text(".found")
    assert "126°" in phone.text(".found")
    phone.click(".now .onwards button", text="Next")
    assert phone.text(".asking > button") == "Ask or measure (6 left)"


def test_without_script_all_readings_are_one_fold_away(browser, serve):
    page = browser.page(width=390, script=False)
    page.open(serve(DEMO) + OSEI)
    assert not page.sees("[data-measure=infrasternal_angle]")
    page.click("[data-readings] > summary", text="Show all readings")
    assert page.sees("[data-measure=warning_sign]")


def test_where_the_script_cannot_be_reached_readings_lie_open(browser, serve, tmp_path):
    import shutil

    site = tmp_path / "site"
    shutil.copytree(DEMO, site)
    (site / "assets" / "asking.js").unlink()
    page = browser.page(width=390, height=844)
    page.open(serve(site) + OSEI)
    page.wait_for("document.querySelector('.now .short')")
    assert decide(page, "Go on") == "Right"


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_state_is_open_to_everyone(browser, axe, serve, scheme):
    """The buttons, the list, the words, what was decided too soon, and the end, on a phone and on a desk."""
    width = 320 if (scheme == "light") == (browser.name == "chromium") else 1280
    page = browser.page(width=width, height=844, scheme=scheme, motion=False)
    page.open(serve(DEMO) + OSEI)
    page.wait_for("document.querySelector('.asking')")

    def is_open(state: str) -> None:
        assert axe(page) == [], state
        assert page.too_wide == [], state
        if width == 320:
            assert narrow_faults(page) == [], state

    is_open("closed")
    page.click(".asking > button")
    is_open("the list")
    page.click(".to-ask button", text="Warning sign today")
    is_open("words to be weighed")
    page.tab_to(".found-now select", most=2)
    page.type("None")
    page.click(".found-now button", text="Note it")
    is_open("words weighed")
    decide(page, "Go on")
    is_open("known")
    page.click(".now .onwards button", text="Next")
    decide(page, "Below 130")
    is_open("decided too soon")
    page.click(".now .onwards button", text="Next")
    for answer, measures in WAY[2:]:
        for measure in measures:
            ask(page, measure)
        decide(page, answer)
        page.click(".now .onwards button", text="Next")
    is_open("the end")
    assert page.trouble == []
