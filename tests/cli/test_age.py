"""The age of clients, as tables and cautions read it."""

from __future__ import annotations

import json
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from builder.answers import Answers
from builder.checks import check
from builder.course import AGE, NumberScale
from builder.site import Site
from builder.site.pages import clients as clients_page
from builder.site.pages import measures as measures_page
from builder.source import load
from builder.words import ENGLISH, sentences

Write = Callable[..., Path]
SOUND = {
    "course.yml": 'course: c\ntitle: C\nages: [18, 90]\nemergency: {number: "112"}\n',
    "measures.yml": "measures:\n  pain: {label: Pain, kind: yes_no}\n",
    "tables/load.yml": """
        table: load
        question: How much to begin with?
        policy: unique
        inputs: [age, pain]
        outcomes: {light: {label: Light}, usual: {label: As usual}}
        rules:
          - {id: old, when: {age: {at_least: 65}}, then: light}
          - {id: sore, when: {age: {below: 65}, pain: true}, then: light}
          - {id: well, when: {age: {below: 65}, pain: false}, then: usual}
        source: common-practice
        """,
    "cases/tern.yml": "case: tern\nclient: {name: Tern, age: 70}\nreadings: {pain: false}\n",
}


def told(course: Path) -> list[str]:
    return [f"{one.code} {one.file}:{one.line}:{one.column} {one.message}" for one in check(load(course))]


def test_a_table_reads_the_age_of_a_client(run, course_folder: Write) -> None:
    course = course_folder(SOUND)
    assert told(course) == []
    result = run("explain", "tern", "--course", course, "--format", "json")
    found = json.loads(result.stdout)
    assert found["readings"] == {"pain": {"value": False}, "age": {"value": 70, "trials": [70]}}
    (decision,) = found["decisions"]
    assert (decision["outcome"], decision["rule"]) == ("light", "old")
    assert decision["chance"] == {"light": 1.0, "usual": 0.0}
    assert decision["nearest"] == [], "nobody grows younger"
    said = run("explain", "tern", "--course", course).output
    assert "Age: 70 years against at least 65 years: 5 years over" in said


def test_pages_show_age_as_they_show_a_reading(course_folder: Write) -> None:
    loaded = load(course_folder(SOUND))
    site = Site(Answers(loaded.course), loaded.texts)
    (measures,) = measures_page.pages(site)
    assert '<h2 id="age">Age</h2>' in measures.body
    assert "18 to 90 years" in measures.body
    assert "Clients with this reading" not in measures.body.split('id="age"')[1], "that would be everyone"
    (tern,) = clients_page.client(site, loaded.course.cases["tern"])
    assert "70 years" in tern.body
    assert "Age" not in tern.labels


def test_without_a_reader_age_is_no_measure(small_course: Path) -> None:
    assert AGE not in load(small_course).course.measures


def test_a_measure_of_that_name_wins(course_folder: Write) -> None:
    measures = """
        measures:
          pain: {label: Pain, kind: yes_no}
          age: {label: Training age, kind: number, unit: years, from: 0, to: 80, step: 1, sem: 0}
        """
    case = "case: tern\nclient: {name: Tern, age: 70}\nreadings: {pain: false, age: 3}\n"
    loaded = load(course_folder(SOUND | {"measures.yml": measures, "cases/tern.yml": case}))
    assert check(loaded) == ()
    assert sentences.label(loaded.course, AGE) == "Training age"
    (decision,) = Answers(loaded.course).clients["tern"].decisions.values()
    assert decision.outcome == "usual"


@pytest.mark.parametrize(
    ("case", "problem"),
    [
        (
            "client: {name: Tern}\nreadings: {pain: false}",
            "reading-missing cases/tern.yml:2:1 tern has no `age`, which the table load needs.",
        ),
        (
            "client: {name: Tern, age: 91}\nreadings: {pain: false}",
            "age-outside cases/tern.yml:2:27 tern is 91, and the course is for ages from 18 to 90.",
        ),
        (
            "client: {name: Tern, age: 70}\nreadings: {pain: false, age: 30}",
            "missing-reference cases/tern.yml:3:30 `age` is no measure.",
        ),
        (
            "client: {name: Tern, age: 70}\nreadings: {pain: false}\nnear_cut: [age]",
            "missing-reference cases/tern.yml:4:12 `age` is no measure.",
        ),
        (
            "client: {name: Tern, age: 70}\nreadings: {pain: false}\n"
            "retest: {after: a year, readings: {age: 71}}",
            "missing-reference cases/tern.yml:4:41 `age` is no measure.",
        ),
    ],
)
def test_an_age_that_cannot_be_is_told_once(course_folder: Write, case: str, problem: str) -> None:
    assert told(course_folder(SOUND | {"cases/tern.yml": f"case: tern\n{case}\n"})) == [problem]


