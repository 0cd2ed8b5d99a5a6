"""Coaches of known skill, who answer quizzes in a real browser and hand over what it saves."""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

from builder.answers import Answers, addresses
from builder.questions import Item, draw_quiz

from .page import Page, until

SKILLS = {
    "Alder": 0.97,
    "Birch": 0.93,
    "Cedar": 0.9,
    "Dogwood": 0.86,
    "Elm": 0.82,
    "Fir": 0.78,
    "Gorse": 0.72,
    "Hazel": 0.66,
    "Ivy": 0.6,
    "Juniper": 0.52,
    "Larch": 0.45,
    "Maple": 0.35,
}
"""Name to the chance of a right answer; all invented."""

ANSWER_ALL = """(plan) => {
    for (const {kind, answer, sure} of plan) {
        const form = document.querySelector('case-quiz form');
        const box = (value) => form.querySelector(`[value="${value}"]:not([name=certainty])`);
        if (kind === 'number') [form.querySelector('[inputmode=decimal]').value] = answer;
        if (kind === 'pairs') {
            form.querySelectorAll('.pairs select').forEach((select, row) => { select.value = answer[row]; });
        }
        if (kind === 'one' || kind === 'several') answer.forEach(value => { box(value).checked = true; });
        const certainty = form.querySelector(`fieldset.sure input[value="${sure}"]`);
        if (certainty) certainty.checked = true;
        form.requestSubmit();
        [...document.querySelectorAll('case-quiz button')]
            .find(({textContent: words}) => words === 'Next' || words === 'See the result').click();
    }
}"""


@dataclass(frozen=True)
class Going:
    """One quiz that a coach answers: which, which draw, and until which day where it was a task."""

    quiz: str
    draw: int
    until: str = ""


def answers_of(items: Sequence[Item], skill: float, chance: random.Random) -> list[Mapping[str, Any]]:
    """What a coach of this skill answers. Orders stay as they are shown."""
    plan = []
    for item in items:
        right = chance.random() < skill
        ids = [option.id for option in item.options]
        if item.kind == "number":
            value = next(part for part in item.key if isinstance(part, Fraction))
            given = [str(float(value if right else value + 999))]
        elif item.kind == "pairs":
            rows = [str(part) for part in item.key]
            given = rows if right else [*rows[1:], rows[0]]
        else:
            key = [item.key] if isinstance(item.key, str) else list(item.key)
            given = key if right else [chance.choice([id for id in ids if id not in key] or ids)]
        # The better people are, the more their being sure says.
        sure = 3 if chance.random() < (0.8 if right else 1 - skill) else chance.randrange(1, 3)
        plan.append({"kind": item.kind, "answer": given, "sure": sure})
    return plan


def sit(page: Page, site: Path, answers: Answers, going: Going, skill: float, seed: int) -> None:
    """Opens a quiz as a coach does, answers it to its end, and reads the result."""
    course = answers.course
    items = draw_quiz(course.quizzes[going.quiz], answers.bank, going.draw)
    where = addresses.task(going.quiz, going.draw, going.until) if going.until else addresses.quiz(going.quiz)
    page.open(f"{site.as_uri()}/{where}" + ("" if going.until else f"?draw={going.draw}"))
    page.wait_for("document.querySelector('case-quiz .progress, case-quiz .result')")
    again = "[...document.querySelectorAll('button')].find(b => b.textContent === 'Answer these again')"
    if page.evaluate(f"!!{again}"):
        page.evaluate(f"{again}.click()")
    page.call(ANSWER_ALL, answers_of(items, skill, random.Random(seed)))
    page.wait_for("document.querySelector('.result')")


def hand_over(page: Page, site: Path, name: str, to: Path) -> Path:
    """Saves the copy for the owner under a name and takes the file away."""
    page.open(site / "record.html")
    page.wait_for("!document.querySelector('[data-part=carry]').hidden")
    page.evaluate(
        "(() => { const field = document.querySelector('[name=learner]'); field.value = "
        f"{name!r}; field.dispatchEvent(new Event('change', {{bubbles: true}})); }})()"
    )
    page.evaluate("document.querySelector('#hand-over').open = true")
    page.wait_for("document.querySelector('[data-do=owner]')")
    before = set(page.downloads.glob("*.json"))
    page.evaluate("document.querySelector('[data-do=owner]').click()")

    def saved() -> list[Path]:
        if list(page.downloads.glob("*.part")) or list(page.downloads.glob("*.crdownload")):
            return []
        return [one for one in page.downloads.glob("*.json") if one not in before and one.stat().st_size]

    found = until(saved)
    assert found, "nothing was saved"
    return found[0].replace(to)
