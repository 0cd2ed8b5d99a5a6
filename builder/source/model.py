"""From values that meet their schema to the model.

Each `Shape` is the one mapping between the keys of the format and the fields of a dataclass.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Any, Generic, TypeVar, cast

from builder.course import (
    About,
    AnyOf,
    AskStep,
    Band,
    BlueprintRow,
    Breath,
    Case,
    Caution,
    Choice,
    ChoiceScale,
    Client,
    Condition,
    Contact,
    Correction,
    DecideStep,
    Drill,
    DrillCaution,
    DrillFault,
    Emergency,
    EndStep,
    Exercise,
    Family,
    Is,
    Measure,
    NumberScale,
    Objective,
    Option,
    Origin,
    Outcome,
    Pair,
    Phase,
    Position,
    Question,
    Quiz,
    Reading,
    Reference,
    Retest,
    Review,
    Rule,
    Source,
    Step,
    Table,
    Term,
    When,
    YesNoScale,
)

from .yaml_tree import Node

Convert = Callable[[Any, Origin], Any]
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Shape(Generic[T]):
    """How one dataclass is read from a mapping: schema key to field and conversion.

    `given` names the fields that the code fills in from elsewhere: a name that stands as the key above, the
    origin, or a part that is built from several keys.
    """

    model: Callable[..., T]
    keys: dict[str, tuple[str, Convert]]
    given: tuple[str, ...] = ()

    def build(self, unit: Node, origin: Origin, **given: object) -> T:
        unit = cast(dict[str, Node], unit)
        fields = dict(given)
        for key, (field, convert) in self.keys.items():
            if key in unit:
                fields[field] = convert(unit[key], origin.below(key))
        if "origin" in self.given:
            fields["origin"] = origin
        return self.model(**fields)


def _text(value: Any, origin: Origin) -> str:
    """Text; where the schema also takes a number or true/false, as it was written."""
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value)


def _prose(value: str, origin: Origin) -> str:
    return value.rstrip("\n")


def _number(value: int | Decimal, origin: Origin) -> Fraction:
    return Fraction(value)


def _whole(value: int, origin: Origin) -> int:
    return value


def _flag(value: bool, origin: Origin) -> bool:
    return value


def _names(value: list[Any], origin: Origin) -> tuple[str, ...]:
    return tuple(_text(item, origin) for item in value)


def _cases(value: str | list[str], origin: Origin) -> str | tuple[str, ...]:
    return value if isinstance(value, str) else tuple(value)


def _name_map(value: dict[str, str], origin: Origin) -> dict[str, str]:
    return dict(value)


def _numbers(value: dict[str, int | Decimal], origin: Origin) -> dict[str, Fraction]:
    return {name: Fraction(number) for name, number in value.items()}


def _names_by_name(value: dict[str, list[str]], origin: Origin) -> dict[str, tuple[str, ...]]:
    return {name: tuple(names) for name, names in value.items()}


def _list(shape: Shape[T]) -> Callable[[list[Node], Origin], tuple[T, ...]]:
    return lambda value, origin: tuple(
        shape.build(item, origin.below(index)) for index, item in enumerate(value)
    )


def _one(shape: Shape[T]) -> Callable[[Node, Origin], T]:
    return shape.build


def _named(shape: Shape[T]) -> Callable[[dict[str, Node], Origin], dict[str, T]]:
    return lambda value, origin: {
        name: shape.build(item, origin.below(name), name=name) for name, item in value.items()
    }


def reading(value: Any, origin: Origin) -> Reading:
    """A reading by its form: numbers are trials, anything else is a finding."""
    if isinstance(value, list):
        return Reading(trials=tuple(Fraction(trial) for trial in value))
    if isinstance(value, bool | str):
        return Reading(finding=value)
    return Reading(trials=(Fraction(value),))


def _readings(value: dict[str, Any], origin: Origin) -> dict[str, Reading]:
    return {name: reading(found, origin) for name, found in value.items()}


def condition(value: Any, origin: Origin) -> Condition:
    """A condition by its form: bounds make a band, true or false a finding, names a choice."""
    if isinstance(value, dict):
        return Band({bound: Fraction(number) for bound, number in value.items()})
    if isinstance(value, bool):
        return Is(value)
    return AnyOf((value,) if isinstance(value, str) else tuple(value))


def _when(value: dict[str, Any], origin: Origin) -> When:
    return {name: condition(wanted, origin) for name, wanted in value.items()}


def _whens(value: list[dict[str, Any]], origin: Origin) -> tuple[When, ...]:
    return tuple(_when(item, origin) for item in value)


def _values(value: list[str] | dict[str, dict[str, str]], origin: Origin) -> dict[str, str]:
    if isinstance(value, list):
        return {name: name.replace("_", " ") for name in value}
    return {name: item["label"] for name, item in value.items()}


def _review(value: Any, origin: Origin) -> Review | None:
    return None if isinstance(value, str) else REVIEW.build(value, origin)


def _steps(value: dict[str, dict[str, Node]], origin: Origin) -> dict[str, Step]:
    return {name: _step(step, origin.below(name)) for name, step in value.items()}


def _step(value: dict[str, Node], origin: Origin) -> Step:
    if "decide" in value:
        return DECIDE.build(value, origin)
    return ASK.build(value, origin) if "ask" in value else END.build(value, origin)


def _ignored(value: object, origin: Origin) -> None:
    return None


EMERGENCY = Shape(Emergency, {"number": ("number", _text), "note": ("note", _prose)})
CONTACT = Shape(Contact, {"label": ("label", _text), "how": ("how", _prose)}, given=("name",))
ABOUT = Shape(
    About,
    {
        "course": ("name", _text),
        "title": ("title", _text),
        "language": ("language", _text),
        "version": ("version", _text),
        "summary": ("summary", _prose),
        "scope": ("scope", _prose),
        "provider": ("provider", _text),
        "accreditation": ("accreditation", _text),
        "pass_mark": ("pass_mark", _number),
        "hours": ("hours", _number),
        "emergency": ("emergency", _one(EMERGENCY)),
        "contacts": ("contacts", _named(CONTACT)),
        "pathway": ("pathway", _names),
    },
    given=("origin",),
)

REFERENCE = Shape(
    Reference,
    {"who": ("who", _text), "low": ("low", _number), "high": ("high", _number), "source": ("source", _text)},
)
NUMBER_SCALE = Shape(
    NumberScale,
    {
        "unit": ("unit", _text),
        "from": ("start", _number),
        "to": ("stop", _number),
        "step": ("step", _number),
        "sem": ("sem", _number),
        "sem_of": ("sem_of", _text),
        "sem_source": ("sem_source", _text),
        "better": ("better", _text),
        "reference": ("reference", _list(REFERENCE)),
    },
)
CHOICE_SCALE = Shape(ChoiceScale, {"values": ("values", _values)})
YES_NO_SCALE = Shape(YesNoScale, {})
SCALES: dict[str, Shape[Any]] = {"number": NUMBER_SCALE, "choice": CHOICE_SCALE, "yes_no": YES_NO_SCALE}
MEASURE = Shape(
    Measure,
    {"label": ("label", _text), "how": ("how", _text), "note": ("note", _prose), "source": ("source", _text)},
    given=("name", "scale", "origin"),
)

OBJECTIVE = Shape(Objective, {"label": ("label", _text), "level": ("level", _text)}, given=("name", "origin"))
TERM = Shape(Term, {"label": ("label", _text), "text": ("text", _prose)}, given=("name", "origin"))

OUTCOME = Shape(
    Outcome,
    {"label": ("label", _text), "ends": ("ends", _flag), "note": ("note", _prose)},
    ("name", "origin"),
)
RULE = Shape(
    Rule,
    {
        "id": ("id", _text),
        "when": ("when", _when),
        "then": ("then", _text),
        "because": ("because", _prose),
        "source": ("source", _text),
    },
    given=("origin",),
)
TABLE = Shape(
    Table,
    {
        "table": ("name", _text),
        "title": ("title", _text),
        "question": ("question", _prose),
        "policy": ("policy", _text),
        "inputs": ("inputs", _names),
        "outcomes": ("outcomes", _named(OUTCOME)),
        "rules": ("rules", _list(RULE)),
        "source": ("source", _text),
        "note": ("note", _prose),
    },
    given=("origin",),
)

REVIEW = Shape(Review, {"role": ("role", _text), "on": ("on", _text), "due": ("due", _text)})
CAUTION = Shape(
    Caution,
    {
        "caution": ("name", _text),
        "title": ("title", _text),
        "level": ("level", _text),
        "when": ("when", _whens),
        "demands": ("demands", _names_by_name),
        "applies_to": ("applies_to", _names_by_name),
        "refer_to": ("refer_to", _text),
        "text": ("text", _prose),
        "source": ("source", _text),
        "reviewed": ("reviewed", _review),
    },
    given=("origin",),
)

CLIENT = Shape(Client, {"name": ("name", _text), "age": ("age", _whole), "about": ("about", _prose)})
RETEST = Shape(
    Retest, {"after": ("after", _text), "readings": ("readings", _readings), "note": ("note", _prose)}
)
CASE = Shape(
    Case,
    {
        "case": ("name", _text),
        "client": ("client", _one(CLIENT)),
        "story": ("story", _prose),
        "readings": ("readings", _readings),
        "expect": ("expect", _name_map),
        "near_cut": ("near_cut", _names),
        "retest": ("retest", _one(RETEST)),
        "objectives": ("objectives", _names),
    },
    given=("origin",),
)

DECIDE = Shape(DecideStep, {"decide": ("table", _text), "go": ("go", _name_map)}, given=("origin",))
CHOICE = Shape(
    Choice,
    {
        "say": ("say", _prose),
        "best": ("best", _flag),
        "harm": ("harm", _text),
        "reply": ("reply", _prose),
        "caution": ("caution", _text),
        "go": ("go", _text),
    },
)
ASK = Shape(
    AskStep,
    {
        "ask": ("ask", _prose),
        "objective": ("objective", _text),
        "choices": ("choices", lambda value, origin: tuple(_choices(value, origin))),
    },
    given=("origin",),
)
END = Shape(EndStep, {"end": ("end", _prose), "sends_on": ("sends_on", _flag)}, given=("origin",))
EXERCISE = Shape(
    Exercise,
    {
        "exercise": ("name", _text),
        "title": ("title", _text),
        "about": ("about", _prose),
        "cases": ("cases", _cases),
        "objectives": ("objectives", _names),
        "start": ("start", _text),
        "steps": ("steps", _steps),
    },
    given=("origin",),
)


def _choices(value: list[dict[str, Node]], origin: Origin) -> Iterable[Choice]:
    for index, choice in enumerate(value):
        yield CHOICE.build({"reply": "", **choice}, origin.below(index))


OPTION = Shape(Option, {"text": ("text", _text), "key": ("key", _flag), "why": ("why", _prose)})
PAIR = Shape(Pair, {"left": ("left", _text), "right": ("right", _text)})
QUESTION = Shape(
    Question,
    {
        "id": ("id", _text),
        "kind": ("kind", _text),
        "objective": ("objective", _text),
        "stem": ("stem", _prose),
        "options": ("options", _list(OPTION)),
        "answer": ("answer", _number),
        "within": ("within", _number),
        "unit": ("unit", _text),
        "items": ("items", _names),
        "pairs": ("pairs", _list(PAIR)),
        "spare": ("spare", _names),
        "why": ("why", _prose),
        "source": ("source", _text),
    },
    given=("origin",),
)
FAMILY = Shape(
    Family,
    {
        "id": ("id", _text),
        "family": ("family", _text),
        "table": ("table", _text),
        "cases": ("cases", _cases),
        "objective": ("objective", _text),
    },
    given=("drill", "origin"),
)
DRILL_FAMILY = Shape(
    Family,
    {
        "id": ("id", _text),
        "family": ("family", _text),
        "drill": ("drill", _text),
        "objective": ("objective", _text),
    },
    given=("table", "cases", "origin"),
)

ROW = Shape(BlueprintRow, {"objective": ("objective", _text), "count": ("count", _whole)})
QUIZ = Shape(
    Quiz,
    {
        "quiz": ("name", _text),
        "title": ("title", _text),
        "about": ("about", _prose),
        "pass_mark": ("pass_mark", _number),
        "marking": ("marking", _text),
        "questions": ("questions", _names),
        "blueprint": ("blueprint", _list(ROW)),
    },
    given=("origin",),
)

POSITION = Shape(
    Position,
    {
        "position": ("name", _text),
        "title": ("title", _text),
        "seen": ("seen", _text),
        "trunk": ("trunk", _number),
        "joints": ("joints", _numbers),
        "shows": ("shows", _names),
        "rests_on": ("rests_on", _names_by_name),
        "under": ("under", _name_map),
        "text": ("text", _prose),
        "source": ("source", _text),
    },
    given=("origin",),
)

CORRECTION = Shape(Correction, {"say": ("say", _prose), "reply": ("reply", _prose)})
FAULT = Shape(
    DrillFault,
    {
        "id": ("id", _text),
        "sign": ("sign", _prose),
        "cause": ("cause", _prose),
        "corrections": ("corrections", _list(CORRECTION)),
        "stop": ("stop", _flag),
        "stop_when": ("stop_when", _prose),
        "caution": ("caution", _text),
    },
    given=("origin",),
)
PHASE = Shape(
    Phase,
    {
        "id": ("id", _text),
        "label": ("label", _text),
        "cues": ("cues", _names),
        "good": ("good", _names),
        "faults": ("faults", _list(FAULT)),
    },
    given=("origin",),
)
BREATH = Shape(
    Breath,
    {
        "out": ("out", _number),
        "in": ("into", _number),
        "pause": ("pause", _number),
        "pause_for": ("pause_for", _names_by_name),
        "breaths": ("breaths", _whole),
    },
)
DRILL_CAUTION = Shape(DrillCaution, {"caution": ("caution", _text), "change": ("change", _prose)})
DRILL = Shape(
    Drill,
    {
        "drill": ("name", _text),
        "title": ("title", _text),
        "about": ("about", _prose),
        "for": ("leads_here", _names_by_name),
        "position": ("position", _text),
        "breath": ("breath", _one(BREATH)),
        "stop": ("stop", _names),
        "phases": ("phases", _list(PHASE)),
        "cautions": ("cautions", _list(DRILL_CAUTION)),
        "objectives": ("objectives", _names),
        "source": ("source", _text),
        "reviewed": ("reviewed", _review),
    },
    given=("origin",),
)


def _build_measure(unit: Node, origin: Origin, name: str) -> Measure:
    kind = cast(dict[str, str], unit)["kind"]
    return MEASURE.build(unit, origin, name=name, scale=SCALES[kind].build(unit, origin))


def _build_source(unit: Node, origin: Origin, name: str) -> Source:
    return Source(name, plain_json(unit), origin)


def plain_json(value: Node) -> Any:
    """A value with its decimals as floats, as JSON libraries write it."""
    if isinstance(value, dict):
        return {key: plain_json(item) for key, item in value.items()}
    if isinstance(value, list):
        return [plain_json(item) for item in value]
    return float(value) if isinstance(value, Decimal) else value


def _build_question(unit: Node, origin: Origin, name: str) -> Question | Family:
    keys = cast(dict[str, Node], unit)
    if "family" not in keys:
        return QUESTION.build(unit, origin)
    if "drill" in keys:
        return DRILL_FAMILY.build(unit, origin, table="", cases=())
    return FAMILY.build(unit, origin)


def _own(shape: Shape[T]) -> Callable[[Node, Origin, str], T]:
    """A unit that holds its own name."""
    return lambda unit, origin, name: shape.build(unit, origin)


def _keyed(shape: Shape[T]) -> Callable[[Node, Origin, str], T]:
    """A unit that is named by the key it stands under."""
    return lambda unit, origin, name: shape.build(unit, origin, name=name)


BUILD: dict[str, Callable[[Node, Origin, str], Any]] = {
    "measure": _build_measure,
    "objective": _keyed(OBJECTIVE),
    "source": _build_source,
    "term": _keyed(TERM),
    "table": _own(TABLE),
    "caution": _own(CAUTION),
    "case": _own(CASE),
    "exercise": _own(EXERCISE),
    "question": _build_question,
    "quiz": _own(QUIZ),
    "position": _own(POSITION),
    "drill": _own(DRILL),
}
"""How a unit of each kind is built from its value, its origin and its name."""
