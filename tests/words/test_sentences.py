from __future__ import annotations

from fractions import Fraction

import pytest

from builder.course import AnyOf, Is, Measure, NumberScale, Reading, YesNoScale
from builder.words import ENGLISH, words_for
from builder.words import sentences as say

from ..decide.courses import band, choice, course, table

KNEE = Measure(
    "knee", "Knee flexion", NumberScale("deg", Fraction(0), Fraction(150), Fraction(1), Fraction(2))
)
PAIN = Measure("pain", "Pain at rest", YesNoScale())
STANCE = choice("stance", "narrow", "hip", "wide")
CLASS = table("knee_class", "first", "knee", ("all", {}, "stiff"), outcomes="stiff free")
COURSE = course(KNEE, PAIN, STANCE, CLASS)


@pytest.mark.parametrize(
    ("name", "condition", "value", "sentence"),
    [
        ("knee", band(at_least=100), 112, "Knee flexion: 112° against at least 100°: 12° over"),
        ("knee", band(at_least=100), 95, "Knee flexion: 95° against at least 100°: 5° under"),
        ("knee", band(above=100), 100, "Knee flexion: 100° against above 100°: right on it"),
        (
            "knee",
            band(at_least=100, below=120),
            112,
            "Knee flexion: 112° against at least 100° and below 120°: 12° over 100° and 8° under 120°",
        ),
        ("pain", Is(False), False, "Pain at rest: no, as it has to be"),
        ("pain", Is(False), True, "Pain at rest: yes; it would have to be no"),
        ("stance", AnyOf(("hip",)), "hip", "Stance: Hip, as it has to be"),
        ("stance", AnyOf(("hip", "wide")), "hip", "Stance: Hip, which is one of Hip or Wide"),
        ("stance", AnyOf(("narrow", "hip", "wide")), "x",
         "Stance: x; it would have to be Narrow, Hip or Wide"),
        ("knee_class", AnyOf(("stiff",)), "stiff", "Knee class: Stiff, as it has to be"),
        ("pain", Is(True), None, "Pain at rest: not recorded; it would have to be yes"),
        ("knee", band(below=9), None, "Knee flexion: not recorded; it would have to be below 9°"),
    ],
)  # fmt: skip
def test_checks(name: str, condition, value, sentence: str):
    found = Fraction(value) if isinstance(value, int) and not isinstance(value, bool) else value
    assert say.check(ENGLISH, COURSE, name, condition, found) == sentence


def test_rules_in_words():
    when = {"knee": band(at_least=100), "pain": Is(False), "stance": AnyOf(("hip", "wide"))}
    assert (
        say.when(ENGLISH, COURSE, when) == "Knee flexion at least 100°; Pain at rest: no; Stance: Hip or Wide"
    )
    assert say.when(ENGLISH, COURSE, {}) == "everyone"


def test_readings_show_their_trials():
    thirds = Reading((Fraction(31), Fraction(33), Fraction(32)))
    assert say.reading(ENGLISH, KNEE, thirds, Fraction(32)) == "32° (31, 33, 32)"
    assert say.reading(ENGLISH, KNEE, Reading((Fraction(31),)), Fraction(31)) == "31°"
    assert say.reading(ENGLISH, PAIN, Reading(finding=True), True) == "yes"
    assert say.reading(ENGLISH, STANCE, Reading(finding="hip"), "hip") == "Hip"
    assert say.reading(ENGLISH, KNEE, Reading(), None) == "not recorded"


def test_what_has_no_label_is_said_as_written_with_spaces():
    assert say.label(COURSE, "knee_class") == "Knee class"
    assert say.label(COURSE, "un-known") == "Un known"
    assert say.outcome_label(COURSE, "knee_class", "odd") == "odd"
    assert say.named(ENGLISH, COURSE, "pain", False) == "Pain at rest: no"


def test_what_has_a_comma_in_it_is_set_apart_by_semicolons() -> None:
    assert say.joined(ENGLISH, "or", ["a", "b", "c"]) == "a, b or c"
    assert say.joined(ENGLISH, "or", ["a, or b", "c", "d"]) == "a, or b; c; or d"
    assert say.joined(ENGLISH, "or", ["a, or b", "c"]) == "a, or b; or c"
    assert say.joined(ENGLISH, "or", ["a, or b"]) == "a, or b"


@pytest.mark.parametrize(
    ("last", "after", "said"),
    [
        ("y", "Isabel", "a e Isabel"), ("y", "hijo", "a e hijo"), ("y", "«Índice»", "a e «Índice»"),
        ("y", "hielo", "a y hielo"), ("y", "ion", "a y ion"), ("y", "yeso", "a y yeso"),
        ("o", "otro", "a u otro"), ("o", "hombro", "a u hombro"), ("o", "8 cm", "a u 8 cm"),
        ("o", "80 cm", "a u 80 cm"), ("o", "11", "a u 11"), ("o", "110", "a o 110"), ("o", "uno", "a o uno"),
    ],
)  # fmt: skip
def test_spanish_and_and_or_give_way_to_their_own_sound(last: str, after: str, said: str) -> None:
    """Real Academia Española, Diccionario panhispánico de dudas, under y² and o²."""
    assert say.joined(words_for("es"), last, ["a", after]) == said
    assert say.joined(ENGLISH, last, ["a", after]) == f"a {last} {after}"
