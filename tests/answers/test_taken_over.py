"""What is taken over from the answers to a course as it was, and what is worked out anew."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, replace
from gettext import NullTranslations
from pathlib import Path
from typing import Any

import pytest

from builder.answers import Answers
from builder.source import load
from builder.words import ENGLISH, Words


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


def test_rules_with_one_thing_fewer_or_in_another_language_are_other_rules() -> None:
    whole = load(Path(__file__).parents[2] / "course_src").course
    before = Answers(whole)
    assert Answers(replace(whole, cases={}, lessons=(), editions=()), ENGLISH, before).rules is before.rules
    for field in fields(whole):
        part = getattr(whole, field.name)
        if isinstance(part, Mapping) and part and field.name != "cases":
            fewer: dict[str, Any] = {field.name: dict(list(part.items())[:-1])}
            assert Answers(replace(whole, **fewer), ENGLISH, before).rules is not before.rules, field.name
    assert Answers(whole, Words(NullTranslations(), "de"), before).rules is not before.rules
