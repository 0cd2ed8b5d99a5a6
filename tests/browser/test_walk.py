"""A learner walks through an exercise: by keyboard, without script, after a closed tab, on a phone."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from ..conftest import ANKLE
from .practice import answer_step, build, go_on, narrow_faults, tab_to, tab_to_button

HELD = "Right"
OFF = "Not right"
HARM = "Not right, and it could do harm"
SERIOUS = "Unsafe"


TERN = "clients/tern-03.html"


def walk(page, *answers: tuple[str, str]) -> None:
    for value, said in answers:
        answer_step(page, value, said)
        go_on(page)


@pytest.mark.parametrize("disk", [True, False])
def test_a_walk_that_holds_by_keyboard_alone(page, serve, site, disk):
    page.open(site / TERN if disk else serve(site) + TERN)
    assert page.count("case-walk form") == 1
    answer_step(page, "clear", HELD)
    assert "Nothing in the screen" not in page.text(".now"), "a right answer takes one line"
    tab_to(page, "e.textContent === 'Show why'")
    page.press("Enter")
    assert "Pain at the heel when loading: no, as it has to be" in page.text(".now")
    assert "Nothing in the screen speaks against coaching." in page.text(".now")
    go_on(page)
    assert page.evaluate("document.activeElement.matches('.now h3')"), page.focus
    walk(page, ("stiff", HELD), ("a", HELD))
    assert "Coached" in page.text(".ended")
    assert "Passed" in page.text(".outcome")
    assert "3 of 3 right at the first answer: 100%. The pass mark is 80%." in page.text(".working")
    assert page.count(".read-again") == 0
    assert not page.sees(".best-way"), "whoever went the best way need not read it again"
    assert page.trouble == []


def test_a_walk_with_slips_and_serious_harm(page, site):
    page.open(site / TERN)
    walk(page, ("clear", HELD))
    answer_step(page, "free", OFF)
    now = page.text(".now")
    assert "The right answer: Stiff" in now
    assert "32° against below 35°: 3° under" in now
    assert "We go on from the right answer." in now
    assert page.sees(".now svg.strip path.line"), "the line between outcomes shows once answered"
    go_on(page)
    answer_step(page, "b", HARM)
    assert "The heels lift sooner." in page.text(".now")
    assert "The heels stay down." not in page.text(".now"), "the best answer stays open to be found"
    go_on(page)
    answer_step(page, "c", SERIOUS)
    assert "Heel pain under load" in page.text(".now .caution")
    go_on(page)
    assert "Not passed yet" in page.text(".outcome")
    assert "One answer was unsafe." in page.text(".harm")
    assert "1 of 3 right at the first answer: 33%." in page.text(".working")
    assert page.text(".read-again") == "Ankle class"
    assert page.evaluate("[...document.querySelectorAll('.past .verdict')].map(e => e.textContent)") == [
        HELD, OFF, HARM, SERIOUS,
    ]  # fmt: skip
    best = page.text(".best-way")
    assert "Put a wedge under the heels and try again" in best
    assert "Stiff" in best


def test_a_caution_that_two_answers_open_stands_once(page, small_course, tmp_path):
    file = small_course / "exercises" / "first-visit.yml"
    file.write_text(
        file.read_text("utf-8").replace("harm: minor", "harm: serious\n        caution: heel_pain_loading"),
        "utf-8",
    )
    page.open(build(small_course, tmp_path / "site") / TERN)
    walk(page, ("clear", HELD), ("stiff", HELD), ("b", SERIOUS))
    answer_step(page, "c", SERIOUS)
    assert page.count(".now .caution") == 1
    go_on(page)
    shown = page.evaluate(
        "[...document.querySelectorAll('.past')].map(e => e.querySelectorAll('.caution').length)"
    )
    assert shown == [0, 0, 1, 1]


def test_a_retest_waits_for_the_end_of_the_walk(page, site):
    page.open(site / TERN)
    assert not page.sees(".later")
    walk(page, ("clear", HELD), ("stiff", HELD))
    assert not page.sees(".later")
    walk(page, ("a", HELD))
    assert page.sees(".later > summary")
    assert not page.sees(".later h3"), "and for being asked"
    page.click(".later > summary")
    assert "Ankle class: Stiff at first, now Free." in page.text(".later")
    page.click("button", text="Try it again")
    assert not page.sees(".later")


def test_how_sure_is_told_after_the_answer_in_few_lines(browser, site):
    page = browser.page(width=360, height=640)
    page.open(site / TERN)
    walk(page, ("clear", HELD))
    assert page.count(".now .how-sure") == 0
    answer_step(page, "stiff", HELD)
    page.click(".now .why > summary")
    assert "about 98 of 100 clients with these readings" in page.text(".now .how-sure")
    assert not page.sees(".now .how-sure details p"), "the rest is one tap away"
    assert page.evaluate("document.querySelector('.now .how-sure').offsetHeight") < 320
    assert page.sees(".now svg.strip .hatch")
    assert narrow_faults(page) == []
    page.click(".now .how-sure summary")
    assert page.sees(".now .how-sure details p")
    assert narrow_faults(page) == []


def test_the_line_leans_with_the_slip_and_more_with_harm(page, site):
    page.open(site / TERN)
    walk(page, ("clear", HELD), ("free", OFF), ("b", HARM), ("c", SERIOUS))
    pulls = page.evaluate(
        """[...document.querySelectorAll('.so-far .past > .plumb .own')].map(e => {
            const [x0, , x1] = e.getAttribute('d').match(/[\\d.]+/g).map(Number);
            return x1 - x0;
        })"""
    )
    assert pulls[0] == 0
    assert 0 < pulls[1] < pulls[2] < pulls[3]
    straight = page.evaluate(
        "[...document.querySelectorAll('.best-way .plumb:not(.weight) .own')].map(e => e.getAttribute('d'))"
    )
    assert set(straight) == {"M8 0L8 100"}


def test_an_answer_must_be_chosen(page, site):
    page.open(site / TERN)
    tab_to_button(page, "Check my answer")
    page.press("Enter")
    assert page.text(".open[role=status]") == "Choose an answer first."
    assert page.count(".feedback") == 0


def test_a_step_says_what_it_asks_about_and_gives_no_lines_away(page, site):
    page.open(site / TERN)
    assert page.count("main svg.strip path.line") == 0
    assert page.count(".now .short > li") == 1
    assert "Pain at the heel" in page.text(".now .short")
    walk(page, ("clear", HELD))
    assert page.evaluate("document.activeElement.matches('.now h3')"), page.focus
    assert page.text(".now .who").startswith("Tern, 41: Ferry deckhand")
    assert page.count(".now .short > li") == 1
    assert "32° (31, 33, 32)" in page.text(".now .short")
    page.press("Tab")
    assert page.evaluate("document.activeElement.matches('.now input')"), "nothing stands between"
    ids = page.evaluate("[...document.querySelectorAll('[id]')].map(e => e.id)")
    assert len(ids) == len(set(ids))


def test_steps_behind_can_be_read_again(page, site):
    page.open(site / TERN)
    walk(page, ("clear", HELD), ("free", OFF))
    tab = "e.matches('.past:nth-child(2) summary')"
    page.press(*["Shift+Tab"] * 2)
    if not page.evaluate(f"(e => {tab})(document.activeElement)"):
        page.evaluate("document.body.focus(); document.activeElement.blur()")
        tab_to(page, tab)
    page.press("Enter")
    assert "The right answer: Stiff" in page.text(".past:nth-child(2)")


@pytest.mark.parametrize("disk", [True, False])
def test_coming_back_to_where_it_was(browser, serve, site, disk):
    where = site / TERN if disk else serve(site) + TERN
    page = browser.page()
    page.open(where)
    answer_step(page, "clear", HELD)
    page.reload()
    assert page.text(".feedback").strip() == HELD, "an answer whose reason is still open"
    go_on(page)
    answer_step(page, "free", OFF)
    go_on(page)
    later = browser.page(beside=page)
    later.open(where)
    assert page.text(".now h3") == later.text(".now h3")
    assert later.count(".past") == 2
    later.click("button", text="Start this client again")
    assert later.count(".past, .resumed") == 0
    assert later.trouble == []


FOLLOWS = """(a, b) => !!(document.querySelector(a).compareDocumentPosition(document.querySelector(b))
    & Node.DOCUMENT_POSITION_FOLLOWING)"""


@pytest.mark.parametrize("read", [True, False])
def test_a_walk_under_way_is_found_at_the_top_of_the_page(browser, site, read):
    page = browser.page(width=360, height=640)
    page.open(site / TERN)
    assert page.count(".resumed") == 0
    answer_step(page, "clear", HELD)
    assert page.count(".resumed") == 0, "nobody was away"
    if read:
        go_on(page)
    page.reload()
    assert "You were here before." in page.text("case-walk .resumed")
    assert page.call(FOLLOWS, "case-walk .resumed", ".so-far")
    assert page.evaluate(
        "document.querySelector('h1 + .resumed a').getBoundingClientRect().bottom < innerHeight"
    )
    assert narrow_faults(page) == []
    tab_to(page, "e.textContent === 'Go on where you stopped'")
    page.press("Enter")
    assert page.evaluate("document.activeElement.matches('.now h3')"), page.focus
    top = "document.activeElement.getBoundingClientRect().top"
    assert page.evaluate(f"{top} >= 0 && {top} < innerHeight / 2")
    if read:
        answer_step(page, "stiff", HELD)
    else:
        go_on(page)
    assert page.count(".resumed") == 0, "it has served"


HIP_WIDE = """caution: hip_wide
title: A stance as wide as the hips
level: watch
when: [{stance: hip}]
text: Look at the knees.
source: common-practice
reviewed: not_yet
"""


def test_the_verdict_stands_under_the_heading_of_the_end_before_its_cautions(browser, small_course, tmp_path):
    (small_course / "cautions" / "hip_wide.yml").write_text(HIP_WIDE, "utf-8")
    clients = small_course / "cases" / "clients.yml"
    clients.write_text(
        clients.read_text("utf-8").replace("heel_pain: true", "heel_pain: true\n    stance: wide"), "utf-8"
    )
    page = browser.page(width=360, height=640)
    page.open(build(small_course, tmp_path / "site") / TERN)
    walk(page, ("clear", HELD), ("free", OFF), ("a", HELD))
    assert page.evaluate("document.activeElement.matches('.ended h3')"), page.focus
    assert page.evaluate("document.querySelector('.ended h3 + .outcome + .working').checkVisibility()")
    assert page.count(".ended .caution") == 1
    assert page.call(FOLLOWS, ".ended .working", ".ended .caution")
    assert page.evaluate("document.querySelector('.outcome').getBoundingClientRect().bottom < innerHeight")


def test_walk_it_again_and_another_client(page, site):
    page.open(site / TERN)
    walk(page, ("clear", HELD), ("stiff", HELD), ("a", HELD))
    tab_to_button(page, "Try it again")
    page.press("Enter")
    assert page.count(".past") == 0
    assert page.evaluate("document.activeElement.matches('.now h3')")
    walk(page, ("clear", HELD), ("stiff", HELD), ("a", HELD))
    page.click("a", text="Another client like this")
    page.wait_for("location.href.endsWith('plover-04.html')")


def test_what_is_remembered_and_how_it_is_forgotten(page, site):
    page.open(site / TERN)
    walk(page, ("clear", HELD), ("free", OFF), ("a", HELD))
    keys = page.evaluate("Object.keys(localStorage).sort()")
    assert keys
    assert all(key.startswith("casetrue:") for key in keys)
    attempts = page.evaluate(
        "JSON.parse(Object.entries(localStorage).find(([k]) => k.endsWith(':record'))[1]).attempts"
    )
    whole = next(one for one in attempts if one["kind"] == "walk")
    assert (whole["id"], whole["first"], whole["harm"]) == ("first-visit/tern-03", True, "none")
    assert whole["mark"] == pytest.approx(2 / 3)
    asked = next(one for one in attempts if one["id"] == "first-visit/tern-03/warm_up")
    assert (asked["objective"], asked["mark"]) == ("choose-ankle-plan", 1)
    page.evaluate("localStorage.setItem('someone-else', 'stays')")
    page.click("button", text="Delete my answers on this device")
    assert page.evaluate("Object.keys(localStorage).length") > 1, "asked twice"
    page.click("button", text="Delete them")
    assert page.evaluate("Object.keys(localStorage)") == ["someone-else"]
    assert page.count(".past") == 0
    assert "Your answers are deleted." in page.text("case-forget")


def test_a_full_store_is_told_and_nothing_stops(browser, site):
    page = browser.page(width=360, height=640)
    page.open(site / TERN)
    page.evaluate(
        """(() => { for (let size = 2 ** 22; size; size = size >> 1)
            try { for (let n = 0; ; n++) localStorage.setItem(`${size}-${n}`, 'a'.repeat(size)); }
            catch {} })()"""
    )
    answer_step(page, "clear", HELD)
    assert "This browser cannot keep your answers" in page.text(".shut")
    seen = "document.querySelector('.shut').getBoundingClientRect()"
    assert page.evaluate(f"{seen}.top > 0 && {seen}.bottom < innerHeight"), (
        "beside the feedback that has the focus"
    )
    go_on(page)
    assert page.count(".shut") == 1
    assert page.call(FOLLOWS, ".shut", ".so-far")
    walk(page, ("stiff", HELD), ("a", HELD))
    assert "Passed" in page.text(".outcome")
    assert page.count(".shut") == 1
    assert page.errors == []


def test_without_script_the_whole_walk_can_be_read(browser, site):
    page = browser.page(script=False)
    page.open(site / TERN)
    shown = page.evaluate("[...document.querySelectorAll('.step')].map(e => e.dataset.step)")
    assert shown == ["screen", "class", "warm_up", "done"]
    assert page.count("case-walk button, case-forget button") == 0
    assert not page.sees(".answer")
    page.click("#step-class summary")
    assert "The right answer: Stiff" in page.text("#step-class")
    page.click("#step-warm_up summary")
    told = page.text("#step-warm_up .answer")
    assert "Right: Put a wedge under the heels and try again" in told
    assert "Unsafe: Load the bar and push through" in told
    assert "Heel pain under load" in told
    page.click("input[value=free]")
    page.press("Enter")
    assert page.evaluate("location.search") == ""


SLOW_DOWN = """  slow_down:
    ask: And now?
    choices:
      - {say: Slow down, best: true, reply: Calmer., go: done}
      - {say: Speed up, reply: Hurried., go: slow_down}
