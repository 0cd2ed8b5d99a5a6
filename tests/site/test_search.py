"""What search may look through, and what it must never hold."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

from builder.site import search
from builder.words import ENGLISH

Build = Callable[[Path, Path], Result]
CourseFolder = Callable[..., Path]

MARKED = {
    "course.yml": "course: marked\ntitle: findTitle\nsummary: findSummary\nscope: findScope\n",
    "measures.yml": """
        measures:
          angle: {label: findMeasure, kind: number, unit: deg, from: 0, to: 60, step: 1, sem: 0,
                  note: findNote}
          ache: {label: findAche, kind: yes_no}
          calm: {label: findCalm, kind: yes_no}
          stance: {label: findStance, kind: choice, values: {near: {label: findNear}, far: {label: findFar}}}
        """,
    "objectives.yml": "objectives: {aim: {label: findObjective}}",
    "glossary.yml": "terms: {word: {label: findTerm, text: findMeaning, synonyms: [findSynonym]}}",
    "tables/way.yml": """
        table: way
        title: findTable
        question: findQuestion
        policy: unique
        inputs: [angle]
        note: hideTableNote
        outcomes:
          low: {label: hideLow, note: hideOutcomeNote}
          high: {label: hideHigh}
        rules:
          - {id: a, when: {angle: {below: 35}}, then: low, because: hideBecause}
          - {id: b, when: {angle: {at_least: 35}}, then: high, because: hideBecause}
        """,
    "cautions/stop.yml": """
        caution: stop
        title: findCaution
        level: watch
        when: [{ache: true}]
        applies_to: {way: [low]}
        text: findWarning
        """,
    "cases/one.yml": """
        case: one
        client: {name: findName, age: 30, about: findAbout}
        story: findStory
        readings: {angle: 20, ache: true, calm: false, stance: far}
        expect: {way: low}
        retest: {after: hideAfter, readings: {angle: 50}, note: hideRetestNote}
        """,
    "positions/stand.yml": """
        position: stand
        title: findPosition
        trunk: 90
        joints: {hip: 0, knee: 0}
        rests_on: {floor: [foot]}
        text: findPosture
        """,
    "drills/squat.yml": """
        drill: squat
        title: findDrill
        about: findDrillAbout
        position: stand
        stop: [hideStop]
        phases:
          - id: down
            label: findPhase
            cues: [findCue]
            faults:
              - {id: lift, sign: hideSign, cause: hideCause, corrections: [{say: hideCorrection}]}
              - {id: lean, sign: hideSign2, cause: hideCause2, corrections: [{say: hideCorrection2}]}
        """,
    "exercises/go.yml": """
        exercise: go
        title: someExercise
        about: hideExerciseAbout
        cases: all
        start: way
        steps:
          way: {decide: way, go: {low: ask, high: ask}}
          ask:
            ask: hideAsk
            choices:
              - {say: hideSayBest, best: true, reply: hideReplyBest, go: done}
              - {say: hideSay, reply: hideReply, go: ask}
          done: {end: hideEnd}
        """,
    "questions/bank.yml": """
        questions:
          - id: q1
            kind: one
            objective: aim
            stem: hideStem
            options: [{text: hideKey, key: true, why: hideWhyKey}, {text: hideOption, why: hideWhyOption}]
            why: hideWhy
          - {id: q2, kind: number, objective: aim, stem: hideStem, answer: 271828, why: hideWhy}
          - {id: q3, kind: order, objective: aim, stem: hideStem, items: [hideFirst, hideSecond, hideThird]}
          - id: q4
            kind: pairs
            objective: aim
            stem: hideStem
            pairs: [{left: hideLeft, right: hideRight}, {left: hideLeft2, right: hideRight2}]
          - {id: g1, family: decision, table: way, cases: all, objective: aim}
        """,
    "quizzes/quiz.yml": "quiz: quiz\ntitle: findQuiz\nabout: findQuizAbout\nquestions: [q1, q2, q3, g1]\n",
    "lessons/index.md": "# findTop\n\nfindOpening\n\n## findPart\n",
    "lessons/read.md": """
        # findLesson

        findText in *find*<!-- hideComment -->**Bold** and ![findPicture](x.png)

        ## findHeading

        | findCell |
        | --- |
        | findOther |
        """,
}
"""A course whose every prose tells whether search may find it."""


def index_of(site: Path) -> dict:
    text = (site / "assets" / "search-index.js").read_text("utf-8")
    found = re.fullmatch(r'\(window\.casetrueParts\?\?=\{\}\)\["search"\]=(.*);\n', text)
    assert found
    return json.loads(found[1])


@pytest.fixture
def marked(build: Build, course_folder: CourseFolder, tmp_path: Path) -> Path:
    course = course_folder(MARKED)
    (course / "lessons" / "x.png").write_bytes(b"")
    result = build(course, tmp_path / "site")
    assert result.exit_code == 0, result.output
    return tmp_path / "site"


def test_every_title_measure_finding_caution_and_lesson_is_there_and_no_answer_or_reason(
    marked: Path,
) -> None:
    text = (marked / "assets" / "search-index.js").read_text("utf-8")
    told = set(re.findall(r"\bfind\w+", "".join(MARKED.values())))
    wanted = told - {"findTop", "findFar"} | {
        "findBold"
    }  # the course's title stands above the home page's own
    assert {word for word in wanted if word not in text} == set()
    assert set(re.findall(r"\bhide\w+|271828", text)) == set()


def test_a_client_is_found_by_findings_and_not_by_what_is_not_there(marked: Path) -> None:
    index = index_of(marked)
    row = next(row for row in index["entries"] if row[0] == "clients/one.html")
    assert row[2] == "findName"
    assert [index["labels"][at] for at in row[3]] == ["findMeasure", "findAche", "findStance", "findFar"]
    assert row[4] == "findAbout findStory"


def test_each_kind_of_page_is_called_by_its_kind_and_every_address_is_there(marked: Path) -> None:
    index = index_of(marked)
    kinds = {row[0]: index["kinds"][row[1]] for row in index["entries"]}
    assert kinds["clients/one.html"] == "Client"
    assert kinds["tables/way.html"] == "Decision table"
    assert kinds["cautions/stop.html"] == "Caution"
    assert kinds["quizzes/quiz.html"] == "Quiz"
    assert kinds["measures.html#angle"] == "Measure"
    assert kinds["glossary.html#word"] == "Term"
    assert kinds["read.html"] == "Lesson"
    assert kinds["index.html"] == kinds["about.html"] == "Page"
    assert "search.html" not in kinds
    for uri in kinds:
        file, _, part = uri.partition("#")
        page = (marked / file).read_text("utf-8")
        assert not part or f'id="{part}"' in page, uri


def test_cautions_come_first_and_synonyms_beside_their_term(marked: Path) -> None:
    index = index_of(marked)
    assert index["cautions"] == 1
    kinds = [index["kinds"][row[1]] for row in index["entries"]]
    assert [at for at, kind in enumerate(kinds) if kind == "Caution"] == [0]
    others = [row[0] for row in index["entries"][1:]]
    assert others == sorted(others)
    assert index["synonyms"] == [["findTerm", "findSynonym"]]
    term = next(row for row in index["entries"] if row[0] == "glossary.html#word")
    assert term[4] == "findMeaning People also type: findSynonym"
    assert "People also type: findSynonym" in (marked / "glossary.html").read_text("utf-8")


@pytest.mark.parametrize(("language", "stems"), [("en-GB", {"breath": 3}), ("es", {"breath": 2}), ("ja", {})])
def test_families_are_those_of_the_courses_language(
    build: Build, small_course: Path, tmp_path: Path, language: str, stems: dict[str, int]
) -> None:
    about = small_course / "course.yml"
    about.write_text(about.read_text("utf-8").replace("language: en", f"language: {language}"), "utf-8")
    term = "terms: {air: {label: Air, text: breathing breathe breathes}}"
    (small_course / "glossary.yml").write_text(term, "utf-8")
    result = build(small_course, tmp_path / "site")
    assert result.exit_code == 0, result.output
    index = index_of(tmp_path / "site")
    assert index["synonyms"] == []
    assert {
        stem: len(numbers) for stem, numbers in index["stems"].items() if stem.startswith("breath")
    } == stems


def test_the_index_is_the_same_in_every_build(build: Build, small_course: Path, tmp_path: Path) -> None:
    for name in ("one", "two"):
        assert build(small_course, tmp_path / name).exit_code == 0
    one, two = ((tmp_path / name / "assets" / "search-index.js").read_bytes() for name in ("one", "two"))
    assert one == two


def test_hostile_words_cannot_leave_the_script(
    build: Build, small_course: Path, course_folder: CourseFolder, tmp_path: Path
) -> None:
    hostile = "</script><script>alert(1)</script> \u2028 <!-- "
    course = course_folder({"lessons/index.md": f"# `{hostile}`\n\n`{hostile}`\n"}, base=small_course)
    assert build(course, tmp_path / "site").exit_code == 0
    text = (tmp_path / "site" / "assets" / "search-index.js").read_text("utf-8")
    assert "<" not in text
    assert "\u2028" not in text
    assert "alert(1)" in text


def test_a_lesson_is_read_as_people_read_it() -> None:
    html = (
        '<h1 id="t">Title</h1><p>One <em>t</em>wo<br>three</p><h2 id="a">Part <code>x</code></h2>'
        "<style>no</style><ul><li>four</li><li>five &amp; six</li></ul>"
    )
    entry = search.lesson(ENGLISH, "x.html", "Title", html)
    assert entry.labels == ("Part x",)
    assert entry.text == "One two three four five & six"
