"""The educator's own pages: what they tell, and that no built site holds them."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from click.testing import Result

from builder.answers import Answers, addresses
from builder.checks import check
from builder.checks.reading import eases
from builder.course import ContactTime
from builder.plugin import CasetruePlugin
from builder.questions import draw_quiz
from builder.questions.papers import exposure
from builder.site import Site
from builder.site.educator import PAPERS, banks, of_quiz, places
from builder.site.page import Page
from builder.site.pages import pages
from builder.source import load

ANKLE = Path(__file__).parents[1] / "courses" / "ankle"


@pytest.fixture(scope="module")
def site() -> Site:
    loaded = load(ANKLE)
    return Site(Answers(loaded.course), loaded.texts, check(loaded))


@pytest.fixture(scope="module")
def own(site: Site) -> dict[str, str]:
    """The educator's pages by address."""
    return {
        one.uri: one.body for one in pages(site) if isinstance(one, Page) and one.uri.startswith("educator/")
    }


def plain(html: str) -> str:
    return " ".join(re.sub(r"<[^>]*>", " ", html).split())


def test_every_question_stands_there_once_with_its_key(site: Site, own: dict[str, str]) -> None:
    shown = Counter(
        name
        for address, body in own.items()
        if "/items-" in address
        for name in re.findall(r'<li class="question" id="([^"]+)"', body)
    )
    assert shown == Counter(item.id for item in site.answers.bank)
    for address, body in own.items():
        if "/items-" in address:
            assert body.count('<details class="reason" open>') == body.count('<li class="question"')


def test_the_bank_is_counted_by_objective_level_kind_and_family(site: Site, own: dict[str, str]) -> None:
    found = banks(site.answers)
    assert sum(len(bank.items) for bank in found) == len(site.answers.bank)
    assert {bank.objective for bank in found} >= set(site.course.objectives)
    for bank in found:
        assert sum(bank.kinds.values()) == sum(bank.sorts.values()) == len(bank.items)
        assert bank.unsure == sum(
            not item.marked for item in site.answers.bank if item.objective == bank.objective
        )
    text = plain(own[addresses.EDUCATOR])
    assert f"{len(site.answers.bank)} questions." in text
    for bank in found:
        assert bank.label in text


def test_exposure_is_counted_over_draws(site: Site) -> None:
    for name, quiz in site.course.quizzes.items():
        pool = site.answers.pools[name]
        told = of_quiz(site.answers, quiz).exposed
        assert told is not None
        counted = Counter(item.id for seed in range(1, PAPERS + 1) for item in draw_quiz(quiz, pool, seed))
        shares = exposure(quiz, pool, PAPERS)
        assert shares == {item.id: counted[item.id] / PAPERS for item in pool}
        assert (told.least, told.most) == (min(shares.values()), max(shares.values()))
        assert told.never == sum(item.id not in counted for item in pool)
        assert sum(shares.values()) == pytest.approx(len(site.answers.first_draws[name]))


def test_the_places_of_right_answers_are_those_that_learners_see(site: Site) -> None:
    written = [item for item in site.answers.bank if item.kind == "one" and item.family is None]
    found = places(site.answers.bank)
    assert sum(sum(one.counts) for one in found) == len(written)
    for one in found:
        for place in range(one.options):
            letter = "abcdefgh"[place]
            assert one.counts[place] == sum(
                len(item.options) == one.options and item.key == letter for item in written
            )


def test_reading_and_hours_stand_there(site: Site, own: dict[str, str]) -> None:
    text = plain(own[addresses.EDUCATOR])
    for one in eases(site.course, site.lesson_texts):
        if one.together.is_enough:
            assert f" {one.together.words} {one.together.grade:.1f}".replace("-", "\u2212") in text
    assert "Contact time is not worked out" in text
    loaded = load(ANKLE)
    timed = replace(
        loaded.course, about=replace(loaded.course.about, contact_time=ContactTime(), hours=Fraction(2))
    )
    pages_ = pages(Site(Answers(timed), loaded.texts, ()))
    body = next(one.body for one in pages_ if isinstance(one, Page) and one.uri == addresses.EDUCATOR)
    assert "Claimed: 2." in plain(body)


def test_guessing_and_what_the_check_tells_stand_there(site: Site, own: dict[str, str]) -> None:
    text = plain(own[addresses.EDUCATOR])
    assert "picking blindly" in text
    for problem in site.for_educator or ():
        assert problem.code in text
        assert f"{problem.file}:{problem.line}" in text


def test_a_workbook_asks_without_answers_and_the_key_answers_in_the_same_order(
    site: Site, own: dict[str, str]
) -> None:
    for name in site.course.quizzes:
        book, key = plain(own[addresses.workbook(name)]), plain(own[addresses.workbook_key(name)])
        asked = site.answers.first_draws[name]
        places_ = [
            (book.index(plain(item.stem).split("\n")[-1][-30:]), key.index(plain(item.stem)[-30:]))
            for item in asked
        ]
        assert places_ == sorted(places_)
        for item in asked:
            for option in item.options:
                assert option.text in book
                assert not option.why or plain(option.why) not in book
            assert not item.why or plain(item.why) not in book


def test_without_the_flag_there_is_no_such_page() -> None:
    loaded = load(ANKLE)
    made = pages(Site(Answers(loaded.course), loaded.texts))
    assert not [one.uri for one in made if "educator" in one.uri]


def test_no_built_site_holds_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, build: Callable[[Path, Path], Result]
) -> None:
    """Not even in the process that served them before."""
    monkeypatch.setattr(CasetruePlugin, "for_educator", True)
    site = tmp_path / "site"
    result = build(ANKLE, site)
    assert result.exit_code == 0, result.output
    files = [file for file in site.rglob("*") if file.is_file()]
    assert not [file for file in files if "educator" in file.name or "workbook" in file.name]
    assert not any("For the educator" in file.read_text("utf-8") for file in files if file.suffix == ".html")
