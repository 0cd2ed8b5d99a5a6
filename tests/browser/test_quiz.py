"""A learner answers a quiz: every kind of question by keyboard, the result kept, other questions drawn."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from builder.answers import Answers
from builder.questions import FIRST_SEED, draw_quiz, quiz_pool
from builder.questions.draw import draw_data, drawn
from builder.source import load

from ..conftest import ANKLE
from .practice import SURE, build, go_on, pick, tab_to, tab_to_button

EVERY = "quizzes/all-kinds.html"
CHANGES = """
quiz: changes
title: What would change it
questions: [q-one, g-change]
"""
CHANGE = """
questions:
  - {id: g-change, family: other_finding, table: plan, cases: all, objective: choose-ankle-plan}
"""
QUIZ_KEY = "Object.keys(localStorage).find(k => k.includes(':quiz:'))"


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = Path(shutil.copytree(ANKLE, tmp_path_factory.mktemp("quiz") / "course"))
    (folder / "quizzes" / "sure.yml").write_text(SURE, "utf-8")
    (folder / "quizzes" / "changes.yml").write_text(CHANGES, "utf-8")
    (folder / "questions" / "changes.yml").write_text(CHANGE, "utf-8")
    return folder


@pytest.fixture(scope="module")
def site(course: Path) -> Path:
    return build(course, course.parent / "site")


@pytest.fixture(scope="module")
def keys(course: Path) -> Mapping[str, Any]:
    """Question to key, as the builder has it."""
    return {item.id: item.key for item in Answers(load(course).course).bank}


@pytest.fixture(scope="module")
def asked(course: Path) -> list[str]:
    """The questions of the draw that stands on the page."""
    loaded = load(course).course
    return [item.id for item in draw_quiz(loaded.quizzes["all-kinds"], Answers(loaded).bank, FIRST_SEED)]


def give(page, key: Any) -> None:
    """Gives an answer to the question on the screen by keyboard alone."""
    kind = page.evaluate("document.querySelector('case-quiz form').dataset.kind")
    if kind == "one":
        pick(page, key)
    elif kind == "several":
        for place, value in enumerate(key):
            if place:
                page.press("Shift+Tab") if value < key[place - 1] else page.press("Tab")
                walk_to_box(page, value)
            else:
                pick(page, value)
    elif kind == "number":
        tab_to(page, "e.inputMode === 'decimal'")
        page.type(str(key))
    elif kind == "order":
        for place, value in enumerate(key):
            rows = "[...document.querySelectorAll('.order li')].map(e => e.dataset.option)"
            while page.evaluate(rows).index(value) > place:
                page.evaluate("document.querySelector('h2').focus()")
                tab_to(page, f"e.matches('[data-option={value}] .move') && e.textContent === 'Move up'")
                page.press("Enter")
    elif kind == "pairs":
        tab_to(page, "e.tagName === 'SELECT'")
        for place, value in enumerate(key):
            if place:
                page.press("Tab")
            choose(page, value)
    tab_to_button(page, "Check my answer")


def walk_to_box(page, value: str) -> None:
    while page.evaluate("document.activeElement.value") != value:
        page.press("Tab")
    page.press("Space")


def choose(page, value: str) -> None:
    """Chooses in the list that has the focus with the arrow keys."""
    for _ in range(12):
        if page.evaluate("document.activeElement.value") == value:
            return
        page.press("ArrowDown")
    raise AssertionError(f"no choice {value}")


def right(key: Any) -> Any:
    return float(key[0]) if isinstance(key, tuple) and not isinstance(key[0], str) else key


@pytest.mark.parametrize("disk", [True, False])
def test_every_kind_of_question_by_keyboard_alone(page, serve, site, keys, asked, disk):
    page.open(site / EVERY if disk else serve(site) + EVERY)
    kinds = set()
    for number, name in enumerate(asked, 1):
        assert f"Question {number} of {len(asked)}" in page.text(".progress")
        kinds.add(page.evaluate("document.querySelector('case-quiz form').dataset.kind"))
        give(page, right(keys[name]))
        page.press("Enter")
        assert page.evaluate("document.activeElement.matches('.feedback')"), page.focus
        assert page.text(".feedback").strip() == "Right", name
        tab_to_button(page, "See the result" if number == len(asked) else "Next")
        page.press("Enter")
    assert kinds == {"one", "several", "number", "order", "pairs"}
    assert page.evaluate("document.activeElement.textContent") == "Your result"
    assert "Passed" in page.text(".outcome")
    assert "6 of 6 right. 6 of 6 marks: 100%. The pass mark is 80%." in page.text(".working")
    assert page.trouble == []


def test_reasons_for_every_option(page, site, asked):
    page.open(site / EVERY)
    assert asked[0] == "q-one"
    wedge = "[...document.querySelectorAll('.choice')].find(e => e.textContent.includes('wedge'))"
    value = page.evaluate(f"{wedge}.control.value")
    pick(page, value)
    tab_to_button(page, "Check my answer")
    page.press("Enter")
    assert page.text(".feedback").strip() == "Not right"
    shown = page.text(".answer")
    for reason in (
        "Only a heel that stays down is measured.",
        "Then the ankle is not measured at all.",
        "The wedge gives away what you want to find.",
        "The heel stays down throughout.",
        "no published source",
    ):
        assert reason in shown
    assert "The wedge gives away" in page.text(".replies .own")
    assert "your answer" in page.text(".choice.chosen")


def test_a_part_of_the_mark(page, site, asked):
    page.open(site / EVERY)
    for _ in range(asked.index("q-several")):
        tab_to_button(page, "Next")
        page.press("Enter")
    page.click(".choice", text="The side")
    page.click("button", text="Check my answer")
    assert page.text(".feedback").strip() == "Partly right"


def test_what_is_open_is_asked_for(page, site, asked):
    page.open(site / EVERY)
    told = {}
    for name in asked:
        if page.evaluate("document.querySelector('case-quiz form').dataset.kind") != "order":
            page.click("button", text="Check my answer")
            told[name] = page.text(".open[role=status]")
        if page.count(".moves button") and name != asked[-1]:
            page.click(".moves button", text="Next")
    assert told["q-one"] == told["q-several"] == "Choose an answer first."
    assert told["q-number"] == "Write the number alone, such as 5."
    assert told["q-pairs"] == "Choose one for every line first."


@pytest.mark.parametrize("typed", ["4,5 s", "abc"])
def test_what_is_no_number_is_told_how_to_write_one(page, site, asked, typed):
    page.open(site / EVERY)
    forward_to(page, asked.index("q-number"))
    page.click("[inputmode=decimal]")
    page.type(typed)
    page.click("button", text="Check my answer")
    assert page.text(".open[role=status]") == "Write the number alone, such as 5."


def forward_to(page, place: int) -> None:
    for _ in range(place):
        page.click(".moves button", text="Next")


def test_what_was_begun_is_there_on_coming_back(page, site, asked):
    page.open(site / EVERY)
    begun = {
        "q-several": (".choice", "The side"),
        "q-number": ("[inputmode=decimal]", None),
        "q-order": (".order li:first-child .move", "Move down"),
        "q-pairs": (".pairs select", None),
    }
    state = """[...document.querySelectorAll('case-quiz form :is(input, select, .order .what)')]
        .map(e => [e.textContent, e.value, e.checked, e.selectedIndex])"""
    left = []
    for name in asked:
        if name in begun:
            page.click(*begun[name])
        if name == "q-number":
            page.type("3")
        if name == "q-pairs":
            page.evaluate("document.querySelector('.pairs select').selectedIndex = 2")
        left.append(page.evaluate(state))
        if name != asked[-1]:
            page.click(".moves button", text="Next")
    for _ in asked[1:]:
        page.click(".moves button", text="Back")
    for place in range(len(asked)):
        assert page.evaluate(state) == left[place], asked[place]
        if place < len(asked) - 1:
            page.click(".moves button", text="Next")
    assert '"answer"' not in page.evaluate(f"localStorage.getItem({QUIZ_KEY})"), "kept in memory alone"


def test_moving_on_shows_what_is_asked_and_about_whom(browser, site):
    page = browser.page(width=360, height=640)
    page.open(site / "quizzes/changes.html")
    page.evaluate("scrollTo(0, document.body.scrollHeight)")
    page.click(".moves button", text="Next")
    assert page.evaluate("document.activeElement.tagName") == "H2"
    places = page.evaluate(
        """['.stem', 'h2', '.who', '.short']
            .map(selector => document.querySelector(selector).getBoundingClientRect())
            .map(({top, bottom}) => [top, bottom])"""
    )
    flat = [edge for place in places for edge in place]
    assert flat == sorted(flat), "what was, then what is asked, then about whom, then the readings"
    assert flat[0] > -1, "the question is in sight"
    assert flat[5] <= 640, "so is the whole question"


def test_moving_a_row_is_said_aloud_and_keeps_the_focus(page, site, asked):
    page.open(site / EVERY)
    for _ in range(asked.index("q-order")):
        page.click(".moves button", text="Next")
    first = page.text(".order li .what")
    page.click(".order li:first-child .move", text="Move down")
    assert page.text(".open[role=status]") == f"{first}: now in place 2 of 3"
    assert page.evaluate("document.activeElement.closest('li').querySelector('.what').textContent") == first


def test_back_forward_and_after_a_reload(browser, serve, site):
    page = browser.page()
    page.open(serve(site) + EVERY)
    page.click(".choice", text="Flat on the floor")
    page.click("button", text="Check my answer")
    page.reload()
    assert page.text(".feedback").strip() == "Right"
    go_on(page)
    page.click(".moves button", text="Next")
    page.reload()
    assert "Question 3 of 6" in page.text(".progress")
    page.click(".moves button", text="Back")
    page.click(".moves button", text="Back")
    assert page.text(".feedback").strip() == "Right"
    go_on(page)
    assert "Question 2 of 6" in page.text(".progress"), "the next that waits for an answer"


def answer_all(page, most: int = 12) -> None:
    """Answers whatever is asked, anyhow, up to the result."""
    for _ in range(most):
        page.evaluate(
            """(() => { const form = document.querySelector('case-quiz form');
                form.querySelector('.choice input')?.click();
                form.querySelector('.sure input')?.click();
                const number = form.querySelector('[inputmode]'); if (number) number.value = '1';
                for (const select of form.querySelectorAll('select')) select.selectedIndex = 1;
            })()"""
        )
        page.click("case-quiz form button", text="Check my answer")
        page.click(".question > button")
        if page.count(".result"):
            return
    raise AssertionError("no result")


def test_the_result_stays_and_bars_tell_how_much_they_say(browser, site):
    page = browser.page()
    page.open(site / EVERY)
    answer_all(page)
    shown = page.text(".result")
    assert page.count(".bars li") == 2
    assert "So few answers say little." in page.text(".bars")
    assert f"Drawn with number {FIRST_SEED}." in shown
    page.reload()
    assert page.text(".result") == shown
    held, of = map(int, re.search(r"(\d+) of (\d+) right", page.text(".bars li")).groups())
    low, high = wilson(held, of)
    assert f"95% interval: {low} to {high}%." in page.text(".bars li")
    page.click(".answered li:first-child summary")
    assert "Only a heel that stays down is measured." in page.text(".answered li:first-child")
    page.click("button", text="Answer these again")
    assert "Question 1 of 6" in page.text(".progress")


def wilson(held: int, of: int) -> tuple[int, int]:
    """Per cent, by scipy's Wilson interval (Wilson 1927, J Am Stat Assoc 22:209-212)."""
    from scipy.stats import binomtest

    interval = binomtest(held, of).proportion_ci(0.95, method="wilson")
    return round(100 * interval.low), round(100 * interval.high)


