"""What item-writing checks find in a bank that writers made who had not seen them; see items/README.md."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
import yaml

from builder.answers import Answers
from builder.checks.registry import CHECKS
from builder.checks.scope import Scope
from builder.course import About, Case, Client, Course, Objective, Option, Question
from builder.problems.codes import severity
from builder.questions.options import sizes

HERE = Path(__file__).parent / "items"
CODES = [code for code in CHECKS if code.startswith("item-")]


@dataclass(frozen=True)
class Told:
    item: dict[str, Any]
    warnings: list[str]
    hints: list[str]
    cured: bool
    """Whether the builder itself puts its numbers in order."""

    @property
    def is_found(self) -> bool:
        return bool(self.warnings or self.hints or self.cured)

    @property
    def is_flawed(self) -> bool:
        return bool(self.item["verdict"] == "flawed")


def question(item: dict[str, Any]) -> tuple[Question, Case | None]:
    """An item as a question of a course, with its client where it has one."""
    right = next(option for option in item["options"] if option["right"])
    name = f"k-{item['id']}"
    case = Case(name, Client("Wren"), {}, story=item["client"]) if item.get("client") else None
    options = tuple(Option(one["text"], one["right"], one.get("because") or "") for one in item["options"])
    why = right.get("because") or ""
    return Question(item["id"], "one", "o", item["stem"], options, why=why, case=case and name), case


def is_put_in_order(one: Question) -> bool:
    """Whether the builder shows numbers in order that were written in none."""
    known = sizes([option.text for option in one.options])
    return list(known.values()) not in (sorted(known.values()), sorted(known.values(), reverse=True))


def bank(writer: str) -> list[Told]:
    """What is told of each item, all of them being the bank of one course."""
    items = yaml.safe_load((HERE / f"{writer}.yml").read_text("utf-8"))
    made = {item["id"]: question(item) for item in items}
    course = Course(
        About("c", "C"),
        objectives={"o": Objective("o", "O")},
        questions={name: one for name, (one, _) in made.items()},
        cases={case.name: case for _, case in made.values() if case is not None},
    )
    scope = Scope(Answers(course))
    found: dict[str, list[str]] = {name: [] for name in made}
    for code in CODES:
        for fault in CHECKS[code](scope):
            found[fault.subject.removeprefix("question:")].append(code)
    return [
        Told(
            item,
            [code for code in found[item["id"]] if severity(code) == "warning"],
            [code for code in found[item["id"]] if severity(code) == "hint"],
            is_put_in_order(made[item["id"]][0]),
        )
        for item in items
    ]


def shares(told: list[Told]) -> tuple[float, float]:
    """Of the flawed items, the share of which a warning or a hint tells, or whose numbers the builder puts in
    order; of the sound ones, the share with a warning."""
    flawed = [one for one in told if one.is_flawed]
    sound = [one for one in told if not one.is_flawed]
    return (
        sum(one.is_found for one in flawed) / len(flawed),
        sum(bool(one.warnings) for one in sound) / len(sound),
    )


def lines() -> list[str]:
    """Recall and false alarms by writer and trade, and what was missed or told for nothing."""
    said = []
    for writer in ("a", "b"):
        told = bank(writer)
        for trade in sorted({one.item["trade"] for one in told}):
            recall, false = shares([one for one in told if one.item["trade"] == trade])
            said.append(f"writer {writer}, {trade}: recall {recall:.2f}, false alarms {false:.2f}")
        for one in told:
            if one.is_flawed and not one.is_found:
                said.append(f"  missed {one.item['id']}: {one.item['flaw']}")
            if not one.is_flawed and one.warnings:
                said.append(f"  told for nothing {one.item['id']}: {', '.join(one.warnings)}")
    return said


@pytest.mark.parametrize("writer", ["a", "b"])
def test_each_writer_made_thirty_flawed_and_thirty_sound_items_half_from_another_trade(writer: str) -> None:
    items = [one.item for one in bank(writer)]
    assert Counter(item["verdict"] for item in items) == {"flawed": 30, "sound": 30}
    assert sum(item["trade"] == "coaching" for item in items) == 30
    for item in items:
        assert [option["right"] for option in item["options"]].count(True) == 1


def test_flaws_are_found_and_sound_items_left_in_peace() -> None:
    both = [*bank("a"), *bank("b")]
    recall, false = shares(both)
    print("\n".join(lines()))
    print(f"both: recall {recall:.3f}, false alarms {false:.3f}")
    assert recall >= 0.85
    assert false <= 0.05
