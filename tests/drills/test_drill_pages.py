"""Pages of drills and positions."""

from __future__ import annotations

from pathlib import Path

import pytest
from lxml import html

from builder.answers import Answers
from builder.site import Page, Site
from builder.site.pages import drills, positions
from builder.source import load


@pytest.fixture
def pages(drill_course: Path) -> dict[str, Page]:
    loaded = load(drill_course)
    site = Site(Answers(loaded.course), loaded.texts)
    made = [*drills.pages(site), *positions.pages(site)]
    return {page.uri: page for page in made if isinstance(page, Page)}


def text(page: Page, path: str = "//*") -> str:
    return " ".join(html.fromstring(f"<div>{page.body}</div>").xpath(path)[0].text_content().split())


def test_every_drill_has_a_page_and_a_walk(pages: dict[str, Page]) -> None:
    assert list(pages) == [
        "drills/index.html",
        "drills/slow_squat.html",
        "drills/slow_squat.faults.html",
        "drills/wall_side.html",
        "drills/wall_side.faults.html",
        "positions.html",
    ]


def test_what_stops_the_drill_comes_before_what_is_done(pages: dict[str, Page]) -> None:
    body = pages["drills/wall_side.html"].body
    order = ["training", "position", "stop", "sent-on", "breath", "phases"]
    order = ['class="training"', *(f'id="{name}"' for name in order[1:])]
    assert [body.index(mark) for mark in order] == sorted(body.index(mark) for mark in order)


def test_an_urgent_caution_comes_first_and_starts_with_the_emergency_line(pages: dict[str, Page]) -> None:
    page = pages["drills/wall_side.html"]
    first = text(page, "//li[contains(@class, 'caution')]")
    assert first.startswith("Stop. Call 112 now. Stay with the client.")
    assert "No press into the wall" in text(page, "//li[contains(@class, 'refer')]")


def test_lengths_stand_in_figure_and_table(pages: dict[str, Page]) -> None:
    page = pages["drills/wall_side.html"]
    assert text(page, "//table[contains(@class, 'lengths')]/tbody") == (
        "First6 snone3 s Up to breath 46 snone, or up to 4 s3 s"
    )
    told = text(page, "//svg[contains(@class, 'breath')]/title")
    assert told == "Breath out: 6 s. Pause: at most 4 s. Breath in: 3 s."


def test_corrections_stand_in_their_order_with_cause_and_stop(pages: dict[str, Page]) -> None:
    fault = text(pages["drills/wall_side.html"], "(//details[@class='fault'])[3]")
    said = [
        "The belly pushes out",
        "Too much effort",
        "Half of it",
        "The belly lets go.",
        "First the opposite",
    ]
    assert [fault.index(one) for one in said] == sorted(fault.index(one) for one in said)
    assert "When to stop: The belly still pushes out in an easier position" in fault


def test_every_page_says_what_it_is_not(pages: dict[str, Page]) -> None:
    for uri, page in pages.items():
        assert "For training on invented clients, not for deciding about a real person." in text(page), uri
        if uri.startswith("drills/"):
            assert "A quiz cannot show hands-on skill" in text(page), uri
    assert "No clinician has reviewed this drill." in text(pages["drills/wall_side.html"])


def test_search_finds_no_answer(pages: dict[str, Page]) -> None:
    for page in pages.values():
        assert "Half of it" not in page.searchable
        assert "Too much effort" not in page.searchable
    assert "tail bone" in pages["drills/wall_side.html"].searchable


def test_a_position_names_the_drills_that_start_in_it(pages: dict[str, Page]) -> None:
    body = pages["positions.html"].body
    assert 'href="drills/wall_side.html"' in body
    assert body.count("<figure") == 6
    assert [part.anchor for part in pages["positions.html"].parts][:2] == ["side_lying", "back_feet_on_wall"]


def test_lengths_on_the_line_are_in_proportion_to_the_seconds(pages: dict[str, Page]) -> None:
    tree = html.fromstring(f"<div>{pages['drills/wall_side.html'].body}</div>")
    lengths = {}
    for css in ("out", "pause", "in"):
        [path] = tree.xpath(f"//svg[contains(@class, 'breath')]/path[@class='{css}']/@d")
        words = path.split()
        lengths[css] = float(words[4]) - float(words[1])
    seconds = {"out": 6, "pause": 4, "in": 3}
    unit = sum(lengths.values()) / sum(seconds.values())
    assert lengths == pytest.approx({css: value * unit for css, value in seconds.items()}, abs=0.2)
