"""What single rules of walks tell apart."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from builder.answers import Answers
from builder.course import AskStep, Band, Caution, Choice, Course, DecideStep, EndStep, Exercise, Family, Is
from builder.decide.evaluate import decide, met
from builder.decide.found import find
from builder.exercises import (
    GraphFacts,
    Walk,
    WalkOption,
    WalkStep,
    bind_walk,
    facts,
    follow,
    objective_of,
    pathway_exercise,
    walk_data,
)
from builder.exercises.graph import leading_to, reachable, shortest
from builder.exercises.page_data import key_digest

from ..decide.courses import read, yes_no
from ..decide.courses import table as decide_table
from .exercises import case, course, table
from .test_bind import walks_of

GRAPH = {"a": "bc", "b": "d", "c": "d", "d": "ae", "e": "", "f": "e"}


def following(step: str) -> str:
    return GRAPH[step]


def test_what_can_be_reached_comes_nearest_first() -> None:
    assert reachable("a", following) == ("a", "b", "c", "d", "e")
    assert reachable("d", following) == ("d", "a", "e", "b", "c")
    assert reachable("e", following) == ("e",)


def test_the_shortest_way_to_the_nearest_goal() -> None:
    assert shortest("a", {"e", "d"}, following) == ("a", "b", "d")
    assert shortest("a", {"e"}, following) == ("a", "b", "d", "e")
    assert shortest("a", {"a", "b"}, following) == ("a",)
    assert shortest("a", {"f"}, following) == ()


def test_what_leads_to_a_goal() -> None:
    assert leading_to({"e"}, GRAPH, following) == set("abcdef")
    assert leading_to({"f"}, GRAPH, following) == {"f"}
    assert leading_to({"b"}, GRAPH, following) == set("abcd")
    assert leading_to((), GRAPH, following) == set()


def test_only_a_question_about_the_outcome_tells_what_a_decision_shows() -> None:
    asked = {
        "r": Family("r", "retest", "one", "all", "measure"),
        "o": Family("o", "decision", "two", "all", "other"),
        "d": Family("d", "decision", "one", "all", "choose"),
        "e": Family("e", "decision", "one", "all", "later"),
    }
    made = replace(course(table("one", 3), table("two", 6)), questions=asked)
    assert objective_of(made, made.tables["one"]) == "choose"
    assert objective_of(replace(made, questions={}), made.tables["one"]) is None


def test_the_walk_over_every_table() -> None:
    made = course(table("one", 3, ends=True), table("two", 6))
    exercise = pathway_exercise(made)
    assert (exercise.name, exercise.cases, exercise.start) == ("pathway", "all", "one")
    assert exercise.steps == {
        "one": DecideStep("one", {"low": "sent-on", "high": "two"}),
        "two": DecideStep("two", {"low": "done", "high": "done"}),
        "sent-on": EndStep("The client is referred.", sends_on=True),
        "done": EndStep("Every decision about this client is made."),
    }
    assert pathway_exercise(course()).start == "done"


def bound(steps: dict[str, AskStep | DecideStep | EndStep], angle: int, *cautions: Caution) -> Walk:
    made = course(table("one", 3), table("two", 6), cautions=cautions)
    client = case(angle)
    exercise = Exercise("e", "Title", "all", "s", steps)
    found = find(made, client.readings)
    return bind_walk(made, exercise, client, decide(made, found), met(made, found), Answers(made).of(client))


def test_a_decision_that_the_tree_has_no_way_for_ends_the_walk() -> None:
    steps = {"s": DecideStep("one", {"low": "end"}), "end": EndStep("Done")}
    assert bound(steps, 2).best_path == ("s", "end")
    cut = bound(steps, 5)
    assert (cut.best_path, cut.steps["s"].kind, cut.steps["s"].sends_on) == (("s",), "end", False)
    assert set(cut.steps) == {"s"}


def test_only_the_ways_of_best_answers_make_the_best_path() -> None:
    steps = {
        "s": AskStep("?", (Choice("Short", "", "end"), Choice("Long", "", "two", best=True))),
        "two": AskStep("?", (Choice("On", "", "end", best=True), Choice("Back", "", "s", best=True))),
        "end": EndStep("Done", sends_on=True),
    }
    walk = bound(steps, 5)
    assert walk.best_path == ("s", "two", "end")
    assert (walk.exercise, walk.case, walk.title, walk.start) == ("e", "wren", "Title", "s")
    assert walk.steps["end"].sends_on


def test_only_serious_harm_that_names_none_opens_what_sends_this_client_on() -> None:
    low = ({"angle": Band({"below": Fraction(3)})},)
    cautions = (
        Caution("halt", "Halt", "urgent", low, ""),
        Caution("warm", "Warm", "adapt", low, ""),
        Caution("high", "High", "refer", ({"angle": Band({"above": Fraction(6)})},), ""),
    )
    harms = ("none", "minor", "serious")
    choices = tuple(Choice(harm, "", "end", harm == "none", harm) for harm in harms)
    steps = {"s": AskStep("?", choices), "end": EndStep("Done")}
    assert [o.cautions for o in bound(steps, 2, *cautions).steps["s"].options] == [(), (), ("halt",)]
    assert [o.cautions for o in bound(steps, 5, *cautions).steps["s"].options] == [(), (), ()]


def test_a_caution_of_several_reasons_stands_once_at_a_step() -> None:
    low = ({"angle": Band({"below": Fraction(3)})},)
    both = Caution("b", "B", "adapt", low, "", demands={"one": ("low",)}, applies_to={"one": ("low",)})
    [walk] = walks_of(course(table("one", 3), cautions=(both,)), case(2))
    assert {name: step.cautions for name, step in walk.steps.items()} == {"one": ("b",), "done": ()}


def test_what_sends_on_opens_with_the_first_table_that_reads_it_though_another_carries_it() -> None:
    low = ({"angle": Band({"below": Fraction(3)})},)
    for level, opens in (("refer", ["one", "two"]), ("adapt", ["two"])):
        carried = Caution("c", "C", level, low, "", applies_to={"two": ("low",)})  # type: ignore[arg-type]
        [walk] = walks_of(course(table("one", 3), table("two", 6), cautions=(carried,)), case(2))
        assert [name for name, step in walk.steps.items() if step.cautions] == opens
    elsewhere = Caution("c", "C", "refer", ({"pain": Band({})},), "", applies_to={"two": ("low",)})
    [walk] = walks_of(course(table("one", 3), table("two", 6), cautions=(elsewhere,)), case(2))
    assert [name for name, step in walk.steps.items() if step.cautions] == ["two"]


def test_it_opens_with_no_table_that_reads_something_else() -> None:
    pain = decide_table("a", "first", "pain", ("no", {"pain": Is(False)}, "on"), ("yes", {}, "rest"))
    caution = Caution("c", "C", "adapt", ({"angle": Band({"below": Fraction(3)})},), "")
    made = course(table("b", 3), cautions=(caution,))
    made = replace(
        made, measures={**made.measures, "pain": yes_no("pain")}, tables={**made.tables, "a": pain}
    )
    client = replace(case(2), readings={**case(2).readings, **read(pain=False)})
    [walk] = walks_of(made, client)
    assert walk.best_path == ("a", "b", "done")
    assert [name for name, step in walk.steps.items() if step.cautions] == ["b"]


def test_a_missing_start_is_odd_and_nothing_can_be_reached() -> None:
    steps = {"a": AskStep("?", (Choice("x", "", "a"), Choice("y", "", "gone"), Choice("z", "", "gone")))}
    assert facts(Exercise("e", "E", "all", "nowhere", steps)) == GraphFacts(
        missing=(("", "nowhere"), ("a", "gone")),
        unreachable=("a",),
        trapped=(),
        no_best=("a",),
        no_best_way=(),
    )


def test_a_decision_may_take_any_of_its_ways() -> None:
    steps = {
        "s": DecideStep("one", {"low": "end", "high": "ask"}),
        "ask": AskStep("?", (Choice("x", "", "s", best=True), Choice("y", "", "end"))),
        "end": EndStep("Done"),
    }
    assert facts(Exercise("e", "E", "all", "s", steps)) == GraphFacts((), (), (), (), ())
    steps["alone"] = AskStep("?", (Choice("x", "", "end"),))
    assert facts(Exercise("e", "E", "all", "s", steps)) == GraphFacts((), ("alone",), (), ("alone",), ())
    del steps["alone"]
    steps["s"] = DecideStep("one", {"high": "ask"})
    assert facts(Exercise("e", "E", "all", "s", steps)).no_best_way == ("s", "ask")


def stepped(*bests: bool) -> Walk:
    """A line of steps at which the wrong answer goes on too, with one more way round the first."""
    names = [f"s{n}" for n in range(len(bests))]
    steps = {
        name: WalkStep(
            name,
            "ask",
            "?",
            (
                WalkOption("a", "", True, then),
                WalkOption("b", "", False, then, "minor"),
                WalkOption("c", "", False, name, "serious", cautions=("own",)),
            ),
            objective=f"o{int(n == 0)}" if n < 2 else None,
            cautions=("here",),
        )
        for n, (name, then) in enumerate(zip(names, [*names[1:], "end"], strict=True))
    }
    steps["end"] = WalkStep("end", "end", "Done", cautions=("last",))
    return Walk("e", "k", "T", names[0], steps, (*names, "end"))


@pytest.mark.parametrize(
    ("picks", "mark", "serious", "cautions"),
    [
        ("", Fraction(0), False, ()),
        ("a", Fraction(1, 3), False, ("here",)),
        ("aaa", Fraction(1), False, ("here", "last")),
        ("bab", Fraction(1, 3), False, ("here", "last")),
        ("ca", Fraction(0), True, ("own", "here")),
        ("caaa", Fraction(2, 3), True, ("own", "here", "last")),
    ],
)
def test_a_walk_is_marked_by_first_answers(
    picks: str, mark: Fraction, serious: bool, cautions: tuple[str, ...]
) -> None:
    found = follow(stepped(True, True, True), picks)
    assert (found.mark, found.serious, found.cautions) == (mark, serious, cautions)
    assert found.done == (len(picks.replace("c", "")) == 3)
    assert found.of == 3


def test_the_worst_harm_at_a_step_and_its_objective() -> None:
    found = follow(stepped(True, True, True), "cbab")
    assert [(step.step, step.held, step.harm, step.objective) for step in found.steps] == [
        ("s0", False, "serious", "o1"),
        ("s1", True, "none", "o0"),
        ("s2", False, "minor", None),
    ]
    assert found.objectives == {"o1": (0, 1), "o0": (1, 1)}
    assert found.path == ("s0", "s0", "s1", "s2", "end")


def test_held_needs_the_end_the_pass_mark_and_no_serious_harm() -> None:
    walk = stepped(True, True, True)
    assert follow(walk, "aab").held(Fraction(2, 3))
    assert not follow(walk, "aab").held(Fraction(3, 4))
    assert not follow(walk, "aa").held(Fraction(2, 3))
    assert not follow(walk, "caaa").held(Fraction(0))


def test_a_longer_walk_of_first_answers_held_is_no_more_than_full_and_a_miss_costs_one() -> None:
    """The best path has one step, but two are met."""
    walk = replace(stepped(True, True), best_path=("s0", "end"))
    assert (follow(walk, "aa").held_steps, follow(walk, "aa").mark) == (1, 1)
    assert (follow(walk, "ab").held_steps, follow(walk, "ab").mark) == (0, 0)
    nowhere = replace(walk, best_path=())
    assert [follow(nowhere, picks).mark for picks in ("", "aa", "ab")] == [1, 1, 0]
    assert follow(nowhere, "ab").held_steps == 0


def test_a_pick_that_is_not_offered_is_an_error() -> None:
    for picks in ("x", "aaaa", "az"):
        with pytest.raises(ValueError, match="has no option"):
            follow(stepped(True, True, True), picks)


def test_page_data_is_all_but_the_prose() -> None:
    data = walk_data(stepped(True), Fraction(4, 5))
    assert data == {
        "exercise": "e",
        "case": "k",
        "start": "s0",
        "best_path": ["s0", "end"],
        "pass_mark": (4, 5),
        "steps": {
            "s0": {
                "kind": "ask",
                "options": [
                    {"id": "a", "best": True, "go": "end", "harm": "none", "cautions": []},
                    {"id": "b", "best": False, "go": "end", "harm": "minor", "cautions": []},
                    {"id": "c", "best": False, "go": "s0", "harm": "serious", "cautions": ["own"]},
                ],
                "objective": "o1",
                "table": None,
                "cautions": ["here"],
                "sends_on": False,
                "key_digest": data["steps"]["s0"]["key_digest"],
            },
            "end": {
                "kind": "end",
                "options": [],
                "objective": None,
                "table": None,
                "cautions": ["last"],
                "sends_on": False,
                "key_digest": "",
            },
        },
    }


def test_the_key_digest_of_a_step_is_that_of_what_holds() -> None:
    step = stepped(True).steps["s0"]
    best, minor, serious = step.options
    digest = key_digest(step)
    assert len(digest) == 8
    assert key_digest(replace(step, prompt="Reworded", options=(best, serious))) == digest
    both = (best, replace(minor, best=True))
    assert key_digest(replace(step, options=both)) != digest
    texts = [replace(one, text=text) for one, text in zip(both, ("On", "Back"), strict=True)]
    assert key_digest(replace(step, options=tuple(texts))) == key_digest(
        replace(step, options=tuple(reversed(texts)))
    )
    assert key_digest(replace(step, options=(replace(best, text="Another"), minor))) != digest
    decided = replace(step, kind="decide")
    relabelled = replace(decided, options=(replace(best, text="Another"), minor))
    assert key_digest(decided) == key_digest(relabelled) != digest


def test_no_exercise_lists_the_client_unless_it_names_them() -> None:
    made: Course = course(
        table("one", 3), exercises=(Exercise("a", "A", ("robin",), "end", {"end": EndStep("Done")}),)
    )
    assert [walk.exercise for walk in walks_of(made, case(5))] == ["pathway"]
    assert [walk.exercise for walk in walks_of(made, case(5, "robin"))] == ["a"]
