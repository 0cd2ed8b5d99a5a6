"""What single rules of the bank, of draws and of families tell apart."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import factorial, sqrt
from pathlib import Path
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.answers import Answers
from builder.course import (
    About,
    AnyOf,
    BlueprintRow,
    Case,
    Caution,
    Client,
    Correction,
    Course,
    Drill,
    DrillFault,
    Family,
    Is,
    Option,
    Outcome,
    Phase,
    Question,
    Quiz,
    Reading,
    Retest,
)
from builder.questions import FIRST_SEED, Item, build_bank, draw_data, draw_quiz, item_data, quiz_pool
from builder.questions.corrections import asked, folded
from builder.questions.marking import by_objective, is_held, mark, mark_quiz
from builder.questions.numbers import LONGEST, read_number
from builder.questions.options import lettered, shown
from builder.questions.pcg import Pcg32, seed_of
from builder.questions.written import item_of
from builder.source import load

from ..decide.courses import band, course, number, read, table, yes_no
from .told import unsure

# marking


def item(kind: str, key: object) -> Item:
    return Item("q", kind, "o", "?", key)  # type: ignore[arg-type]


def test_a_key_of_nothing_earns_nothing_and_breaks_nothing() -> None:
    assert mark(item("several", ()), ["a"]) == 0
    assert mark(item("pairs", ()), ["a"]) == 0
    assert mark(item("order", ("a",)), ["a"]) == 1
    assert mark(item("number", (Fraction(3),)), "3") == 0
    assert mark(item("number", ("a", "b")), "3") == 0
    assert mark(item("number", (Fraction(3), Fraction(0))), ["3"]) == 0


def test_no_reply_earns_nothing() -> None:
    for kind, key in [
        ("one", ""),
        ("several", ("a",)),
        ("order", ()),
        ("number", (Fraction(0), Fraction(9))),
    ]:
        assert mark(item(kind, key), None) == mark(item(kind, key), "") == mark(item(kind, key), ()) == 0


def test_single_picks_and_pairs_count_their_share() -> None:
    assert mark(item("several", ("a", "b")), "a") == Fraction(1, 2)
    assert mark(item("several", ("a", "b")), ["a", "b", "c"]) == Fraction(1, 2)
    assert mark(item("several", ("a",)), ["b", "c"]) == 0
    assert mark(item("pairs", ("a", "b", "c")), ["a", "c", "c"]) == Fraction(2, 3)
    assert mark(item("pairs", ("a", "b", "c")), ["a"]) == Fraction(1, 3)
    assert mark(item("pairs", ("a", "b")), ["a", "b", "c"]) == 1
    assert mark(item("order", ("a", "b", "c")), ["a", "c", "b"]) == Fraction(1, 3)
    assert mark(item("order", ("a", "b", "c")), ["a", "b"]) == 0
    assert is_held(Fraction(1))
    assert not is_held(Fraction(99, 100))


def test_a_quiz_is_held_at_the_pass_mark_and_one_that_asks_nothing_never() -> None:
    assert mark_quiz([], Fraction(0)).held is False
    half = [Fraction(1), Fraction(0)]
    assert mark_quiz(half, Fraction(1, 2)).held
    assert not mark_quiz(half, Fraction(51, 100)).held
    assert not mark_quiz(half, Fraction(1, 2), serious=True).held
    assert mark_quiz(half, Fraction(1, 2)).mark == Fraction(1, 2)


def test_objectives_count_held_and_answered() -> None:
    assert by_objective([("a", True), ("b", False), ("a", False), ("a", True)]) == {"a": (2, 3), "b": (0, 1)}


def test_the_longest_number_is_read_and_a_longer_text_is_not() -> None:
    assert LONGEST == 40
    assert read_number("1".rjust(40)) == 1
    assert read_number("1".rjust(41)) is None


# options


def test_options_by_size_need_one_unit_and_a_number_in_each() -> None:
    for texts in (["1 m", "20 cm", "3 m"], ["3", "10 or so", "x"], ["1", "2 cm"]):
        orders = {tuple(shown(f"q{n}", texts)) for n in range(80)}
        assert len(orders) == factorial(len(texts)), texts
    assert shown("q", ["10 cm", "9 cm", "9 cm", " 8 cm"]) == [" 8 cm", "9 cm", "10 cm"]
    assert shown("q", ["2.0", "2", "1"]) == ["1", "2", "2.0"], "alike in size: by their texts"
    assert [(one.id, one.text, one.why) for one in lettered(["x", "y"], {"y": "since"})] == [
        ("a", "x", ""),
        ("b", "y", "since"),
    ]


# chance


@given(st.integers(0, 2**64 - 1), st.integers(1, 2**32 - 1))
def test_a_bounded_number_is_within_its_bound(seed: int, bound: int) -> None:
    chance = Pcg32(seed)
    assert all(0 <= chance.below(bound) < bound for _ in range(5))


def test_bounded_numbers_leave_out_what_would_favour_some() -> None:
    """O'Neill's minimal C implementation: numbers below 2^32 mod bound are drawn again."""
    bound = 3 * 2**30
    again, plain = Pcg32(42), Pcg32(42)
    for _ in range(50):
        number = plain.next()
        while number < 2**32 % bound:
            number = plain.next()
        assert again.below(bound) == number % bound


def test_all_orders_come_about_as_often() -> None:
    chance = Pcg32(seed_of("orders"))
    counts: dict[tuple[int, ...], int] = {}
    for _ in range(2400):
        order = tuple(chance.shuffled(range(4)))
        counts[order] = counts.get(order, 0) + 1
    # 24 orders of 100 each, standard deviation 9.8; five of them either way.
    assert len(counts) == 24
    assert all(51 <= count <= 149 for count in counts.values())


def test_the_sequence_is_that_of_the_published_demonstration() -> None:
    """O'Neill 2014, pcg32-demo: seed 42, sequence 54."""
    assert Pcg32(42).next() == 0xA15C02B7


