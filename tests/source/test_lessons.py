"""Titles of lessons, and the bounds within which Markdown can be trusted with them."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import pytest
from markdown import markdown

from builder.checks.markup import addresses
from builder.source import load
from builder.source.bounds import MAX_BLOCK, MAX_LEAD, MAX_LESSON, MAX_OPEN, MAX_RUN
from builder.source.lessons import bound_fault, form_fault, lesson_title


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
        ("# Sets of [3, 5)\n", "Sets of [3, 5)"),
        ("# #1 cue #\n", "#1 cue"),
        ("# C#\n", "C#"),
        ("## Small\n#  \n# Big\n", "Big"),
        ("# Words {.wide} more\n", "Words {.wide} more"),
        ("---\n\n---\n# Heading\n", "Heading"),
        ("", "Knee to wall"),
    ],
)
def test_a_lesson_is_called_by_its_first_heading(text: str, title: str) -> None:
    assert lesson_title(text, "lessons/knee-to-wall.md") == title


MANY = 1_000_000
"""Letters, of which looking at each beside each other one would take hours."""


@pytest.mark.parametrize(
    ("text", "title"),
    [
        ("# a" + " " * MANY + "b\n", "a" + " " * MANY + "b"),
        ("# a" + " " * MANY + "{#b}\n", "a"),
        ("# a" + " {" * MANY + "\n", "a" + " {" * MANY),
        ("# " + "[" * MANY + "\n", "[" * MANY),
        ("# a " + "[b](" * MANY + "\n", "a " + "[b](" * MANY),
        ("# a " + "#" * MANY + "b\n", "a " + "#" * MANY + "b"),
        ("=" * MANY + "a\n# b\n", "b"),
        ("---\n" + "--- a\n" * (MANY // 6) + "# b\n", "b"),
    ],
)
def test_a_title_is_found_in_a_text_of_any_size(text: str, title: str) -> None:
    assert lesson_title(text, "lessons/x.md") == title


@pytest.mark.parametrize(
    ("text", "line", "column", "said"),
    [
        ("# A\n\n" + "[" * 60_000 + "\n", 3, 1, f"more than {MAX_RUN} times in a row"),
        ("# A\n\n" + "[ " * 30_000 + "\n", 3, 1, "without a blank line"),
        ("# A\n\na " + "[ " * (MAX_OPEN + 1) + "\n", 3, 3 + 2 * MAX_OPEN, "brackets `[`"),
        ("# A\n\n" + "[a](" * (MAX_OPEN + 1) + "\n", 3, 4 + 4 * MAX_OPEN, "brackets `(`"),
        ("# A\n\n" + "<a x\n\n" * 30_000, 63, 1, "brackets `<`"),
        ("# A\n\n" + "".join(f"{' ' * 4 * deep}- a\n" for deep in range(300)), 23, 1, "nests too deep"),
        ("# A\n\n" + "- " * 300 + "a\n", 3, 1, "nests too deep"),
        ("# A\n\n" + "1. " * 300 + "a\n", 3, 1, "nests too deep"),
        ("# A\n\n" + "> " * 300 + "a\n", 3, 1, "nests too deep"),
        ("# A\n\n" + ">" * 150 + "a\n", 3, 1, "nests too deep"),
        ("# A\n\n" + "\t" * 60 + "a\n", 3, 1, "nests too deep"),
        ("# A\n\n" + "word " * 3000 + "\n", 3, 1, "without a blank line"),
        ("# A\n\n" + "word, word, word, word\n" * 3000, 437, 1, "10,000 letters stand here"),
        ("# A\n\n" + "#\n" * 3000, 503, 1, "500 lines stand here"),
        ("# A\n\n" + ("Words, words. " * 600 + "\n\n") * 30, None, None, "longer than 200,000 letters"),
    ],
)
def test_a_lesson_beyond_a_bound_is_told_with_its_place(
    small_course: Path, text: str, line: int | None, column: int | None, said: str
) -> None:
    """The same texts kept the Markdown libraries busy for minutes and more, or out of stack."""
    (small_course / "lessons" / "more.md").write_text(text, "utf-8")
    loaded = load(small_course)
    (problem,) = [one for one in loaded.problems if one.file == "lessons/more.md"]
    assert (problem.code, problem.severity) == ("lesson-bound", "error")
    assert said in problem.message
    assert problem.hint
    assert line in (None, problem.line)
    assert column in (None, problem.column)
    assert len(loaded.texts["lessons/more.md"]) <= MAX_LESSON + 200
    list(addresses(loaded.texts["lessons/more.md"]))  # what is left can be read


HONEST = f"""\
---
title: A lesson with much in it
tags: [ankle, squat]
date: 2026-06-01
---
# A lesson

