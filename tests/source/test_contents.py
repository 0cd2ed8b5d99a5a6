"""One file, taken apart: what is wrong with one unit leaves the others alone."""

from __future__ import annotations

import copy
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from referencing import Registry, Resource
from referencing.jsonschema import DRAFT202012

from builder.source.contents import content
from builder.source.kinds import CASE, CAUTION, COURSE, KINDS, MEASURE, POSITION, QUESTION, TABLE, Kind
from builder.source.schemas import schema_files
from builder.source.yaml_tree import parse

from .yaml_writing import as_yaml

ANKLE = Path(__file__).parents[1] / "courses" / "ankle"
DRILLS = ANKLE.with_name("drills")
GOOD = Path(__file__).parent / "good"
"""Kinds that the small course does without."""
FILES = [
    (kind, path)
    for kind in KINDS
    for folder in (ANKLE, GOOD, DRILLS)
    for path in sorted(folder.glob(f"{kind.where}*.yml" if kind.is_folder else kind.where))
]
REGISTRY: Registry[Any] = Registry().with_resources(
    (name, Resource.from_contents(schema, default_specification=DRAFT202012))
    for name, schema in schema_files().items()
)


def test_there_is_a_good_file_of_every_kind() -> None:
    assert {kind.name for kind, _ in FILES} == {kind.name for kind in KINDS}, "add one to tests/source/good"


@pytest.mark.parametrize(("kind", "path"), FILES, ids=lambda value: getattr(value, "name", ""))
def test_a_good_file_has_no_problem(kind: Kind, path: Path) -> None:
    read = content(kind, path.name, path.read_text("utf-8"))
    assert read.problems == ()
    assert read.units


def places(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    inside = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [path, *(place for key, item in inside for place in places(item, (*path, key)))]


SPOILERS = st.sampled_from(
    [None, True, 0, -1, 7, "", "x", "two words", "012", [], {}, ["x"], {"x": 1}, [{}], "not_yet"]
).map(copy.deepcopy)


@given(st.data())
def test_a_file_loads_just_where_the_schema_that_editors_use_accepts_it(data: st.DataObject) -> None:
    """The outside check: the whole schema file, references and conditions followed by the schema library."""
    kind, path = data.draw(st.sampled_from(FILES))
    whole = {"": copy.deepcopy(parse(path.read_text("utf-8")).value)}
    for _ in range(data.draw(st.integers(0, 2))):
        place = data.draw(st.sampled_from(places(whole)[1:]))
        holder: Any = whole
        for key in place[:-1]:
            holder = holder[key]
        change = data.draw(st.sampled_from(["spoil", "drop", "add", "rename"]))
        if change == "spoil" or len(place) == 1:
            holder[place[-1]] = data.draw(SPOILERS)
        elif change == "drop":
            del holder[place[-1]]
        elif change == "add" and isinstance(holder, dict):
            holder["extra"] = data.draw(SPOILERS)
        elif isinstance(holder, dict):
            holder[str(place[-1]) + "x"] = holder.pop(place[-1])
    text = as_yaml(whole[""])
    read = content(kind, "file.yml", text)
    accepted = Draft202012Validator({"$ref": kind.schema}, registry=REGISTRY).is_valid(parse(text).value)
    assert accepted == (read.problems == ()), [problem.message for problem in read.problems]
    lines = text.split("\n")
    for problem in read.problems:
        assert problem.message.endswith(".")
        assert 1 <= problem.line <= len(lines)
        assert 1 <= problem.column <= len(lines[problem.line - 1]) + 1


def test_a_faulty_measure_leaves_the_others() -> None:
    read = content(MEASURE, "measures.yml", "measures:\n  a: {label: A}\n  b: {label: B, kind: yes_no}\n")
    assert [unit.name for unit in read.units] == ["b"]
    assert read.left_out == ("a",)


def test_a_repeated_key_in_one_case_leaves_the_others() -> None:
    case = "- case: {0}\n  client: {{name: X}}\n  readings: {{a: 1}}\n"
    text = case.format("a") + "  case: b\n" + case.format("c")
    assert [unit.name for unit in content(CASE, "c.yml", text).units] == ["c"]


def test_one_mapping_and_a_list_of_one_are_the_same() -> None:
    one = "case: a\nclient: {name: X}\nreadings: {a: 1}\n"
    many = "- " + one.replace("\n", "\n  ").rstrip() + "\n"
    (single,), (listed,) = content(CASE, "c.yml", one).units, content(CASE, "c.yml", many).units
    assert (single.name, single.value) == (listed.name, listed.value)
    assert (single.path, listed.path) == ((), (0,))


def test_a_text_of_ten_thousand_characters_is_accepted() -> None:
    text = (
        "case: a\nclient: {name: X}\nreadings: {a: 1}\nstory: |\n" + "  <b>x</b> [y](javascript:z)\n" * 1000
    )
    assert content(CASE, "c.yml", text).problems == ()


def test_a_misspelt_key_is_one_fault_not_two() -> None:
    text = "table: t\nquestion: Q\npolicy: first\ninputs: []\noutcomes: {x: {label: X}}\nruls: []\n"
    (problem,) = content(TABLE, "t.yml", text).problems
    assert (problem.line, problem.column, problem.hint) == (6, 1, "Did you mean `rules`?")


def test_the_sub_schema_is_chosen_by_kind() -> None:
    text = "questions:\n- {id: q, kind: number, objective: o, stem: s, answer: 3, options: []}\n"
    (problem,) = content(QUESTION, "q.yml", text).problems
    assert problem.message == "`options` is no key of a question of the kind number."


CAUTION_TEXT = "caution: c\ntitle: C\nlevel: watch\nwhen: [{a: true}]\ntext: T\n"
POSITION_TEXT = "position: p\ntitle: P\ntrunk: 0\ntext: T\n"


@pytest.mark.parametrize(
    ("kind", "text", "told"),
    [
        (CAUTION, CAUTION_TEXT + "reviewed: {on: 2026-06-01}", "This review has no `role`."),
        (CAUTION, CAUTION_TEXT + "reviewed: {role: r, on: 2026-06-01, x: 1}", "`x` is no key of a review."),
        (COURSE, "course: c\ntitle: C\nemergency: {note: N}", "This emergency contact has no `number`."),
        (POSITION, POSITION_TEXT + "joints: {tail: 3}", "`tail` is no key of a set of joint angles."),
        (POSITION, POSITION_TEXT + "joints: {hip: 1}\nrests_on: {sky: []}", "`sky` is no key of a support."),
        (POSITION, POSITION_TEXT + "joints: {hip: 1}\nseen: below", "`below` is no view."),
    ],
)
def test_parts_are_called_by_what_they_are(kind: Kind, text: str, told: str) -> None:
    (problem,) = content(kind, "file.yml", text).problems
    assert problem.message == told


@given(st.sampled_from(FILES), st.data())
def test_any_change_of_signs_is_survived(chosen: tuple[Kind, Path], data: st.DataObject) -> None:
    kind, path = chosen
    good = path.read_text("utf-8")
    start = data.draw(st.integers(0, len(good)))
    end = min(len(good), start + data.draw(st.integers(0, 20)))
    text = good[:start] + data.draw(st.text("ab1: -[]{}#&*!|>'\"\n", max_size=5)) + good[end:]
    read = content(kind, "file.yml", text)
    lines = text.split("\n")
    for problem in read.problems:
        assert 1 <= problem.line <= len(lines)
        assert 1 <= problem.column <= len(lines[problem.line - 1]) + 1
