"""Families: the registry as a whole, and what each asks."""

from __future__ import annotations

import importlib
from dataclasses import replace
from fractions import Fraction
from math import sqrt
from pathlib import Path

import pytest

from builder.answers import Answers
from builder.course import Case, Client, Course, Drawn, Family, NumberScale, Reading, Retest
from builder.decide import grid
from builder.decide.evaluate import decide
from builder.decide.found import find
from builder.questions import Item, families
from builder.questions.families import DRILL_FAMILIES, FAMILIES, kind_of
from builder.questions.marking import mark
from builder.source import load

from .told import unsure

FOLDER = Path(families.__file__).parent


@pytest.fixture
def ankle() -> Course:
    """Tern says something of a measure, and another is drawn: every family has somebody to ask about."""
    course = load(Path(__file__).parents[1] / "courses" / "ankle").course
    tern = replace(course.cases["tern-03"], said={"heel_pain": "Only when I stub it."})
    angle = course.measures["ankle_dorsiflexion"]
    angle = replace(angle, scale=replace(angle.scale, drawn=Drawn("dial")))  # type: ignore[type-var]
    return replace(
        course,
        cases={**course.cases, "tern-03": tern},
        measures={**course.measures, "ankle_dorsiflexion": angle},
    )


ASKED_OF = {"said": "heel_pain", "read_off": "ankle_dorsiflexion"}
"""Family about a measure to one of which it asks."""


def items(course: Course, family: str, table: str) -> dict[str, Item]:
    """Client to the family's item about them."""
    asked = Family("g", family, table, "all", "o", measure=ASKED_OF.get(family))
    return {item.case or "": item for item in Answers(replace(course, questions={"g": asked})).bank}


def held(item: Item) -> list[str]:
    return [option.text for option in item.options if mark(item, option.id) == 1]


def test_every_family_has_a_file_and_every_file_is_a_family() -> None:
    files = {path.stem for path in FOLDER.glob("*.py")} - {"__init__"}
    assert files == set(FAMILIES) | set(DRILL_FAMILIES)


@pytest.mark.parametrize("name", FAMILIES)
def test_every_family_is_documented_and_asks_something(name: str, ankle: Course) -> None:
    page = importlib.import_module(f"builder.questions.families.{name}").__doc__
    assert page
    assert f"family: {name}" in page
    asked = items(ankle, name, "plan")
    assert asked
    for item in asked.values():
        assert item.family == "g"
        assert item.kind == kind_of(Family("g", name, "plan", "all", "o"))
        assert item.why
        assert item.stem.startswith(ankle.cases[item.case or ""].client.name)
        if item.kind == "one":
            assert len(held(item)) == 1
            assert len({option.text for option in item.options}) == len(item.options) >= 2


def test_lists_tell_questions_about_one_client_apart(ankle: Course) -> None:
    """Two families may ask about one table; a list names the client and what the family asks of all."""
    found = [item for family in FAMILIES for item in items(ankle, family, "plan").values()]
    assert all(item.asks for item in found)
    assert len({(item.case, item.asks) for item in found}) == len(found) > len(ankle.cases)


def test_nobody_is_asked_about_who_is_sent_on_before(ankle: Course) -> None:
    hurt = Case(
        "wren", Client("Wren"), {**ankle.cases["plover-04"].readings, "heel_pain": Reading(finding=True)}
    )
    course = replace(ankle, cases={"wren": hurt})
    assert decide(course, find(course, hurt.readings))["ankle_class"].outcome == "free"
    assert items(course, "decision", "ankle_class") == {}
    assert items(course, "other_finding", "ankle_class") == {}
    assert held(items(course, "decision", "screen")["wren"]) == ["Send on"]
    assert held(items(course, "decision", "plan")["wren"]) == ["Send on"]


def test_why_an_outcome_of_several_rules_does_not_hold_is_told_by_the_rule_nearest_to_it(
    ankle: Course,
) -> None:
    plan = ankle.tables["plan"]
    *first, stiff, narrow, free = plan.rules
    also = replace(stiff, id="also", then="widen")
    course = replace(
        ankle, tables={**ankle.tables, "plan": replace(plan, rules=(*first, stiff, also, narrow, free))}
    )
    item = items(course, "decision", "plan")["tern-03"]
    assert held(item) == ["Raise the heels"]
    why = {option.text: option.why for option in item.options}
    assert why["Ask for a wider stance"] == (
        "It would fit too (Ankle class: Stiff), but something else comes first."
    )
    assert why["Squat deep"] == "It is for whoever is left, but something else comes first."


# other_finding


def after(course: Course, case: Case, text: str, table: str) -> str | None:
    """The outcome once the finding that an option names has taken the place of the client's own."""
    for name, measure in course.measures.items():
        for place in range(grid.size(measure)):
            to = grid.value(measure, place)
            shown = {True: "yes", False: "no"}.get(to) if isinstance(to, bool) else None
            if isinstance(to, Fraction):
                shown = f"{to}°"
            elif isinstance(to, str):
                shown = measure.scale.values[to]  # type: ignore[union-attr]
            if text == f"{measure.label}: {shown}":
                read = Reading((to,)) if isinstance(to, Fraction) else Reading(finding=to)
                return decide(course, find(course, {**case.readings, name: read}))[table].outcome
    raise AssertionError(text)


