"""With whom to practise what an unsafe answer missed, against a list made straight from what it promises."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest

from builder.answers import Answers
from builder.course import Case, Caution, Client, Course, Family, Is, Option, Question
from builder.questions import Item

from ..decide import referee
from ..decide.courses import course, read, table, yes_no
from ..decide.test_harm import ending, some_clients
from ..decide.test_harm import reading as as_reading


def expected(answers: Answers, item: Item) -> list[str]:
    unsafe = [option.acted for option in item.options if option.acted and option.harm == "serious"]
    names = list(answers.clients)
    if not unsafe or item.case is None:
        return []
    here = names.index(item.case)
    around = [answers.clients[name] for name in names[here + 1 :] + names[:here]]
    broken = {breach.caution for one in unsafe for breach in one.breaks}
    if broken:
        fitting = [one for one in around if broken & {caution.name for caution in one.met}]
    elif item.table:
        key = answers.clients[item.case].decisions[item.table].outcome
        fitting = [one for one in around if one.decisions[item.table].outcome == key]
    else:
        fitting = []
    return [one.case.name for one in fitting[:3]]


def crowded(random: Random) -> Course:
    """Some clients, everyone asked about every table."""
    made = ending(random, referee.random_course(random, 40))
    cases = {
        f"k{n}": Case(f"k{n}", Client("One"), {name: as_reading(one) for name, one in values.items()})
        for n, values in enumerate(some_clients(random, made, 9))
    }
    asks = {f"g{name}": Family(f"g{name}", "decision", name, "all", "o") for name in made.tables}
    return replace(made, cases=cases, questions=asks)


@pytest.mark.parametrize("seed", range(40))
def test_who_is_alike_is_found_from_the_client_asked_about_around_to_the_first(seed: int) -> None:
    answers = Answers(crowded(Random(seed)))
    for item in answers.bank:
        assert list(answers.alike(item)) == expected(answers, item)


def five(*met: bool) -> Course:
    """As many clients, expecting or not; whoever is may not lie on the back."""
    plan = table("plan", "first", "ill", ("side", {"ill": Is(True)}, "side"), ("back", {}, "back"))
    caution = Caution("baby", "Baby", "adapt", ({"expecting": Is(True)},), "", {"plan": ("back",)})
    cases = {f"k{n}": Case(f"k{n}", Client("K"), read(ill=False, expecting=one)) for n, one in enumerate(met)}
    return replace(course(yes_no("ill"), yes_no("expecting"), plan, caution), cases=cases)


@pytest.mark.parametrize(
    ("option", "case", "names"),
    [
        (Option("On the side", means={"plan": "side"}), "k1", ("k2", "k4", "k5")),
        (Option("On the side", means={"plan": "side"}), "k5", ("k1", "k2", "k4")),
        (Option("On the side", means={"plan": "side"}), "k0", ()),
        (Option("Leave", harm="serious"), "k1", ()),
        (Option("Leave", harm="serious"), None, ()),
        (Option("Leave", harm="minor"), "k1", ()),
    ],
)
def test_a_written_question_leads_to_those_who_meet_the_caution_that_its_option_breaks(
    option: Option, case: str | None, names: tuple[str, ...]
) -> None:
    written = Question("q", "one", "o", "?", (Option("On the back", key=True), option), case=case)
    made = replace(five(False, True, True, False, True, True), questions={"q": written})
    answers = Answers(made)
    (item,) = answers.bank
    assert answers.alike(item) == names