def test_everyone_has_an_age_also_who_is_sent_on_before_it_is_read(course_folder: Write) -> None:
    screen = """
        table: screen
        question: May this client begin?
        policy: unique
        inputs: [pain]
        outcomes: {stop: {label: Stop, ends: true}, go: {label: Go}}
        rules:
          - {id: hurts, when: {pain: true}, then: stop}
          - {id: fine, when: {pain: false}, then: go}
        source: common-practice
        """
    case = "case: tern\nclient: {name: Tern}\nreadings: {pain: true}\n"
    about = SOUND["course.yml"] + "pathway: [screen, load]\n"
    course = course_folder(SOUND | {"course.yml": about, "tables/screen.yml": screen, "cases/tern.yml": case})
    assert [one.split()[0] for one in told(course)] == ["reading-missing"]


def test_a_gap_is_found_between_two_ages(course_folder: Write) -> None:
    table = SOUND["tables/load.yml"].replace("at_least: 65", "above: 65")
    (problem,) = check(load(course_folder(SOUND | {"tables/load.yml": table})))
    assert (problem.code, problem.example) == ("table-gap", {"pain": False, "age": 65})
    assert problem.region == "age 65 years"


def test_proofs_end_where_the_ages_do(course_folder: Write) -> None:
    table = SOUND["tables/load.yml"].replace("at_least: 65", "at_least: 65, at_most: 90")
    course = course_folder(SOUND | {"tables/load.yml": table})
    assert told(course) == []
    course_folder({"course.yml": "course: c\ntitle: C\n"}, course)
    (problem,) = (one for one in check(load(course)) if one.severity == "error")
    assert problem.code == "table-gap"
    assert problem.example is not None
    assert 90 < problem.example[AGE] <= 120


def test_a_caution_reads_age(course_folder: Write) -> None:
    caution = """
        caution: frail
        title: Frail
        level: adapt
        when: [{age: {above: 80}}]
        text: Go slowly.
        refer_to: doctor
        source: common-practice
        """
    about = SOUND["course.yml"] + "contacts: {doctor: {label: Doctor}}\n"
    case = SOUND["cases/tern.yml"].replace("70", "81")
    files = {"course.yml": about, "cautions/frail.yml": caution, "cases/tern.yml": case}
    loaded = load(course_folder({"measures.yml": SOUND["measures.yml"]} | files))
    assert [one.code for one in check(loaded)] == ["review-missing"]
    assert [one.name for one in Answers(loaded.course).clients["tern"].met] == ["frail"]
    scale = loaded.course.measures[AGE].scale
    assert isinstance(scale, NumberScale)
    assert (scale.start, scale.stop, scale.step, scale.sem) == (18, 90, 1, 0)
    assert sentences.when(ENGLISH, loaded.course, loaded.course.cautions["frail"].when[0]) == (
        "Age above 80 years"
    )


def test_an_unread_measure_of_that_name_is_not_replaced(course_folder: Write) -> None:
    measures = "measures:\n  pain: {label: Pain, kind: yes_no}\n  age: {label: Age, kind: number}\n"
    loaded = load(course_folder(SOUND | {"measures.yml": measures}))
    assert AGE not in loaded.course.measures
    assert {one.code for one in check(loaded)} == {"schema"}


def test_a_new_client_has_an_age_that_the_course_is_for(run, course_folder: Write) -> None:
    about = SOUND["course.yml"].replace("18, 90", "70, 90")
    course = course_folder(SOUND | {"course.yml": about})
    table = SOUND["tables/load.yml"].replace("65", "75")
    course_folder({"tables/load.yml": table}, course)
    assert run("new", "case", "wren", "--course", course).exit_code == 0
    assert told(course) == []
    wren = load(course).course.cases["wren"]
    assert wren.client.age is not None
    assert wren.readings[AGE].trials == (Fraction(wren.client.age),)
    assert "\n  age: " in (course / "cases" / "wren.yml").read_text()
    assert "Age:" not in (course / "cases" / "wren.yml").read_text(), "it is told under `client` alone"
