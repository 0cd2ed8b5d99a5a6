"""A course of any size in which no two clients share a reading's trials, a story or a name."""

from __future__ import annotations

from pathlib import Path
from random import Random

MEASURES = """\
measures:
  heel_rise: {label: Heel rises on one leg, kind: number, unit: times, from: 0, to: 60, step: 1, sem: 2, sem_source: common-practice}
  reach: {label: Forward reach, kind: number, unit: cm, from: 0, to: 70, step: 0.5, sem: 1.5, sem_source: common-practice}
  knee_bend: {label: Knee bend, kind: number, unit: deg, from: 60, to: 160, step: 1, sem: 3, sem_source: common-practice}
  hip_turn: {label: Hip turned inward, kind: number, unit: deg, from: 0, to: 70, step: 1, sem: 3, sem_source: common-practice}
  step_height: {label: Height of a step, kind: number, unit: cm, from: 5, to: 60, step: 0.5, sem: 2, sem_source: common-practice}
  ache: {label: Ache on the stairs, kind: yes_no}
  shoes: {label: Shoes, kind: choice, values: [flat, raised, bare]}
"""
COURSE = """\
course: many
title: Many clients
language: en
pass_mark: 0.8
emergency: {number: "112", note: Call it.}
"""
TABLES = {
    "screen": (
        "What first?",
        ["ache", "reach"],
        {"stop": ("Send on", True), "go": ("Go on", False)},
        [("aching", {"ache": True, "reach": {"below": 20}}, "stop"), ("rest", {}, "go")],
    ),
    "calf": (
        "How strong is the calf?",
        ["screen", "heel_rise"],
        {"weak": ("Weak", False), "fair": ("Fair", False), "strong": ("Strong", False)},
        [
            ("few", {"heel_rise": {"below": 15}}, "weak"),
            ("some", {"heel_rise": {"below": 25}}, "fair"),
            ("many", {}, "strong"),
        ],
    ),
    "knee": (
        "How far does the knee bend?",
        ["screen", "knee_bend"],
        {"short": ("Short", False), "full": ("Full", False)},
        [("less", {"knee_bend": {"below": 120}}, "short"), ("more", {}, "full")],
    ),
    "hip": (
        "How does the hip turn?",
        ["screen", "hip_turn", "shoes"],
        {"tight": ("Tight", False), "free": ("Free", False)},
        [
            ("little", {"hip_turn": {"below": 25}}, "tight"),
            ("raised", {"shoes": "raised", "hip_turn": {"below": 30}}, "tight"),
            ("enough", {}, "free"),
        ],
    ),
    "plan": (
        "What is the plan?",
        ["screen", "calf", "knee", "hip", "step_height"],
        {"refer": ("Send on", True), "low": ("A low step", False), "high": ("A high step", False)},
        [
            ("sent", {"screen": "stop"}, "refer"),
            ("weak", {"calf": "weak"}, "low"),
            ("stiff", {"knee": "short", "hip": "tight"}, "low"),
            ("small", {"step_height": {"below": 20}}, "low"),
            ("rest", {}, "high"),
        ],
    ),
}
OBJECTIVES = "objectives:\n" + "".join(
    f"  o-{name}: {{label: Decide on {name}, level: apply}}\n" for name in TABLES
)
QUESTIONS = "questions:\n" + "".join(
    f"  - {{id: g-{name}, family: decision, table: {name}, cases: all, objective: o-{name}}}\n"
    for name in TABLES
)
QUIZ = "quiz: all\ntitle: All of it\nblueprint:\n" + "".join(
    f"  - {{objective: o-{name}, count: 2}}\n" for name in TABLES
)
SYLLABLES = (
    "ba",
    "den",
    "fir",
    "gol",
    "hem",
    "jas",
    "kel",
    "lim",
    "mor",
    "nu",
    "pel",
    "ros",
    "sul",
    "tam",
    "vin",
    "wes",
)
DOES = ("sorts", "carries", "mends", "counts", "cleans", "stacks", "sells", "paints", "packs", "drives")
WHAT = ("boxes", "chairs", "pipes", "letters", "tiles", "bread", "tools", "books", "coats", "plants")
WHERE = ("at the harbour", "in a shop", "on the night shift", "at a school", "in a yard", "near the station")
SAYS = (
    "likes to know why a thing is done",
    "sleeps short and rises early",
    "has walked more since spring",
    "writes every answer down",
    "wants to lift a child again",
    "gave up running last year",
)


