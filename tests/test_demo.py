"""The demo course and the page that invites educators to extend it hold to what they say of themselves."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from builder.checks import check
from builder.course import RESERVED_SOURCES, Course
from builder.decide.evaluate import decide
from builder.source import load

ROOT = Path(__file__).resolve().parents[1]
DEMO = ROOT / "course_src"


@pytest.fixture(scope="module")
def demo() -> Course:
    return load(DEMO).course


def test_is_clean_but_for_the_reviews_that_nobody_has_made() -> None:
    assert {problem.code for problem in check(load(DEMO), "2030-01-01")} == {"review-missing"}


def test_claims_no_review(demo: Course) -> None:
    assert all(caution.reviewed is None for caution in demo.cautions.values())


def test_teaches_adults(demo: Course) -> None:
    assert all(case.client.age is not None and case.client.age >= 18 for case in demo.cases.values())


def test_sends_on_everyone_who_meets_a_caution_to_send_on(demo: Course) -> None:
    for caution in demo.cautions.values():
        if caution.level in ("urgent", "refer"):
            assert caution.demands["screen"], caution.name
            assert caution.demands["position"] == ("no_start",), caution.name
            assert caution.demands["pause"] == ("no_pause",), caution.name


@pytest.mark.parametrize("name", ["pressure_and_holding", "eye_pressure", "pregnancy"])
def test_neither_lays_flat_nor_pauses_whom_that_could_harm(demo: Course, name: str) -> None:
    demands = demo.cautions[name].demands
    assert demands["pause"] == ("no_pause",)
    assert not {"back_feet_on_wall", "hook_lying"} & set(demands["position"])


def test_contacts_are_fictional() -> None:
    """`.example` is reserved by RFC 2606; numbers from 01632 960 on are kept for drama (from memory)."""
    text = "\n".join(
        path.read_text("utf-8") for path in sorted(DEMO.rglob("*")) if path.suffix in (".yml", ".md")
    )
    assert all(host.endswith(".example") for host in re.findall(r"[\w.-]+@([\w.-]+\w)", text))
    assert all(number.startswith("01632 960") for number in re.findall(r"\b0\d{4} ?\d{3,6}\b", text))


def test_says_common_practice_of_the_trade_lines(demo: Course) -> None:
    """No population norm of the infrasternal angle was found; its lines and layers are trade habits."""
    assert all(demo.tables[name].source in RESERVED_SOURCES for name in ("angle_class", "layer", "position"))
    scale = demo.measures["infrasternal_angle"].scale
    assert not getattr(scale, "reference", ()), "a band would look like a norm"


def test_the_client_of_the_contributing_page_passes_and_is_decided(tmp_path: Path) -> None:
    page = (ROOT / "CONTRIBUTING.md").read_text("utf-8")
    written = re.search(r"```yaml\n(.*?)```", page, re.DOTALL)
    assert written is not None
    folder = tmp_path / "course"
    shutil.copytree(DEMO, folder)
    (folder / "cases" / "zofia-01.yml").write_text(written[1], "utf-8")
    loaded = load(folder)
    assert {problem.code for problem in check(loaded, "2030-01-01")} == {"review-missing"}
    decisions = decide(loaded.course, loaded.course.cases["zofia-01"].readings)
    assert [
        f"{name}: {decision.outcome}"
        for name, decision in decisions.items()
        if name in ("angle_class", "position")
    ] == [
        "angle_class: wide",
        "position: side_lying",
    ]
