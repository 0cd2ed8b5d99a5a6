"""Unsafe answers as exercises and questions hold them, and as people read them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest
from scipy.stats import norm

from builder.answers import Answers
from builder.answers.client import ClientAnswers
from builder.answers.sentences import acted_on
from builder.course import (
    AskStep,
    Case,
    Caution,
    Choice,
    Client,
    EndStep,
    Exercise,
    Is,
    Option,
    Question,
    When,
)
from builder.decide.harm import ActedOn
from builder.questions import Item
from builder.source import load
from builder.words import harm

from ..decide.courses import band, course, number, read, table, yes_no

DEMO = Path(__file__).parents[2] / "course_src"


@pytest.fixture(scope="module")
def demo() -> Answers:
    return Answers(load(DEMO).course)


def client_of(answers: Answers, item: Item) -> ClientAnswers:
    """The client of a question, who may be made up."""
    client = answers.client(item.case or "")
    assert client is not None
    return client


def test_every_decision_of_an_exercise_and_of_a_question_bears_the_harm_worked_out(demo: Answers) -> None:
    for client in demo.clients.values():
        for name in client.exercises:
            for step in client.walks[name].steps.values():
                for option in step.options if step.kind == "decide" else ():
                    one = client.acted_on[step.table or ""].get(option.id)
                    assert option.acted == one
                    assert option.harm == (one.told if one else "none")
                    assert set(option.cautions) >= set(one.cautions if one else ())
    asked = [item for item in demo.bank if item.table and item.case and item.asks]
    assert asked
    for item in asked:
        labels = {one.label: n for n, one in demo.course.tables[item.table or ""].outcomes.items()}
        told = client_of(demo, item).acted_on[item.table or ""]
        for option in item.options:
            assert option.acted == told.get(labels.get(option.text, "")), item.id


CUT = 20
RECORDED = 22


def near_a_line(error: float) -> ClientAnswers:
    """Someone whose reading lies past the line of a caution that leaves out one of two plans."""
    high = {"width": band(at_least=CUT)}
    plan = table("plan", "first", "width", ("side", high, "side"), ("back", {}, "back"), outcomes="side back")
    caution = Caution("wide", "Wide", "adapt", (high,), "", {"plan": ("side",)})
    made = course(number("width", 0, 50, unit="cm", sem=error), plan, caution)
    return Answers(made).of(Case("one", Client("One"), read(width=RECORDED)))


@pytest.mark.parametrize("error", [0, 0.5, 1, 1.5, 1.6, 2, 4])
def test_what_measurement_error_may_have_done_is_arguable(error: float) -> None:
    """The chance that a true value, normal around the reading, lies at or past the line's midpoint
    (`scipy.stats.norm`): serious from 0.95 on."""
    surely = error == 0 or norm.sf(CUT - 0.5, RECORDED, error) >= 0.95
    client = near_a_line(error)
    answer = client.acted_on["plan"]["back"]
    assert (answer.harm, answer.told) == ("serious", "serious" if surely else "arguable")
    assert client.judged({"plan": "back"}, "none").told == answer.told
    assert client.judged({"plan": "back"}, "serious").told == "serious", "what is written needs no chance"


def test_nobody_stopped_counts_where_those_who_must_stop_are_surely_met() -> None:
    for error, told in ((0.5, "serious"), (4, "arguable")):
        high = {"width": band(at_least=CUT)}
        screen = table("screen", "first", "width", ("a", high, "a"), ("go", {}, "go"), outcomes="a b go")
        ends = {name: replace(one, ends=name != "go") for name, one in screen.outcomes.items()}
        caution = Caution("wide", "Wide", "refer", (high,), "")
        made = course(number("width", 0, 50, unit="cm", sem=error), replace(screen, outcomes=ends), caution)
        client = Answers(made).of(Case("one", Client("One"), read(width=RECORDED)))
        answers = client.acted_on["screen"]
        assert (answers["go"].told, answers["b"].told) == (told, "none")
        said = acted_on(Answers(made), client.case, answers["go"])
        assert "nobody would have stopped this client" in said
        assert said.startswith("This one can be argued") == (told == "arguable")


def warned(*cautions: Sequence[When]) -> str:
    """What lying back is told as, where cautions with such conditions leave it out, for someone who is ill
    and whose reading lies not surely past a line."""
    high = {"width": band(at_least=CUT)}
    plan = table("plan", "first", "width", ("side", high, "side"), ("back", {}, "back"), outcomes="side back")
    told = [
        Caution(f"c{n}", "C", "adapt", tuple(when), "", {"plan": ("side",)})
        for n, when in enumerate(cautions)
    ]
    made = course(number("width", 0, 50, unit="cm", sem=4), yes_no("ill"), plan, *told)
    client = Answers(made).of(Case("one", Client("One"), read(width=RECORDED, ill=True)))
    return client.acted_on["plan"]["back"].told


UNSURE, SURE = {"width": band(at_least=CUT)}, {"ill": Is(True)}


def test_one_caution_that_is_surely_broken_is_enough() -> None:
    assert warned([UNSURE]) == "arguable"
    assert warned([UNSURE], [SURE]) == warned([SURE], [UNSURE]) == "serious"


def test_a_chance_that_cannot_be_told_is_taken_as_recorded() -> None:
    """Another set of the caution's conditions names no measure, so that nobody knows who meets it."""
    assert warned([UNSURE, {"gone": Is(True)}]) == "serious"


