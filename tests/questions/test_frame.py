"""What holds of every question that a family makes, tried by a referee that shares no code with families."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest

from builder.answers import Answers
from builder.course import (
    AnyOf,
    Band,
    Case,
    Caution,
    Client,
    Course,
    Family,
    Is,
    NumberScale,
    Outcome,
    Phrasing,
    Rule,
)
from builder.questions import Item
from builder.questions.families import FAMILIES
from builder.questions.frame import Answer, ClientFacts, Draft, Frame, Says
from builder.questions.marking import mark
from builder.questions.wording import TEXTS, faults, filled_in

from ..decide.courses import band, course, number, read, table, yes_no
from ..decide.referee import everyone, for_random_seeds, matches, random_course, try_everyone, values
from ..decide.test_nearest import as_readings

Client_ = tuple[int, ...]


def asked(made: Course, family: str, name: str = "") -> Item | None:
    """A family's question about the one client of a course."""
    asks = replace(made, questions={"g": Family("g", family, name, "all", "o")})
    return next(iter(Answers(asks).bank), None)


def with_client(made: Course, **readings: object) -> Course:
    return replace(made, cases={"k": Case("k", Client("Wren"), read(**readings))})


def held(item: Item) -> list[str]:
    return [option.text for option in item.options if mark(item, option.id) == 1]


def a_course(seed: int) -> tuple[Course, Client_]:
    """A random course of which each rule has a reason, some of them shared, and one of its clients."""
    random = Random(seed)
    made = random_course(random)
    tables = {
        name: replace(
            one,
            rules=tuple(replace(rule, because=f"Reason {random.randint(0, 6)}.") for rule in one.rules),
            outcomes={
                key: replace(outcome, ends=random.random() < 0.25) for key, outcome in one.outcomes.items()
            },
        )
        for name, one in made.tables.items()
    }
    client = random.choice(list(everyone(made)))
    case = Case("k", Client("Wren"), as_readings(made, client))
    return replace(made, tables=tables, cases={"k": case}), client


def a_lined_course(seed: int) -> tuple[Course, Client_]:
    """A course of one table over a number with up to four lines, a second one and a yes or no, that decides
    everybody; and one of its clients."""
    random = Random(seed)

    def some(size: int) -> Band:
        return band(**{random.choice(("at_least", "above", "at_most", "below")): random.randint(0, size)})

    measures = (
        number("angle", 0, 30, sem=random.randint(1, 6)),
        number("reach", 0, 5, sem=1),
        yes_no("pain"),
    )
    rules = [
        (
            f"r{n}",
            dict(random.sample([("angle", some(30)), ("reach", some(5)), ("pain", Is(True))], 2)),
            f"o{n % 3}",
        )
        for n in range(random.randint(1, 4))
    ]
    made = course(*measures, table("t", "first", "angle reach pain", *rules, ("rest", {}, "o2")))
    client = random.choice(list(everyone(made)))
    return replace(made, cases={"k": Case("k", Client("Wren"), as_readings(made, client))}), client


def right_by_trying(made: Course, client: Client_, family: str, name: str) -> Mapping[str, bool]:
    """Text of each option of a question to whether it is right, by trying clients; empty without one."""
    item = asked(made, family, name)
    if item is None:
        return {}
    outcomes = try_everyone(made).outcomes
    texts = [option.text for option in item.options]
    match family:
        case "decision":
            label = made.tables[name].outcomes[outcomes[client][name]].label
            return {text: text == label for text in texts}
        case "because":
            known = {**dict(zip(made.measures, values(made, client), strict=True)), **outcomes[client]}
            reasons = {rule.because for rule in made.tables[name].rules if matches(rule.when, known)}
            return {text: text in reasons for text in texts}
        case "caution":
            return {text: text == _asked_of(made, client, outcomes) for text in texts}
        case _:
            return {text: _is_nearest(made, client, outcomes, name, item, text) for text in texts}