@pytest.mark.parametrize("table", ["screen", "ankle_class", "plan"])
def test_exactly_one_of_the_findings_changes_the_outcome(ankle: Course, table: str) -> None:
    for name, item in items(ankle, "other_finding", table).items():
        case = ankle.cases[name]
        now = decide(ankle, find(ankle, case.readings))[table].outcome
        changing = [o.text for o in item.options if after(ankle, case, o.text, table) != now]
        assert changing == held(item)


def test_the_key_is_the_cheapest_change(ankle: Course) -> None:
    # 32° to 35° costs three degrees over an error of 2°; nothing else changes the plan.
    assert held(items(ankle, "other_finding", "plan")["tern-03"]) == ["Knee-to-wall dorsiflexion: 35°"]
    # 35° to 34° costs half an error, a narrow stance costs 1.
    crake = items(ankle, "other_finding", "plan")["crake-07"]
    assert held(crake) == ["Knee-to-wall dorsiflexion: 34°"]
    assert "Preferred stance: Narrow" not in [option.text for option in crake.options]


def test_what_a_caution_reads_is_changed_only_for_a_table_that_reads_it(ankle: Course) -> None:
    # The plan hangs on the pain by way of the screen, but does not read it.
    for item in items(ankle, "other_finding", "plan").values():
        assert not any("Pain" in option.text for option in item.options)


def test_too_few_findings_make_no_question(ankle: Course) -> None:
    # The screen reads one yes or no: there is no wrong option.
    assert items(ankle, "other_finding", "screen") == {}


# retest


def retested(
    course: Course, first: list[int], again: list[int], sem_of: str = "trial", sem: str = "2"
) -> Course:
    """The course with one client, tested twice, and an ankle measured with this error."""
    measure = course.measures["ankle_dorsiflexion"]
    assert isinstance(measure.scale, NumberScale)
    scale = replace(measure.scale, sem=Fraction(sem), sem_of=sem_of)  # type: ignore[arg-type]
    second = {"ankle_dorsiflexion": Reading(tuple(map(Fraction, again)))}
    case = Case(
        "wren",
        Client("Wren"),
        {**course.cases["tern-03"].readings, "ankle_dorsiflexion": Reading(tuple(map(Fraction, first)))},
        retest=Retest("3 weeks", second),
    )
    measures = {**course.measures, "ankle_dorsiflexion": replace(measure, scale=scale)}
    return replace(course, measures=measures, cases={"wren": case})


@pytest.mark.parametrize(
    ("first", "again", "sem_of", "differs"),
    [
        ([30], [35], "trial", False),  # 1.96 * 2 * sqrt(2) = 5.54
        ([30], [36], "trial", True),
        ([36], [30], "trial", True),
        ([30, 30, 30], [33, 33, 33], "trial", False),  # 1.96 * 2 * sqrt(2/3) = 3.20
        ([30, 30, 30], [34, 34, 34], "trial", True),
        ([30, 30, 30], [35, 35, 35], "session", False),
        ([30, 30, 30], [36, 36, 36], "session", True),
    ],
)
def test_a_retest_differs_beyond_measurement_error(
    ankle: Course, first: list[int], again: list[int], sem_of: str, differs: bool
) -> None:
    item = items(retested(ankle, first, again, sem_of), "retest", "plan")["wren"]
    assert held(item)[0].startswith("Yes" if differs else "No")


@pytest.mark.parametrize(("sem", "printed"), [("2.8", 8), ("4", 11), ("3", 8), ("4.2", 12)])
def test_the_limit_is_the_published_minimal_detectable_change(ankle: Course, sem: str, printed: int) -> None:
    # me-mdc-published-rows: J Sports Sci Med 2009;8(1):116-122, Table 1 (tolerance 0.5 degrees);
    # me-mdc-formula: Weir 2005, MDC95 = 1.96 * sqrt(2) * SEM.
    limit = 1.96 * sqrt(2) * float(sem)
    assert limit == pytest.approx(printed, abs=0.5)
    for apart in range(1, 30):
        item = items(retested(ankle, [10], [10 + apart], sem=sem), "retest", "plan")["wren"]
        assert held(item)[0].startswith("Yes" if apart > limit else "No")


def test_without_error_or_retest_nothing_is_asked(ankle: Course) -> None:
    assert items(retested(ankle, [30], [40], sem="0"), "retest", "plan") == {}
    assert items(ankle, "retest", "screen") == {}
    assert set(items(ankle, "retest", "plan")) == {"tern-03"}


def test_a_retest_is_not_weighed_by_the_chance_of_the_tables_key(ankle: Course) -> None:
    asked = Family("g", "retest", "plan", "all", "o")
    (item,) = unsure(replace(ankle, questions={"g": asked}), {"tern-03": {"plan": 0.1}})
    assert (item.marked, item.chance) == (True, None)
