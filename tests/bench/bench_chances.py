"""Prints how true the chances are that learners are shown, for learners whose skill is known since it was
drawn.

    python -m tests.bench.bench_chances [LEARNERS] [SEED]        (5000 and 1 without)

For each drawn quiz of the demo course, skills are drawn evenly from 0.5 to 0.95, in four ways: one for all
of a learner's objectives; one for each, with 40 first answers to each; the same with 40 first answers in
all; and one for all where in every other objective a wrong answer may be serious, and is for a share of
wrong answers drawn evenly from 0 to 0.5. The true chance is worked out from what was drawn, by numpy and
scipy.

A row tells of one tenth of the chances shown: how many learners, the mean chance shown, the mean true
chance, how far apart they are, and how often the true chance lies in the 90% interval. Tenths with fewer
than 200 learners are left out. The third way does not come out well: over many objectives of unlike skill
such learners are nearly alike, which only other learners' answers could tell. The last comes out too low,
since before any wrong answer every share of serious ones is taken as likely, also one above a half.
"""

from __future__ import annotations

import math
import random
import sys
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path

import numpy as np
from scipy.stats import binom

from builder.answers import Answers
from builder.questions import draw_quiz
from builder.source import load
from builder.statistics import Row, chance

ROOT = Path(__file__).parents[2]
ANSWERS = 40
LEAST = 200
WAYS = (
    "one skill, 40 answers",
    "a skill for each objective, 40 answers to each",
    "a skill for each objective, 40 answers",
    "one skill, 40 answers, some serious",
)
ONE, EACH, FEW, SERIOUS = WAYS


def drawn(
    way: str, blueprint: dict[str, int], chances: random.Random
) -> dict[str, tuple[float, float | None]]:
    """Objective to the share right, and to the share of wrong answers that are serious."""
    skill, serious = chances.uniform(0.5, 0.95), chances.uniform(0, 0.5)
    return {
        name: (
            chances.uniform(0.5, 0.95) if way in (EACH, FEW) else skill,
            serious if way == SERIOUS and number % 2 else None,
        )
        for number, name in enumerate(blueprint)
    }


def true_chance(
    blueprint: dict[str, int], needed: int, skills: dict[str, tuple[float, float | None]]
) -> float:
    whole = np.array([1.0])
    for name, count in blueprint.items():
        skill, serious = skills[name]
        right = np.arange(count + 1)
        whole = np.convolve(whole, binom.pmf(right, count, skill) * (1 - (serious or 0)) ** (count - right))
    return float(whole[needed:].sum())


def learner(way: str, blueprint: dict[str, int], needed: int, seed: str) -> tuple[float, float, bool]:
    """The chance shown, the true one, and whether the interval holds it."""
    chances = random.Random(seed)
    skills = drawn(way, blueprint, chances)
    drawn_once = [name for name, count in blueprint.items() for _ in range(count)]
    asked = [name for _ in range(ANSWERS) for name in chances.sample(drawn_once, len(drawn_once))][:ANSWERS]
    if way == EACH:
        asked = [name for name in blueprint for _ in range(ANSWERS)]
    right, wrong, serious = Counter[str](), Counter[str](), Counter[str]()
    for name in asked:
        skill, share = skills[name]
        if chances.random() < skill:
            right[name] += 1
        else:
            wrong[name] += 1
            serious[name] += chances.random() < (share or 0)
    rows = [
        Row(
            count,
            right[name],
            wrong[name],
            None if skills[name][1] is None else (serious[name], wrong[name] - serious[name]),
        )
        for name, count in blueprint.items()
    ]
    shown, true = chance(rows, needed), true_chance(blueprint, needed, skills)
    return shown.chance, true, shown.low <= true <= shown.high


def main(learners: int, seed: int) -> None:
    course = load(ROOT / "course_src").course
    answers = Answers(course)
    for quiz in course.quizzes.values():
        items = draw_quiz(quiz, answers.bank)
        if len(answers.pools[quiz.name]) == len(items):
            continue
        blueprint = dict(Counter(item.objective for item in items))
        needed = math.ceil((quiz.pass_mark or course.about.pass_mark) * len(items))
        for way in WAYS:
            print(f"\n{quiz.title}, {needed} of {len(items)}; {way}; {learners} learners")
            print("  shown     learners  mean shown  true   apart  in interval")
            with ProcessPoolExecutor() as pool:
                one = partial(learner, way, blueprint, needed)
                seeds = [f"{seed} {number}" for number in range(learners)]
                table([*pool.map(one, seeds, chunksize=50)])


def table(found: list[tuple[float, float, bool]]) -> None:
    for tenth in range(10):
        group = [one for one in found if min(9, int(10 * one[0])) == tenth]
        if len(group) < LEAST:
            continue
        shown, true, held = (sum(one) / len(group) for one in zip(*group, strict=True))
        row = f"{len(group):>10} {shown:>11.3f} {true:>6.3f} {shown - true:>+7.3f} {held:>12.0%}"
        print(f"  {tenth / 10:.1f}-{tenth / 10 + 0.1:.1f} {row}")


if __name__ == "__main__":
    given = [int(one) for one in sys.argv[1:]]
    main(*given, *(5000, 1)[len(given) :])