def test_an_option_means_what_its_outcomes_would_do_to_the_client_of_the_question(demo: Answers) -> None:
    options = (
        Option("Side", key=True),
        Option("Back", means={"position": "hook_lying"}),
        Option("Off", harm="minor"),
        Option("Right", means={"position": "seated"}),
    )
    question = Question("q", "one", "o", "Where?", options, case="yusra-01")
    for about, harms in ((question, {"Back": "serious"}), (replace(question, case=None), {})):
        made = replace(demo.course, questions={"q": about})
        (item,) = Answers(made).bank
        told = {option.text: option.harm for option in item.options if option.harm != "none"}
        assert told == {"Off": "minor", **harms}
        assert item.case == about.case


def test_a_choice_means_what_its_outcomes_would_do_to_each_client(demo: Answers) -> None:
    choices = (
        Choice("Sit", "", "end", best=True),
        Choice("Lie down", "", "end", means={"position": "hook_lying", "gone": "x", "pause": "gone"}),
    )
    steps = {"ask": AskStep("Where?", choices), "end": EndStep("Done")}
    made = replace(demo.course, exercises={"e": Exercise("e", "E", "all", "ask", steps)})
    answers = Answers(made)
    for client in answers.clients.values():
        _, lie = client.walks["e"].steps["ask"].options
        forbids = [c for c in client.met if "hook_lying" not in c.demands.get("position", ("hook_lying",))]
        wrong = client.decisions["position"].outcome not in (None, "hook_lying")
        assert (lie.harm in ("serious", "arguable")) >= (wrong and bool(forbids))


def test_who_else_to_practise_with(demo: Answers) -> None:
    names = list(demo.clients)
    unsafe = [item for item in demo.bank if any(option.harm == "serious" for option in item.options)]
    assert unsafe
    for item in demo.bank:
        alike = demo.alike(item)
        assert item.case not in alike
        assert len(set(alike)) == len(alike) <= 3
        assert not alike or item in unsafe
        broken = {name for option in item.options if option.acted for name in option.acted.cautions}
        for name in alike if broken else ():
            assert broken & {caution.name for caution in demo.clients[name].met}
        at = names.index(item.case) if item.case in names else -1
        places = [(names.index(name) - at - 1) % len(names) for name in alike]
        assert places == sorted(places), "from the client of the question on, around to the first"


def test_questions_whose_right_answer_ends_know_why(demo: Answers) -> None:
    ending = [item for item in demo.bank if item.sends]
    assert {item.sends for item in ending} == {"stopped", "referred"}
    for item in demo.bank:
        if not item.asks or item.family is None or item.table is None or item.kind != "one":
            continue
        client = client_of(demo, item)
        if set(client.acted_on[item.table]) and item in ending:
            urgent = any(caution.level == "urgent" for caution in client.met)
            assert item.sends == ("stopped" if urgent else "referred")


def test_words_of_an_unsafe_answer(demo: Answers) -> None:
    client = demo.clients["yusra-01"]
    said = acted_on(demo, client.case, client.acted_on["position"]["hook_lying"])
    assert said.startswith("Acted on, this would have led to: On the back, knees bent, feet on the floor.")
    assert "Pregnancy allows: " in said
    assert acted_on(demo, client.case, ActedOn("none")) == ""
    too_careful = harm.overcautious(demo.words)
    assert acted_on(demo, client.case, ActedOn("none", overcautious=True, because=" So. ")) == (
        f"{too_careful} So."
    )
    worse = replace(client.acted_on["position"]["hook_lying"], overcautious=True)
    assert acted_on(demo, client.case, worse) == said
