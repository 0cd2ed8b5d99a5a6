"""A whole folder: what is read, what is not, and what is left out."""

from __future__ import annotations

import os
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from builder.course import AnyOf, Band, Is, Place, Reading
from builder.source import Loaded, NoCourse, load

Write = Callable[..., Path]
COURSE = "course: c\ntitle: C\n"
MEASURES = "measures:\n  pain: {label: Pain, kind: yes_no}\n"
BASE = {"course.yml": COURSE, "measures.yml": MEASURES}
CASE = "case: {0}\nclient: {{name: X}}\nreadings: {{pain: true}}\n"


def told(loaded: Loaded) -> list[tuple[str, int, int, str, str]]:
    return [(one.file, one.line, one.column, one.code, one.subject) for one in loaded.problems]


def test_a_sound_course_has_no_problem(small_course: Path) -> None:
    loaded = load(small_course)
    assert loaded.problems == ()
    assert set(loaded.texts) == {
        path.relative_to(small_course).as_posix()
        for path in small_course.rglob("*")
        if path.suffix in (".yml", ".md")
    } - {"mkdocs.yml"}


def test_numbers_are_exact_and_conditions_follow_their_form(course_folder: Write) -> None:
    files = {
        **BASE,
        "measures.yml": """
            measures:
              angle: {label: A, kind: number, unit: deg, from: 0, to: 1.1, step: 0.1, sem: 0.05}
              pain: {label: Pain, kind: yes_no}
              stance: {label: Stance, kind: choice, values: [hip_wide, narrow]}
            """,
        "tables/t.yml": """
            table: t
            question: Q
            policy: first
            inputs: [angle, pain, stance]
            outcomes: {a: {label: A, ends: true}}
            rules:
              - id: r
                when: {angle: {above: 0.3, at_most: 1}, pain: false, stance: [narrow, hip_wide]}
                then: a
              - {id: s, when: {stance: narrow}, then: a}
            """,
        "cases/c.yml": """
            case: k
            client: {name: Tern}
            readings: {angle: [0.1, 0.3], pain: true, stance: narrow}
            """,
    }
    course = load(course_folder(files)).course
    scale = course.measures["angle"].scale
    assert (scale.stop, scale.step, scale.sem) == (Fraction(11, 10), Fraction(1, 10), Fraction(1, 20))  # type: ignore[union-attr]
    first, second = course.tables["t"].rules
    assert first.when == {
        "angle": Band({"above": Fraction(3, 10), "at_most": Fraction(1)}),
        "pain": Is(False),
        "stance": AnyOf(("narrow", "hip_wide")),
    }
    assert second.when == {"stance": AnyOf(("narrow",))}
    assert course.cases["k"].readings == {
        "angle": Reading((Fraction(1, 10), Fraction(3, 10))),
        "pain": Reading((), True),
        "stance": Reading((), "narrow"),
    }
    assert first.origin.at("when", "angle") == Place("tables/t.yml", 8, 12)
    assert first.origin.at("when", "angle", "above") == Place("tables/t.yml", 8, 27)
    assert first.origin.at("because") == first.origin.at() == Place("tables/t.yml", 7, 5)
    assert course.tables["t"].origin.at("rules") == Place("tables/t.yml", 6, 1)


def test_one_bad_thing_leaves_the_rest(course_folder: Write) -> None:
    files = {
        **BASE,
        "cases/good.yml": CASE.format("good"),
        "cases/bad.yml": "case: bad\nclient: {name: X}\n",
        "cases/broken.yml": "case: [\n",
        "tables/t.yml": "table: t\nquestion: Q\npolicy: some\ninputs: []\noutcomes: {a: {label: A}}\n"
        "rules: [{id: r, when: {}, then: a}]\n",
    }
    loaded = load(course_folder(files))
    assert told(loaded) == [
        ("cases/bad.yml", 1, 1, "schema", "case:bad"),
        ("cases/broken.yml", 1, 8, "yaml", "file:cases/broken.yml"),
        ("tables/t.yml", 3, 9, "schema", "table:t"),
    ]
    assert set(loaded.course.cases) == {"good"}
    assert loaded.left_out["case"] == {"bad"}
    assert loaded.left_out["table"] == {"t"}


