"""The kinds of thing that a course is made of: where each is written, and which schema it must meet."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .yaml_tree import Node


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind. Its files hold units: the things that load, or are left out, one by one."""

    name: str
    """The kind in a problem's subject."""
    words: str
    """The kind as people call it, with its article."""
    where: str
    """A file of the course folder, or a folder of files (ending in `/`)."""
    schema: str
    """The schema file."""
    key: str | None
    """The key under which the file keeps its units; None where the file is a unit, or a list of them."""
    name_key: str | None
    """The key that names a unit; None where the key it stands under does."""
    part: Callable[[Node], str]
    """The part of the schema that a unit must meet."""

    @property
    def is_folder(self) -> bool:
        return self.where.endswith("/")

    def holds(self, name: str) -> bool:
        """Whether a file of the course, or a folder, is of this kind by its name, whether or not it can be
        read."""
        return f"{name}/".startswith(self.where) or f"{name.rpartition('.')[0]}.yml" == self.where


def _always(part: str) -> Callable[[Node], str]:
    return lambda unit: part


def _by(key: str, parts: dict[str, str], otherwise: str) -> Callable[[Node], str]:
    """Chosen by the value of `key`; `otherwise` where it names none."""

    def choose(unit: Node) -> str:
        value = unit.get(key) if isinstance(unit, dict) else None
        return parts.get(value, otherwise) if isinstance(value, str) else otherwise

    return choose


def _question(unit: Node) -> str:
    if isinstance(unit, dict) and "family" in unit:
        parts = dict.fromkeys(("fault", "sequence", "look"), "#/$defs/drill_family")
        other = {
            "caution": "#/$defs/client_family",
            "said": "#/$defs/measure_family",
            "read_off": "#/$defs/drawn_family",
        }
        return _by("family", {**parts, **other}, "#/$defs/family")(unit)
    kinds = ("one", "several", "number", "order", "pairs")
    return _by("kind", {kind: f"#/$defs/{kind}" for kind in kinds}, "#/$defs/question")(unit)


_measure = _by(
    "kind", {kind: f"#/$defs/{kind}" for kind in ("number", "choice", "yes_no")}, "#/$defs/measure"
)

COURSE = Kind("course", "a course", "course.yml", "course.schema.json", None, "course", _always("#"))
MEASURE = Kind("measure", "a measure", "measures.yml", "measures.schema.json", "measures", None, _measure)
OBJECTIVE = Kind("objective", "an objective", "objectives.yml", "objectives.schema.json", "objectives", None,
                 _always("#/$defs/objective"))  # fmt: skip
SOURCE = Kind("source", "a source", "sources.yml", "sources.schema.json", "references", "id",
              _always("#/$defs/reference"))  # fmt: skip
TERM = Kind("term", "a term", "glossary.yml", "glossary.schema.json", "terms", None, _always("#/$defs/term"))
TABLE = Kind("table", "a table", "tables/", "table.schema.json", None, "table", _always("#/$defs/table"))
CAUTION = Kind("caution", "a caution", "cautions/", "caution.schema.json", None, "caution",
               _always("#/$defs/caution"))  # fmt: skip
CASE = Kind("case", "a case", "cases/", "case.schema.json", None, "case", _always("#/$defs/case"))
EXERCISE = Kind("exercise", "an exercise", "exercises/", "exercise.schema.json", None, "exercise",
                _always("#/$defs/exercise"))  # fmt: skip
QUESTION = Kind("question", "a question", "questions/", "questions.schema.json", "questions", "id", _question)
QUIZ = Kind("quiz", "a quiz", "quizzes/", "quiz.schema.json", None, "quiz", _always("#/$defs/quiz"))
POSITION = Kind("position", "a position", "positions/", "position.schema.json", None, "position",
                _always("#/$defs/position"))  # fmt: skip
DRILL = Kind("drill", "a drill", "drills/", "drill.schema.json", None, "drill", _always("#/$defs/drill"))
WORDING = Kind("wording", "wording", "wording/", "wording.schema.json", "wording", None,
               _always("#/$defs/text"))  # fmt: skip

KINDS = (
    COURSE,
    MEASURE,
    OBJECTIVE,
    SOURCE,
    TERM,
    TABLE,
    CAUTION,
    CASE,
    EXERCISE,
    QUESTION,
    QUIZ,
    POSITION,
    DRILL,
    WORDING,
)

EDITIONS = "editions"
"""The folder of the editions that were kept: files that `casetrue edition` writes."""

CONTENT_FOLDERS = ("lessons", EDITIONS, *(kind.where.removesuffix("/") for kind in KINDS if kind.is_folder))
"""The folders that a course may have."""
