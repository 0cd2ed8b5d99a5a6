"""A learner gives an answer that would have hurt somebody: told at once, never passed, practised again."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from builder.answers import Answers
from builder.questions import draw_quiz
from builder.source import load

from ..conftest import ANKLE
from .practice import answer_step, build, go_on

RAIL = "clients/rail-06.html"
EASY = """
quiz: easy
title: Easy to pass
pass_mark: 0.1
questions: [q-one, q-number, g-rail]
---
quiz: told
title: Told only
pass_mark: 0.1
serious: told
questions: [q-one, q-number, g-rail]
"""
ABOUT_RAIL = """
questions:
  - {id: g-rail, family: decision, table: screen, cases: [rail-06], objective: choose-ankle-plan}
"""
OTHERS = """
- case: smew-08
  client: {name: Smew}
  readings: {heel_pain: true}
- case: ruff-09
  client: {name: Ruff}
  readings: {heel_pain: true}
"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    course = Path(shutil.copytree(ANKLE, tmp_path_factory.mktemp("unsafe") / "course"))
    for number, text in enumerate(EASY.split("---\n")):
        (course / "quizzes" / f"easy-{number}.yml").write_text(text.lstrip(), "utf-8")
    (course / "questions" / "rail.yml").write_text(ABOUT_RAIL.lstrip(), "utf-8")
    (course / "cases" / "others.yml").write_text(OTHERS.lstrip(), "utf-8")
    return build(course, course.parent / "site")


def test_an_unsafe_decision_in_a_walk_is_told_at_once_and_never_passed(page, site):
    page.open(site / RAIL)
    answer_step(page, "clear", "Unsafe")
    now = page.text(".now")
    assert "Acted on, nobody would have stopped this client." in now
    assert "What calls for it: Heel pain under load." in now
    assert "Pain at the heel when loading: yes; it would have to be no" in now, "why this answer fails"
    assert "Heel pain under load" in page.text(".now .caution")
    go_on(page)
    assert "Not passed yet" in page.text(".outcome")
    assert "One answer was unsafe." in page.text(".harm")
    assert page.trouble == []


def test_a_safe_decision_takes_one_line(page, site):
    page.open(site / RAIL)
    answer_step(page, "refer_out", "Right")
    assert "The right answer: Send on" in page.text(".now .answer")
    assert not page.sees(".now .checks")
    assert page.sees(".now .caution"), "what to heed is not folded away"
    page.click(".now .why > summary")
    assert page.sees(".now .checks")


def answer_quiz(page, site: Path, name: str, unsafe: bool) -> None:
    page.open(site / "quizzes" / f"{name}.html")
    page.click(".choice", text="Flat on the floor")
    page.click("button", text="Check my answer")
    go_on(page)
    page.click("[inputmode=decimal]")
    page.type("32")
    page.click("button", text="Check my answer")
    go_on(page)
    page.click(".choice", text="Coach" if unsafe else "Send on")
    page.click("button", text="Check my answer")
    assert page.text(".feedback").strip() == ("Unsafe" if unsafe else "Right")
    page.click("button", text="See the result")


def test_a_quiz_with_an_unsafe_answer_goes_on_to_its_end_and_is_not_passed(page, site):
    answer_quiz(page, site, "easy", unsafe=True)
    result = page.text(".result")
    assert result.index("One answer was unsafe.") < result.index("2 of 3 right.")
    assert "Not passed yet: what is unsafe counts before the mark" in page.text(".outcome")
    told = page.text(".result .unsafe")
    assert "May this client be coached today?" in told
    assert "Coach" in told
    assert "Acted on, nobody would have stopped this client." in told
    links = page.evaluate("[...document.querySelectorAll('.unsafe .like a')].map(e => e.textContent)")
    assert links == ["Smew", "Ruff"]
    page.click(".unsafe .like a", text="Smew")
    page.wait_for("location.href.endsWith('clients/smew-08.html')")


def test_a_quiz_without_one_is_passed_and_so_is_one_that_only_tells(page, site):
    answer_quiz(page, site, "easy", unsafe=False)
    assert "Passed" in page.text(".outcome")
    assert page.count(".unsafe") == 0
    answer_quiz(page, site, "told", unsafe=True)
    assert "Passed" in page.text(".outcome")
    assert "One answer was unsafe." in page.text(".result")


def test_every_draw_on_the_page_holds_what_it_must(page, small_course, tmp_path):
    quiz = """
quiz: must
title: Always one to stop
blueprint: [{objective: choose-ankle-plan, count: 2}]
must_include: [{clients: referred, count: 1}]
"""
    (small_course / "quizzes" / "must.yml").write_text(quiz.lstrip(), "utf-8")
    (small_course / "questions" / "rail.yml").write_text(ABOUT_RAIL.lstrip(), "utf-8")
    loaded = load(small_course).course
    bank = Answers(loaded).bank
    site = build(small_course, tmp_path / "site")
    for seed in (1, 2, 3, 4):
        page.open((site / "quizzes/must.html").as_uri() + f"?draw={seed}")
        page.wait_for("document.querySelector('case-quiz .question h2')")
        wanted = draw_quiz(loaded.quizzes["must"], bank, seed)
        assert any(item.sends == "referred" for item in wanted)
        for item in wanted:
            assert page.text(".question h2") in (item.stem, item.stem.strip())
            if item is not wanted[-1]:
                page.click(".moves button", text="Next")
