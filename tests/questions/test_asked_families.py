"""Questions about what must be asked, and what words come to."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from pathlib import Path
from random import Random

import pytest

from builder.answers import Answers
from builder.course import Case, Client, Course, Family, NumberScale
from builder.questions import Item
from builder.source import load

from ..decide.referee import everyone, for_random_seeds, random_course, values
from ..decide.test_asking import result
from ..decide.test_nearest import as_readings

DEMO = Path(__file__).parents[2] / "course_src"


def asked(made: Course, family: Family) -> list[Item]:
    made = replace(made, questions={family.id: family})
    return [item for item in Answers(made).bank if item.family == family.id]


def right(item: Item) -> str:
    return next(option.text for option in item.options if option.id == item.key)


def test_just_the_right_set_is_enough_and_no_more_than_enough() -> None:
    """By trying everybody: with the right one nobody comes to another outcome, nothing of it can be left out,
    and every other option lacks something or holds too much."""
    made_of = 0

    @for_random_seeds(150)
    def law(seed: int) -> None:
        nonlocal made_of
        random = Random(seed)
        made = random_course(random, 60)
        people = list(everyone(made))
        person = random.choice(people)
        names = list(made.measures)
        made = replace(made, cases={"k": Case("k", Client("Wren"), as_readings(made, person))})

        def is_enough(chosen: tuple[str, ...], table: str) -> bool:
            fixed = [names.index(one) for one in chosen]
            alike = [p for p in people if all(p[at] == person[at] for at in fixed)]
            return len({result(made, p, table) for p in alike}) == 1

        for table in made.tables:
            for item in asked(made, Family("g", "needs", table, "all", "o")):
                made_of += 1
                for option in item.options:
                    labels = option.text.split("; ")
                    chosen = tuple(one.name for one in made.measures.values() if one.label in labels)
                    assert len(chosen) == len(labels)
                    fewer = combinations(chosen, len(chosen) - 1)
                    holds = is_enough(chosen, table) and not any(is_enough(one, table) for one in fewer)
                    assert holds == (option.id == item.key)

    law()
    assert made_of > 5, "the law was tried on questions"


@pytest.fixture(scope="module")
def demo() -> Course:
    return load(DEMO).course


def test_words_come_to_what_was_read_and_missing_a_sign_is_unsafe(demo: Course) -> None:
    items = {
        item.case: item for item in asked(demo, Family("g", "said", "", "all", "o", measure="warning_sign"))
    }
    assert set(items) == {case.name for case in demo.cases.values() if "warning_sign" in case.said}
    ruta = items["ruta-01"]
    assert right(ruta).startswith("Pain or pressure in the chest")
    assert demo.cases["ruta-01"].said["warning_sign"] in ruta.stem
    harms = {option.text: option.acted.harm for option in ruta.options if option.acted}
    assert harms["None named"] == "serious"
    assert ruta.learnt == "reading:warning_sign"
    for item in items.values():
        assert 3 <= len(item.options) <= 5
        assert right(item) not in item.stem


def test_nobody_is_asked_about_a_number_or_about_silence(demo: Course) -> None:
    assert asked(demo, Family("g", "said", "", "all", "o", measure="systolic")) == []
    silent = replace(demo, cases={name: replace(case, said={}) for name, case in demo.cases.items()})
    assert asked(silent, Family("g", "said", "", "all", "o", measure="warning_sign")) == []
    assert isinstance(demo.measures["systolic"].scale, NumberScale)


def test_a_yes_or_no_is_told_in_those_words(demo: Course) -> None:
    items = asked(demo, Family("g", "said", "", "all", "o", measure="side_pain"))
    assert items
    assert {option.text for item in items for option in item.options} == {"yes", "no"}
    assert values(demo, tuple(0 for _ in demo.measures))
