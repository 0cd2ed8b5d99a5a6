"""The page about the course."""

from __future__ import annotations

from pathlib import Path

from builder.answers import Answers
from builder.site import Site
from builder.site.pages import about
from builder.source import load


def body(course: Path) -> str:
    loaded = load(course)
    (page,) = about.pages(Site(Answers(loaded.course), loaded.texts))
    return page.body


def test_who_answers_and_what_to_do_after_harm_are_shown_where_they_are_written(small_course: Path) -> None:
    assert "After somebody was hurt" not in body(small_course)
    assert "Who answers for this course" not in body(small_course)
    file = small_course / "course.yml"
    file.write_text(
        file.read_text("utf-8")
        + "responsible: {name: Ada Wagtail, role: head coach, contact: Ask <b>loudly</b>.}\n"
        + "after_harm: |\n  Write it down.\n\n  Tell *Ada*.\n",
        "utf-8",
    )
    shown = body(small_course)
    assert "<p>Ada Wagtail, head coach</p>" in shown
    assert "<b>loudly" not in shown
    assert "<p>Write it down.</p>\n<p>Tell <em>Ada</em>.</p>" in shown