"""


def test_steps_off_the_best_path_are_named(browser, tmp_path):
    course = Path(shutil.copytree(ANKLE, tmp_path / "course"))
    path = course / "exercises" / "first-visit.yml"
    text = path.read_text("utf-8").replace("go: warm_up\n", "go: slow_down\n", 1)
    path.write_text(text.replace("  sent_on: {end", SLOW_DOWN + "  sent_on: {end", 1), "utf-8")
    page = browser.page(script=False)
    page.open(build(course, tmp_path / "site") / TERN)
    assert "Steps that other answers lead to" in page.text("case-walk")
    shown = page.evaluate("[...document.querySelectorAll('.step')].map(e => e.dataset.step)")
    assert shown == ["screen", "class", "warm_up", "done", "slow_down"]


def test_readings_that_would_tell_wait_for_the_decision_before_them(page, site):
    page.open(site / TERN)
    assert page.sees("[data-measure=heel_pain]")
    assert not page.sees("[data-measure=ankle_dorsiflexion]")
    assert "More readings: once you have decided “May this client be coached today?”" in page.text(".found")
    assert "dorsiflexion" not in page.text(".now")
    answer_step(page, "clear", HELD)
    assert page.sees(".found [data-measure=ankle_dorsiflexion]")
    assert not page.sees(".found .waits")
    go_on(page)
    assert "Knee-to-wall dorsiflexion" in page.text(".now .short")
    page.reload()
    assert page.sees(".found [data-measure=ankle_dorsiflexion]"), "what was decided stays decided"
    page.open(site / "clients/rail-06.html")
    assert "More readings" not in page.text(".found"), "nothing was read of this client but what is shown"


def test_without_script_what_waits_is_one_tap_away(browser, site):
    page = browser.page(script=False)
    page.open(site / TERN)
    assert not page.sees("[data-measure=ankle_dorsiflexion]")
    page.click(".for-later > summary")
    assert page.sees("[data-measure=ankle_dorsiflexion]")