def _asked_of(made: Course, client: Client_, outcomes: Mapping[Client_, Mapping[str, str]]) -> str:
    found = dict(zip(made.measures, values(made, client), strict=True))
    levels = {one.level for one in made.cautions.values() if any(matches(when, found) for when in one.when)}
    ends = any(made.tables[name].outcomes[outcome].ends for name, outcome in outcomes[client].items())
    if "urgent" in levels:
        return "Stop, and call for emergency help now"
    if "refer" in levels or ends:
        return "Stop, and send the client to a clinician"
    return "Go on, and adapt what you do" if "adapt" in levels else "Go on as planned"


def _is_nearest(
    made: Course,
    client: Client_,
    outcomes: Mapping[Client_, Mapping[str, str]],
    name: str,
    item: Item,
    text: str,
) -> bool:
    """Whether this change of the number that the stem names is the least that gives another outcome."""
    said = re.fullmatch(r"(.+?) or (more|less): (.+)", text)
    assert said
    measure = next(one for one in made.measures.values() if f"{one.label}: " in item.stem)
    place = list(made.measures).index(measure.name)
    assert isinstance(measure.scale, NumberScale)
    shown = Fraction(re.sub(r"[^-0-9./]", "", said[1].replace("\u2212", "-")))
    to = int((shown - measure.scale.start) / measure.scale.step)
    now = outcomes[client].get(name)

    def there(index: int) -> str | None:
        return outcomes[(*client[:place], index, *client[place + 1 :])].get(name)

    size = len({each[place] for each in outcomes})
    away = abs(to - client[place])
    nearer = [client[place] + step for near in range(1, away) for step in (near, -near)]
    label = made.tables[name].outcomes[there(to) or ""].label if there(to) else ""
    return (
        (to > client[place]) == (said[2] == "more")
        and label == said[3]
        and there(to) != now
        and all(there(index) == now for index in nearer if 0 <= index < size)
    )


@pytest.mark.parametrize("family", ["decision", "because", "line", "caution"])
def test_every_question_has_exactly_one_right_option(family: str) -> None:
    made = 0

    @for_random_seeds(300)
    def law(seed: int) -> None:
        nonlocal made
        one, client = a_lined_course(seed) if family == "line" else a_course(seed)
        for name in one.tables if "table" in FAMILIES[family].takes else ("",):
            right = right_by_trying(one, client, family, name)
            if right:
                made += 1
                item = asked(one, family, name)
                assert item is not None
                assert [text for text, holds in right.items() if holds] == held(item)
                assert len(right) == len(item.options)
                assert all(option.why for option in item.options if option.text not in held(item))
                assert item.why

    law()
    assert made > 20, "the law was tried on questions"


def test_a_wrong_answer_that_holds_or_reads_like_another_is_left_out() -> None:
    """Also one that the frame was told is wrong; and where the right one does not hold nothing is asked."""

    def drafts(family: Family, about: ClientFacts) -> Iterator[Draft]:
        wrong = [
            Answer(says, text, "no") for says, text in ((2, "two"), (3, "three"), (4, "Two. "), (1, "o"))
        ]
        yield Draft("k", "?", Answer(1, "one"), tuple(wrong), "", "unit")

    def holds(family: Family, about: ClientFacts, says: Says) -> bool:
        return says in right

    made = course(yes_no("pain"), table("t", "first", "pain", ("r", {}, "a")))
    about = Answers(with_client(made, pain=True)).clients["k"].facts
    frame, family = Frame(("cases",), drafts, holds), Family("g", "x", "", "all", "o")
    right = {1}
    (item,) = frame.items(family, about)
    assert sorted(option.text for option in item.options) == ["one", "three", "two"]
    right = {1, 3}
    (item,) = frame.items(family, about)
    assert sorted(option.text for option in item.options) == ["one", "two"]
    right = {1, 2, 3, 4}
    assert list(frame.items(family, about)) == []
    right = set()
    assert list(frame.items(family, about)) == []


