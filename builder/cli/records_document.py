"""Records for other programs: every figure of the table and of the owner's pages."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict

from builder.records import Attempt, Facts, HandedOver, Learner, right_of
from builder.records.team import TEACH, decided, helps, tasks, to_teach, unsafe_by_caution
from builder.records.timing import FEW, Taken, taken
from builder.statistics import clustered, wilson


def document(found: HandedOver, labels: Sequence[str], facts: Facts) -> dict[str, object]:
    """What `--format json` prints; `labels` are what the owner's pages call the learners without names."""
    learners = [
        {**_learner(one), "label": label, "helps": [asdict(help) for help in helps(one, facts)]}
        for one, label in zip(found.learners, labels, strict=True)
    ]
    question, exercise = taken(record for _, record in found.records)
    return {
        "learners": learners,
        "team": _team(found.learners, labels, facts),
        "minutes": {"question": _minutes(question), "exercise": _minutes(exercise)},
        "left_out": [
            {"file": file, "attempts": list(one.unread)} for file, one in found.records if one.unread
        ],
        "not_counted": [
            {"file": one.file, "attempt": one.attempt.id, "at": one.attempt.at, "reason": one.reason}
            for one in found.doubted
        ],
        "changed": [{"file": file, "answers": number} for file, number in found.changed],
        "doubled": [{"file": one.file, "in": one.other} for one in found.doubled],
        "refused": [{"file": one.file, "reason": one.reason, "message": one.message} for one in found.bad],
    }


def _minutes(one: Taken | None) -> dict[str, object] | None:
    return None if one is None else {**asdict(one), "few": one.number < FEW}


def _team(learners: Sequence[Learner], labels: Sequence[str], facts: Facts) -> dict[str, object]:
    def told(answers: Sequence[tuple[int, Attempt]]) -> list[dict[str, object]]:
        return [{"label": labels[place], **_answer(attempt)} for place, attempt in answers]

    return {
        "to_teach": [asdict(one) for one in to_teach(learners, facts, TEACH)],
        "unsafe": {name: told(answers) for name, answers in unsafe_by_caution(learners).items()},
        "decisions": [
            {
                "table": one.table,
                "client": one.client,
                "right": facts.outcomes(one.client).get(one.table),
                "chosen": {name: [labels[place] for place in who] for name, who in one.chosen.items()},
            }
            for one in decided(learners, facts)
        ],
        "tasks": [
            {
                **asdict(one.task),
                "done": [
                    {"label": labels[place], "at": end.at, "mark": end.mark, "passed": end.passed}
                    for place, end in one.done
                ],
            }
            for one in tasks(learners)
        ],
    }


def _learner(one: Learner) -> dict[str, object]:
    return {
        "learner": one.name,
        "also": list(one.also),
        "files": list(one.files),
        "devices": list(one.devices),
        "editions": [{"version": version, "build": build} for version, build in one.editions],
        "first_day": one.first_day or None,
        "last_day": one.last_day or None,
        "stopped": {
            "stopped": sum(one.stopped.values()),
            "of": len(one.stopped),
            "not": sorted(client for client, did in one.stopped.items() if not did),
        },
        "serious": [_answer(attempt) for attempt in one.serious],
        "unasked": [_answer(attempt) for attempt in one.unasked],
        "early": [_answer(attempt) for attempt in one.early],
        "calibration": {
            str(level): _counts(*counts, wilson(*counts)) for level, counts in sorted(one.calibration.items())
        },
        "look_again": [_answer(attempt) for attempt in one.changed],
        "very_sure_and_wrong": [_answer(attempt) for attempt in one.sure_and_wrong],
        "objectives": {
            name: _counts(*right_of(firsts), clustered(firsts))
            for name, firsts in sorted(one.objectives.items())
        },
        "quizzes": {
            name: {
                "first": quiz.first,
                "passed": quiz.passed,
                "passed_later": quiz.passed_later,
                "sittings": quiz.sittings,
                "seen_before": quiz.seen,
                "left": quiz.left,
            }
            for name, quiz in sorted(one.quizzes.items())
        },
        "exercises": {
            name: {
                "walks": w.walks,
                "passed": w.passed,
                "left": w.left,
                "minor_harm": w.minor,
                "serious_harm": w.serious,
                "unasked": w.unasked,
            }
            for name, w in sorted(one.exercises.items())
        },
    }


def _counts(right: int, of: int, interval: tuple[float, float]) -> dict[str, float]:
    low, high = interval
    return {"right": right, "of": of, "low": low, "high": high}


def _answer(attempt: Attempt) -> dict[str, object]:
    return {
        "item": attempt.id,
        "client": attempt.client,
        "at": attempt.at,
        "harm": attempt.harm,
        "breaks": list(attempt.breaks),
    }
