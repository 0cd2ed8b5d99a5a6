"""New files of a course as text, with comments that say what each line is for."""

from __future__ import annotations

from fractions import Fraction

from builder.course import (
    AskStep,
    Band,
    Case,
    ChoiceScale,
    Condition,
    Course,
    DecideStep,
    EndStep,
    Exercise,
    Is,
    Measure,
    NumberScale,
    Reading,
    Table,
)
from builder.decide.evaluate import decide
from builder.decide.found import find
from builder.words import ENGLISH
from builder.words.numbers import MINUS, number, quantity

from .proposals import Halves

_WORDS_OF_YAML = {"yes", "no", "on", "off", "y", "n", "true", "false", "null", "nan", "inf"}


def case_text(course: Course, case: Case) -> str:
    """A client with a reading of every measure."""
    lines = [
        "# A client for learners to decide about. Invent them: no real person, nobody who could be known.",
        f"case: {case.name}",
        "client:",
        f"  name: {case.client.name}   # what learners read",
        f"  age: {case.client.age}",
        "  about: What they do, and what brought them to you",
        "story: >",
        "  Two or three sentences. What do they say? What do they want? Do not give the answer away.",
        "readings:",
    ]
    for name, reading in case.readings.items():
        if course.measures[name].of_client:
            continue
        lines.append(f"  # {_measure(course.measures[name])}")
        lines.append(f"  {name}: {_reading(reading)}")
    if case.near_cut:
        lines.append("# Readings that you know to sit near a line:")
        lines.append(f"near_cut: [{', '.join(case.near_cut)}]")
    meant = {
        name: decision.outcome
        for name, decision in decide(course, find(course, case.readings)).items()
        if decision.outcome is not None
    }
    if meant:
        lines += [
            "# So the rules decide with these readings. Take the # away to be told when that changes:",
            f"# expect: {{{', '.join(f'{name}: {_name(outcome)}' for name, outcome in meant.items())}}}",
        ]
    return _file(lines)


def table_text(table: Table) -> str:
    """A table over one measure or none."""
    lines = [
        "# A decision about a client: one question, its possible outcomes, and the rules that lead there.",
        f"table: {table.name}",
        "question: What do you decide here?   # what learners are asked",
        f"policy: {table.policy}   # unique: exactly one rule may match; first: the topmost match wins",
        "# What it looks at: measures, and other tables that are decided before",
        f"inputs: [{', '.join(table.inputs)}]",
        "outcomes:",
        *(f"  {name}: {{label: {outcome.label}}}" for name, outcome in table.outcomes.items()),
        "rules:",
        "  # Conditions: at_least, above, at_most, below for numbers; true or false; one or more values",
    ]
    for rule in table.rules:
        when = ", ".join(f"{name}: {_condition(condition)}" for name, condition in rule.when.items())
        lines += [
            f"  - id: {rule.id}",
            f"    when: {{{when}}}",
            f"    then: {rule.then}",
            "    because: Why this is so, in a sentence that learners read afterwards.",
        ]
    lines.append("source: common-practice   # an id of sources.yml, where something is published")
    return _file(lines)


def caution_text(name: str, halves: Halves) -> str:
    """A caution of the level `watch` that a finding opens."""
    return _file([
        "# Something that the coach must heed with some clients.",
        f"caution: {name}",
        "title: What to heed",
        "# urgent: stop, call the emergency number now, stay; refer: stop and send on; adapt; watch.",
        "# All but watch need refer_to, a contact of course.yml. urgent and refer need demands as well: the",
        "# outcomes in which a table may end for these clients, for example {plan: [refer_out]}.",
        "level: watch",
        "# Any one of these sets of findings opens the caution.",
        f"# {_measure(halves.measure)}",
        f"when: [{{{halves.measure.name}: {_condition(halves.one)}}}]",
        "text: |",
        "  What to look for, what to do, and whom to ask. Follow local rules, and leave to licensed",
        "  clinicians what is theirs.",
        "source: common-practice   # an id of sources.yml, where something is published",
        "# Leave this until a clinician has really reviewed it.",
        "reviewed: not_yet",
    ])  # fmt: skip


def question_text(name: str, objective: str) -> str:
    """A question with one right option."""
    return _file([
        "questions:",
        f"  - id: {name}",
        "    kind: one   # one right option; other kinds: several, number, order, pairs",
        f"    objective: {objective}   # a name in objectives.yml",
        "    stem: What do you ask?",
        "    options:",
        "      - text: The right answer",
        "        key: true",
        "        why: Say here why it is right.",
        "      - text: An answer that a beginner might give",
        "        why: Say here why it is not.",
        "      - text: Another one",
        "        why: Say here why it is not.",
        "    why: What to remember.",
        "    source: common-practice   # an id of sources.yml, where something is published",
    ])  # fmt: skip


def position_text(name: str) -> str:
    """Someone seated, to be bent otherwise."""
    return _file(
        [
            "# A body position. The figure is drawn from the angles, so look at its page while you write.",
            f"position: {name}",
            "title: Seated on a bench   # what people read",
            "# Where the line from pelvis to neck points, anticlockwise from the right: 90 is upright and",
            "# looks to the right, 180 lies with the head to the left and the front up",
            "trunk: 90",
            "# How far each joint is bent from upright standing, in degrees. Left out means 0.",
            "joints: {hip: 90, knee: 90, shoulder: 10, elbow: 70}",
            "# What carries the body, and which parts touch it: floor, wall, bench",
            "rests_on: {bench: [thigh], floor: [foot]}",
            "# The figure in words, for those who cannot see it:",
            "text: Seen from the side, facing right. Hips and knees are bent 90 degrees, the feet are flat.",
            "source: common-practice   # or an id in sources.yml",
        ]
    )


