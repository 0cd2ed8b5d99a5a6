"""What My record is told of a quiz, to work out the chance of passing it."""

from __future__ import annotations

import json
from pathlib import Path

from lxml import html


def test_a_quiz_that_is_the_same_every_time_is_told_from_one_that_is_drawn(
    small_course: Path, tmp_path: Path, course_folder, build
) -> None:
    risky = """
        questions:
          - id: q-risky
            kind: one
            objective: measure-ankle
            stem: The heel hurts under load. What now?
            options:
              - {text: Send them on, key: true, why: Pain comes first.}
              - {text: Load it again, harm: serious, why: It may do harm.}
              - {text: Change the shoe, why: It changes nothing.}
            why: Pain comes first.
            source: common-practice
        """
    fixed = "quiz: fixed\ntitle: The same\nquestions: [q-risky]\nserious: told\n"
    files = {"questions/risky.yml": risky, "quizzes/fixed.yml": fixed}
    result = build(course_folder(files, small_course), tmp_path / "site")
    assert result.exit_code == 0, result.output
    page = html.document_fromstring((tmp_path / "site" / "record.html").read_bytes())
    facts = json.loads(page.xpath("//case-record/script")[0].text)
    told = {quiz["quiz"]: quiz for quiz in facts["quizzes"]}
    assert {name: quiz["drawn"] for name, quiz in told.items()} == {
        "all-kinds": True,
        "ankle-check": True,
        "fixed": False,
    }
    assert {name: quiz["serious"] for name, quiz in told.items()} == {
        "all-kinds": "fails",
        "ankle-check": "fails",
        "fixed": "told",
    }
    assert {name: quiz["unsafe"] for name, quiz in told.items()} == {
        "all-kinds": [],
        "ankle-check": ["measure-ankle"],
        "fixed": ["measure-ankle"],
    }
    assert (tmp_path / "site" / facts["chances"]).is_file()