def test_a_seed_is_the_first_64_bits_of_the_published_hash() -> None:
    """FIPS 180-4, SHA-256 of "abc": ba7816bf 8f01cfea ..."""
    assert seed_of("abc") == 0xBA7816BF8F01CFEA


# draws


def items(*specs: tuple[str, str, str | None]) -> tuple[Item, ...]:
    """Id, objective and client."""
    return tuple(Item(name, "one", objective, "?", "a", case=client) for name, objective, client in specs)


def test_what_is_drawn_from() -> None:
    bank = (
        *items(("p", "o2", "wren"), ("q", "o1", None), ("r", "o1", "robin"), ("s", "o3", None)),
        replace(items(("t", "o1", "robin"))[0], marked=False),
        replace(items(("u", "o1", "robin"))[0], family="g"),
    )
    quiz = Quiz("z", "Z", blueprint=(BlueprintRow("o1", 2), BlueprintRow("o2", 1), BlueprintRow("o1", 1)))
    assert [one.id for one in quiz_pool(quiz, bank)] == ["q", "r", "u", "p"], "client by client"
    assert draw_data(quiz, bank) == {
        "rows": [(0, 2), (1, 1), (2, 1)],
        "pool": [0, 0, 0, 1],
        "client": [-1, 0, 0, 1],
        "must": [],
        "never": [],
    }
    listed = Quiz("z", "Z", questions=("g", "q", "gone"))
    assert draw_data(listed, bank)["rows"] == [(0, 1), (1, 1), (2, 1)]
    assert [one.id for one in draw_quiz(listed, bank)] == ["u", "q"]


def test_the_draw_on_the_page_is_the_first() -> None:
    bank = items(*((f"q{n}", "o", None) for n in range(30)))
    quiz = Quiz("z", "Z", blueprint=(BlueprintRow("o", 10),))
    assert FIRST_SEED == 1
    assert draw_quiz(quiz, bank) == draw_quiz(quiz, bank, 1) != draw_quiz(quiz, bank, 2)


