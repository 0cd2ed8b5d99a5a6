"""The OMG's own hit-policy tables, decided by us: see `dmn/README.md` for source and licence.

Tables with several outputs are split into one table per output.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import pytest
from lxml import etree

from builder.course import AnyOf, Band, Condition, Is, Measure, Reading
from builder.decide.evaluate import decide
from builder.decide.found import find

from .courses import choice, course, number, table, yes_no

KIT = Path(__file__).parent / "dmn"
MODEL = "{https://www.omg.org/spec/DMN/20230324/MODEL/}"
CASES = "{http://www.omg.org/spec/DMN/20160719/testcase}"
PARSER = etree.XMLParser(no_network=True, resolve_entities=False)

BOUNDS = {">=": "at_least", ">": "above", "<=": "at_most", "<": "below"}


@dataclass(frozen=True)
class Example:
    file: str
    id: str
    readings: dict[str, Reading]
    expected: dict[str, str]
    """Output to value; the output of a table with a single one is named after the decision."""


def texts(element: etree._Element, path: str) -> list[str]:
    return [found.text or "" for found in element.iterfind(path)]


def words(cell: str) -> tuple[str, ...]:
    return tuple(word.strip().strip('"') for word in cell.split(","))


def condition(cell: str) -> Condition | None:
    cell = cell.strip()
    if cell == "-":
        return None
    if cell in ("true", "false"):
        return Is(cell == "true")
    if cell.startswith('"'):
        return AnyOf(words(cell))
    sign = next(sign for sign in BOUNDS if cell.startswith(sign))
    return Band({BOUNDS[sign]: Fraction(cell.removeprefix(sign))})


def read_course(file: Path):
    """The file's decision table as a course: one table per output, all inputs as measures."""
    decision = etree.parse(file, PARSER).getroot().find(f"{MODEL}decision")
    grid = decision.find(f"{MODEL}decisionTable")
    inputs = texts(grid, f"{MODEL}input/{MODEL}inputExpression/{MODEL}text")
    kinds = [found.get("typeRef") for found in grid.iterfind(f"{MODEL}input/{MODEL}inputExpression")]
    allowed = [
        words(found.findtext(f"{MODEL}inputValues/{MODEL}text", ""))
        for found in grid.iterfind(f"{MODEL}input")
    ]
    outputs = [found.get("name") or decision.get("name") for found in grid.iterfind(f"{MODEL}output")]
    rows = [
        (
            texts(rule, f"{MODEL}inputEntry/{MODEL}text"),
            [text.strip('"') for text in texts(rule, f"{MODEL}outputEntry/{MODEL}text")],
        )
        for rule in grid.iterfind(f"{MODEL}rule")
    ]
    tables = [
        table(
            output,
            grid.get("hitPolicy").lower(),
            " ".join(inputs),
            *(
                (
                    f"row-{at}",
                    {name: one for name, cell in zip(inputs, cells, strict=True) if (one := condition(cell))},
                    said[place],
                )
                for at, (cells, said) in enumerate(rows, 1)
            ),
        )
        for place, output in enumerate(outputs)
    ]
    return course(*map(_measure, inputs, kinds, allowed), *tables)


def _measure(name: str, kind: str, allowed: tuple[str, ...]) -> Measure:
    if kind == "number":
        return number(name, -10, 120)
    return yes_no(name) if kind == "boolean" else choice(name, *allowed)


def read_examples(file: Path) -> list[Example]:
    root = etree.parse(file, PARSER).getroot()
    found = []
    for case in root.iterfind(f"{CASES}testCase"):
        readings = {
            node.get("name"): _reading(node.findtext(f"{CASES}value"))
            for node in case.iterfind(f"{CASES}inputNode")
        }
        result = case.find(f"{CASES}resultNode")
        expected = {
            part.get("name"): part.findtext(f"{CASES}value")
            for part in result.iterfind(f"{CASES}expected/{CASES}component")
        } or {result.get("name"): result.findtext(f"{CASES}expected/{CASES}value")}
        found.append(Example(root.findtext(f"{CASES}modelName"), case.get("id"), readings, expected))
    return found


def _reading(value: str) -> Reading:
    if value in ("true", "false"):
        return Reading(finding=value == "true")
    try:
        return Reading((Fraction(value),))
    except ValueError:
        return Reading(finding=value)


EXAMPLES = [example for file in sorted(KIT.glob("*.xml")) for example in read_examples(file)]


def test_the_kit_is_here():
    assert [file.name[:4] for file in sorted(KIT.glob("*.dmn"))] == ["0004", "0010", "0108", "0111"]
    assert len(EXAMPLES) == 12


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: f"{example.file[:4]}-{example.id}")
def test_every_example_is_decided_as_the_kit_says(example: Example):
    decided = decide(read_course(KIT / example.file), find(read_course(KIT / example.file), example.readings))
    assert {name: decision.outcome for name, decision in decided.items()} == example.expected
    assert {decision.state for decision in decided.values()} == {"decided"}
