"""What is looked up part by part is what the schema says of the whole."""

from __future__ import annotations

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from builder.records.sound import sound
from builder.source.schemas import written_out
from builder.source.validators import validator

from .make import attempt, attempt_of, quiz, step, walk

ATTEMPT = "record.schema.json#/$defs/attempt"
PARTS = written_out(ATTEMPT)["properties"]
WHOLES = (attempt(), step(harm="none", stopped=True), walk(), quiz(1, True, ms=5, sitting="0" * 8))
VALUES: list[Any] = [
    *(example for part in PARTS.values() for example in part["examples"]),
    *(value for part in PARTS.values() for value in part.get("enum", ())),
    *(
        None,
        True,
        False,
        0,
        1,
        1.0,
        0.0,
        -1,
        0.5,
        2**53,
        5.0,
        "",
        "a",
        "a" * 401,
        "0" * 64,
        "0" * 65,
        "0" * 8 + "\n",
    ),
    *([], {}, ["a"], [1], [True], [[]], [{}], ["a", "a"], ["a\n"], [""], ["a"] * 1001),
]
NAMES = st.sampled_from([*PARTS, "other"])


@given(
    st.sampled_from(WHOLES),
    st.dictionaries(NAMES.filter(lambda name: name != "at"), st.sampled_from(VALUES), max_size=4),
    st.sets(NAMES, max_size=2),
)
def test_an_attempt_is_sound_where_the_schema_takes_it(
    whole: dict[str, Any], other: dict[str, Any], gone: set[str]
) -> None:
    given = {name: value for name, value in {**whole, **other}.items() if name not in gone}
    for _ in range(2):  # what was seen before is not looked at again
        found = sound(given)
        assert (found is not None) == validator(ATTEMPT).is_valid(given)
        if found is not None:
            told = attempt_of(given)
            assert found == told
            assert list(map(type, found)) == list(map(type, told))


def test_what_is_no_attempt_is_not_sound() -> None:
    for other in (None, 1, "a", [], {}, [attempt()]):
        assert sound(other) is None