def test_a_client_comes_again_only_in_places_that_are_left_over() -> None:
    bank = items(("a1", "o", "a"), ("a2", "o", "a"), ("b1", "o", "b"), ("n", "o", None), ("m", "o", None))
    for count, repeated in ((2, 0), (4, 0), (5, 1), (6, 1)):
        quiz = Quiz("z", "Z", blueprint=(BlueprintRow("o", count),))
        for seed in range(20):
            drawn = draw_quiz(quiz, bank, seed)
            clients = [one.case for one in drawn if one.case]
            assert len({one.id for one in drawn}) == len(drawn) == min(count, 5)
            assert len(clients) - len(set(clients)) == repeated or repeated == 0


# drills


def drill(name: str, *faults: DrillFault) -> Drill:
    return Drill(name, name.capitalize(), ("Pain",), (Phase("p", "Phase", ("Cue",), faults=faults),))


def fault(name: str, *corrections: str, **more: object) -> DrillFault:
    says = tuple(Correction(one, f"then {one}") for one in corrections)
    return DrillFault(name, f"Sign {name}.", "Why", says, **more)  # type: ignore[arg-type]


def drill_course(*drills: Drill, family: str = "fault") -> Course:
    asks = {"g": Family("g", family, "", "all", "o", drill=drills[0].name)}
    return Course(About("c", "C"), drills={one.name: one for one in drills}, questions=asks)


@pytest.mark.parametrize(("others", "options"), [(0, None), (1, None), (2, 3), (3, 4), (5, 4)])
def test_a_sign_is_asked_about_with_two_wrong_corrections_and_three_at_most(
    others: int, options: int | None
) -> None:
    made = drill("squat", fault("f", "right"), *(fault(f"w{n}", f"wrong {n}") for n in range(others)))
    found = {one.id: one for one in build_bank(drill_course(made))}
    assert (len(found["g.f"].options) if "g.f" in found else None) == options


def test_wrong_corrections_come_from_the_same_drill_first() -> None:
    own = [fault(f"w{n}", f"own {n}") for n in range(2)]
    made = drill("squat", fault("f", "right"), *own)
    other = drill("lunge", *(fault(f"x{n}", f"other {n}") for n in range(4)))
    course = drill_course(made, other)
    (first, *_) = asked(course, made)
    says = [correction.say for correction, _ in first.wrong]
    assert sorted(says[:2]) == ["own 0", "own 1"]
    assert says[2].startswith("other")
    assert [belongs.id for _, belongs in first.wrong[:2]] == [f"w{say[-1]}" for say in says[:2]]
    assert first.right.say == "right"


def test_an_explanation_says_all_that_the_fault_does() -> None:
    asks = fault("f", "first", "second", "third", stop_when="It grows.")
    made = drill("squat", asks, fault("w", "x", "y"), fault("v", "z"))
    found = {one.id: one for one in build_bank(drill_course(made))}["g.f"]
    assert found.why == (
        "Likely cause: Why\n\nthen first\n\nIf that does not help: second\n\nIf that does not help: third\n\n"
        "When to stop: It grows."
    )
    assert found.stem == "Squat. Phase: Sign f. What do you do first?"
    wrong = {option.text: option.why for option in found.options if option.id != found.key}
    assert wrong == {
        "x": "That belongs to another sign: Sign w.",
        "y": "That belongs to another sign: Sign w.",
        "z": "That belongs to another sign: Sign v.",
    }
    assert (found.drill, found.family, found.kind, found.objective) == ("squat", "g", "one", "o")


