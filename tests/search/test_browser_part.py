"""The browser's modules on the tables of cases, and on a whole course with Python's own results."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from syllapy.data_loader import load_dict

from builder.site.word_families import families, folded, stemmer

from ..node import run_node_tests

HERE = Path(__file__).parent
ROOT = HERE.parents[1]


def run_browser_part(cases: Path) -> None:
    run_node_tests(HERE / "browser_part.test.js", 7, CASES=str(cases))


def test_the_browser_sees_the_tables_alike() -> None:
    run_browser_part(HERE)


def test_the_browser_finds_the_families_of_a_whole_course(tmp_path: Path) -> None:
    """Words that the course lacks come from a list that was published for another end, that of syllapy; their
    families are what the rules give."""
    folder = ROOT / "course_src"
    texts = [file.read_text("utf-8") for file in sorted(folder.rglob("*")) if file.suffix in (".md", ".yml")]
    made = families("en", texts)
    words = {word for text in texts for word in folded(text)}
    starts = {word[:length] for word in words for length in range(1, len(word) + 1)}
    lacking = sorted(word for word in load_dict() if word.isalpha() and word not in starts)
    assert len(lacking) > 4000
    whole: dict[str, Any] = {
        "endings": made.endings,
        "stems": made.stems,
        "of": stems(words),
        "lacking": stems(lacking),
        "least": 0.9,
        "most": 0.05,
    }
    (tmp_path / "cases.json").write_text(
        json.dumps({"folded": [], "families": [], "whole": [whole]}), "utf-8"
    )
    run_browser_part(tmp_path)


def stems(words: Any) -> dict[str, str]:
    stem = stemmer("en")
    assert stem is not None
    return {word: found[0] for word in words if len(found := folded(stem(word))) == 1}
