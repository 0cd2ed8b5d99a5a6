"""How a dataclass is read from a mapping, and the values that need no knowledge of the course."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Any, Generic, TypeVar, cast

from builder.course import Origin, digest, fixed

from ..yaml_tree import Node

Convert = Callable[[Any, Origin], Any]

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Shape(Generic[T]):
    """How one dataclass is read from a mapping: schema key to field and conversion.

    `given` names the fields that the code fills in from elsewhere: a name that stands as the key above, the
    origin, a digest of all but the review, or a part that is built from several keys.
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
        if "digest" in self.given:
            fields["digest"] = digest({key: value for key, value in unit.items() if key != "reviewed"})
        return self.model(**fields)


def text(value: Any, origin: Origin) -> str:
    """Text; where the schema also takes a number or true/false, as it was written."""
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value)


def prose(value: str, origin: Origin) -> str:
    return value.rstrip("\n")


def number(value: int | Decimal, origin: Origin) -> Fraction:
    return Fraction(value)


def whole(value: int, origin: Origin) -> int:
    return value


def flag(value: bool, origin: Origin) -> bool:
    return value


def names(value: list[Any], origin: Origin) -> tuple[str, ...]:
    return tuple(text(item, origin) for item in value)


def name_map(value: dict[str, str], origin: Origin) -> Mapping[str, str]:
    return fixed(value)


def prose_map(value: dict[str, str], origin: Origin) -> Mapping[str, str]:
    return fixed({name: prose(words, origin) for name, words in value.items()})


def numbers(value: dict[str, int | Decimal], origin: Origin) -> Mapping[str, Fraction]:
    return fixed({name: Fraction(number) for name, number in value.items()})


def names_by_name(value: dict[str, list[str]], origin: Origin) -> Mapping[str, tuple[str, ...]]:
    return fixed({name: tuple(names) for name, names in value.items()})


def many(shape: Shape[T]) -> Callable[[list[Node], Origin], tuple[T, ...]]:
    return lambda value, origin: tuple(
        shape.build(item, origin.below(index)) for index, item in enumerate(value)
    )


def one(shape: Shape[T]) -> Callable[[Node, Origin], T]:
    return shape.build


def named(shape: Shape[T]) -> Callable[[dict[str, Node], Origin], Mapping[str, T]]:
    return lambda value, origin: fixed(
        {name: shape.build(item, origin.below(name), name=name) for name, item in value.items()}
    )