@pytest.mark.parametrize("disk", [True, False])
def test_new_questions_are_drawn_as_python_draws_them(browser, serve, site, course, disk):
    page = browser.page()
    page.open(site / EVERY if disk else serve(site) + EVERY)
    answer_all(page)
    page.click("button", text="Draw new questions")
    page.wait_for("document.querySelector('.progress')")
    kept = page.evaluate(f"JSON.parse(localStorage.getItem({QUIZ_KEY}))")
    assert kept["seed"] != FIRST_SEED
    loaded = load(course).course
    quiz, items = loaded.quizzes["all-kinds"], Answers(loaded).bank
    pool = quiz_pool(quiz, items)
    expected = [pool[number].digest for number in drawn(draw_data(quiz, items), kept["seed"])]
    assert kept["digests"] == expected
    page.click("case-quiz form .choice input")
    page.click("button", text="Check my answer")
    page.reload()
    page.wait_for("document.querySelector('.feedback')")
    answer_first_then_all(page)
    assert f"Drawn with number {kept['seed']}." in page.text(".result")
    assert page.trouble == []


def answer_first_then_all(page) -> None:
    page.click(".question > button")
    answer_all(page)


def test_how_sure_you_are_is_asked_and_marks_nothing(page, site, keys):
    page.open(site / "quizzes/sure.html")
    page.click(".sure .choice", text="Very sure")
    page.click("case-quiz form button", text="Check my answer")
    assert page.text(".open[role=status]") == "Choose an answer first.", "how sure is no answer"
    page.open(site / "quizzes/sure.html")
    give(page, keys["q-one"])
    page.press("Enter")
    assert page.text(".open[role=status]") == "Say how sure you are first."
    page.press("Shift+Tab", "Space")
    while page.evaluate("document.activeElement.value") != "3":
        page.press("ArrowDown")
    tab_to_button(page, "Check my answer")
    page.press("Enter")
    assert page.text(".feedback").strip() == "Right"
    go_on(page)
    page.click("[inputmode=decimal]")
    page.type("99")
    page.click(".sure .choice", text="Fairly sure")
    page.click("case-quiz form button", text="Check my answer")
    assert page.text(".feedback").strip() == "Not right"
    go_on(page)
    for words in ("Every trial", "The side"):
        page.click(".choice", text=words)
    page.click(".sure .choice", text="Fairly sure")
    page.click("case-quiz form button", text="Check my answer")
    assert page.text(".feedback").strip() == "Right"
    page.click("button", text="See the result")
    assert "2 of 3 right. 2 of 3 marks: 66%." in page.text(".working")