def write(folder: Path, clients: int, theme: str = "casetrue") -> Path:
    """The course in a folder of its own, with so many clients, one to a file, and its own mkdocs.yml."""
    course = folder / f"course-{clients}"
    for sub in ("tables", "cases", "questions", "quizzes", "lessons"):
        (course / sub).mkdir(parents=True)
    files = {
        "course.yml": COURSE,
        "measures.yml": MEASURES,
        "objectives.yml": OBJECTIVES,
        "questions/all.yml": QUESTIONS,
        "quizzes/all.yml": QUIZ,
        "lessons/index.md": "# Many clients\n\nRead, then decide.\n",
        "lessons/one.md": "# One lesson\n\nSteps, heels, knees and hips.\n",
        "mkdocs.yml": f"site_name: Many\ndocs_dir: lessons\ntheme: {theme}\nplugins: [search, casetrue]\n",
        **{f"tables/{name}.yml": table(name) for name in TABLES},
    }
    for name, text in files.items():
        (course / name).write_text(text, "utf-8")
    chance = Random(2026)
    for number in range(clients):
        (course / "cases" / f"c{number:05d}.yml").write_text(case(number, chance), "utf-8")
    return course


def table(name: str) -> str:
    question, inputs, outcomes, rules = TABLES[name]
    lines = [
        f"table: {name}",
        f"question: {question}",
        "policy: first",
        f"inputs: [{', '.join(inputs)}]",
        "outcomes:",
    ]
    for outcome, (label, ends) in outcomes.items():
        lines.append(f"  {outcome}: {{label: {label}{', ends: true' if ends else ''}}}")
    lines.append("rules:")
    for rule, when, then in rules:
        lines += [
            f"  - id: {rule}",
            f"    when: {_flow(when)}",
            f"    then: {then}",
            f"    because: So {rule}.",
        ]
    return "\n".join([*lines, "source: common-practice", ""])


def _flow(value: object) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_flow(one)}" for key, one in value.items()) + "}"
    return str(value).lower() if isinstance(value, bool) else str(value)


def case(number: int, chance: Random) -> str:
    name = "".join(chance.sample(SYLLABLES, 3)).capitalize()
    does, what, where = chance.choice(DOES), chance.choice(WHAT), chance.choice(WHERE)
    paragraphs = [
        f"{name} {does} {what} {where} {chance.randint(2, 60)} hours a week. {name} came to the gym in week "
        f"{number}.",
        f"{name} {chance.choice(SAYS)}, and {chance.choice(SAYS)}. The stairs at work have "
        f"{chance.randint(9, 99)} steps, the bag weighs {chance.randint(2, 20)} kilos; {chance.choice(SAYS)}.",
        f"On day {chance.randint(1, 999)} of a diary {name} {chance.choice(SAYS)}.",
    ]

    def trials(low: float, high: float, step: float) -> str:
        middle = chance.uniform(low + 4 * step, high - 4 * step)
        read = (middle + chance.uniform(-3, 3) * step for _ in range(3))
        return str([round(round(one / step) * step, 1) for one in read])

    story = "\n".join(f"  {one}\n" for one in paragraphs)
    return (
        f"case: client-{number:05d}\n"
        f"client: {{name: {name}, age: {chance.randint(20, 80)}, about: {does.capitalize()} {what} {where}}}\n"
        f"story: |\n{story}"
        "readings:\n"
        f"  heel_rise: {trials(0, 60, 1)}\n"
        f"  reach: {trials(0, 70, 0.5)}\n"
        f"  knee_bend: {trials(60, 160, 1)}\n"
        f"  hip_turn: {trials(0, 70, 1)}\n"
        f"  step_height: {trials(5, 60, 0.5)}\n"
        f"  ache: {chance.choice(('true', 'false'))}\n"
        f"  shoes: {chance.choice(('flat', 'raised', 'bare'))}\n"
    )