# mistakes

ANGLE = number("angle", 0, 60, 2, unit="deg", sem=3)
KIND = table(
    "kind", "first", "angle",
    ("low", {"angle": band(below=30)}, "stiff"),
    ("high", {"angle": band(at_least=50)}, "loose"),
    ("rest", {}, "free"),
)  # fmt: skip
PLAN = table(
    "plan", "first", "kind pain",
    ("hurt", {"pain": Is(True)}, "rest"),
    ("stiff", {"kind": AnyOf(("stiff",))}, "lift"),
    ("loose", {"kind": AnyOf(("loose",))}, "hold"),
    ("else", {}, "squat"),
)  # fmt: skip
HURT = Caution("hurt", "Pain", "adapt", ({"pain": Is(True)},), "", {"plan": ("rest",)})


def slips_of(made: Course, name: str) -> dict[str, str | None]:
    item = asked(made, "decision", name)
    assert item is not None
    return {option.text: option.slip for option in item.options if option.text not in held(item)}


def test_each_mistake_is_named_by_making_it() -> None:
    made = course(ANGLE, yes_no("pain"), KIND, PLAN, HURT)
    # 28, 28 and 36 have the mean 30 2/3, read as 30: free. One trial alone is stiff; so is what lies beyond
    # the line at 29, which is nearer than two errors and named first.
    near = with_client(made, angle=[28, 28, 36], pain=False)
    assert slips_of(near, "kind") == {"Stiff": "neighbour", "Loose": "mirrored"}
    # 20, 40 and 60 have the mean 40; the lines at 29 and 49 are more than two errors away.
    far = with_client(made, angle=[20, 40, 60], pain=False)
    assert slips_of(far, "kind") == {"Stiff": "single", "Loose": "single"}
    # The mean of 28 and 30 is 29, read as 30.
    assert slips_of(with_client(made, angle=[28, 30], pain=False), "kind")["Stiff"] == "neighbour"
    assert slips_of(far, "plan") == {"Rest": None, "Lift": "single", "Hold": "single"}
    once = with_client(made, angle=40, pain=False)
    assert slips_of(once, "plan") == {"Rest": None, "Lift": "skipped", "Hold": None}
    assert slips_of(with_client(made, angle=40, pain=True), "plan") == dict.fromkeys(
        ("Lift", "Hold", "Squat"), "ignored"
    )


def test_a_mean_that_is_not_rounded_is_told() -> None:
    """31 2/3 is read as 32; above 31.8 is loose, and two errors of 0.01 are less than the way there."""
    fine = number("angle", 0, 60, 1, unit="deg", sem="0.01")
    made = course(
        fine, table("t", "first", "angle", ("up", {"angle": band(above="31.8")}, "a"), ("r", {}, "b"))
    )
    item = asked(with_client(made, angle=[31, 32, 32]), "decision", "t")
    assert item is not None
    assert held(item) == ["A"]
    (wrong,) = (option for option in item.options if option.text == "B")
    assert wrong.slip == "unrounded"
    assert wrong.why.endswith("Whoever does not round the mean to 1° comes to it.")


# line


def test_a_line_is_told_with_its_distance_and_wrong_answers_that_people_give() -> None:
    made = with_client(course(ANGLE, KIND), angle=[36, 36, 36, 36])
    item = asked(made, "line", "kind")
    assert item is not None
    assert held(item) == ["28° or less: Stiff"]
    assert {option.text: option.why for option in item.options if option.text not in held(item)} == {
        "44° or more: Stiff": "That is the other way. There the answer stays, or another line comes first.",
        "34° or less: Stiff": "That is as far as one standard error, not as far as the line.",
        "28° or less: Loose": "The line is the right one, but this is not what lies beyond it.",
    }
    # Half way between the steps 28 and 30; four trials halve the error of 3.
    assert (
        item.why == "The line lies at 29°, 7° from what was read. The standard error of this reading is 1.5°."
    )


