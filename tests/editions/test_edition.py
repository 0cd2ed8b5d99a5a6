"""What an edition holds, and what changes in it when the course does."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from scipy.stats import norm

from builder.answers import Answers
from builder.course import Edition
from builder.editions import EditionData, edition_of, label, mark
from builder.source import load


def kept(course: Path) -> EditionData:
    loaded = load(course)
    return edition_of(Answers(loaded.course), loaded.texts, "1.0", "2026-06-01")


def differing(one: Any, other: Any, at: str = "") -> set[str]:
    """The paths at which two plain values differ."""
    if isinstance(one, dict) and isinstance(other, dict):
        keys = one.keys() | other.keys()
        return set().union(*(differing(one.get(key), other.get(key), f"{at}/{key}") for key in keys))
    return set() if one == other else {at}


def test_an_edition_holds_all_by_which_a_change_is_told(drill_course: Path) -> None:
    edition = kept(drill_course)
    assert (edition["edition"], edition["date"], edition["course"]) == ("1.0", "2026-06-01", "ankle-squat")
    tern = edition["cases"]["tern-03"]
    assert tern["readings"] == {"ankle_dorsiflexion": [31, 33, 32], "heel_pain": False, "stance": "hip"}
    assert tern["cautions"] == []
    assert tern["decisions"]["plan"]["outcome"] == "raise_heels"
    assert tern["decisions"]["plan"]["rule"] == "stiff"
    assert sum(tern["decisions"]["plan"]["chance"].values()) == pytest.approx(1)
    assert tern["decisions"]["ankle_class"]["chance"]["stiff"] == round(norm.cdf(2.5, 0, 2 / 3**0.5), 6)
    assert edition["cases"]["rail-06"]["cautions"] == ["chest_pain", "heel_pain_loading"]
    assert edition["cases"]["rail-06"]["decisions"]["ankle_class"]["outcome"] is None
    assert edition["rules"]["ankle_class/low"] == {"ankle_dorsiflexion": {"below": 35}}
    assert edition["rules"]["plan/free"] == {}
    course = load(drill_course).course
    assert edition["questions"].keys() == {item.id for item in Answers(course).bank}
    assert edition["texts"].keys() == {"caution", "drill", "rule", "lesson", "question"}
    assert edition["texts"]["caution"].keys() == course.cautions.keys()
    assert edition["texts"]["drill"].keys() == course.drills.keys()
    assert edition["texts"]["lesson"].keys() == {lesson.file for lesson in course.lessons}
    assert "plan/stiff" in edition["texts"]["rule"]
    assert "q-one" in edition["texts"]["question"]


def test_the_same_course_gives_the_same_edition(small_course: Path) -> None:
    assert kept(small_course) == kept(small_course)


@pytest.mark.parametrize(
    ("file", "old", "new", "changed"),
    [
        pytest.param(
            "lessons/knee-to-wall.md", "wall", "WALL", {"/texts/lesson/lessons/knee-to-wall.md"}, id="lesson"
        ),
        pytest.param(
            "cautions/heel_pain_loading.yml",
            "Stop loading",
            "Stop at once loading",
            {"/texts/caution/heel_pain_loading"},
            id="caution",
        ),
        pytest.param(
            "tables/plan.yml",
            "A narrow stance",
            "Narrow",
            {"/texts/rule/plan/narrow"},
            id="reason",
        ),
        pytest.param(
            "questions/bank.yml",
            "stem: Where does the foot stand",
            "stem: Where is the foot",
            {"/texts/question/q-one"},
            id="reworded",
        ),
        pytest.param("tables/plan.yml", "table: plan", "# A comment\ntable: plan", set(), id="comment"),
        pytest.param(
            "tables/plan.yml",
            "table: plan",
            "table: plan\nreviewed: {role: coach, on: 2026-01-01}",
            set(),
            id="review",
        ),
    ],
)
def test_what_a_change_changes(small_course: Path, file: str, old: str, new: str, changed: set[str]) -> None:
    before = kept(small_course)
    path = small_course / file
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), "utf-8")
    assert differing(before, kept(small_course)) == {"/build", *changed}


def test_another_line_moves_numbers_keys_and_chances(small_course: Path) -> None:
    before = kept(small_course)
    path = small_course / "tables" / "ankle_class.yml"
    path.write_text(path.read_text("utf-8").replace("35}", "32}"), "utf-8")
    changed = differing(before, kept(small_course))
    assert {
        "/rules/ankle_class/low/ankle_dorsiflexion/below",
        "/cases/tern-03/decisions/ankle_class/outcome",
        "/cases/tern-03/decisions/plan/rule",
        "/questions/g-plan.tern-03",
    } <= changed
    assert not any(path.startswith("/texts") for path in changed), "no text was touched"


def test_the_mark_follows_every_file_and_nothing_else() -> None:
    texts = {"a": "1", "b": "2"}
    assert mark(texts) == mark(dict(reversed(texts.items())))
    marks = {mark(one) for one in (texts, {"a": "12", "b": ""}, {"a": "1"}, {"a": "1", "c": "2"})}
    assert len(marks) == 4
    assert all(len(one) == 8 for one in marks)


def test_a_build_is_called_by_the_newest_edition() -> None:
    edition = Edition("1.0", "2026-06-01", "0123abcd")
    assert label(None, "0123abcd") == ""
    assert label(edition, "0123abcd") == "1.0"
    assert label(edition, "89abcdef") == "1.0+89abcdef"


def test_age_is_kept_where_it_is_read(course_folder: Callable[..., Path]) -> None:
    course = course_folder(
        {
            "course.yml": "course: c\ntitle: C\n",
            "measures.yml": "measures:\n  pain: {label: Pain, kind: yes_no}\n",
            "tables/t.yml": """
                table: t
                question: Q
                policy: first
                inputs: [age]
                outcomes: {a: {label: A}, b: {label: B}}
                rules:
                  - {id: old, when: {age: {above: 64.5}}, then: a}
                  - {id: rest, when: {}, then: b}
                source: common-practice
                """,
            "cases/k.yml": "case: k\nclient: {name: K, age: 70}\nreadings: {pain: true}\n",
        }
    )
    edition = kept(course)
    assert edition["cases"]["k"]["readings"] == {"pain": True, "age": [70]}
    assert edition["rules"]["t/old"] == {"age": {"above": 64.5}}
