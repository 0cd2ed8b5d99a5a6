"""Checks find what a build would find: files in each other's way, names that some machine cannot hold."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from builder.answers import Answers, addresses
from builder.checks import check
from builder.checks.rules import name_unfit
from builder.checks.rules.address_taken import OWN_FILES
from builder.checks.scope import Scope
from builder.problems import Problem
from builder.source import load
from builder.source.marks import Marks

from ..browser.states import whole_site

Write = Callable[..., Path]
CASE = "case: {}\nclient: {{name: N}}\nreadings: {{}}\n"


def told(course: Path, code: str) -> list[Problem]:
    found = [problem for problem in check(load(course)) if problem.code == code]
    assert all(problem.severity == "error" and problem.hint for problem in found)
    return found


@pytest.mark.parametrize(
    "name",
    [
        *("measures.md", "Measures.md", "about.md", "search.md", "lessons.md", "record.md", "sources.md"),
        *("clients/index.md", "clients/README.md", "tables/plan.md", "TABLES/Plan.md", "cautions/index.md"),
        *("clients/tern-03.md", "clients/tern-03.html", "quizzes/ankle-check.md", "404.md", "sitemap.xml"),
        *("assets/casetrue.css", "Assets/Casetrue.CSS", "assets/casetrue.js", "assets/scheme.js"),
        *("assets/plumb.svg", "assets/search-index.js", "clients", "assets", "measures.html/foot.png"),
    ],
)
def test_a_file_in_the_way_of_the_builders_own_is_told(
    course_folder: Write, small_course: Path, name: str
) -> None:
    course_folder({f"lessons/{name}": "# Words\n"}, small_course)
    (problem,) = told(small_course, "address-taken")
    assert (problem.file, problem.line, problem.column) == (f"lessons/{name}", 1, 1)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Foot.md", "foot.md"),
        ("README.md", "index.md"),
        ("a/README.md", "a/index.md"),
        ("Foot.png", "foot.png"),
        ("FOOT/a.png", "foot/A.png"),
        ("Stra\u00dfe.md", "strasse.md"),
        ("a.html/foot.png", "a.md"),
        ("B", "b/foot.png"),
    ],
)
def test_two_files_in_each_others_way_are_told(
    course_folder: Write, small_course: Path, one: str, other: str
) -> None:
    course_folder({f"lessons/{one}": "# Words\n", f"lessons/{other}": "# Words\n"}, small_course)
    (problem,) = told(small_course, "address-taken")
    assert problem.file == f"lessons/{other}"
    assert f"lessons/{one}" in problem.message


@pytest.mark.parametrize(
    "name", ["index.md", "assets/foot.png", "clients/more.md", "tables/index.png", "a/index.md"]
)
def test_a_file_beside_the_builders_own_is_not(course_folder: Write, small_course: Path, name: str) -> None:
    course_folder({f"lessons/{name}": "# Words\n"}, small_course)
    assert told(small_course, "address-taken") == []


def test_a_picture_of_a_position_is_not_written_over(course_folder, small_course: Path) -> None:
    position = "position: stand\ntitle: Stand\ntrunk: 90\njoints: {hip: 0}\ntext: Someone stands.\n"
    made = {
        "positions/stand.yml": position,
        "lessons/assets/position-stand.svg": "<svg/>",
        "lessons/a.md": "# A\n",
    }
    course_folder(made, small_course)
    files = [one.file for one in told(small_course, "address-taken")]
    assert files == ["lessons/assets/position-stand.svg"]


def test_it_knows_just_the_files_that_a_site_has(tmp_path: Path) -> None:
    """Every file of a site is a page, a lesson or what lies beside it, a part of a quiz, or known."""
    site = whole_site(tmp_path)
    course = next(path.parent for path in tmp_path.rglob("course.yml"))
    answers = Answers(load(course).course)
    lessons = (addresses.lesson(lesson.file) for lesson in answers.course.lessons)
    known = {*addresses.every_page(answers), *lessons}
    known |= {addresses.position_picture(name) for name in answers.course.positions}
    found = {path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file()}
    parts = {name for name in found if name.startswith("quizzes/") and name.endswith(".js")}
    rest = {name for name in found - known - parts if not Path(name).name.startswith(".")}
    assert {name for name in rest if not (course / "lessons" / name).is_file()} <= set(OWN_FILES)
    assert set(OWN_FILES) - rest <= {"sitemap.xml"}


@pytest.mark.parametrize(
    "name",
    [
        *("con.md", "CON.md", "nul.md", "aux.png", "prn", "com1.md", "LPT9.md", "com\u00b9.md", "conin$.md"),
        *("con .md", "con.tar.md", "nul/foot.png", "a./foot.png", "a /foot.png", "foot.", "foot "),
        *("a<b.md", "a>b.md", "a:b.md", 'a"b.md', "a\\b.md", "a|b.md", "a?b.md", "a*b.md"),
    ],
)
def test_a_name_that_windows_cannot_hold_is_told(course_folder: Write, small_course: Path, name: str) -> None:
    course_folder({f"lessons/{name}": "# Words\n"}, small_course)
    (problem,) = told(small_course, "name-unfit")
    assert (problem.file, problem.subject) == (f"lessons/{name}", f"file:lessons/{name}")


@pytest.mark.parametrize("name", ["cases/aux.yml", "cases/what?.yml", "tables/con.yml", "cases/a./b.yml"])
def test_files_of_the_course_are_looked_at_too(course_folder: Write, small_course: Path, name: str) -> None:
    course_folder({name: CASE.format("x")}, small_course)
    assert [problem.file for problem in told(small_course, "name-unfit")] == [name]


@pytest.mark.parametrize(
    "name",
    ["console.md", "com.md", "com10.md", "\u00fcbung.md", "a b.md", "a.b.md", "a,b;c.md", "\u7ec3\u4e60.md"],
)
def test_other_names_are_fine(course_folder: Write, small_course: Path, name: str) -> None:
    course_folder({f"lessons/{name}": "# Words\n"}, small_course)
    assert told(small_course, "name-unfit") == []


@pytest.mark.parametrize("name", ["con", "NUL", "aux", "prn", "com1", "Lpt9"])
def test_no_page_is_called_like_a_device(course_folder: Write, small_course: Path, name: str) -> None:
    course_folder({"cases/more.yml": CASE.format(name)}, small_course)
    (problem,) = told(small_course, "name-unfit")
    assert (problem.subject, problem.line, problem.column) == (f"case:{name}", 1, 7)


def test_clients_that_differ_only_in_capitals_are_told(course_folder: Write, small_course: Path) -> None:
    course_folder({"cases/more.yml": f"- {CASE.format('Tern-03')}".replace("\n", "\n  ")}, small_course)
    (problem,) = told(small_course, "duplicate-name")
    assert problem.file == "cases/more.yml"


@pytest.mark.parametrize("name", [" ", "\u00a0", "\u200b", "\u2060\u2062", "\u202e", "\u3000\t", "\u0301"])
def test_a_client_has_a_name_that_can_be_seen(course_folder: Write, small_course: Path, name: str) -> None:
    text = CASE.format("more").replace(
        "name: N", f'name: "{name.encode("ascii", "backslashreplace").decode()}"'
    )
    course_folder({"cases/more.yml": text}, small_course)
    (problem,) = told(small_course, "name-unfit")
    assert (problem.subject, problem.message) == ("case:more", "The client's name shows nothing.")


@pytest.mark.parametrize("sign", "\u202a\u202b\u202d\u202e\u2066\u2067\u2068")
def test_a_clients_name_turns_no_direction(course_folder: Write, small_course: Path, sign: str) -> None:
    text = CASE.format("more").replace("name: N", f'name: "Tern\\u{ord(sign):04x}x"')
    course_folder({"cases/more.yml": text}, small_course)
    (problem,) = told(small_course, "name-unfit")
    assert problem.subject == "case:more"


@pytest.mark.parametrize(
    "name", ["Tern", "\u00c9lo\u00efse", "\u0645\u0631\u064a\u0645\u200f", "\u7530", "O'Neil 2"]
)
def test_other_names_of_clients_are_fine(course_folder: Write, small_course: Path, name: str) -> None:
    course_folder({"cases/more.yml": CASE.format("more").replace("N}", f'"{name}"}}')}, small_course)
    assert told(small_course, "name-unfit") == []


def test_no_file_is_read_again_for_a_name_that_fits(
    small_course: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """To find a place reads its file once more, which takes long with many clients."""
    scope = Scope.of(load(small_course), None)
    monkeypatch.setattr(Marks, "spot", lambda *_: pytest.fail("read again"))
    assert list(name_unfit.check(scope)) == []
