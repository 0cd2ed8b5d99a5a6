"""Small courses and exercises made by chance, for the laws of walks."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import strategies as st

from builder.course import (
    About,
    AskStep,
    Band,
    Case,
    Caution,
    Choice,
    Client,
    Course,
    DecideStep,
    EndStep,
    Exercise,
    Measure,
    NumberScale,
    Outcome,
    Reading,
    Rule,
    Step,
    Table,
)

ANGLE = Measure("angle", "Angle", NumberScale("deg", Fraction(0), Fraction(9), Fraction(1), Fraction(1)))


def table(name: str, cut: int, inputs: tuple[str, ...] = ("angle",), ends: bool = False) -> Table:
    """`low` below the cut, else `high`; with `ends` the client is sent on at `low`."""
    return Table(
        name,
        f"{name}?",
        "unique",
        inputs,
        {"low": Outcome("low", "Low", ends), "high": Outcome("high", "High")},
        (
            Rule("below", {"angle": Band({"below": Fraction(cut)})}, "low"),
            Rule("rest", {"angle": Band({"at_least": Fraction(cut)})}, "high"),
        ),
    )


def case(angle: int, name: str = "wren") -> Case:
    return Case(name, Client("Wren"), {"angle": Reading((Fraction(angle),))})


def course(
    *tables: Table, cautions: tuple[Caution, ...] = (), exercises: tuple[Exercise, ...] = ()
) -> Course:
    return Course(
        About("c", "C"),
        measures={"angle": ANGLE},
        tables={one.name: one for one in tables},
        cautions={one.name: one for one in cautions},
        exercises={one.name: one for one in exercises},
    )


@st.composite
def exercises(draw: st.DrawFn) -> Exercise:
    """Any graph of up to six steps over two tables, as an educator might write it by mistake too."""
    names = [f"s{number}" for number in range(draw(st.integers(1, 6)))]
    to = st.sampled_from([*names, "end", "nowhere"])
    steps: dict[str, Step] = {"end": EndStep("Done")}
    for name in names:
        if draw(st.booleans()):
            outcomes = draw(st.sets(st.sampled_from(["low", "high"]), min_size=1))
            steps[name] = DecideStep(
                draw(st.sampled_from(["one", "two"])), {o: draw(to) for o in sorted(outcomes)}
            )
            continue
        harm = st.sampled_from(["none", "none", "minor", "serious"])
        choices = [
            Choice(f"say {number}", "", draw(to), draw(st.booleans()), draw(harm))
            for number in range(draw(st.integers(0, 4)))
        ]
        steps[name] = AskStep("?", tuple(choices), draw(st.sampled_from(["o1", "o2", None])))
    return Exercise("e", "E", "all", names[0], steps)
