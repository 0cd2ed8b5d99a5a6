"""Readings as pictures: each trial by itself, without its number, which may wait behind the drawing."""

from __future__ import annotations

import shutil
from fractions import Fraction
from math import atan2, degrees
from pathlib import Path

import pytest
from lxml import etree, html

from builder.site.figures import draw_reading
from builder.source import load
from builder.words import ENGLISH

from .conftest import ANKLE, run_build


def drawn(folder: Path, *more: str) -> Path:
    """The course of ankles, whose angle is drawn so."""
    course = Path(shutil.copytree(ANKLE, folder / "course"))
    measures = course / "measures.yml"
    text = measures.read_text("utf-8")
    lines = "".join(f"    {line}\n" for line in more)
    measures.write_text(text.replace("    kind: number\n", f"    kind: number\n{lines}", 1), "utf-8")
    return course


def test_an_estimate_comes_before_the_number(tmp_path: Path) -> None:
    course = drawn(tmp_path, "drawn: {figure: dial}", "read: picture")
    assert run_build(course, tmp_path / "site").exit_code == 0
    page = html.fromstring((tmp_path / "site" / "clients" / "tern-03.html").read_text("utf-8"))
    [row] = page.xpath("//main//tr[@data-measure='ankle_dorsiflexion' and not(contains(@class, 'drawn'))]")
    [fold] = row.xpath(".//details[@class='estimate']")
    assert fold.get("open") is None
    [value] = fold.xpath(".//span[@class='value']")
    trials = load(course).course.cases["tern-03"].readings["ankle_dorsiflexion"].trials
    pictures = page.xpath("//tr[contains(@class, 'pictures')]//svg")
    assert len(pictures) == len(trials) > 1
    for picture, trial in zip(pictures, trials, strict=True):
        assert f"{trial}°" in value.text_content() or str(trial) in value.text_content()
        assert f"{trial}°" not in picture.text_content()


@pytest.mark.parametrize("value", [0, 7, 20, 41, 60])
def test_a_dial_stands_where_its_number_is(tmp_path: Path, value: int) -> None:
    course = load(drawn(tmp_path, "drawn: {figure: dial}")).course
    measure = course.measures["ankle_dorsiflexion"]
    tree = etree.fromstring(str(draw_reading(ENGLISH, course, measure, Fraction(value), told=False)))
    [way] = tree.xpath("//path[@class='needle']/@d")
    x, y = (float(one) for one in way.split(" L ")[1].split())
    turned = Fraction(value, 60) * 270 - 135  # three quarters of a turn, from the lowest to the highest

    assert degrees(atan2(x, -y)) == pytest.approx(float(turned), abs=0.5)


@pytest.mark.parametrize("value", [0, 10, 35, 44])
def test_a_joint_stands_at_its_reading(tmp_path: Path, value: int) -> None:
    course_folder = drawn(tmp_path, "drawn: {figure: joint, position: lunge, joint: ankle}")
    (course_folder / "positions").mkdir(exist_ok=True)
    (course_folder / "positions" / "lunge.yml").write_text(
        "position: lunge\ntitle: Lunge\ntrunk: 90\njoints: {hip: 30, knee: 60, ankle: 10}\n"
        "text: A lunge towards a wall.\n",
        "utf-8",
    )
    loaded = load(course_folder)
    assert loaded.problems == ()
    measure = loaded.course.measures["ankle_dorsiflexion"]
    hidden = str(draw_reading(ENGLISH, loaded.course, measure, Fraction(value)))
    shown = etree.fromstring(str(draw_reading(ENGLISH, loaded.course, measure, Fraction(value), told=True)))
    assert shown.xpath("//text[@class='degrees']/text()") == [f"{value}°"]
    assert f"{value}°" not in hidden.replace("0° would be", "")
    assert "arc" not in hidden
