"""My record on a phone: what counts on the first screen, all else folded, three screens at most."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from builder.answers import Answers
from builder.course import Course
from builder.source import load

from .page import Page
from .practice import narrow_faults

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "site_demo"
WIDTH, HEIGHT = 390, 844


@pytest.fixture(scope="module")
def course() -> Course:
    return load(ROOT / "course_src").course


def tried(course: Course) -> list[dict[str, Any]]:
    """Eight questions on each of the twelve objectives over seven weeks, every third wrong."""
    asked: dict[str, list[Any]] = {}
    for item in Answers(course).bank:
        asked.setdefault(item.objective, []).append(item)
    assert len(asked) == len(course.objectives) == 12
    now, found = datetime.now(UTC), []
    for place, items in enumerate(asked.values()):
        for number, item in enumerate(sorted(items, key=lambda one: not one.sends)[:8]):
            right = (number + place) % 3 > 0
            at = now - timedelta(days=1 + 6 * number, minutes=place)
            written = at.isoformat(timespec="milliseconds").replace("+00:00", "Z")
            one = {
                "kind": "question",
                "id": item.id,
                "digest": item.digest,
                "key": item.key_digest,
                "unit": item.learnt,
            }
            one |= {
                "objective": item.objective,
                "at": written,
                "quiz": "whole-course",
                "mode": "practise",
                "known": True,
            }
            one |= {"mark": int(right), "right": right, "harm": "none" if right else "serious", "first": True}
            found.append(one | ({"client": item.case, "stopped": right} if item.sends else {}))
    return sorted(found, key=lambda one: str(one["at"]))


def keep(page: Page, address: str, course: Course, attempts: list[dict[str, Any]], **more: Any) -> None:
    page.open(address + "record.html")
    name = course.about.name
    kept = {"format": 2, "course": name, "version": "", "device": "0a1b2c3d4e5f6071", "attempts": attempts}
    for key, value in {"record": kept, **more}.items():
        page.call(
            "(key, text) => localStorage.setItem(key, text)", f"casetrue:{name}:{key}", json.dumps(value)
        )
    page.reload()
    page.wait_for("document.querySelector('[data-part=glance] .due')")


def test_what_counts_is_on_the_first_screen_and_all_of_it_on_three(browser, serve, course):
    page = browser.page(width=WIDTH, height=HEIGHT)
    keep(page, serve(DEMO), course, tried(course))
    glance = page.text("[data-part=glance]")
    assert "Stopped " in glance
    assert "Due today: " in glance
    assert "Weakest at the first answer" in glance
    assert page.count("[data-part=glance] .weeks rect.share") == 8
    last = page.evaluate("document.querySelector('[data-part=glance] .weeks').getBoundingClientRect().bottom")
    assert last <= HEIGHT, "the picture of the weeks is on the first screen"
    assert page.evaluate("document.documentElement.scrollHeight") <= 3 * HEIGHT
    assert page.count("case-record .fold[open]") == 0
    assert narrow_faults(page) == []
    page.click(".fold > summary", text="By objective")
    assert page.sees("[data-part=objectives] .bars")
    assert page.trouble == []


def test_the_picture_tells_the_same_in_words(browser, serve, course):
    page = browser.page(width=WIDTH, height=HEIGHT)
    attempts = tried(course)
    keep(page, serve(DEMO), course, attempts)
    words = page.evaluate("document.querySelector('.weeks').getAttribute('aria-label')")
    told = [tuple(map(int, one.split(" of "))) for one in words.partition(": ")[2].rstrip(".").split("; ")]
    assert sum(of for _, of in told) == len(attempts)
    assert sum(right for right, _ in told) == sum(one["mark"] for one in attempts)


def test_the_weakest_come_first_and_few_answers_name_none(browser, serve, course):
    page = browser.page(width=WIDTH, height=HEIGHT)
    attempts = tried(course)
    keep(page, serve(DEMO), course, attempts)
    rows = page.evaluate("[...document.querySelectorAll('[data-part=glance] li')].map(e => e.innerText)")
    shares = [tuple(map(int, row.rpartition(": ")[2].removesuffix(" right.").split(" of "))) for row in rows]
    assert len(shares) == 3
    assert shares == sorted(shares, key=lambda share: share[0] / share[1])
    keep(page, serve(DEMO), course, attempts[:2])
    assert "Weakest" not in page.text("[data-part=glance]")


def test_the_day_of_the_test_can_be_set_before_anything_is_tried(browser, serve, course):
    page = browser.page(width=WIDTH, height=HEIGHT)
    page.open(serve(DEMO) + "record.html#plan")
    assert page.sees("input[name=day]")
    page.call(
        """() => { const field = document.querySelector('[name=day]'); field.value = '2031-05-06';
            field.dispatchEvent(new Event('change', {bubbles: true})); }"""
    )
    assert page.evaluate(f"localStorage['casetrue:{course.about.name}:day']") == '"2031-05-06"'


def test_paper_unfolds_what_the_phone_folds(browser, serve, course):
    page = browser.page(width=WIDTH, height=HEIGHT)
    keep(page, serve(DEMO), course, tried(course))
    page.evaluate("dispatchEvent(new Event('beforeprint')); 0")
    assert page.count("case-record .fold:not([open])") == 0
    page.evaluate("dispatchEvent(new Event('afterprint')); 0")
    assert page.count("case-record .fold[open]") == 0