def test_a_line_further_away_is_offered_as_a_wrong_answer() -> None:
    """From 40 the line at 49 is nearer than the one at 29; the error of 10 ends just at it."""
    wide = replace(ANGLE, scale=replace(ANGLE.scale, sem=Fraction(10)))  # type: ignore[arg-type]
    item = asked(with_client(course(wide, KIND), angle=40), "line", "kind")
    assert item is not None
    assert held(item) == ["50° or more: Loose"]
    whys = {option.text: option.why for option in item.options if option.text not in held(item)}
    assert whys["28° or less: Stiff"] == "That line is there, but it is not the nearest."
    assert len(whys) == 3


def test_there_is_no_line_to_ask_about_where_no_number_alone_changes_the_answer() -> None:
    both = table(
        "t",
        "first",
        "angle other",
        ("x", {"angle": band(below=30), "other": band(below=5)}, "a"),
        ("r", {}, "b"),
    )
    made = course(ANGLE, number("other", 0, 10, sem=1), both)
    assert asked(with_client(made, angle=40, other=7), "line", "t") is None
    certain = replace(ANGLE, scale=replace(ANGLE.scale, sem=Fraction(0)))  # type: ignore[arg-type]
    assert asked(with_client(course(certain, KIND), angle=40), "line", "kind") is None


# because


def test_a_reason_says_what_it_lacks_or_that_the_answer_would_be_the_same() -> None:
    said = {"low": "It is low.", "high": "It is high.", "rest": "All else is free.", "odd": "It is odd."}
    more = Rule("odd", {"angle": band(at_least=58)}, "free")
    kind = replace(KIND, rules=(KIND.rules[0], more, *KIND.rules[1:]))
    kind = replace(kind, rules=tuple(replace(rule, because=said[rule.id]) for rule in kind.rules))
    item = asked(with_client(course(ANGLE, kind), angle=40), "because", "kind")
    assert item is not None
    assert held(item) == ["All else is free."]
    whys = {option.text: option.why for option in item.options}
    assert whys["It is odd."] == (
        "That would lead to the same answer, but it does not hold here. "
        "Angle: 40° against at least 58°: 18° under."
    )
    assert whys["It is high."].startswith("That is the reason for another answer: Loose. Angle: 40° against")
    unsaid = replace(kind, rules=(*kind.rules[:-1], replace(kind.rules[-1], because=None)))
    assert asked(with_client(course(ANGLE, unsaid), angle=40), "because", "kind") is None


# caution


def heeding(*levels: str, ends: bool = False, **readings: object) -> Item:
    cautions = [
        Caution(f"c{n}", f"C{n}", level, ({"angle": band(at_least=20)},), "")  # type: ignore[arg-type]
        for n, level in enumerate(levels)
    ]
    far = Caution("far", "Far", "watch", ({"angle": band(at_least=60)},), "")
    kind = replace(KIND, outcomes={**KIND.outcomes, "free": Outcome("free", "Free", ends=ends)})
    item = asked(with_client(course(ANGLE, kind, far, *cautions), **readings), "caution")
    assert item is not None
    return item


@pytest.mark.parametrize(
    ("levels", "ends", "key", "harms", "sends"),
    [
        ((), False, "a", "none none none none", None),
        (("watch",), False, "a", "none none none none", None),
        (("adapt", "watch"), False, "b", "minor none none none", None),
        (("refer", "adapt"), False, "c", "serious serious none none", "referred"),
        ((), True, "c", "serious serious none none", "referred"),
        (("urgent", "refer"), True, "d", "serious serious serious none", "stopped"),
    ],
)
def test_to_ask_for_less_is_unsafe_and_for_more_is_not(
    levels: tuple[str, ...], ends: bool, key: str, harms: str, sends: str | None
) -> None:
    """Course format, second edition, "Unsafe answers", on a `caution` question."""
    item = heeding(*levels, ends=ends, angle=40)
    assert (item.key, item.sends) == (key, sends)
    assert [option.harm for option in item.options] == harms.split()
    assert list(item.stops) == {"c": ["c", "d"], "d": ["d"]}.get(key, [])
    over = [option.id for option in item.options if option.acted and option.acted.overcautious]
    assert over == [letter for letter in "abcd" if letter > key]


