"""What the browser is told of everything that can be practised."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from builder.answers import Answers
from builder.source import load

MEASURES = "measures: {ache: {label: Ache, kind: yes_no}}\n"


def index_of(site: Path) -> dict[str, Any]:
    text = (site / "assets" / "plan-index.js").read_text("utf-8")
    index: dict[str, Any] = json.loads(text.partition("]=")[2].rstrip(";\n"))
    return index


@pytest.fixture(scope="module")
def rows(ankle_site: Path) -> dict[str, tuple[str, str, str, str, Any]]:
    """Question or step to what is learnt, its objective, the client, the sign and the place."""
    return {
        name: (unit, objective, client, sign, where)
        for unit, objective, some in index_of(ankle_site)["units"]
        for name, client, sign, where in some
    }


def test_every_question_of_a_quiz_and_every_step_is_there_once(
    ankle_site: Path, rows: dict[str, tuple[str, str, str, str, Any]]
) -> None:
    answers = Answers(load(Path(__file__).parents[1] / "courses" / "ankle").course)
    quizzes = list(answers.course.quizzes)
    assert index_of(ankle_site)["quizzes"] == quizzes
    asked = {
        item.id: [number for number, quiz in enumerate(quizzes) if item in answers.pools[quiz]]
        for item in answers.bank
    }
    steps = {
        f"{exercise}/{case}/{step.id}"
        for case, client in answers.clients.items()
        for exercise in answers.exercises_of(case)
        for step in client.walks[exercise].steps.values()
        if step.options
    }
    assert rows.keys() == {name for name, some in asked.items() if some} | steps
    for name, (_, _, _, _, where) in rows.items():
        if name in asked:
            assert where == asked[name]
        else:
            assert (ankle_site / where).is_file()


def test_a_rule_is_learnt_from_all_who_meet_it(rows: dict[str, tuple[str, str, str, str, Any]]) -> None:
    assert rows["g-plan.tern-03"][:4] == ("plan/stiff", "choose-ankle-plan", "tern-03", "go")
    assert rows["q-one"] == ("question:q-one", "measure-ankle", "", "", [0, 1])
    assert rows["first-visit/tern-03/warm_up"] == (
        "step:first-visit/warm_up", "choose-ankle-plan", "tern-03", "", "clients/tern-03.html",
    )  # fmt: skip
    stopped = {client for _, _, client, sign, _ in rows.values() if sign == "stop"}
    assert stopped == {"rail-06"}
    by_unit: dict[str, set[str]] = {}
    for unit, _, _, sign, _ in rows.values():
        by_unit.setdefault(unit, set()).add(sign)
    assert all(len(signs) == 1 for signs in by_unit.values()), "a rule has one outcome"


def test_a_drill_is_learnt_fault_by_fault(tmp_path: Path, drill_course: Path, build: Any) -> None:
    drill_site = tmp_path / "site"
    assert build(drill_course, drill_site).exit_code == 0
    units = {unit: rows for unit, _, rows in index_of(drill_site)["units"]}
    faults = {name for name in units if name.startswith("fault:")}
    assert faults
    steps = {row[3] for name, rows in units.items() if name.startswith("step:drill.") for row in rows}
    assert steps
    assert all((drill_site / page).is_file() for page in steps)


def test_a_course_with_nothing_to_try_has_no_plan(tmp_path: Path, course_folder: Any, build: Any) -> None:
    course = course_folder(
        {"course.yml": "course: bare\ntitle: Bare\n", "measures.yml": MEASURES, "lessons/a.md": "# A\n"}
    )
    assert build(course, tmp_path / "site").exit_code == 0
    assert "case-today" not in (tmp_path / "site" / "index.html").read_text("utf-8")
    assert not (tmp_path / "site" / "assets" / "plan-index.js").exists()
