"""What is taken over from the answers to a course as it was, and what is worked out anew."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.answers import Answers
from builder.source import load
from builder.words import ENGLISH


def answers(folder: Path, former: Answers | None = None) -> Answers:
    return Answers(load(folder).course, ENGLISH, former)


OWN = """\
case: dunlin-01
client: {name: Dunlin}
readings: {ankle_dorsiflexion: 30, heel_pain: false, stance: hip}
"""


def test_only_clients_whose_file_has_changed_are_answered_anew(small_course: Path) -> None:
    file = small_course / "cases" / "dunlin.yml"
    file.write_text(OWN, "utf-8")
    before = answers(small_course)
    file.write_text("# seen again\n" + OWN, "utf-8")
    now = answers(small_course, before)
    assert now.rules is before.rules
    assert [name for name in now.clients if now.clients[name] is not before.clients[name]] == ["dunlin-01"]
    assert now.course.cases["dunlin-01"].origin.at().line == 2
    assert now.bank == before.bank


@pytest.mark.parametrize("file", ["tables/plan.yml", "measures.yml", "course.yml"])
def test_a_rule_that_stands_elsewhere_is_another_rule(small_course: Path, file: str) -> None:
    """Its problems must name the line where it stands now."""
    before = answers(small_course)
    (small_course / file).write_text("# moved\n" + (small_course / file).read_text("utf-8"), "utf-8")
    now = answers(small_course, before)
    assert now.rules is not before.rules
    assert not set(map(id, now.clients.values())) & set(map(id, before.clients.values()))


def test_a_client_who_is_gone_is_not_answered(small_course: Path) -> None:
    file = small_course / "cases" / "dunlin.yml"
    file.write_text(OWN, "utf-8")
    before = answers(small_course)
    file.unlink()
    now = answers(small_course, before)
    assert now.rules is before.rules
    assert before.clients.keys() - now.clients.keys() == {"dunlin-01"}
    assert now.clients.keys() == now.course.cases.keys()