def test_a_client_question_shows_the_readings(page, site, asked):
    page.open(site / EVERY)
    name = next(one for one in asked if one.startswith("g-plan"))
    for _ in range(asked.index(name)):
        page.click(".moves button", text="Next")
    assert page.sees(".screen .short > li")
    assert page.count(".screen svg.strip path.line") == 0


def test_attempts_are_remembered_with_digest_and_first_try(page, site, course):
    page.open(site / EVERY)
    for words in ("On its toes", "Flat on the floor"):
        page.click(".choice", text=words)
        page.click("button", text="Check my answer")
        page.evaluate(f"localStorage.removeItem({QUIZ_KEY})")
        page.reload()
    attempts = page.evaluate(
        "JSON.parse(Object.entries(localStorage).find(([k]) => k.endsWith(':record'))[1]).attempts"
    )
    item = next(item for item in Answers(load(course).course).bank if item.id == "q-one")
    assert [(one["id"], one["digest"], one["mark"], one["first"]) for one in attempts] == [
        ("q-one", item.digest, 0, True),
        ("q-one", item.digest, 1, False),
    ]
    assert {(one["objective"], one["quiz"], one["draw"]) for one in attempts} == {
        ("measure-ankle", "all-kinds", 1)
    }


UNREACHED = "document.querySelector('case-quiz').innerText.includes('cannot be reached now')"


