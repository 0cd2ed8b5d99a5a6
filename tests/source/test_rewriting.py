"""An entry is written into a file, and not one other byte of it changes."""

from __future__ import annotations

import pytest

from builder.course import Path
from builder.source.rewriting import with_entry

ENTRY = {"role": "coach", "by": 'Ada "the wagtail" #1: {x}', "on": "2026-06-01"}
FLOW = r'{role: "coach", by: "Ada \"the wagtail\" #1: {x}", on: 2026-06-01}'


def written(text: str, path: Path = ()) -> str | None:
    made = with_entry(text.encode(), path, "reviewed", ENTRY)
    return None if made is None else made.decode()


@pytest.mark.parametrize(
    ("path", "before", "after"),
    [
        pytest.param(
            (),
            "# first\na: 1   # why\nreviewed: not_yet   # leave this\nb: |\n  long\n",
            f"# first\na: 1   # why\nreviewed: {FLOW}   # leave this\nb: |\n  long\n",
            id="a word",
        ),
        pytest.param(
            (),
            "reviewed: {role: x,\n  on: 2025-01-01}\nb: 2\n",
            f"reviewed: {FLOW}\nb: 2\n",
            id="a map in braces",
        ),
        pytest.param(
            (),
            "a: 1\nreviewed:\n  role: x\n  on: 2025-01-01   # a Wednesday\n\n# end\nb: 2\n",
            "a: 1\nreviewed:\n  "
            + "\n  ".join(FLOW[1:-1].replace(", by", "\nby").replace(", on", "\non").split("\n"))
            + "   # a Wednesday\n\n# end\nb: 2\n",
            id="a map in lines",
        ),
        pytest.param((), "a: 1 # why\nb: 2", f"a: 1 # why\nreviewed: {FLOW}\nb: 2", id="nothing yet"),
        pytest.param((), "a: 1", f"a: 1\nreviewed: {FLOW}", id="no line end"),
        pytest.param((), "a: |\n  x\nb: 2\n", f"a: |\n  x\nb: 2\nreviewed: {FLOW}\n", id="after a block"),
        pytest.param(
            (1,), "- a: 1\n- a: 2\n  b: 3\n", f"- a: 1\n- a: 2\n  reviewed: {FLOW}\n  b: 3\n", id="in a list"
        ),
        pytest.param(
            ("questions", 0),
            "questions:\n  - {id: q, kind: one} # one\n",
            f"questions:\n  - {{id: q, reviewed: {FLOW}, kind: one}} # one\n",
            id="in braces",
        ),
        pytest.param(
            (), "a: 1\r\nb: ü\r\n", f"a: 1\r\nreviewed: {FLOW}\r\nb: ü\r\n", id="line ends of Windows"
        ),
        pytest.param((), "\ufeffa: 1\nb: 2\n", f"\ufeffa: 1\nreviewed: {FLOW}\nb: 2\n", id="a mark"),
        pytest.param((), "a: '\u2028'\nb: 2\n", f"a: '\u2028'\nb: 2\nreviewed: {FLOW}\n", id="odd breaks"),
    ],
)
def test_the_entry_and_nothing_else_is_written(path: Path, before: str, after: str) -> None:
    assert written(before, path) == after


@pytest.mark.parametrize(
    ("path", "text"),
    [
        pytest.param((), "reviewed:\n  role: x # not any more\n  on: 2025-01-01\n", id="a comment inside"),
        pytest.param((), "reviewed: {role: x, # no\n  on: 2025-01-01}\n", id="a comment in braces"),
        pytest.param((), "a: &r {x: 1}\nreviewed: &s not_yet\nc: *s\n", id="what another place shares"),
        pytest.param((0,), "- &t {a: 1}\n- *t\n", id="a part that stands in two places"),
        pytest.param((), "a:\n  - 1\n", id="no place for a line"),
        pytest.param((), "a: 1\na: 2\n", id="a file with a fault"),
        pytest.param((), "- 1\n", id="no mapping"),
        pytest.param((3,), "- a: 1\n", id="no such part"),
    ],
)
def test_what_cannot_be_written_safely_is_left(path: Path, text: str) -> None:
    assert written(text, path) is None
