"""Random rule sets of a given size: tables that feed each other, over numbers of equal cells."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from random import Random

from builder.course import About, AnyOf, Band, Condition, Course, Measure, NumberScale, Outcome, Rule, Table

SPAN = 10
"""Steps of one cell."""


@dataclass(frozen=True)
class Size:
    measures: int = 16
    cells: int = 8
    tables: int = 6
    rules: int = 40
    inputs: int = 6
    outcomes: int = 3


STATED = Size()
"""The size that proofs must hold."""

Bounds = tuple[int, int]
Side = Bounds | tuple[str, ...]


def partitioned(random: Random, size: Size = STATED, feeds: int = 1) -> Course:
    """Unique tables whose rules share out all inputs: nobody is forgotten, nobody decided twice."""
    return _course(random, size, feeds, "unique", _shares)


def layered(random: Random, size: Size = STATED, feeds: int = 1, asked: float = 0.5) -> Course:
    """Tables of the policy `first` with random rules, each asking for a part of the inputs, and a last rule
    for all."""
    return _course(
        random, size, feeds, "first", lambda r, inputs, tables, s: _layers(r, inputs, tables, s, asked)
    )


def spoilt(random: Random, size: Size = STATED, feeds: int = 1) -> Course:
    """As `partitioned`, but in every table one rule is taken out and another widened by a cell."""
    return _course(random, size, feeds, "unique", _slips)


def _course(random: Random, size: Size, feeds: int, policy: str, rules) -> Course:  # type: ignore[no-untyped-def]
    scale = NumberScale("deg", Fraction(0), Fraction(size.cells * SPAN - 1), Fraction(1), Fraction(2))
    measures = {
        name: Measure(name, name.upper(), scale) for name in (f"m{n:02d}" for n in range(size.measures))
    }
    tables: dict[str, Table] = {}
    for number in range(size.tables):
        before = list(tables)[-feeds:]
        inputs = [*before, *random.sample(list(measures), size.inputs - len(before))]
        outcomes = {f"o{n}": Outcome(f"o{n}", f"O{n}") for n in range(size.outcomes)}
        made = tuple(
            Rule(f"r{n}", _when(sides, size), random.choice(list(outcomes)))
            for n, sides in enumerate(rules(random, inputs, tables, size))
        )
        name = f"t{number}"
        tables[name] = Table(
            name, "?", "unique" if policy == "unique" else "first", tuple(inputs), outcomes, made
        )
    return Course(About("large", "Large"), measures, tables=tables)


def _when(sides: dict[str, Side], size: Size) -> dict[str, Condition]:
    when: dict[str, Condition] = {}
    for name, side in sides.items():
        match side:
            case (int(low), int(high)):
                bounds = {"at_least": Fraction(low * SPAN)} if low > 0 else {}
                if high < size.cells:
                    bounds["below"] = Fraction(high * SPAN)
                if bounds:
                    when[name] = Band(bounds)  # type: ignore[arg-type]
            case names if len(names) < size.outcomes:
                when[name] = AnyOf(tuple(str(one) for one in names))
    return when


def _whole(inputs: Sequence[str], tables: dict[str, Table], size: Size) -> dict[str, Side]:
    return {name: tuple(tables[name].outcomes) if name in tables else (0, size.cells) for name in inputs}


def _shares(
    random: Random, inputs: Sequence[str], tables: dict[str, Table], size: Size
) -> list[dict[str, Side]]:
    boxes = [_whole(inputs, tables, size)]
    while len(boxes) < size.rules:
        box = boxes.pop(random.randrange(len(boxes)))
        name = random.choice(list(inputs))
        parts = _halves(random, box[name])
        boxes += [{**box, name: part} for part in parts]
    random.shuffle(boxes)
    return boxes


def _halves(random: Random, side: Side) -> list[Side]:
    match side:
        case (int(low), int(high)):
            if high - low < 2:
                return [side]
            cut = random.randint(low + 1, high - 1)
            return [(low, cut), (cut, high)]
        case names:
            if len(names) < 2:
                return [side]
            cut = random.randint(1, len(names) - 1)
            return [names[:cut], names[cut:]]


def _slips(
    random: Random, inputs: Sequence[str], tables: dict[str, Table], size: Size
) -> list[dict[str, Side]]:
    boxes = _shares(random, inputs, tables, size)
    boxes.pop(random.randrange(len(boxes)))
    number = random.randrange(len(boxes))
    for name, side in boxes[number].items():
        match side:
            case (int(low), int(high)) if high < size.cells:
                boxes[number] = {**boxes[number], name: (low, high + 1)}
                break
    return boxes


def _layers(
    random: Random, inputs: Sequence[str], tables: dict[str, Table], size: Size, asked: float
) -> list[dict[str, Side]]:
    boxes: list[dict[str, Side]] = []
    for _ in range(size.rules - 1):
        box: dict[str, Side] = {}
        for name in inputs:
            if random.random() < asked and name in tables:
                outcomes = list(tables[name].outcomes)
                box[name] = tuple(sorted(random.sample(outcomes, random.randint(1, len(outcomes) - 1))))
            elif random.random() < asked and name not in tables:
                low, high = sorted(random.sample(range(size.cells + 1), 2))
                box[name] = (low, high)
        boxes.append(box)
    return [*boxes, {}]