def test_a_bad_course_file_still_gives_a_course(course_folder: Write) -> None:
    files = {**BASE, "course.yml": "course: c\ntitel: C\npass_mark: 0.7\nhours: many\n"}
    loaded = load(course_folder(files))
    assert [line[1:4] for line in told(loaded)] == [(2, 1, "schema"), (4, 8, "schema")]
    assert (loaded.course.about.name, loaded.course.about.title) == ("c", "c")
    assert loaded.course.about.pass_mark == Fraction(7, 10)
    assert set(loaded.course.measures) == {"pain"}


@pytest.mark.parametrize("text", ["", "[]", "- a\n", "course: [", "\x00", "just words\n"])
def test_a_hopeless_course_file_still_gives_a_course(course_folder: Write, text: str) -> None:
    loaded = load(course_folder({**BASE, "course.yml": text}))
    assert [problem.file for problem in loaded.problems] == ["course.yml"]
    assert loaded.course.about.name == "course"
    assert set(loaded.course.measures) == {"pain"}


def test_no_course_file_is_no_course(course_folder: Write, tmp_path: Path) -> None:
    with pytest.raises(NoCourse, match=r"no course\.yml"):
        load(course_folder({"measures.yml": MEASURES}))
    with pytest.raises(NoCourse, match="no folder"):
        load(tmp_path / "nowhere")
    with pytest.raises(NoCourse, match="no folder"):
        load(course_folder({"file": ""}) / "file")


def test_missing_measures_are_told_where_they_are_asked_for(course_folder: Write) -> None:
    assert told(load(course_folder({"course.yml": COURSE}))) == [
        ("course.yml", 1, 1, "missing-reference", "file:measures.yml")
    ]


def test_the_later_of_two_names_is_the_duplicate(course_folder: Write) -> None:
    table = (
        "table: {0}\nquestion: Q\npolicy: first\ninputs: []\noutcomes: {{a: {{label: A}}}}\n"
        "rules: [{{id: r, when: {{}}, then: a}}]\n"
    )
    files = {
        **BASE,
        "cases/a.yml": CASE.format("one"),
        "cases/b.yml": "- "
        + CASE.format("two").replace("\n", "\n  ").rstrip()
        + "\n- "
        + CASE.format("one").replace("\n", "\n  ").rstrip()
        + "\n",
        "tables/pain.yml": table.format("pain"),
    }
    loaded = load(course_folder(files))
    assert told(loaded) == [
        ("cases/b.yml", 4, 9, "duplicate-name", "case:one"),
        ("tables/pain.yml", 1, 8, "duplicate-name", "table:pain"),
    ]
    assert "cases/a.yml, line 1" in loaded.problems[0].message
    assert loaded.course.cases["one"].origin.file == "cases/a.yml"


def test_both_yaml_endings_and_sub_folders_are_read(course_folder: Write) -> None:
    files = {
        **BASE,
        "cases/one.yaml": CASE.format("one"),
        "cases/week-1/two.yml": CASE.format("two"),
        "lessons/part/x.md": "# X\n",
    }
    loaded = load(course_folder(files))
    assert loaded.problems == ()
    assert set(loaded.course.cases) == {"one", "two"}
    assert [lesson.file for lesson in loaded.course.lessons] == ["lessons/part/x.md"]


def test_editors_leftovers_are_passed_over(course_folder: Write) -> None:
    names = (".hidden.yml", "a.yml~", "#a.yml#", "~a.yml", "a.yml.swp", "a.yml.bak", ".git/x.yml")
    loaded = load(course_folder({**BASE, **{f"cases/{name}": "case: [\n" for name in names}}))
    assert loaded.problems == ()


