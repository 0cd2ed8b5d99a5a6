"""Published classifications, encoded as decision tables and decided row by row. In tests only."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from builder.decide.evaluate import decide
from builder.decide.found import find

from .courses import band, course, number, read, table

# 2017 ACC/AHA guideline, Whelton et al., Hypertension 2018;71:1269-1324: categories of blood pressure in
# adults, in mmHg. Normal <120 and <80; elevated 120-129 and <80; stage 1 130-139 or 80-89; stage 2 >=140 or
# >=90. Where the two numbers fall in different classes the higher class holds.
# (bp-2017, bp-2017-higher-class)
# Hypertensive crisis: systolic >180 and/or diastolic >120, strictly above. (bp-crisis)
PRESSURE = course(
    number("systolic", 60, 260, unit="mmHg"),
    number("diastolic", 30, 160, unit="mmHg"),
    table(
        "stage",
        "first",
        "systolic diastolic",
        ("stage2_systolic", {"systolic": band(at_least=140)}, "stage2"),
        ("stage2_diastolic", {"diastolic": band(at_least=90)}, "stage2"),
        ("stage1_systolic", {"systolic": band(at_least=130)}, "stage1"),
        ("stage1_diastolic", {"diastolic": band(at_least=80)}, "stage1"),
        ("elevated", {"systolic": band(at_least=120)}, "elevated"),
        ("normal", {}, "normal"),
    ),
    table(
        "stage_unique",
        "unique",
        "systolic diastolic",
        ("normal", {"systolic": band(below=120), "diastolic": band(below=80)}, "normal"),
        ("elevated", {"systolic": band(at_least=120, below=130), "diastolic": band(below=80)}, "elevated"),
        (
            "stage1_systolic",
            {"systolic": band(at_least=130, below=140), "diastolic": band(below=80)},
            "stage1",
        ),
        (
            "stage1_diastolic",
            {"systolic": band(below=140), "diastolic": band(at_least=80, below=90)},
            "stage1",
        ),
        ("stage2_systolic", {"systolic": band(at_least=140), "diastolic": band(below=90)}, "stage2"),
        ("stage2_diastolic", {"diastolic": band(at_least=90)}, "stage2"),
    ),
    table(
        "crisis",
        "first",
        "systolic diastolic",
        ("systolic", {"systolic": band(above=180)}, "crisis"),
        ("diastolic", {"diastolic": band(above=120)}, "crisis"),
        ("neither", {}, "none"),
    ),
)

PUBLISHED_ROWS = {
    "normal": [(119, 79), (90, 60)],
    "elevated": [(120, 79), (129, 79), (129, 40)],
    "stage1": [(130, 79), (139, 79), (119, 80), (119, 89), (139, 89)],
    "stage2": [(140, 79), (119, 90), (140, 90), (200, 110)],
}
HIGHER_CLASS = [  # bp-2017-higher-class
    (118, 76, "normal"), (124, 78, "elevated"), (124, 84, "stage1"), (128, 92, "stage2"),
    (142, 70, "stage2"), (120, 80, "stage1"), (119, 80, "stage1"),
]  # fmt: skip


@pytest.mark.parametrize("stage_table", ["stage", "stage_unique"])
@pytest.mark.parametrize(
    ("systolic", "diastolic", "stage"),
    [(*pair, stage) for stage, pairs in PUBLISHED_ROWS.items() for pair in pairs] + HIGHER_CLASS,
)
def test_blood_pressure_2017(stage_table: str, systolic: int, diastolic: int, stage: str):
    decided = decide(PRESSURE, find(PRESSURE, read(systolic=systolic, diastolic=diastolic)))
    assert decided[stage_table].outcome == stage


def test_blood_pressure_written_under_both_policies_is_the_same_table():
    for systolic in range(100, 160):
        for diastolic in range(60, 110):
            decided = decide(PRESSURE, find(PRESSURE, read(systolic=systolic, diastolic=diastolic)))
            assert decided["stage"].outcome == decided["stage_unique"].outcome


@pytest.mark.parametrize(
    ("systolic", "diastolic", "outcome"),
    [(180, 120, "none"), (181, 120, "crisis"), (180, 121, "crisis"), (181, 121, "crisis"), (120, 80, "none")],
)
def test_hypertensive_crisis_is_strictly_above_its_bounds(systolic: int, diastolic: int, outcome: str):
    decided = decide(PRESSURE, find(PRESSURE, read(systolic=systolic, diastolic=diastolic)))
    assert decided["crisis"].outcome == outcome


# World Health Organization, Technical Report Series 894, 2000: adult body mass index in kg/m2, half open:
# [18.5,25) [25,30) [30,35) [35,40) [40,inf). (bmi-who)
BMI_CUTS = ["18.5", "25", "30", "35", "40"]
BMI_CLASSES = ["underweight", "normal", "overweight", "obesity1", "obesity2", "obesity3"]
BMI = course(
    number("bmi", 10, 80, "0.1", "kg/m2"),
    table(
        "bmi_class",
        "unique",
        "bmi",
        ("underweight", {"bmi": band(below="18.5")}, "underweight"),
        *(
            (name, {"bmi": band(at_least=low, below=high)}, name)
            for name, (low, high) in zip(BMI_CLASSES[1:], pairwise(BMI_CUTS), strict=False)
        ),
        ("obesity3", {"bmi": band(at_least=40)}, "obesity3"),
    ),
)


@pytest.mark.parametrize(
    ("cut", "below", "above"), list(zip(BMI_CUTS, BMI_CLASSES, BMI_CLASSES[1:], strict=False))
)
def test_body_mass_index_classes_include_their_lower_bound(cut: str, below: str, above: str):
    assert decide(BMI, find(BMI, read(bmi=Fraction(cut))))["bmi_class"].outcome == above
    assert decide(BMI, find(BMI, read(bmi=Fraction(cut) - Fraction(1, 10))))["bmi_class"].outcome == below


def test_a_body_mass_index_on_the_cut_is_overweight():
    # 81 kg and 1.80 m are 25.0 kg/m2 exactly. (bmi-example)
    bmi = Fraction(81) / Fraction("1.80") ** 2
    assert decide(BMI, find(BMI, read(bmi=bmi)))["bmi_class"].outcome == "overweight"


def test_every_body_mass_index_has_exactly_one_class():
    for tenth in range(100, 801):
        decision = decide(BMI, find(BMI, read(bmi=Fraction(tenth, 10))))["bmi_class"]
        assert decision.state == "decided", tenth
        assert len(decision.matched) == 1


# A made-up table with one overlap and one gap over two numbers; the six points and the regions were computed
# independently. (dmn-example)
EXAMPLE = course(
    number("angle", 0, 180, "0.1", "deg"),
    number("rate", 0, 40, "0.1", "per min"),
    table(
        "example",
        "unique",
        "angle rate",
        ("r1", {"angle": band(at_least=0, below=90)}, "one"),
        ("r2", {"angle": band(at_least=90, at_most=110), "rate": band(at_least=0, at_most=20)}, "two"),
        ("r3", {"angle": band(above=100, at_most=180)}, "three"),
    ),
)
POINTS = [
    ("89.9", "30", ["r1"]), ("90", "20", ["r2"]), ("100", "20.1", []), ("100", "20", ["r2"]),
    ("100.1", "20", ["r2", "r3"]), ("110", "21", ["r3"]),
]  # fmt: skip


@pytest.mark.parametrize(("angle", "rate", "hits"), POINTS)
def test_the_example_hits_the_published_rules(angle: str, rate: str, hits: list[str]):
    decision = decide(EXAMPLE, find(EXAMPLE, read(angle=Fraction(angle), rate=Fraction(rate))))["example"]
    assert list(decision.matched) == hits
    assert decision.state == {0: "gap", 1: "decided", 2: "overlap"}[len(hits)]
    assert (decision.outcome is None) == (len(hits) != 1)


def test_the_example_is_in_doubt_exactly_in_the_published_regions():
    for half_angle in range(361):
        for half_rate in range(81):
            angle, rate = Fraction(half_angle, 2), Fraction(half_rate, 2)
            state = decide(EXAMPLE, find(EXAMPLE, read(angle=angle, rate=rate)))["example"].state
            if 100 < angle <= 110 and rate <= 20:
                assert state == "overlap"
            elif 90 <= angle <= 100 and rate > 20:
                assert state == "gap"
            else:
                assert state == "decided"
