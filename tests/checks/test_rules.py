"""What single checks tell apart, beyond the examples."""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from builder.answers import Answers
from builder.checks import CHECKS, Scope, check
from builder.checks.markup import foreign_images, ignored
from builder.course import About, Course
from builder.decide.space import Space
from builder.source import load

from ..examples.reading import GOOD


def faults(code: str, course: Course, today: str | None = None):
    return list(CHECKS[code](Scope(Answers(course), today)))


def plain() -> Course:
    return load(GOOD / "plain").course


def test_proof_unfinished():
    """With almost no work allowed, everything is told as unproved: nothing is silently passed over."""
    course = load(GOOD / "with-cautions").course
    scope = Scope(Answers(course))
    scope.answers.rules.space = Space(course, steps=1)
    told = {(fault.subject, fault.place.file) for fault in CHECKS["proof-unfinished"](scope)}
    assert told == {("table:screen", "tables/screen.yml"), ("caution:chest", "cautions/chest.yml")}


@pytest.mark.parametrize(
    "text",
    [
        "Certified breathing coach",
        "After this course you are licensed to coach.",
        "An accredited course for coaches",
        "Become a Certified Trainer!",
        "Our certificate is accredited.",
        "Ask a licensed clinician. You will be certified at the end of the course.",
    ],
)
def test_claims_are_warned_of(text: str):
    course = Course(About("c", text))
    assert len(faults("wording", course)) == 1
    assert faults("wording", replace(course, about=replace(course.about, accreditation="Board of X"))) == []


@pytest.mark.parametrize(
    "text",
    [
        "Ask a licensed clinician before your course.",
        "Licensed healthcare providers decide; you send the client on.",
        "See a licensed physical therapist or a certified nurse-midwife during the course.",
        "This course is not accredited.",
        "Nobody becomes certified by this course, and it isn't accredited.",
        "A certified scale weighs to the gram.",
        "The gym is licensed to serve coffee.",
        "The course awards an assessment-based certificate.",
    ],
)
def test_what_claims_nothing_is_left_alone(text: str):
    assert faults("wording", Course(About("c", text))) == []


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("<script>alert(1)</script>", ["<script>alert(1)</script>"]),
        ("a <b>bold</b> word", ["<b>", "</b>"]),
        ("<!-- hidden -->", ["<!-- hidden -->"]),
        ("[x](javascript:alert(1))", ["javascript:alert(1)"]),
        ("[x](JaVaScRiPt:alert(1))", ["JaVaScRiPt:alert(1)"]),
        ("[x](data:text/html,hi)", ["data:text/html,hi"]),
        ("<javascript:alert(1)>", ["javascript:alert(1)"]),
        ("5 < 6 and 7 > 2, angle <90, a <3", []),
        ("[x](https://a.example), <mailto:a@a.example>, [y](knee.md)", []),
        ("`<b>` in code", []),
    ],
)
def test_markup_that_pages_ignore(text: str, found: list[str]):
    assert list(ignored(text)) == found


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("![a](https://a.example/a.png)", ["https://a.example/a.png"]),
        ("![a](//a.example/a.png)", ["//a.example/a.png"]),
        ("![a][1]\n\n[1]: http://a.example/a.png", ["http://a.example/a.png"]),
        ("![a](pictures/a.png) and [b](https://a.example/a.png)", []),
    ],
)
def test_pictures_from_elsewhere(text: str, found: list[str]):
    assert list(foreign_images(text)) == found


@pytest.mark.parametrize(("today", "number"), [("2027-01-01", 0), ("2027-01-02", 1), (None, 0)])
def test_a_review_is_due_the_day_after(today: str | None, number: int):
    assert len(faults("review-due", load(GOOD / "with-cautions").course, today)) == number


def test_readings_that_later_tables_need_may_be_left_out_once_the_client_is_sent_on():
    course = plain()
    assert set(course.cases["rail"].readings) == {"pain"}
    assert faults("reading-missing", course) == []
    stays = replace(course.tables["screen"].outcomes["refer"], ends=False)
    screen = replace(course.tables["screen"], outcomes={**course.tables["screen"].outcomes, "refer": stays})
    kept = replace(course, tables={**course.tables, "screen": screen})
    missing = [fault.message for fault in faults("reading-missing", kept)]
    assert missing == [
        "rail has no reading of `ankle`, which the table plan needs.",
        "rail has no reading of `stance`, which the table plan needs.",
    ]


def test_a_broken_file_is_not_followed_by_complaints_about_what_it_holds(tmp_path: Path, course_folder):
    course = Path(shutil.copytree(GOOD / "plain", tmp_path / "broken"))
    measures = (course / "measures.yml").read_text(encoding="utf-8")
    course_folder(
        {"measures.yml": measures + "  odd: [\n", "course.yml": "course: plain\ntitle: T\nhours: many\n"},
        course,
    )
    problems = check(load(course), "2026-06-01")
    assert {(problem.code, problem.file) for problem in problems} == {
        ("yaml", "measures.yml"),
        ("schema", "course.yml"),
    }


def test_the_order_is_that_of_the_files():
    course = load(GOOD / "plain")
    problems = check(course, "2026-06-01")
    assert list(problems) == sorted(problems, key=lambda problem: problem.order)


@pytest.mark.parametrize(
    ("files", "hint"),
    [
        (
            {"objectives.yml": None},
            "There is no objectives.yml yet: add it, with `class-ankle` in it.",
        ),
        (
            {"sources.yml": None, "measures.yml": "measures:\n  a: {label: A, kind: yes_no, source: book}\n"},
            "There is no sources.yml yet: add it, with `book` in it. "
            "Without a published source, cite `common-practice`.",
        ),
        (
            {"measures.yml": "measures:\n  a: {label: A, kind: yes_no, how: lessons/2-measure.md}\n"},
            "Write this lesson, or correct its name.",
        ),
        (
            {"measures.yml": "measures:\n  a: {label: A, kind: yes_no, how: lessons/4-start.md}\n"},
            "Did you mean `lessons/3-start.md`?",
        ),
        (
            {"measures.yml": "measures:\n  a: {label: A, kind: yes_no, how: lesson/start.md}\n"},
            "Did you mean `lessons/3-start.md`?",
        ),
    ],
)
def test_what_to_do_about_a_name_that_is_not_there(tmp_path: Path, course_folder, files, hint: str):
    course = Path(shutil.copytree(GOOD / "plain", tmp_path / "plain"))
    course_folder({"lessons/3-start.md": "# Start\n", **files}, course)
    hints = {one.hint for one in check(load(course), "2026-06-01") if one.code == "missing-reference"}
    assert hint in hints