@pytest.mark.parametrize(
    ("labels", "is_asked"), [("ab", False), ("abc", True), ("abca", False), ("abA", False)]
)
def test_phases_are_put_in_order_from_three_different_ones_on(labels: str, is_asked: bool) -> None:
    phases = tuple(Phase(f"p{n}", label, (f"cue {n}", "x")) for n, label in enumerate(labels))
    made = replace(drill("squat"), phases=phases)
    found = build_bank(drill_course(made, family="sequence"))
    assert bool(found) is is_asked
    if found:
        assert found[0].why == "1. a: cue 0\n2. b: cue 1\n3. c: cue 2"
        assert (found[0].id, found[0].stem) == ("g.squat", "Squat: put its phases in order.")
        assert (found[0].family, found[0].drill) == ("g", "squat")


def test_texts_are_compared_without_case_spaces_and_last_point() -> None:
    assert folded("  Softer,\n and SLOWER. ") == "softer, and slower"
    assert folded("a. b") == "a. b"


def test_an_unknown_drill_or_family_of_drills_gives_no_item() -> None:
    made = drill("squat", fault("f", "a"), fault("g", "b"), fault("h", "c"))
    assert len(build_bank(drill_course(made))) == 3
    assert build_bank(drill_course(made, family="decision")) == ()
    assert build_bank(replace(drill_course(made), drills={})) == ()


# written


def test_steps_are_shown_out_of_order_by_half_of_their_pairs_at_least() -> None:
    """As few in order as earn nothing: Kendall's tau at most 0."""
    seen = set()
    for n in range(60):
        found = item_of(Question(f"q{n}", "order", "o", "?", items=("one", "two", "three", "four")))
        shown_as = [option.id for option in found.options]
        places = [found.key.index(name) for name in shown_as]  # type: ignore[arg-type]
        in_order = sum(a < b for at, a in enumerate(places) for b in places[at + 1 :])
        assert in_order <= 3
        seen.add(in_order)
    assert max(seen) == 3, "and no more strictly than that"


def test_a_question_of_several_keys_keeps_them_all_and_one_takes_the_first() -> None:
    options = (Option("x", True), Option("y"), Option("z", True))
    several = item_of(Question("q", "several", "o", "?", options))
    assert len(several.key) == 2
    one = item_of(Question("q", "one", "o", "?", options))
    assert one.key in several.key
    number = item_of(Question("q", "number", "o", "?"))
    assert number.key == (0, 0)


# the bank


ANGLE = number("angle", 0, 60, unit="deg", sem=2)
PLAN = table(
    "plan", "first", "angle pain",
    ("hurt", {"pain": Is(True)}, "rest"), ("low", {"angle": band(below=30)}, "wedge"), ("all", {}, "squat"),
)  # fmt: skip


def one_client(made: Course, family: str = "decision", **readings: object) -> Course:
    asks = {"g": Family("g", family, "plan", "all", "o")}
    return replace(made, questions=asks, cases={"k": Case("k", Client("Wren"), read(**readings))})


def test_a_key_of_exactly_80_of_100_is_sure_enough() -> None:
    made = one_client(course(ANGLE, yes_no("pain"), PLAN), angle=40, pain=False)
    for chance, marked in ((0.8, True), (0.79, False), (1.0, True)):
        (found,) = unsure(made, {"k": {"plan": chance}})
        assert (found.chance, found.marked) == (chance, marked)
    (found,) = unsure(made, {})
    assert (found.chance, found.marked) == (None, True)


def test_an_outcome_that_no_rule_leads_to_says_so() -> None:
    spare = replace(PLAN, outcomes={**PLAN.outcomes, "never": Outcome("never", "Never")})
    (found,) = Answers(one_client(course(ANGLE, yes_no("pain"), spare), angle=40, pain=False)).bank
    whys = {option.text: option.why for option in found.options}
    assert whys["Never"] == "Nobody gets this answer here."
    assert whys["Squat"] == ""
    assert found.why == "It is for everyone who is left."
    assert [option.id for option in found.options] == ["a", "b", "c", "d"]
    assert found.key == "c"
    assert (found.stem, found.asks) == ("Wren: What about plan?", "What about plan?")


