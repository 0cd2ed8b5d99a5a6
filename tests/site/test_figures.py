"""Figures, read back from their SVG."""

from __future__ import annotations

from fractions import Fraction as F
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lxml import etree

from builder.answers import Answers, addresses
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
from builder.decide.budget import Unfinished
from builder.decide.evaluate import decide_table
from builder.decide.grid import size, value
from builder.decide.space import Space
from builder.decide.tree import Fork, Leaf, tree_of
from builder.site.figures import Strip, draw_before_after, draw_tree, lines_of
from builder.site.figures.scale import INSET, WIDTH, hatched
from builder.site.figures.svg import place, wrap
from builder.site.figures.tree_words import TreeWords
from builder.site.pages import tables
from builder.site.site import Site
from builder.words import ENGLISH

from ..decide.courses import takes

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
    svg = parse(Strip(ENGLISH, BEND, lines_of(CUTS, BEND)).draw(reading, F(25)))
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
        Strip(ENGLISH, BEND, lines_of(CUTS, BEND)).draw(
            Reading(trials=(F(25), F(20))), F(25), (22.228, 27.772)
        )
    )
    assert svg.findtext("title") == (
        "Bend. Recorded: 25°. Reference for adults: 20 to 30°. Hatched: where the true value lies about "
        "95 times in 100, if only reading error counts (22.2 to 27.8°). Trials: 25, 20. Lines between "
        "outcomes: 20°, 30°. Scale from 0 to 50°."
    )


@given(st.floats(0, 300), st.floats(0, 80), st.floats(1, 30))
def test_hatching_stays_in_its_band(left: float, width: float, height: float) -> None:
    svg = parse(f"<svg>{''.join(hatched(left, left + width, 10, height))}</svg>")
    band = svg.find("rect")
    low, high = float(band.get("x")), float(band.get("x")) + float(band.get("width"))
    for hatch in svg.iterfind("path"):
        places = numbers(hatch.get("d"))
        assert all(low - 0.11 <= x <= high + 0.11 for x in places[::2])
        assert all(10 - 0.11 <= y <= 10 + height + 0.11 for y in places[1::2])
        for x0, y0, x1, y1 in zip(*(places[n::4] for n in range(4)), strict=True):
            assert x1 - x0 == pytest.approx(y0 - y1, abs=0.21), "strokes rise as they run"


def test_before_and_after_stand_on_one_scale() -> None:
    first, second = (Reading(trials=(F(20), F(25))), F(25)), (Reading(trials=(F(40),)), F(40))
    svg = parse(draw_before_after(ENGLISH, BEND, first, second, 10))
    room = WIDTH - 2 * INSET
    marks = [numbers(e.get("d"))[:2] for e in svg.iterfind("path[@class='mark']")]
    assert [x for x, _ in marks] == pytest.approx([INSET + room * 0.5, INSET + room * 0.8], abs=0.06)
    assert marks[0][1] < marks[1][1], "one row below the other"
    band = svg.find("rect[@class='doubt']")
    assert float(band.get("x")) == pytest.approx(INSET + room * 0.3, abs=0.06)
    assert float(band.get("width")) == pytest.approx(room * 0.4, abs=0.1)
    assert svg.findtext("title") == (
        "Bend. First test: 25°. Re-test: 40°. Hatched: where 95 of 100 re-tests of someone who has not "
        "changed would fall, by measurement error alone. Scale from 0 to 50°."
    )


def test_without_error_nothing_is_hatched() -> None:
    one = Reading(trials=(F(25),)), F(25)
    assert "doubt" not in draw_before_after(ENGLISH, BEND, one, one, 0)
    assert "doubt" not in Strip(ENGLISH, BEND).draw(*one)