@pytest.mark.parametrize("instead", [None, "<!doctype html>"])
def test_what_cannot_be_reached_is_kept_until_it_can(page, site, tmp_path, instead):
    copied = Path(shutil.copytree(site, tmp_path / "site"))
    page.open(copied / EVERY)
    answer_all(page)
    page.click("button", text="Draw new questions")
    page.wait_for("document.querySelector('.progress')")
    page.click("case-quiz form .choice input")
    page.click("button", text="Check my answer")
    verdict = page.text(".feedback")
    kept = page.evaluate(f"localStorage.getItem({QUIZ_KEY})")
    part = copied / "quizzes" / "all-kinds.1.js"
    there = part.read_bytes()
    part.unlink() if instead is None else part.write_text(instead)
    page.open(copied / EVERY)
    for _ in range(2):
        page.wait_for(UNREACHED)
        assert "have changed" not in page.text("case-quiz")
        assert page.count("case-quiz form") == 0, "nothing to answer, so nothing that is written over"
        assert page.evaluate(f"localStorage.getItem({QUIZ_KEY})") == kept
        page.click("button", text="Try again")
    page.wait_for(UNREACHED)
    part.write_bytes(there)
    page.click("button", text="Try again")
    page.wait_for("document.querySelector('.feedback')")
    assert page.text(".feedback") == verdict
    assert page.evaluate("document.activeElement.tagName") == "H2"
    assert page.evaluate(f"localStorage.getItem({QUIZ_KEY})") == kept


