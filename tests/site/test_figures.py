"""Figures, read back from their SVG."""

from __future__ import annotations

from fractions import Fraction as F
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lxml import etree

from builder.course import (
    About,
    AnyOf,
    Band,
    ChoiceScale,
    Course,
    Is,
    Measure,
    NumberScale,
    Outcome,
    Reading,
    Reference,
    Rule,
    Table,
    YesNoScale,
)
from builder.decide.evaluate import decide_table
from builder.decide.grid import size, value
from builder.site.figures import lines_of, strip, tree
from builder.site.figures.branches import Fork, Leaf, branches
from builder.site.figures.strip import INSET, WIDTH
from builder.site.figures.svg import place, wrap
from builder.words import ENGLISH

BEND = Measure(
    "bend",
    "Bend",
    NumberScale("deg", F(0), F(50), F(5), F(2), reference=(Reference("adults", F(20), F(30), "s"),)),
)
STANCE = Measure("stance", "Stance", ChoiceScale({"narrow": "Narrow", "hip": "Hip width", "wide": "Wide"}))
PAIN = Measure("pain", "Pain", YesNoScale())


def course(table: Table) -> Course:
    return Course(
        About("c", "C"),
        {measure.name: measure for measure in (BEND, STANCE, PAIN)},
        tables={table.name: table},
    )


def table(policy: Any, *rules: Rule, inputs: tuple[str, ...] = ("bend", "stance", "pain")) -> Table:
    outcomes = {rule.then: Outcome(rule.then, rule.then.title()) for rule in rules}
    return Table("t", "What now?", policy, inputs, outcomes, rules)


CUTS = table(
    "first",
    Rule("low", {"bend": Band({"below": F(20)})}, "low"),
    Rule("mid", {"bend": Band({"at_most": F(30)}), "stance": AnyOf(("narrow", "hip"))}, "mid"),
    Rule("rest", {}, "rest"),
)


def parse(svg: str) -> etree._Element:
    return etree.fromstring(svg)


def numbers(d: str) -> list[float]:
    return [float(one) for one in d.split() if one.lstrip("-").replace(".", "").isdigit()]


def test_a_strip_draws_values_where_they_lie() -> None:
    reading = Reading(trials=(F(20), F(25), F(30)))
    svg = parse(strip(ENGLISH, BEND, reading, F(25), lines_of(CUTS, BEND)))
    room = WIDTH - 2 * INSET
    at = {
        css: [numbers(e.get("d"))[0] for e in svg.iterfind(f"path[@class='{css}']")]
        for css in ("trial", "line", "mark")
    }
    assert at["mark"] == [pytest.approx(INSET + room * 0.5)]
    assert at["trial"] == pytest.approx([INSET + room * share for share in (0.4, 0.5, 0.6)], abs=0.06)
    # below 20: midway between 15 and 20; at most 30: midway between 30 and 35
    assert at["line"] == pytest.approx([INSET + room * share for share in (0.35, 0.65)], abs=0.06)
    usual = svg.find("rect[@class='usual']")
    assert float(usual.get("x")) == pytest.approx(INSET + room * 0.4, abs=0.06)
    assert float(usual.get("width")) == pytest.approx(room * 0.2, abs=0.06)


def test_a_strip_says_in_words_what_it_draws() -> None:
    svg = parse(
        strip(ENGLISH, BEND, Reading(trials=(F(25), F(20))), F(25), lines_of(CUTS, BEND), (F(20), F(30)))
    )
    assert svg.findtext("title") == (
        "Bend. Recorded: 25°. Reference for adults: 20 to 30°. The true value likely lies from 20 to 30°. "
        "Trials: 25, 20. Lines between outcomes: 20°, 30°. Scale from 0 to 50°."
    )


def test_figures_carry_classes_only() -> None:
    drawn = tree(ENGLISH, course(CUTS), CUTS)
    assert drawn is not None
    for svg in parse(f"<div>{drawn}</div>"):
        for element in svg.iter():
            assert not {"style", "fill", "stroke"} & set(element.attrib)
        assert svg.get("role") == "img"


@given(st.fractions(-10_000, 10_000))
def test_coordinates_are_short_and_near(number: F) -> None:
    text = place(number)
    assert abs(float(text) - float(number)) <= 0.0500001
    assert "e" not in text
    assert not text.startswith("-0") or text.startswith("-0.")


def test_lines_of_words_are_cut_between_words() -> None:
    assert wrap("one two three", 7) == ["one two", "three"]
    assert wrap("incomprehensibilities", 5) == ["incomprehensibilities"]


def test_a_tree_asks_no_more_than_it_must() -> None:
    root = branches(ENGLISH, course(CUTS), CUTS)
    assert isinstance(root, Fork)
    assert [way.label for way in root.ways] == ["below 20°", "20 to 30°", "above 30°"]
    assert root.ways[0].to == Leaf("low")
    assert root.ways[2].to == Leaf("rest")
    middle = root.ways[1].to
    assert isinstance(middle, Fork)
    assert [way.label for way in middle.ways] == ["Narrow or Hip width", "Wide"]


def test_the_clients_own_way_is_drawn_heavy() -> None:
    plain = tree(ENGLISH, course(CUTS), CUTS)
    own = tree(ENGLISH, course(CUTS), CUTS, {"bend": F(25), "stance": "wide", "pain": True})
    assert plain is not None
    assert own is not None
    assert "mine" not in plain
    for svg in parse(f"<div>{own}</div>"):
        assert [e.text for e in svg.iterfind("text[@class='end mine']")] == ["Rest"]


BANDS = st.dictionaries(
    st.sampled_from(["at_least", "above", "at_most", "below"]),
    st.sampled_from([F(0), F(10), F(25), F(40), F(50)]),
    min_size=1,
    max_size=2,
).map(Band)
CONDITIONS = st.fixed_dictionaries(
    {},
    optional={
        "bend": BANDS,
        "stance": st.sets(st.sampled_from(["narrow", "hip", "wide"]), min_size=1).map(
            lambda s: AnyOf(tuple(sorted(s)))
        ),
        "pain": st.booleans().map(Is),
    },
)


@given(st.lists(st.tuples(CONDITIONS, st.sampled_from("abc")), min_size=1, max_size=5))
def test_a_tree_decides_as_its_table_does(rules: list[tuple[Any, str]]) -> None:
    decided = table("first", *(Rule(f"r{number}", when, then) for number, (when, then) in enumerate(rules)))
    root = branches(ENGLISH, course(decided), decided)
    assert root is not None
    for bend in range(size(BEND)):
        for stance in ("narrow", "hip", "wide"):
            for pain in (False, True):
                found = {"bend": value(BEND, bend), "stance": stance, "pain": pain}
                at = root
                while isinstance(at, Fork):
                    [way] = [way for way in at.ways if way.takes(found[at.input])]
                    at = way.to
                assert at.outcome == decide_table(decided, found).outcome
