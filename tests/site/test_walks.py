"""What templates of walks and questions ask for beside the model."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builder.answers import Answers
from builder.course import Caution
from builder.exercises import Walk
from builder.site import Site, excerpts, items, walks
from builder.source import load

from ..conftest import ANKLE


@pytest.fixture(scope="module")
def site() -> Site:
    loaded = load(ANKLE)
    return Site(Answers(loaded.course), loaded.texts)


def first(site: Site, case: str) -> Walk:
    client = site.answers.clients[case]
    return client.walks[client.exercises[0]]


@pytest.mark.parametrize(
    ("text", "before", "ask"),
    [
        ("What now?", "", "What now?"),
        ("The heel lifts.\n\nWhat now?", "The heel lifts.", "What now?"),
        ("One.\n\nTwo.\n\nWhat now?", "One.\n\nTwo.", "What now?"),
        ("What now?\n\n- wedge\n- wider", "- wedge\n- wider", "What now?"),
        ("What now?\n\n1. wedge", "1. wedge", "What now?"),
        ("What now?\n\n| a |\n|---|", "| a |\n|---|", "What now?"),
        ("  \n", "", "  \n"),
    ],
)
def test_what_is_told_and_what_is_asked(text: str, before: str, ask: str) -> None:
    assert excerpts.stem(text) == excerpts.Stem(before, ask)


def test_the_next_client_goes_round(site: Site) -> None:
    seen = []
    case = "tern-03"
    for _ in site.course.cases:
        seen.append(case)
        next_page = walks.next_client(site.answers, "first-visit", case)
        assert next_page is not None
        case = next_page.removeprefix("clients/").removesuffix(".html")
    assert sorted(seen) == sorted(site.course.cases)
    assert case == "tern-03"


def test_authored_answers_are_shuffled_and_outcomes_are_not(site: Site) -> None:
    walk = first(site, "tern-03")
    asked = walks.shown(walk, walk.steps["warm_up"])
    assert {option.id for option in asked} == {"a", "b", "c"}
    assert asked == walks.shown(walk, walk.steps["warm_up"])
    assert [option.id for option in walks.shown(walk, walk.steps["class"])] == ["stiff", "free"]


def test_a_stored_walk_ends_with_any_change_that_it_rests_on(site: Site) -> None:
    walk = first(site, "tern-03")
    other = first(site, "plover-04")
    assert walks.walk_block(site.answers, walk) == walks.walk_block(site.answers, walk)
    assert walks.walk_block(site.answers, walk)["digest"] != walks.walk_block(site.answers, other)["digest"]


@pytest.mark.parametrize(("unit", "shown"), [("deg", "°"), ("cm", "cm"), ("%", "%"), ("", "")])
def test_units_stand_alone(unit: str, shown: str) -> None:
    assert items.unit(unit) == shown


def test_a_caution_that_two_answers_open_is_told_once(site: Site) -> None:
    case = site.course.cases["tern-03"]
    walk = first(site, case.name)
    step = walk.steps["warm_up"]
    opening = tuple(replace(o, cautions=() if o.best else ("heel_pain_loading",)) for o in step.options)
    caution = site.course.cautions["heel_pain_loading"]
    assert walks.opened(site.course, replace(step, options=opening)) == [(caution, "b c")]
    met = replace(step, options=opening, cautions=("heel_pain_loading",))
    assert walks.opened(site.course, met) == [(caution, "")]


def test_the_gravest_caution_comes_first(site: Site) -> None:
    mild = Caution("mild", "Mild", "watch", (), "Look.")
    grave = Caution("grave", "Grave", "urgent", (), "Call.")
    course = replace(site.course, cautions={"mild": mild, "grave": grave})
    assert walks.gravest_first(course, ["mild", "unknown", "grave"]) == [grave, mild]
