"""From values that meet their schema to the model: a file here for a file there.

Each `Shape` is the one mapping between the keys of the format and the fields of a dataclass.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from builder.course import Origin

from ..yaml_tree import Node
from .clients import CASE
from .course import OBJECTIVE, TERM, build_source
from .drills import DRILL, POSITION
from .learning import EXERCISE, QUIZ, build_phrasing, build_question
from .measures import build_measure
from .rules import CAUTION, TABLE
from .shape import Shape, T


def _own(shape: Shape[T]) -> Callable[[Node, Origin, str], T]:
    """A unit that holds its own name."""
    return lambda unit, origin, name: shape.build(unit, origin)


def _keyed(shape: Shape[T]) -> Callable[[Node, Origin, str], T]:
    """A unit that is named by the key it stands under."""
    return lambda unit, origin, name: shape.build(unit, origin, name=name)


BUILD: dict[str, Callable[[Node, Origin, str], Any]] = {
    "measure": build_measure,
    "objective": _keyed(OBJECTIVE),
    "source": build_source,
    "term": _keyed(TERM),
    "table": _own(TABLE),
    "caution": _own(CAUTION),
    "case": _own(CASE),
    "exercise": _own(EXERCISE),
    "question": build_question,
    "quiz": _own(QUIZ),
    "position": _own(POSITION),
    "drill": _own(DRILL),
    "wording": build_phrasing,
}
"""How a unit of each kind is built from its value, its origin and its name."""
