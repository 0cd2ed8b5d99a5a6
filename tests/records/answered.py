"""Records of people who have answered everything that a course asks, right or wrong."""

from __future__ import annotations

import json
from typing import Any

from builder.answers import Answers
from builder.questions import Item

from .make import attempt, quiz


def answered(answers: Answers, name: str, right: bool, **more: Any) -> bytes:
    """A record of every question with one answer, very sure, in a task; wrong ones are the last option."""
    course = answers.course
    given = [_answer(item, right) | more for item in answers.bank if item.kind == "one"]
    attempts = [
        attempt(**one, second=place, sure=3, sitting="0" * 8, mode="quiz") for place, one in enumerate(given)
    ]
    for place, of in enumerate(course.quizzes, len(attempts)):
        task = {"task": f"{of}/1/2026-05-31", "sitting": f"{place:08x}"}
        attempts.append(quiz(float(right) or 0.5, right, place, id=of, **task))
    record = {"format": 2, "course": course.about.name, "learner": name, "device": "0" * 8}
    return json.dumps({**record, "attempts": attempts}).encode()


def _answer(item: Item, right: bool) -> dict[str, Any]:
    wrong = [option for option in item.options if option.id != item.key]
    chosen = next(o for o in item.options if o.id == item.key) if right or not wrong else wrong[-1]
    told: dict[str, Any] = {
        "id": item.id,
        "digest": item.digest,
        "key": item.key_digest,
        "objective": item.objective,
        "answer": chosen.id,
        "mark": int(chosen.id == item.key),
        "harm": chosen.harm,
        "breaks": sorted(chosen.acted.cautions) if chosen.acted else [],
        "unit": item.learnt,
        "client": item.case,
        "stopped": chosen.id in item.stops if item.stops else None,
    }
    return {name: value for name, value in told.items() if value not in (None, "", [])} | {
        "objective": item.objective
    }