def drill_text(course: Course, name: str) -> str:
    """A drill of two phases, with a sign that asks for a correction and one that says stop."""
    position = next(iter(course.positions), None)
    objective = next(iter(course.objectives), None)
    return _file(
        [
            "# What is coached, step by step, and what can go wrong. Questions and a walk are made from it.",
            f"drill: {name}",
            "title: A drill   # what people read",
            *([f"position: {position}   # where it starts: a name in positions/"] if position else []),
            "# Seconds. The first breath never has a pause; a pause is at most 5, and so are the breaths.",
            "breath: {out: 5, in: 3, breaths: 4}",
            "# What ends the drill at once. Always shown first.",
            "stop:",
            "  - Dizzy, tingling or short of air",
            "  - Any pain, or a pain that grows",
            "phases:",
            "  - id: set_up",
            "    label: Set up",
            "    # What you say, in order",
            "    cues: [Settle. Nothing to do yet.]",
            "    # What is seen when it goes well",
            "    good: [The client lies at ease]",
            "    faults:",
            "      - id: restless",
            "        sign: The client shifts about   # what you see or hear",
            "        cause: The position does not suit",
            "        # What helps, in the order in which you try it, and what happens then",
            "        corrections:",
            "          - {say: Ask what would be better and change it, reply: The client settles.}",
            "  - id: breathe_out",
            "    label: Breathe out",
            "    cues: [Out. Softly.]",
            "    faults:",
            "      - id: light_head",
            "        sign: The head feels light",
            "        cause: Too much air",
            "        stop: true   # the first act is to stop",
            "        corrections: [{say: Stop and breathe as you like}]",
            *([f"objectives: [{objective}]"] if objective else []),
            "source: common-practice   # or an id in sources.yml",
            "reviewed: not_yet   # until a clinician has read it",
        ]
    )


def objectives_text(name: str) -> str:
    """A first objective, for a course without any."""
    return _file([
        "# What a learner must be able to do after the course.",
        "objectives:",
        f"  {name}: {{label: Do something that can be seen, level: apply}}",
    ])  # fmt: skip


def exercise_text(exercise: Exercise) -> str:
    """An exercise of a decision, a choice and an end."""
    lines = [
        "# A visit that learners walk through for a client, step by step.",
        f"exercise: {exercise.name}",
        f"title: {exercise.title}",
        "cases: all   # or a list of clients: [name, name]",
        f"start: {exercise.start}",
        "steps:",
    ]
    for name, step in exercise.steps.items():
        lines.append(f"  {name}:")
        match step:
            case DecideStep(table=table, go=go):
                lines += [
                    f"    decide: {table}   # its question is asked; the key is computed for each client",
                    "    go:   # the next step for every outcome",
                    *(f"      {_name(outcome)}: {to}" for outcome, to in go.items()),
                ]
            case AskStep(ask=ask, choices=choices):
                lines += [f"    ask: {ask}", "    choices:"]
                for choice in choices:
                    lines += [
                        f"      - say: {choice.say}",
                        *(["        best: true"] if choice.best else []),
                        *(
                            [f"        harm: {choice.harm}   # none, minor or serious"]
                            if choice.harm != "none"
                            else []
                        ),
                        f"        reply: {choice.reply}",
                        f"        go: {choice.go}",
                    ]
            case EndStep(end=end, sends_on=sends_on):
                lines += [f"    end: {end}", *(["    sends_on: true"] if sends_on else [])]
    return _file(lines)


def _measure(measure: Measure) -> str:
    """What a measure takes, for a comment."""
    label = " ".join(measure.label.split())
    match measure.scale:
        case NumberScale() as scale:
            end = " ".join(quantity(ENGLISH, scale.stop, scale.unit).split())
            grid = f"{_plain(scale.start)} to {end} in steps of {_plain(scale.step)}"
            return f"{label}: {grid}; several trials as a list"
        case ChoiceScale(values=values):
            return f"{label}: {', '.join(values)}"
        case _:
            return f"{label}: true or false"


def _reading(reading: Reading) -> str:
    if reading.trials:
        return _plain(reading.trials[0])
    return _name(reading.finding) if isinstance(reading.finding, str) else _flag(reading.finding is True)


def _condition(condition: Condition) -> str:
    match condition:
        case Band(bounds=bounds):
            return "{" + ", ".join(f"{bound}: {_plain(cut)}" for bound, cut in bounds.items()) + "}"
        case Is(answer=answer):
            return _flag(answer)
        case _:
            names = [_name(name) for name in condition.names]
            return names[0] if len(names) == 1 else f"[{', '.join(names)}]"


def _flag(answer: bool) -> str:
    return "true" if answer else "false"


def _plain(value: Fraction) -> str:
    return number(ENGLISH, value).replace(MINUS, "-")


def _name(name: str) -> str:
    """A name as YAML takes it for text."""
    return f'"{name}"' if name.casefold() in _WORDS_OF_YAML else name


def _file(lines: list[str]) -> str:
    return "\n".join(lines) + "\n"