def test_figures_carry_classes_only() -> None:
    drawn = draw_tree(ENGLISH, course(CUTS), CUTS)
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
    root = tree_of(course(CUTS), CUTS)
    assert isinstance(root, Fork)
    said = TreeWords(ENGLISH, course(CUTS), CUTS)
    assert [said.way(root, way) for way in root.ways] == ["below 20°", "20 to 30°", "above 30°"]
    assert root.ways[0].to == Leaf("low")
    assert root.ways[2].to == Leaf("rest")
    middle = root.ways[1].to
    assert isinstance(middle, Fork)
    assert [said.way(middle, way) for way in middle.ways] == ["Narrow or Hip width", "Wide"]


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
    root = tree_of(course(decided), decided)
    for bend in range(size(BEND)):
        for stance in ("narrow", "hip", "wide"):
            for pain in (False, True):
                found = {"bend": value(BEND, bend), "stance": stance, "pain": pain}
                at = root
                while isinstance(at, Fork):
                    [way] = [way for way in at.ways if takes(way, found[at.input])]
                    at = way.to
                assert at.outcome == decide_table(decided, found).outcome


def fed(first: Table, then: Table) -> Course:
    alone = course(first)
    return Course(alone.about, alone.measures, tables={"first": first, "then": then})


def named(name: str, decided: Table) -> Table:
    return Table(name, "What now?", decided.policy, decided.inputs, decided.outcomes, decided.rules)


FED = st.tuples(CONDITIONS, st.sets(st.sampled_from("abc"), max_size=2), st.sampled_from("xyz"))


@given(
    st.lists(st.tuples(CONDITIONS, st.sampled_from("abc")), max_size=3),
    st.lists(FED, min_size=1, max_size=4),
)
def test_a_pruned_tree_decides_alike_and_has_no_way_that_nobody_takes(
    rules: list[tuple[Any, str]], fed_rules: list[tuple[Any, set[str], str]]
) -> None:
    earlier = table(
        "first", *(Rule(f"r{n}", when, then) for n, (when, then) in enumerate([*rules, ({}, "a")]))
    )
    outcomes = {name: Outcome(name, name.title()) for name in "abc"}
    earlier = Table("first", "What?", "first", earlier.inputs, outcomes, earlier.rules)
    whens = [
        (when | ({"first": AnyOf(tuple(sorted(some)))} if some else {}), to) for when, some, to in fed_rules
    ]
    inputs = ("first", "bend", "stance", "pain")
    later = named(
        "then", table("first", *(Rule(f"r{n}", *one) for n, one in enumerate(whens)), inputs=inputs)
    )
    both = fed(earlier, later)
    root = tree_of(both, later, Space(both))
    taken = set()
    for bend in range(size(BEND)):
        for stance in ("narrow", "hip", "wide"):
            for pain in (False, True):
                found = {"bend": value(BEND, bend), "stance": stance, "pain": pain}
                found["first"] = decide_table(earlier, found).outcome
                at = root
                while isinstance(at, Fork):
                    [way] = [way for way in at.ways if takes(way, found[at.input])]
                    # Of a run of numbers it is enough that somebody has one of them.
                    taken.add((id(way), None if at.input == "bend" else found[at.input]))
                    at = way.to
                assert at.outcome == decide_table(later, found).outcome

    def ways(fork: Any) -> Any:
        for way in fork.ways if isinstance(fork, Fork) else ():
            yield from ((id(way), None if fork.input == "bend" else one) for one in way.values)
            yield from ways(way.to)

    assert set(ways(root)) == taken


def test_where_reach_takes_too_long_to_find_it_is_said() -> None:
    earlier = named("first", CUTS)
    asked = {"first": AnyOf(("low",)), "pain": Is(True)}
    later = named("then", table("first", Rule("r", asked, "x"), Rule("s", {}, "y"), inputs=("first", "pain")))
    both = fed(earlier, later)
    site = Site(Answers(both), {})
    said = "Branches that no client can reach are left out."
    assert said in next(page for page in tables.pages(site) if page.uri == addresses.table("then")).body
    site.answers.rules.space = Space(both, steps=7)
    with pytest.raises(Unfinished):
        tree_of(both, later, site.answers.space)
    whole = next(page for page in tables.pages(site) if page.uri == addresses.table("then")).body
    assert said not in whole
    assert "This tree is read on its own." in whole