{"A paragraph that goes on for longer than any reader would like it to. " * 100}

- One
    1. Two
        - Three
            - Four

              ```
              code, far in, {"=" * 60}
              ```

> Somebody said
>
> > what somebody said.

| Sets | Load |
|{"-" * 100}|-----|
{"".join(f"| [{n}, {n + 1}) | < {n} kg |" + chr(10) for n in range(MAX_OPEN))}
* * *

<figure>
<img src="foot.png" alt="A foot (left) [from above]">
</figure>

{"-" * 120}
"""


def test_an_honest_lesson_is_within_all_bounds() -> None:
    assert bound_fault(HONEST) is None
    assert form_fault(HONEST) is None


def test_lessons_of_the_demo_stay_far_within_all_bounds() -> None:
    for path in (Path(__file__).parents[2] / "course_src" / "lessons").glob("*.md"):
        text = path.read_text("utf-8")
        assert len(text) * 10 < MAX_LESSON
        assert max(map(len, text.split("\n\n"))) * 3 < MAX_BLOCK


@pytest.mark.parametrize("sign", ["- ", "1. ", "> ", ">", "* ", "> - ", "- > "])
def test_what_nests_as_deep_as_it_may_can_be_read(sign: str) -> None:
    text = sign * (MAX_LEAD // len(sign)) + "a\n"
    assert bound_fault(text) is None
    assert "a" in markdown(text, extensions=["toc", "tables", "fenced_code"])
    list(addresses(text))


def test_brackets_that_nest_as_deep_as_they_may_can_be_read() -> None:
    for left, right in (("[", "]"), ("(", ")"), ("![", "](b)"), ("[", "](b)"), ("<b>", "</b>"), ("*_", "_*")):
        text = left * MAX_OPEN + "a" + right * MAX_OPEN + "\n"
        assert bound_fault(text) is None
        assert "a" in markdown(text, extensions=["toc", "tables", "fenced_code"])


@pytest.mark.parametrize(
    ("text", "line", "column"),
    [
        ("---\ntitle: {\n---\n# A\n", 2, 9),
        ("---\na: 1\na: 2\n---\n# A\n", 3, 1),
        ("---\na: !x 1\n---\n# A\n", 2, 4),
        ("---\n---\na: &b [*b]\n---\n# A\n", 3, 8),
        ("# A\n\n<scr\x02ipt>\n", 3, 5),
    ],
)
def test_front_matter_is_plain_yaml_and_no_control_character_stands_anywhere(
    text: str, line: int, column: int
) -> None:
    fault = form_fault(text)
    assert fault is not None
    assert (fault.line, fault.column) == (line, column)


def test_front_matter_that_would_grow_without_end_is_told() -> None:
    lines = [f"{b}: &{b} [{', '.join([f'*{a}'] * 9)}]" for a, b in pairwise("abcdefghi")]
    fault = form_fault("\n".join(("---", "a: &a [x, x, x, x, x, x, x, x, x]", *lines, "---", "# A", "")))
    assert fault is not None
    assert re.search("repeat more than 10,000 values", fault.message)