def test_a_file_that_was_missing_is_asked_for_again(page, serve, site, tmp_path):
    copied = Path(shutil.copytree(site, tmp_path / "site"))
    part = copied / "quizzes" / "all-kinds.1.js"
    away = part.rename(part.with_suffix(".away"))
    page.open(f"{serve(copied)}{EVERY}?draw=42")
    page.wait_for(UNREACHED)
    page.click("button", text="Leave them and start afresh")
    assert "Question 1 of 6 0 answered" in page.text(".progress")
    page.reload()
    page.wait_for(UNREACHED)
    away.rename(part)
    page.click("button", text="Try again")
    page.wait_for("document.querySelector('.progress')")
    page.click(".moves button", text="Next")
    assert '"seed":42' in page.evaluate(f"localStorage.getItem({QUIZ_KEY})")


def test_a_result_stays_where_no_others_can_be_reached(page, site, tmp_path):
    copied = Path(shutil.copytree(site, tmp_path / "site"))
    (copied / "quizzes" / "all-kinds.0.js").unlink()
    page.open(copied / EVERY)
    answer_all(page)
    result = page.text(".result")
    page.click("button", text="Draw new questions")
    page.wait_for(UNREACHED)
    page.click("button", text="Back")
    assert page.text(".result") == result


def test_what_comes_late_begins_nothing(page, site):
    """Everything is forgotten while another draw is still on its way."""
    page.open(site / EVERY)
    answer_all(page)
    page.evaluate("""(() => {
        const draw = [...document.querySelectorAll('case-quiz button')]
            .find(button => button.textContent === 'Draw new questions');
        draw.click();
        document.dispatchEvent(new Event('casetrue-forgotten'));
    })()""")
    page.wait_for("Object.keys(window.casetrueParts ?? {}).some(name => /^all-kinds\\.[1-9]/.test(name))")
    page.evaluate("new Promise(done => setTimeout(() => done(1), 200))")
    assert "Question 1 of 6 0 answered" in page.text(".progress")
    assert page.evaluate("location.search") == ""


def test_single_questions_stay_single_when_all_is_forgotten(page, site):
    page.open(f"{(site / EVERY).as_uri()}?ask=q-one")
    page.wait_for("document.querySelector('case-quiz form')")
    page.evaluate("document.dispatchEvent(new Event('casetrue-forgotten'))")
    assert "1 of 1" in page.text(".progress")


def by_number(course: Path, quiz: str, seed: int) -> list[str]:
    """The questions of a draw, as Python draws them."""
    loaded = load(course).course
    return [item.id for item in draw_quiz(loaded.quizzes[quiz], Answers(loaded).bank, seed)]


def shown(page) -> list[str]:
    """The questions under way, as the page kept them, by their digests."""
    return page.evaluate(f"JSON.parse(localStorage.getItem({QUIZ_KEY})).digests")


def digests(course: Path, ids: list[str]) -> list[str]:
    known = {item.id: item.digest for item in Answers(load(course).course).bank}
    return [known[id] for id in ids]