@pytest.mark.parametrize(
    ("pain", "level", "sends"),
    [
        (True, "urgent", "stopped"),
        (True, "refer", "referred"),
        (True, None, "referred"),
        (False, "urgent", None),
    ],
)
def test_a_question_knows_whether_its_answer_stops_or_refers(
    pain: bool, level: Literal["urgent", "refer"] | None, sends: str | None
) -> None:
    ends = {name: replace(one, ends=name == "rest") for name, one in PLAN.outcomes.items()}
    made = one_client(course(ANGLE, yes_no("pain"), replace(PLAN, outcomes=ends)), angle=40, pain=pain)
    if level:
        made = replace(made, cautions={"c": Caution("c", "C", level, ({"angle": band(above=1)},), "")})
    (found,) = Answers(made).bank
    assert found.sends == sends


def test_what_cannot_be_asked_keeps_nothing_else_from_being_asked() -> None:
    made = one_client(course(ANGLE, yes_no("pain"), PLAN), angle=40, pain=False)
    squat = drill("squat", fault("f", "a"), fault("g", "b"), fault("h", "c"))
    questions = {
        "u": Family("u", "riddle", "plan", "all", "o"),
        "t": Family("t", "decision", "gone", "all", "o"),
        "d": Family("d", "fault", "", "all", "o", drill="squat"),
        "w": Question("w", "number", "o", "?"),
        "g": Family("g", "decision", "plan", ("gone", "other", "k"), "o"),
    }
    other = {"other": Case("other", Client("Other"), {}), **made.cases}
    asks = replace(made, questions=questions, drills={"squat": squat}, cases=other)
    assert [one.id for one in Answers(asks).bank] == ["d.f", "d.g", "d.h", "w", "g.k"]
    known = {"k": Answers(asks).clients["k"]}
    assert [one.id for one in build_bank(asks, clients=known)] == ["d.f", "d.g", "d.h", "w", "g.k"]


def test_nothing_is_asked_where_nothing_is_decided() -> None:
    holed = replace(PLAN, rules=PLAN.rules[:2])
    assert Answers(one_client(course(ANGLE, yes_no("pain"), holed), angle=40, pain=False)).bank == ()
    assert Answers(one_client(course(ANGLE, yes_no("pain"), PLAN), angle=40)).bank == ()
    lost = replace(PLAN, outcomes={"rest": Outcome("rest", "Rest")})
    assert Answers(one_client(course(ANGLE, yes_no("pain"), lost), angle=40, pain=False)).bank == ()


def test_readings_count_for_the_digest_and_nothing_else_of_a_client() -> None:
    made = one_client(course(ANGLE, yes_no("pain"), PLAN), angle=[40, 42], pain=False)

    def digest(changed: Course) -> str:
        (found,) = Answers(changed).bank
        assert len(found.digest) == 16
        return found.digest

    case = made.cases["k"]
    first = digest(made)
    assert (
        digest(replace(made, cases={"k": replace(case, story="Another", expect={"plan": "rest"})})) == first
    )
    for readings in ({"angle": [42, 40]}, {"angle": 41}):
        changed = {**case.readings, **read(**readings)}
        assert digest(replace(made, cases={"k": replace(case, readings=changed)})) != first


def test_a_written_question_about_a_client_is_judged_and_sealed_with_their_readings() -> None:
    made = one_client(course(ANGLE, yes_no("pain"), PLAN), angle=40, pain=True)
    ends = {name: replace(one, ends=name == "rest") for name, one in PLAN.outcomes.items()}
    made = replace(made, tables={"plan": replace(PLAN, outcomes=ends)})
    options = (Option("Rest", key=True), Option("Squat", means={"plan": "squat"}))

    def asked_of(case: str | None, **readings: object) -> Item:
        written = Question("q", "one", "o", "?", options, case=case)
        cases = {"k": replace(made.cases["k"], readings={**made.cases["k"].readings, **read(**readings)})}
        (found,) = Answers(replace(made, cases=cases, questions={"q": written})).bank
        return found

    def harm(item: Item) -> str:
        (squat,) = [option for option in item.options if option.text == "Squat"]
        return squat.harm

    assert (harm(asked_of("k")), harm(asked_of("gone")), harm(asked_of(None))) == ("minor", "none", "none")
    assert harm(asked_of("k", pain=False)) == "none", "to squat is then the key"
    assert asked_of("k").digest != asked_of("k", angle=41).digest
    assert asked_of(None).digest == asked_of(None, angle=41).digest != asked_of("k").digest


