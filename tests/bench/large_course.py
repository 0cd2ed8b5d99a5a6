"""A course of any size in which no two clients share a reading's trials, a story or a name."""

from __future__ import annotations

from pathlib import Path
from random import Random

NUMBERS = {
    "heel_rise": ("Heel rises on one leg", "times", 0, 60, 1, 2),
    "reach": ("Forward reach", "cm", 0, 70, 0.5, 1.5),
    "knee_bend": ("Knee bend", "deg", 60, 160, 1, 3),
    "hip_turn": ("Hip turned inward", "deg", 0, 70, 1, 3),
    "step_height": ("Height of a step", "cm", 5, 60, 0.5, 2),
}
"""Label, unit, least, most, step and standard error."""
MEASURES = "measures:\n" + "".join(
    f"  {name}: {{label: {label}, kind: number, unit: {unit}, from: {low}, to: {high}, step: {step}, "
    f"sem: {sem}, sem_source: common-practice}}\n"
    for name, (label, unit, low, high, step, sem) in NUMBERS.items()
)
MEASURES += """\
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
        {"stop": ("Send on", True), "go": ("Next", False)},
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
        f"{chance.randint(9, 99)} steps, the bag weighs {chance.randint(2, 20)} kilos.",
        f"On day {chance.randint(1, 999)} of a diary {name} {chance.choice(SAYS)}.",
    ]

    def trials(low: float, high: float, step: float) -> str:
        middle = chance.uniform(low + 4 * step, high - 4 * step)
        read = (middle + chance.uniform(-3, 3) * step for _ in range(3))
        return str([round(round(one / step) * step, 1) for one in read])

    story = "\n".join(f"  {one}\n" for one in paragraphs)
    return (
        f"case: client-{number:05d}\n"
        f"client: {{name: {name}, age: {chance.randint(20, 80)}, about: {does} {what} {where}}}\n"
        f"story: |\n{story}"
        "readings:\n"
        + "".join(
            f"  {measure}: {trials(low, high, step)}\n"
            for measure, (_, _, low, high, step, _) in NUMBERS.items()
        )
        + f"  ache: {chance.choice(('true', 'false'))}\n"
        f"  shoes: {chance.choice(('flat', 'raised', 'bare'))}\n"
    )
