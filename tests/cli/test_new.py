"""`casetrue new`: what it writes passes the check as it is, in every sound course there is."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from builder.checks import check
from builder.cli.new import KINDS
from builder.source import load

from ..examples.reading import GOOD, TODAY

ROOT = Path(__file__).parents[2]
COURSES = [*sorted(GOOD.iterdir()), ROOT / "tests" / "courses" / "ankle", ROOT / "course_src"]

NEAR = {
    "course.yml": "course: near\ntitle: Every reading is near a line\n",
    "measures.yml": """
        measures:
          angle:
            {label: Angle, kind: number, unit: deg, from: 0, to: 3, step: 1, sem: 5, sem_source: from-memory}
        """,
    "tables/t.yml": """
        table: t
        question: Which?
        policy: unique
        inputs: [angle]
        outcomes: {low: {label: Low}, high: {label: High}}
        rules:
          - {id: low, when: {angle: {below: 2}}, then: low}
          - {id: high, when: {angle: {at_least: 2}}, then: high}
        source: from-memory
        """,
}


def problems(course: Path) -> list[tuple[str, str]]:
    return [(problem.code, problem.subject) for problem in check(load(course), TODAY)]


@pytest.fixture(params=COURSES, ids=lambda course: course.name)
def course(request, tmp_path: Path) -> Path:
    return Path(shutil.copytree(request.param, tmp_path / "course"))


def unreviewed(kind: str) -> list[tuple[str, str]]:
    """No clinician can have read what was written just now."""
    return [("review-missing", f"{kind}:brand-new")] if kind in ("caution", "drill") else []


@pytest.mark.parametrize("kind", KINDS)
def test_a_new_file_passes_the_check(run, course: Path, kind: str):
    before = problems(course)
    result = run("new", kind, "brand-new", "--course", course)
    assert result.exit_code == 0, result.output
    added = [problem for problem in problems(course) if problem not in before]
    assert added == unreviewed(kind)
    loaded = load(course).course
    rooms = {
        "case": loaded.cases, "table": loaded.tables, "caution": loaded.cautions,
        "question": loaded.questions, "exercise": loaded.exercises,
        "position": loaded.positions, "drill": loaded.drills,
    }  # fmt: skip
    assert "brand-new" in rooms[kind]


def test_all_kinds_one_after_the_other(run, course: Path):
    before = problems(course)
    for kind in KINDS:
        assert run("new", kind, f"new-{kind}", "--course", course).exit_code == 0
    added = [problem for problem in problems(course) if problem not in before]
    assert added == [("review-missing", "caution:new-caution"), ("review-missing", "drill:new-drill")]


@pytest.mark.parametrize("kind", KINDS)
def test_where_every_reading_is_near_a_line(run, course_folder, kind: str):
    course = course_folder(NEAR)
    assert problems(course) == []
    assert run("new", kind, "brand-new", "--course", course).exit_code == 0
    assert problems(course) == unreviewed(kind)


@pytest.mark.parametrize("kind", KINDS)
def test_every_line_of_it_is_explained(run, small_course: Path, kind: str):
    run("new", kind, "brand-new", "--course", small_course)
    (path,) = small_course.rglob("brand-new.yml")
    assert "#" in path.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", ["", "9lives", "a b", "../up", "ä", "a/b", "index", "x" * 101, "a\n"])
def test_a_name_that_cannot_be_is_wrong_use(run, small_course: Path, name: str):
    before = sorted(small_course.rglob("*"))
    assert run("new", "case", "--course", small_course, "--", name).exit_code == 2
    assert sorted(small_course.rglob("*")) == before


def test_an_unknown_kind_is_wrong_use(run, small_course: Path):
    assert run("new", "poem", "brand-new", "--course", small_course).exit_code == 2


@pytest.mark.parametrize(
    ("kind", "name"), [("case", "tern-03"), ("case", "TERN-03"), ("table", "plan"), ("table", "stance")]
)
def test_a_name_that_is_taken_is_wrong_use(run, small_course: Path, kind: str, name: str):
    result = run("new", kind, name, "--course", small_course)
    assert result.exit_code == 2
    assert "taken" in result.stderr


def test_nothing_is_overwritten(run, small_course: Path):
    path = small_course / "cases" / "draft.yml"
    path.write_text("# not yet\n", encoding="utf-8")
    assert run("new", "case", "draft", "--course", small_course).exit_code == 2
    assert path.read_text(encoding="utf-8") == "# not yet\n"


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("pathway: [screen, ankle_class, plan]", "pathway: [screen, ankle_class, plan, brand-new]"),
        (
            'pathway: [screen, ankle_class, "plan" ] # so',
            'pathway: [screen, ankle_class, "plan", brand-new ] # so',
        ),
        (
            "pathway:\n  - screen\n  - ankle_class\n  - plan  # last",
            "pathway:\n  - screen\n  - ankle_class\n  - plan  # last\n  - brand-new",
        ),
        (
            "pathway:\r\n- screen\r\n- ankle_class\r\n- plan\r",
            "pathway:\r\n- screen\r\n- ankle_class\r\n- plan\r\n- brand-new\r",
        ),
    ],
)  # fmt: skip
def test_a_new_table_joins_the_pathway(run, small_course: Path, written: str, expected: str):
    path = small_course / "course.yml"
    text = path.read_bytes().decode()
    old = "pathway: [screen, ankle_class, plan]"
    assert old in text
    path.write_bytes(text.replace(old, written).encode())
    assert run("new", "table", "brand-new", "--course", small_course).exit_code == 0
    assert path.read_bytes().decode() == text.replace(old, expected)
    assert load(small_course).course.about.pathway[-1] == "brand-new"


def everything(folder: Path) -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_is_written_through_a_link_that_leads_out(run, small_course: Path, tmp_path: Path, kind: str):
    folder = {"case": "cases", "table": "tables", "exercise": "exercises"}.get(kind, f"{kind}s")
    outside = tmp_path / "outside"
    outside.mkdir()
    if (small_course / folder).exists():
        (small_course / folder).rename(tmp_path / "before")
    (small_course / folder).symlink_to(outside)
    before = everything(small_course)
    result = run("new", kind, "brand-new", "--course", small_course)
    assert result.exit_code == 2
    assert "outside the course, since a link leads there" in result.stderr
    assert list(outside.iterdir()) == []
    assert everything(small_course) == before


def test_nothing_is_written_to_where_a_dangling_link_leads(run, small_course: Path, tmp_path: Path):
    (small_course / "cases" / "brand-new.yml").symlink_to(tmp_path / "outside.yml")
    result = run("new", "case", "brand-new", "--course", small_course)
    assert result.exit_code == 2
    assert "is there already" in result.stderr
    assert not (tmp_path / "outside.yml").exists()


def test_first_objectives_are_not_written_through_a_dangling_link(run, course_folder, tmp_path: Path):
    course = course_folder(NEAR)
    (course / "objectives.yml").symlink_to(tmp_path / "outside.yml")
    run("new", "question", "brand-new", "--course", course)
    assert not (tmp_path / "outside.yml").exists()


def test_a_link_within_the_course_is_followed_and_stays_one(run, small_course: Path):
    (small_course / "more").mkdir()
    (small_course / "course.yml").rename(small_course / "more" / "about.yml")
    (small_course / "course.yml").symlink_to("more/about.yml")
    assert run("new", "table", "brand-new", "--course", small_course).exit_code == 0
    assert (small_course / "course.yml").is_symlink()
    assert load(small_course).course.about.pathway[-1] == "brand-new"


def test_a_changed_file_is_never_half_of_itself(run, small_course: Path, monkeypatch: pytest.MonkeyPatch):
    """course.yml, which a new table changes, on a disk that is full."""

    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    before = (small_course / "course.yml").read_bytes()
    monkeypatch.setattr("builder.cli.course_files.shutil.copymode", full)
    result = run("new", "table", "brand-new", "--course", small_course)
    assert result.exit_code == 2
    assert "The disk is full" in result.stderr
    assert (small_course / "course.yml").read_bytes() == before
    assert [path.name for path in small_course.iterdir() if path.name.startswith(".")] == []


BARE = {"course.yml": "course: bare\ntitle: Nothing is measured\n"}


@pytest.mark.parametrize("kind", ["case", "caution"])
def test_without_measures_it_is_said_what_to_write_first(run, course_folder, kind: str):
    course = course_folder(BARE)
    before = everything(course)
    result = run("new", kind, "brand-new", "--course", course)
    assert result.exit_code == 2
    assert everything(course) == before
    _, said = result.stderr.split("Error: ")
    assert said.startswith("The course has no measures.yml. Write it first, for example with this line: ")
    (course / "measures.yml").write_text(said.split("this line: ")[1], "utf-8")
    assert problems(course) == []
    assert run("new", kind, "brand-new", "--course", course).exit_code == 0
    assert problems(course) == unreviewed(kind)


@pytest.mark.parametrize("measures", ["measures: {}\n", "measures: [", "measures: {pain: {label: Pain}}\n"])
def test_without_a_sound_measure_it_is_said_what_to_mend_first(run, course_folder, measures: str):
    course = course_folder({**BARE, "measures.yml": measures})
    result = run("new", "case", "brand-new", "--course", course)
    assert result.exit_code == 2
    assert "Nothing in measures.yml can be used yet. Mend it first" in result.stderr
    assert not (course / "cases").exists()


@pytest.mark.parametrize("kind", sorted({*KINDS} - {"case", "caution"}))
def test_without_measures_other_kinds_add_no_error(run, course_folder, kind: str):
    course = course_folder(BARE)
    before = problems(course)
    assert run("new", kind, "brand-new", "--course", course).exit_code == 0
    assert [problem for problem in problems(course) if problem not in before] == unreviewed(kind)
