"""Keys, ways and cautions of a tree bound to a client."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from builder.answers import Answers
from builder.course import (
    AskStep,
    Band,
    Case,
    Caution,
    Choice,
    Course,
    DecideStep,
    EndStep,
    Exercise,
    Family,
)
from builder.decide.evaluate import decide, met
from builder.decide.found import find
from builder.exercises import PATHWAY, Walk, bind_walk, facts, follow
from builder.source import load

from .exercises import case, course, table

LOW = ({"angle": Band({"below": Fraction(3)})},)


def walks_of(made: Course, client: Case) -> list[Walk]:
    answers = Answers(made).of(client)
    return [answers.walks[name] for name in answers.exercises]


def caution(name: str = "warm", **more: object) -> Caution:
    made = Caution(name, "Warm up", "adapt", LOW, "Go slowly.")
    return replace(made, **more)  # type: ignore[arg-type]


def first(made: Course, client: Case) -> Walk:
    return walks_of(made, client)[0]


def opening(walk: Walk) -> dict[str, tuple[str, ...]]:
    return {name: step.cautions for name, step in walk.steps.items() if step.cautions}


@pytest.fixture
def ankle() -> Course:
    return load(Path(__file__).parents[1] / "courses" / "ankle").course


def test_a_decision_goes_the_way_of_the_key_whatever_is_answered(ankle: Course) -> None:
    walk = first(ankle, ankle.cases["tern-03"])
    step = walk.steps["class"]
    assert [(o.id, o.text, o.best, o.go) for o in step.options] == [
        ("stiff", "Stiff", True, "warm_up"),
        ("free", "Free", False, "warm_up"),
    ]
    screen = walk.steps["screen"]
    assert {option.go for option in screen.options} == {"class"}
    assert [option.id for option in screen.options if option.best] == ["clear"]
    assert walk.best_path == ("screen", "class", "warm_up", "done")
    assert "sent_on" not in walk.steps


def test_a_client_who_is_sent_on_walks_another_way(ankle: Course) -> None:
    walk = first(ankle, ankle.cases["rail-06"])
    assert walk.best_path == ("screen", "sent_on")
    assert walk.steps["sent_on"].sends_on
    assert set(walk.steps) == {"screen", "sent_on"}


def test_authored_choices_keep_their_harm_reply_and_caution(ankle: Course) -> None:
    options = first(ankle, ankle.cases["tern-03"]).steps["warm_up"].options
    assert [(o.id, o.best, o.harm, o.go, o.cautions) for o in options] == [
        ("a", True, "none", "done", ()),
        ("b", False, "minor", "warm_up", ()),
        ("c", False, "serious", "done", ("heel_pain_loading",)),
    ]
    assert options[1].reply == "The heels lift sooner."


def test_a_decision_shows_the_objective_of_the_questions_about_its_table(ankle: Course) -> None:
    asked = Family("g-class", "decision", "ankle_class", "all", "measure-ankle")
    ankle = replace(ankle, questions={**ankle.questions, "g-class": asked})
    steps = first(ankle, ankle.cases["tern-03"]).steps
    assert steps["class"].objective == "measure-ankle"
    assert steps["screen"].objective is None
    assert steps["warm_up"].objective == "choose-ankle-plan"


def test_exercises_come_in_file_order_and_only_where_they_list_the_client() -> None:
    made = [
        Exercise("b", "B", "all", "end", {"end": EndStep("Done")}),
        Exercise("a", "A", ("wren",), "end", {"end": EndStep("Done")}),
        Exercise("c", "C", ("robin",), "end", {"end": EndStep("Done")}),
    ]
    walks = walks_of(course(table("one", 3), exercises=tuple(made)), case(5))
    assert [walk.exercise for walk in walks] == ["b", "a"]


def test_without_an_exercise_the_walk_goes_over_every_table_in_pathway_order() -> None:
    made = course(table("two", 6), table("one", 3))
    (walk,) = walks_of(made, case(5))
    assert walk.exercise == PATHWAY
    assert walk.best_path == ("one", "two", "done")
    backwards = replace(made, about=replace(made.about, pathway=("two", "one")))
    assert first(backwards, case(5)).best_path == ("two", "one", "done")


def test_that_walk_ends_where_the_client_is_sent_on() -> None:
    made = course(table("one", 3, ends=True), table("two", 6))
    assert first(made, case(2)).best_path == ("one", "sent-on")
    assert first(made, case(2)).steps["sent-on"].sends_on
    assert first(made, case(5)).best_path == ("one", "two", "done")


def test_that_walk_has_ends_of_its_own_even_if_a_table_has_their_name() -> None:
    made = course(table("done", 3), table("sent-on", 6))
    assert first(made, case(5)).best_path == ("done", "sent-on", "done-")


def test_a_course_without_tables_is_walked_at_once() -> None:
    walk = first(course(), case(5))
    assert walk.best_path == ("done",)
    assert follow(walk, []).done


def test_a_caution_opens_with_the_decision_that_it_makes_demands_on() -> None:
    made = course(table("one", 3), table("two", 6), cautions=(caution(demands={"two": ("low",)}),))
    assert opening(first(made, case(2))) == {"two": ("warm",)}
    assert opening(first(made, case(5))) == {}


def test_advice_on_a_decision_that_the_walk_does_not_ask_for_opens_at_its_end() -> None:
    later = caution(demands={"three": ("low",)})
    made = course(table("one", 3), table("two", 6), cautions=(later,))
    assert opening(first(made, case(2))) == {"done": ("warm",)}
    sending_on = replace(later, level="refer")
    assert opening(first(replace(made, cautions={"warm": sending_on}), case(2))) == {"one": ("warm",)}


def test_without_demands_it_opens_with_the_first_decision_that_reads_its_measures() -> None:
    made = course(table("one", 3), table("two", 6), cautions=(caution(),))
    assert opening(first(made, case(2))) == {"one": ("warm",)}


def test_a_caution_of_an_outcome_does_not_open_before_the_decision_of_its_table() -> None:
    with_outcome = caution(applies_to={"two": ("low",)})
    made = course(table("one", 3), table("two", 6), cautions=(with_outcome,))
    assert opening(first(made, case(2))) == {"two": ("warm",)}
    elsewhere = replace(with_outcome, applies_to={"three": ("low",)})
    assert opening(first(replace(made, cautions={"warm": elsewhere}), case(2))) == {"done": ("warm",)}
    sending_on = replace(with_outcome, level="refer")
    assert opening(first(replace(made, cautions={"warm": sending_on}), case(2))) == {
        "one": ("warm",),
        "two": ("warm",),
    }


def test_without_such_a_decision_it_opens_at_the_end() -> None:
    asked = AskStep("?", (Choice("Yes", "", "end", best=True), Choice("No", "", "other")))
    steps = {"ask": asked, "end": EndStep("Done"), "other": EndStep("Done otherwise")}
    made = course(
        table("one", 3), cautions=(caution(),), exercises=(Exercise("e", "E", "all", "ask", steps),)
    )
    walk = first(made, case(2))
    assert opening(walk) == {"end": ("warm",), "other": ("warm",)}
    assert follow(walk, []).cautions == ()
    assert follow(walk, ["a"]).cautions == ("warm",)


def test_a_serious_harm_that_names_no_caution_opens_what_should_have_stopped_the_client() -> None:
    harmful = Choice("Next", "", "end", harm="serious")
    asked = AskStep("?", (Choice("Stop", "", "end", best=True), harmful, replace(harmful, caution="named")))
    made = course(
        cautions=(caution("halt", level="refer"), caution("warm"), caution("other", level="refer", when=())),
        exercises=(Exercise("e", "E", "all", "ask", {"ask": asked, "end": EndStep("Done")}),),
    )
    options = first(made, case(2)).steps["ask"].options
    assert [option.cautions for option in options] == [(), ("halt",), ("named",)]


def test_it_opens_at_the_end_of_a_way_that_misses_the_decision() -> None:
    asked = AskStep("?", (Choice("On", "", "one", best=True), Choice("Out", "", "out")))
    steps = {
        "ask": asked,
        "one": DecideStep("one", {"low": "end", "high": "end"}),
        "end": EndStep("Done"),
        "out": EndStep("Out"),
    }
    made = course(
        table("one", 3), cautions=(caution(),), exercises=(Exercise("e", "E", "all", "ask", steps),)
    )
    assert opening(first(made, case(2))) == {"one": ("warm",), "out": ("warm",)}


def test_at_an_end_that_sends_the_client_on_only_a_caution_that_sends_on_opens() -> None:
    steps = {"out": EndStep("Sent on", sends_on=True)}
    made = course(
        cautions=(caution(), caution("halt", level="refer")),
        exercises=(Exercise("e", "E", "all", "out", steps),),
    )
    assert opening(first(made, case(2))) == {"out": ("halt",)}


def test_a_caution_of_an_outcome_opens_with_the_decision_of_its_table() -> None:
    never = caution("never", when=({"angle": Band({"above": Fraction(9)})},), applies_to={"two": ("high",)})
    made = course(table("one", 3), table("two", 6), cautions=(never,))
    assert opening(first(made, case(7))) == {"two": ("never",)}
    assert opening(first(made, case(5))) == {}


def test_no_caution_is_open_before_an_answer(ankle: Course) -> None:
    for client in ankle.cases.values():
        for walk in walks_of(ankle, client):
            mark = follow(walk, [])
            assert mark.cautions == ()
            assert not mark.done
    opened = follow(first(ankle, ankle.cases["rail-06"]), ["clear"])
    assert opened.cautions == ("heel_pain_loading",)


def test_where_no_rule_decides_the_walk_ends() -> None:
    gap = replace(table("one", 3), rules=table("one", 3).rules[:1])
    made = course(gap, table("two", 6))
    walk = first(made, case(5))
    assert walk.best_path == ("one",)
    assert walk.steps["one"].kind == "end"
    assert "does not say" in walk.steps["one"].prompt


@pytest.mark.parametrize(
    "steps",
    [
        {},
        {"s": DecideStep("missing", {"low": "end"})},
        {"s": DecideStep("one", {"low": "end"})},
        {"s": DecideStep("one", {"high": "nowhere"})},
        {"s": AskStep("?", ())},
        {"s": AskStep("?", (Choice("Round", "", "s"),))},
    ],
)
def test_an_exercise_with_faults_is_still_bound(steps: dict[str, DecideStep | AskStep]) -> None:
    made = course(table("one", 3))
    client = case(5)
    exercise = Exercise("e", "E", "all", "s", steps)
    found = find(made, client.readings)
    walk = bind_walk(made, exercise, client, decide(made, found), met(made, found), Answers(made).of(client))
    assert walk.start == "s"
    assert "s" in walk.steps


def test_the_first_written_of_equally_short_ways_is_the_best_path() -> None:
    def ask(*ways: str) -> AskStep:
        return AskStep("?", tuple(Choice(way, "", way, best=True) for way in ways))

    steps = {"s": ask("b", "a"), "a": ask("end"), "b": ask("end"), "end": EndStep("Done")}
    made = course(exercises=(Exercise("e", "E", "all", "s", steps),))
    assert first(made, case(5)).best_path == ("s", "b", "end")


def test_what_is_odd_about_a_graph_is_told() -> None:
    steps = {
        "s": AskStep(
            "?", (Choice("a", "", "lost", best=True), Choice("b", "", "round"), Choice("c", "", "worse"))
        ),
        "round": AskStep("?", (Choice("a", "", "round", best=True),)),
        "worse": AskStep("?", (Choice("a", "", "end"),)),
        "alone": EndStep("Never"),
        "end": EndStep("Done"),
    }
    found = facts(Exercise("e", "E", "all", "s", steps))
    assert found.missing == (("s", "lost"),)
    assert found.unreachable == ("alone",)
    assert found.trapped == ("round",)
    assert found.no_best == ("worse",)
    assert found.no_best_way == ("s", "worse")
    assert facts(Exercise("e", "E", "all", "gone", steps)).missing[0] == ("", "gone")


def test_a_sound_exercise_has_nothing_odd(ankle: Course) -> None:
    found = facts(ankle.exercises["first-visit"])
    assert not any((found.missing, found.unreachable, found.trapped, found.no_best, found.no_best_way))
