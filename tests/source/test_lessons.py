"""Titles of lessons."""

from __future__ import annotations

import pytest

from builder.source.lessons import lesson_title


@pytest.mark.parametrize(
    ("text", "title"),
    [
        ("# Knee to wall\n\n# Second\n", "Knee to wall"),
        ("Some words.\n\n## Small\n\n# Big #\n", "Big"),
        ("Knee to wall\n============\n", "Knee to wall"),
        ("---\ntitle: From the front\n---\n# Heading\n", "From the front"),
        ("---\ntitle: [a, b]\n---\n# Heading\n", "Heading"),
        ("---\ntitle: {\n---\n# Heading\n", "Heading"),
        ("```\n# a comment\n```\n# Real\n", "Real"),
        ("~~~~ text\n~~~\n# a comment\n~~~~\n# Real\n", "Real"),
        ("# The *whole* `foot` and [a link](x.md) {#id}\n", "The whole foot and a link"),
        ("# snake_case stays\n", "snake_case stays"),
        ("#hashtag\n", "Knee to wall"),
        ("", "Knee to wall"),
    ],
)
def test_a_lesson_is_called_by_its_first_heading(text: str, title: str) -> None:
    assert lesson_title(text, "lessons/knee-to-wall.md") == title