def test_a_number_in_the_address_draws_the_same_for_everyone(browser, site, course):
    page = browser.page()
    page.open(f"{(site / EVERY).as_uri()}?draw=42")
    page.wait_for("document.querySelector('.progress')")
    page.click(".moves button", text="Next")
    assert shown(page) == digests(course, by_number(course, "all-kinds", 42))
    page.click(".moves button", text="Back")
    answer_all(page)
    assert "Drawn with number 42." in page.text(".result")
    link = page.evaluate("document.querySelector('.result a[href*=draw]').href")
    assert link == f"{(site / EVERY).as_uri()}?draw=42"
    page.click(".result input[type=number]")
    page.type("7")
    page.click("button", text="Use a set number")
    page.wait_for("document.querySelector('.progress')")
    assert shown(page) == digests(course, by_number(course, "all-kinds", 7))
    assert page.url.endswith("?draw=7")
    assert page.evaluate("document.activeElement.tagName") == "H2"
    assert page.trouble == []


@pytest.mark.parametrize("number", ["0", "10000", "4.5", "-3", "x", "1e3", "", "042"])
def test_a_strange_number_shows_the_draw_of_the_page(page, site, asked, course, number):
    page.open(f"{(site / EVERY).as_uri()}?draw={number}")
    page.click(".moves button", text="Next")
    assert shown(page) == digests(course, asked)


def test_a_number_never_drops_what_is_under_way(page, site, course):
    page.open(site / EVERY)
    page.click(".choice", text="Flat on the floor")
    page.click("button", text="Check my answer")
    kept = page.evaluate(f"localStorage.getItem({QUIZ_KEY})")
    page.open(f"{(site / EVERY).as_uri()}?draw=42")
    assert "Other questions are under way, drawn with number 1." in page.text("case-quiz")
    assert page.evaluate(f"localStorage.getItem({QUIZ_KEY})") == kept
    page.click("button", text="Go on with them")
    page.wait_for("document.querySelector('.feedback')")
    assert page.text(".feedback").strip() == "Right"
    assert page.url.endswith(".html")
    page.open(f"{(site / EVERY).as_uri()}?draw=42")
    page.click("button", text="Leave them for number 42")
    page.wait_for("document.querySelector('.progress')")
    assert shown(page) == digests(course, by_number(course, "all-kinds", 42))
    page.reload()
    page.wait_for("document.querySelector('.progress')")
    assert "0 answered" in page.text(".progress")


def test_a_quiz_that_draws_nothing_tells_no_number(page, site, asked):
    page.open(f"{(site / 'quizzes/sure.html').as_uri()}?draw=42")
    answer_all(page)
    assert "Drawn with" not in page.text(".result")
    assert page.count(".result form:not(.ask)") == page.count(".result a[href*=draw]") == 0


def test_a_result_tells_about_which_client_each_question_was(page, site):
    page.open(site / "quizzes/changes.html")
    page.click(".moves button", text="Next")
    stem = page.text(".stem")
    page.click(".moves button", text="Back")
    answer_all(page)
    assert stem.split(":")[0] in {"Tern", "Plover", "Rail"}
    assert page.text(".answered li:last-child summary").startswith(stem)


def remembered(page) -> list[dict[str, Any]]:
    return page.evaluate(
        "JSON.parse(Object.entries(localStorage).find(([k]) => k.endsWith(':record'))[1]).attempts"
    )


@pytest.mark.parametrize("disk", [True, False])
def test_single_questions_are_asked_apart_from_the_quiz(browser, serve, site, course, asked, disk):
    page = browser.page()
    where = (site / EVERY).as_uri() if disk else serve(site) + EVERY
    page.open(where)
    page.click(".choice", text="On its toes")
    page.click("button", text="Check my answer")
    kept = page.evaluate(f"localStorage.getItem({QUIZ_KEY})")
    loaded = load(course).course
    pool = [item.id for item in quiz_pool(loaded.quizzes["all-kinds"], Answers(loaded).bank)]
    other = next(id for id in pool if id not in asked)
    page.open(f"{where}?ask={other},q-one,gone,q-one")
    page.wait_for("document.querySelector('.progress')")
    assert "Question 1 of 2" in page.text(".progress")
    assert "Single questions" in page.text(".progress")
    assert "A question that you chose is no longer in this quiz." in page.text("case-quiz")
    assert page.count(".screen .short") == 1
    page.click("case-quiz form .choice input")
    page.click("button", text="Check my answer")
    go_on(page)
    page.click(".choice", text="Flat on the floor")
    page.click("button", text="Check my answer")
    page.click("button", text="See the result")
    tried = remembered(page)
    assert [(one["kind"], one["id"], one["first"]) for one in tried] == [
        ("question", "q-one", True),
        ("question", other, True),
        ("question", "q-one", False),
    ]
    assert [one.get("draw") for one in tried] == [FIRST_SEED, None, None]
    assert page.evaluate(f"localStorage.getItem({QUIZ_KEY})") == kept
    told = page.text(".result")
    assert "Single questions, not the whole quiz." in told
    assert "pass mark is" not in told
    assert "Drawn with" not in told
    assert page.evaluate("document.querySelector('.result a[href$=\"record.html\"]').href") == (
        where.replace(EVERY, "record.html")
    )
    page.click(".result a", text="Go to the quiz")
    page.wait_for(f"location.href === {where!r} && document.querySelector('.feedback')")
    assert "Question 1 of 6" in page.text(".progress")
    assert page.trouble == []


