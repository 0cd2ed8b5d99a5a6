"""A coach opens the address of a task: told what is asked and until when, and the record carries it."""

from __future__ import annotations

import datetime
import json
from pathlib import Path

import pytest

from builder.answers import Answers, addresses
from builder.questions import draw_quiz
from builder.records import read
from builder.records.task import Task, task_of
from builder.source import load

from ..conftest import ANKLE
from .practice import build

RECORD = "JSON.parse(localStorage.getItem('casetrue:ankle-squat:record'))"
NOTICE = "document.querySelector('.task').textContent"
DONE = "NOTICE.includes('answered all of it')".replace("NOTICE", NOTICE)


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return build(ANKLE, tmp_path_factory.mktemp("task") / "site")


def day(ahead: int) -> str:
    return (datetime.datetime.now().date() + datetime.timedelta(ahead)).isoformat()


def opened(page, site: Path, quiz: str, draw: int, until: str) -> None:
    page.open(f"{site.as_uri()}/{addresses.task(quiz, draw, until)}")
    page.wait_for("document.querySelector('.progress')")
    page.wait_for(f"{NOTICE} !== ''")


def answer(page) -> None:
    """Gives some answer to the question on the screen."""
    page.evaluate("""(() => {
        const form = document.querySelector('case-quiz form');
        const box = form.querySelector('input[type=radio], input[type=checkbox]');
        if (box) box.click();
        for (const field of form.querySelectorAll('input:not([type])')) field.value = '5';
        for (const field of form.querySelectorAll('input[inputmode=decimal]')) field.value = '5';
        for (const list of form.querySelectorAll('select')) list.selectedIndex = 1;
        form.requestSubmit();
    })()""")
    page.wait_for("document.querySelector('.feedback')")


def answer_all(page) -> None:
    while True:
        answer(page)
        buttons = page.evaluate("[...document.querySelectorAll('button')].map(b => b.textContent)")
        last = "See the result" in buttons
        page.click("button", text="See the result" if last else "Next")
        if last:
            return


def test_a_task_says_what_is_asked_and_every_answer_carries_it(page, site, tmp_path):
    until = day(3)
    opened(page, site, "all-kinds", 42, until)
    assert "You are asked to answer this quiz until" in page.evaluate(NOTICE)
    assert "Days left: 3." in page.evaluate(NOTICE)
    assert "Nothing is sent by itself" in page.evaluate(NOTICE)
    answer(page)
    page.open(site / "quizzes/all-kinds.html")  # gone on with later, by another way
    page.wait_for(f"{NOTICE} !== ''")
    page.click("button", text="Next")
    answer_all(page)
    page.wait_for(DONE)
    attempts = page.evaluate(RECORD)["attempts"]
    assert {one["task"] for one in attempts} == {f"all-kinds/42/{until}"}
    assert {one["draw"] for one in attempts} == {42}
    assert [one["kind"] for one in attempts].count("quiz") == 1
    course = load(ANKLE).course
    asked = draw_quiz(course.quizzes["all-kinds"], Answers(course).bank, 42)
    assert [one["id"] for one in attempts if one["kind"] == "question"] == [item.id for item in asked]
    assert task_of(attempts[0]["task"]) == Task("all-kinds", 42, until)
    raw = json.dumps({"format": 2, "course": "ankle-squat", "attempts": attempts}).encode()
    assert [one.task for one in read(raw, "ankle-squat").attempts] == [one["task"] for one in attempts]
    page.click("a", text="Save a copy for the owner")
    page.wait_for("document.querySelector('[data-do=owner]')")
    assert f"Asked for: Every kind of question, draw 42, until {until}." in page.text(".hand-over")
    assert page.trouble == []


def test_the_same_questions_again_are_told_not_to_count(page, site):
    opened(page, site, "all-kinds", 42, day(0))
    assert "That is today." in page.evaluate(NOTICE)
    answer_all(page)
    page.click("button", text="Answer these again")
    page.wait_for(f"{NOTICE}.includes('does not count')")
    assert page.trouble == []


def test_other_questions_are_no_part_of_the_task(page, site):
    opened(page, site, "all-kinds", 42, day(1))
    answer_all(page)
    page.click("button", text="Draw new questions")
    page.wait_for("document.querySelector('.progress')")
    assert page.evaluate(NOTICE) == ""
    answer(page)
    assert "task" not in page.evaluate(RECORD)["attempts"][-1]
    assert "until" not in page.url


def test_a_day_that_is_over_is_told_and_still_counts(page, site):
    opened(page, site, "ankle-check", 1, day(-1))
    assert "That day is over. You can still answer" in page.evaluate(NOTICE)
    answer(page)
    assert page.evaluate(RECORD)["attempts"][0]["task"] == f"ankle-check/1/{day(-1)}"


@pytest.mark.parametrize(
    "query",
    [
        "draw=42&until=2026-02-30",
        "draw=42&until=<b>now</b>",
        "until=2026-12-04",
        "draw=0&until=2026-12-04",
        "draw=10000&until=2026-12-04",
        "draw=42&until=",
    ],
)
def test_a_strange_address_is_told_and_changes_nothing(page, site, query):
    page.open(f"{(site / 'quizzes/all-kinds.html').as_uri()}?{query}")
    page.wait_for("document.querySelector('.notes .changed')")
    assert "asks for nothing that this quiz has" in page.text(".notes")
    assert page.evaluate(NOTICE) == ""
    answer(page)
    assert "task" not in page.evaluate(RECORD)["attempts"][0]
    assert page.trouble == []


def test_what_is_under_way_is_not_dropped_for_a_task(page, site):
    page.open(site / "quizzes/all-kinds.html")
    answer(page)
    until = day(2)
    page.open(f"{site.as_uri()}/{addresses.task('all-kinds', 42, until)}")
    assert "Other questions are under way" in page.text("case-quiz")
    page.click("button", text="Leave them for number 42")
    page.wait_for(f"{NOTICE} !== ''")
    page.reload()
    page.wait_for(f"{NOTICE} !== ''")
    answer(page)
    assert page.evaluate(RECORD)["attempts"][-1]["task"] == f"all-kinds/42/{until}"