def test_near_a_line_less_than_is_asked_can_be_argued_and_is_kept_out_of_quizzes() -> None:
    # The line of the caution lies at 19, 1 from 20: the chance of lying above is that of 1/3 errors, 0.63.
    near = heeding("refer", angle=20)
    assert [option.harm for option in near.options] == ["arguable", "arguable", "none", "none"]
    assert not near.marked
    assert near.chance == pytest.approx(0.6306, abs=0.001)  # Phi(1/3), any table of the normal distribution
    assert heeding("refer", angle=40).marked


def test_the_unit_is_the_caution_that_counts() -> None:
    assert heeding("adapt", "refer", angle=40).learnt == "caution:c1"
    assert heeding(ends=True, angle=40).learnt == "kind/rest"
    assert heeding("watch", angle=40).learnt == "caution:"


# wording


def test_a_course_words_every_text_anew() -> None:
    """Each text of the builder can be replaced by one that fills in the same; what a family says is then the
    course's own."""
    made = with_client(course(ANGLE, yes_no("pain"), KIND, PLAN, HURT), angle=40, pain=True)
    own = {
        name: Phrasing(name, " ".join([f"<{name}>", *(f"{{{one}}}" for one in filled_in(text))]))
        for name, text in TEXTS.items()
    }
    assert all(not faults(name, one.text) for name, one in own.items())
    for family in ("decision", "line", "caution"):
        item = asked(
            replace(made, wording=own), family, "kind" if FAMILIES[family].takes[0] == "table" else ""
        )
        assert item is not None
        assert item.stem.startswith(f"<{family}-stem>")
        assert item.asks.startswith(f"<{family}-list>") or family == "decision"
        assert "<" in item.why or family == "decision"
    assert asked(replace(made, wording=own), "caution") != asked(made, "caution")


@pytest.mark.parametrize(
    ("name", "text", "told"),
    [
        ("line-up", "{outcome} from {value} on", 0),
        ("line-up", "{outcome}", 1),
        ("line-up", "{outcome} {value} {size}", 1),
        ("line-up", "{outcome} {value.real}", 2),
        ("line-up", "{outcome} {value!r}", 1),
        ("line-up", "{outcome} {value:>9}", 1),
        ("line-up", "{outcome} {value} {}", 1),
        ("line-up", "{outcome} {value} {", 1),
        ("line-up", "{outcome} {value} {{as read}}", 0),
        ("line-upp", "{outcome} {value}", 1),
    ],
)
def test_only_plain_fields_of_the_builders_text_are_filled_in(name: str, text: str, told: int) -> None:
    assert len(faults(name, text)) == told


def test_a_text_that_cannot_be_used_gives_way_to_the_builders() -> None:
    made = with_client(course(ANGLE, KIND), angle=40)
    for text in ("{client.__class__}", "{client}{", "none"):
        item = asked(
            replace(made, wording={"decision-stem": Phrasing("decision-stem", text)}), "decision", "kind"
        )
        assert item is not None
        assert item.stem == "Wren: What about kind?"


def test_every_text_is_said_by_something() -> None:
    """The name of each text stands in the code that says it."""
    code = "".join(
        file.read_text("utf-8")
        for file in (Path(__file__).parents[2] / "builder" / "questions").rglob("*.py")
        if file.name != "wording.py"
    )
    for name in TEXTS:
        made = any(f'f"{name[:end]}{{' in code for end in range(5, len(name)))
        assert f'"{name}"' in code or made, name
