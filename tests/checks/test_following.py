"""What only follows from something broken is not told, and what does not follow from it is."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from builder.checks import check
from builder.source import load

from ..examples.reading import GOOD


def spoil(course: Path, file: str, old: str, new: str) -> None:
    written = (course / file).read_text("utf-8")
    assert old in written
    (course / file).write_text(written.replace(old, new, 1), "utf-8")


def errors(course: Path) -> list[str]:
    return [problem.code for problem in check(load(course)) if problem.severity == "error"]


def codes(course: Path) -> set[str]:
    return {problem.code for problem in check(load(course))}


SCREEN, CASES = "tables/screen.yml", "cases/clients.yml"
LAST_RULE = """  - id: pain
    when: {heel_pain: true}
    then: refer_out
    because: Pain under load is looked at before it is trained.
"""


@pytest.mark.parametrize(
    ("file", "old", "new", "told"),
    [
        (SCREEN, "policy: unique", "polcy: unique", ["schema"]),
        (SCREEN, "    then: refer_out", "    than: refer_out", ["schema"]),
        (SCREEN, "    then: refer_out", "\tthen: refer_out", ["yaml"]),
        (SCREEN, "inputs: [heel_pain]", "inputs: [heel_pian]", ["missing-reference"]),
        (SCREEN, "when: {heel_pain: true}", "when: {heel_pian: true}", ["missing-reference"]),
        (SCREEN, "when: {heel_pain: true}", "when: {heel_pain: {at_least: 1}}", ["wrong-kind"]),
        (SCREEN, "    then: refer_out", "    then: refer_aut", ["missing-reference"]),
        (SCREEN, LAST_RULE, "", ["table-gap"]),
        ("tables/ankle_class.yml", "then: stiff", "then: stuff", ["missing-reference"]),
        ("tables/plan.yml", "policy: first", "polcy: first", ["schema"]),
        ("measures.yml", "heel_pain:\n    label:", "heel_pain:\n    labl:", ["schema"]),
        ("course.yml", "pathway:", "pathwy:", ["schema"]),
        ("course.yml", "title:", "\ttitle:", ["yaml"]),
        ("course.yml", "[screen,", "[scren,", ["missing-reference", "pathway-incomplete"]),
        (CASES, "heel_pain: true", "heel_pain: sometimes", ["reading-invalid"]),
        (CASES, "heel_pain: true", "heel_pian: true", ["missing-reference"]),
    ],
)  # fmt: skip
def test_one_slip_is_told_alone(small_course: Path, file: str, old: str, new: str, told: list[str]):
    """`rail-06` is sent on by the screen and has no other reading."""
    spoil(small_course, file, old, new)
    assert sorted(errors(small_course)) == told


@pytest.mark.parametrize(
    "name", ["measures.yml", "sources.yml", "tables/plan.yml", "tables", "cases/clients.yml", "questions"]
)
def test_what_a_refused_file_or_folder_might_name_is_not_missing(
    small_course: Path, tmp_path: Path, name: str
) -> None:
    path = small_course / name
    path.symlink_to(path.rename(tmp_path / "elsewhere"))
    assert errors(small_course) == ["file-refused"]


@pytest.mark.parametrize(
    ("file", "written"),
    [
        ("measures.yml", b"# " + b"x" * 2_000_000),
        ("objectives.yml", b""),
        ("tables/screen.yml", b""),
        ("cautions/heel_pain_loading.yml", b"- 1\n"),
        ("cases/clients.yml", b"\xff\n"),
    ],
)
def test_nor_is_what_a_file_might_name_that_gives_no_name_away(
    small_course: Path, file: str, written: bytes
) -> None:
    (small_course / file).write_bytes(written)
    assert {problem.file for problem in check(load(small_course)) if problem.severity == "error"} == {file}


def test_the_names_of_a_file_in_utf_16_are_known(small_course: Path) -> None:
    path = small_course / "questions" / "bank.yml"
    path.write_bytes(path.read_text("utf-8").encode("utf-16"))
    spoil(small_course, "quizzes/all-kinds.yml", "q-one", "q-onne")
    assert sorted(errors(small_course)) == ["missing-reference", "yaml"]


def test_a_file_of_another_ending_hides_its_names_too(small_course: Path) -> None:
    (small_course / "measures.yml").rename(small_course / "measures.yaml")
    spoil(small_course, "measures.yaml", "measures:", "\tmeasures:")
    assert errors(small_course) == ["yaml"]


def test_without_a_pathway_a_table_that_cannot_be_read_may_come_first(tmp_path: Path):
    course = Path(shutil.copytree(GOOD / "plain", tmp_path / "plain"))
    spoil(course, SCREEN, "policy", "polcy")
    assert errors(course) == ["schema"]


def test_a_caution_is_not_called_near_while_a_table_might_send_the_client_on(small_course: Path):
    spoil(
        small_course,
        "cautions/heel_pain_loading.yml",
        "[{heel_pain: true}]",
        "[{ankle_dorsiflexion: {below: 32}}]",
    )
    spoil(small_course, "cautions/heel_pain_loading.yml", "demands: {plan: [refer_out]}\n", "")
    assert "caution-near" in codes(small_course)
    spoil(small_course, SCREEN, "policy", "polcy")
    assert "caution-near" not in codes(small_course)


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("tables/plan.yml", "policy:", "polcy:"),
        ("quizzes/ankle-check.yml", "title:", "titel:"),
        ("course.yml", "hours: 1", "hours: one"),
    ],
)
def test_what_does_not_rest_on_the_slip_is_told_too(small_course: Path, file: str, old: str, new: str):
    spoil(small_course, CASES, "    ankle_dorsiflexion: 44\n", "")
    spoil(small_course, CASES, "ankle_class: stiff", "ankle_class: free")
    spoil(small_course, file, old, new)
    assert {"reading-missing", "case-disagrees", "schema"} <= set(errors(small_course))


def test_a_caution_asks_for_its_reading_whatever_is_broken(small_course: Path):
    spoil(small_course, SCREEN, "policy", "polcy")
    spoil(small_course, CASES, "    heel_pain: true", "    stance: hip")
    told = {problem.message for problem in check(load(small_course)) if problem.code == "reading-missing"}
    assert told == {"rail-06 has no reading of `heel_pain`, which the caution heel_pain_loading needs."}


def test_a_course_file_that_is_not_used_hides_nothing(small_course: Path):
    """Two files describe the course; only the first counts, and of it nothing is broken."""
    used = small_course / "course.yaml"
    shutil.copy(small_course / "course.yml", used)
    spoil(small_course, "course.yaml", "pathway: [screen, ankle_class, plan]\n", "")
    assert "file-ignored" in codes(small_course)
    spoil(small_course, CASES, "    heel_pain: true", "    heel_pain: false")
    assert "reading-missing" in errors(small_course)


def test_a_pathway_that_lists_a_measure_is_a_problem_and_no_fault_of_ours(small_course: Path):
    spoil(small_course, "course.yml", "pathway: [", "pathway: [stance, ")
    spoil(small_course, "tables/plan.yml", "policy", "\tpolicy")
    assert "yaml" in errors(small_course)


def test_a_table_that_cannot_be_read_may_bear_the_name_of_a_measure(small_course: Path):
    spoil(small_course, "course.yml", "pathway: [", "pathway: [stance, ")
    (small_course / "tables" / "stance.yml").write_text("table: stance\npolcy: first\n", "utf-8")
    assert "schema" in errors(small_course)