@pytest.mark.parametrize(
    ("name", "hint"),
    [
        ("measure.yml", "Did you mean measures.yml?"),
        ("Sources.yml", "Did you mean sources.yml?"),
        ("case/a.yml", "Did you mean cases/?"),
        ("cases/a.yml.txt", "Rename it to end in `.yml`."),
        ("cases/a.json", "Rename it to end in `.yml`."),
        ("tables", "Rename it, then make a folder tables/ and put it there."),
        ("cases.yml", "Rename it, then make a folder cases/ and put it there."),
        ("unknown.yml", "Files of this kind stand in a folder, such as tables/ or cases/."),
    ],
)
def test_a_file_that_seems_meant_is_told(course_folder: Write, name: str, hint: str) -> None:
    (problem,) = load(course_folder({**BASE, name: "x: 1\n"})).problems
    assert (problem.code, problem.severity, problem.hint) == ("file-ignored", "warning", hint)
    assert problem.file == (name if name.startswith("cases/") else name.split("/")[0])


def test_other_files_are_nobodys_business(course_folder: Write) -> None:
    files = {
        "mkdocs.yml": "x: [",
        "notes.md": "x",
        "cases/README.md": "x",
        "pictures/x.svg": "x",
        "cases/x.png": "x",
    }
    assert load(course_folder({**BASE, **files})).problems == ()


def test_a_name_that_is_no_text_is_shown_as_far_as_it_can_be(course_folder: Write) -> None:
    folder = course_folder({**BASE, "cases/one.yml": CASE.format("one")})
    Path(os.fsdecode(os.fsencode(folder / "cases") + b"/\xff.yml")).write_text("case: [")
    (problem,) = load(folder).problems
    assert problem.file == "cases/\ufffd.yml"


def test_a_file_that_cannot_be_opened_is_told(course_folder: Write, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(path: Path) -> bytes:
        raise PermissionError(path)

    monkeypatch.setattr("builder.source.loader.read_bytes", refuse)
    assert {problem.message for problem in load(course_folder(BASE)).problems} == {
        "The file cannot be opened."
    }


def test_folders_named_like_files_do_no_harm(course_folder: Write) -> None:
    folder = course_folder(BASE)
    (folder / "sources.yml").mkdir()
    (folder / "cases" / "x.yml").mkdir(parents=True)
    assert load(folder).problems == ()


def test_bytes_that_are_no_text_are_told_and_shown(course_folder: Write) -> None:
    loaded = load(course_folder({**BASE, "cases/a.yml": b"case: \xff\n", "lessons/a.md": b"# \xff\n"}))
    assert told(loaded) == [
        ("cases/a.yml", 1, 7, "yaml", "file:cases/a.yml"),
        ("lessons/a.md", 1, 3, "yaml", "file:lessons/a.md"),
    ]
    assert loaded.texts["cases/a.yml"] == "case: \ufffd\n"


def test_two_readings_of_a_course_are_equal(small_course: Path) -> None:
    assert load(small_course) == load(small_course)


def test_a_second_course_file_is_not_used(course_folder: Write) -> None:
    loaded = load(course_folder({**BASE, "course.yaml": "course: other\ntitle: O\n"}))
    assert told(loaded) == [("course.yml", 1, 1, "file-ignored", "file:course.yml")]
    assert loaded.course.about.name == "other"


def test_a_course_read_again_while_serving_is_the_course_as_it_stands(
    small_course: Path, course_folder: Callable[..., Path]
) -> None:
    folder = course_folder(
        {"cases/new.yml": "case: new\nclient: {name: New}\nreadings: {}\n"}, base=small_course
    )
    first, again = load(folder), load(folder)
    assert (again.course, again.problems) == (first.course, first.problems)
    (folder / "cases/new.yml").write_text("case: new\nclient: {name: Other}\nreadings: {}\n", "utf-8")
    assert load(folder).course.cases["new"].client.name == "Other"
    assert first.course.cases["new"].client.name == "New"