def test_data_of_an_item_is_its_key_in_whole_numbers() -> None:
    found = item_data(replace(item("number", (Fraction(5, 2), Fraction(1, 3))), digest="d", key_digest="k"))
    assert found == {
        "id": "q", "kind": "number", "objective": "o", "digest": "d", "key_digest": "k",
        "unit": "", "client": None, "stops": [], "key": [(5, 2), (1, 3)], "harm": {}, "breaks": {},
    }  # fmt: skip
    assert item_data(item("one", "a"))["key"] == "a"
    assert item_data(item("order", ("b", "a")))["key"] == ["b", "a"]


# retest


def retested(made: Course, again: dict[str, object], **first: object) -> Item | None:
    case = Case("k", Client("Wren"), read(**first), retest=Retest("3 weeks", read(**again)))
    asks = {"g": Family("g", "retest", "plan", "all", "o")}
    found = Answers(replace(made, questions=asks, cases={"k": case})).bank
    return found[0] if found else None


def test_the_first_number_with_an_error_that_was_read_twice_is_asked_about() -> None:
    certain, other = number("certain", 0, 60), number("other", 0, 60, unit="cm", sem=3)
    both = replace(PLAN, inputs=("pain", "certain", "angle", "other"))
    made = course(ANGLE, certain, other, yes_no("pain"), both)
    every = {"angle": 40, "certain": 3, "other": 20, "pain": False}
    found = retested(made, every | {"angle": [46, 46]}, **every)
    assert found is not None
    assert "Angle: 40° at first, now 46° (46, 46)." in found.stem
    limit = 1.96 * sqrt(4 + 2)
    assert found.why == (
        "The difference is 6°. The standard error of one reading is 2°. In 95 of 100 re-tests of someone who "
        f"has not changed, the difference stays within {limit:.1f}°."
    )
    assert (found.key, found.kind, found.case, found.family) == ("a", "one", "k", "g")
    later = retested(made, {"other": 21, "certain": 9}, **every)
    assert later is not None
    assert "Other: 20 cm at first, now 21 cm." in later.stem
    assert later.key == "b"
    assert retested(made, {"certain": 9, "pain": True}, **every) is None


def test_the_ankle_course_is_asked_about_as_a_whole(tmp_path: Path) -> None:
    loaded = load(Path(__file__).parents[1] / "courses" / "ankle").course
    assert len(build_bank(loaded)) == 5, "without answers about clients only what is written"
    assert len(Answers(loaded).bank) == 9


def test_an_answer_that_reads_another_table_says_its_outcome() -> None:
    above = table("above", "first", "plan", ("w", {"plan": AnyOf(("squat",))}, "deep"), ("r", {}, "no"))
    made = one_client(course(ANGLE, yes_no("pain"), PLAN, above), angle=40, pain=False)
    asks = {"g": Family("g", "decision", "above", "all", "o")}
    (found,) = Answers(replace(made, questions=asks)).bank
    assert found.why == "Plan: Squat, as it has to be."
    assert [option.why for option in found.options if option.text == "No"] == [
        "It is for whoever is left, but something else comes first."
    ]


def test_a_reading_of_a_finding_counts_as_it_is() -> None:
    made = one_client(course(ANGLE, yes_no("pain"), PLAN), angle=40, pain=False)
    hurting = {**made.cases["k"].readings, "pain": Reading(finding=True)}
    changed = replace(made, cases={"k": replace(made.cases["k"], readings=hurting)})
    assert Answers(made).bank[0].digest != Answers(changed).bank[0].digest