def test_a_question_that_is_gone_is_told_kindly(page, site):
    page.open(f"{(site / EVERY).as_uri()}?ask=gone")
    page.wait_for("document.querySelector('case-quiz').innerText.includes('no longer in this quiz')")
    assert page.count("case-quiz form") == 0
    page.click("case-quiz a", text="Go to the quiz")
    page.wait_for("document.querySelector('.progress')")


def test_the_missed_ones_can_be_answered_again(page, site):
    page.open(site / EVERY)
    page.click(".choice", text="Flat on the floor")
    page.click("button", text="Check my answer")
    answer_first_then_all(page)
    missed = page.evaluate(
        """[...document.querySelectorAll('.answered > li')]
            .filter(e => !e.querySelector('summary .held')).length"""
    )
    assert 0 < missed < 6
    page.click(".result a", text="Answer the wrong ones again")
    page.wait_for("document.querySelector('.progress')")
    assert f"Question 1 of {missed} 0 answered" in page.text(".progress")


def test_changed_questions_start_the_quiz_afresh(page, serve, site, tmp_path):
    copied = Path(shutil.copytree(site, tmp_path / "site"))
    page.open(serve(copied) + EVERY)
    page.click(".choice", text="Flat on the floor")
    page.click("button", text="Check my answer")
    text = (copied / EVERY).read_text("utf-8")
    digest = re.search(r'"digest":"([0-9a-f]+)"', text)[1]
    (copied / EVERY).write_text(text.replace(digest, "0" * len(digest)), "utf-8")
    page.reload()
    assert "The questions have changed" in page.text("case-quiz")
    assert page.count(".feedback") == 0


def test_without_script_the_first_draw_can_be_read(browser, site, asked):
    page = browser.page(script=False)
    page.open(site / EVERY)
    assert page.evaluate("[...document.querySelectorAll('.question')].map(e => e.dataset.item)") == asked
    assert page.count("case-quiz button, case-forget button") == 0
    assert "cannot mark for you without script" in page.text("main")
    assert not page.sees(".answer")
    for place in range(len(asked)):
        page.click(f".question:nth-child({place + 1}) .reason summary")
    shown = page.text("case-quiz")
    for words in (
        "Right: Flat on the floor",
        "The right answer: 32°, up to 0.5° off either way",
        "Raise the heels",
    ):
        assert words in shown
    assert page.count(".order select") == 3
    numbers = "getComputedStyle(document.querySelector('.order > li'), '::before').display"
    assert page.evaluate(numbers) == "none", "no place before the learner gives one"


def test_data_files_are_inert(site):
    text = (site / "quizzes" / "all-kinds.1.js").read_text("utf-8")
    start, _, value = text.partition("]=")
    assert start == '(window.casetrueParts??={})["all-kinds.1"'
    assert not re.search(r"<(/?script|!--)", text, re.IGNORECASE)
    part = json.loads(value.rstrip(";\n"))
    assert len(part["questions"]) <= 50
    assert all(set(question) == {"html", "item"} for question in part["questions"])
    assert {"tern-03", "plover-04"} <= part["readings"].keys()
    assert text.count("32° (31, 33, 32)") == 1
