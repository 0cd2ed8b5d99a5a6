"""The educator's own pages, while serving alone: the bank, every question with its answer, a workbook."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from builder.answers import addresses
from builder.checks.reading import eases, is_english
from builder.course import Quiz
from builder.problems.tally import by_severity
from builder.questions.guessing import HABITS

from .. import educator, prose
from ..page import Page
from ..site import Site


def pages(site: Site) -> Iterator[Page]:
    if site.for_educator is None:
        return
    say = site.words.say
    home = (addresses.EDUCATOR, say("For the educator"))
    yield Page(addresses.EDUCATOR, home[1], "educator", partial(_bank, site))
    for bank in educator.banks(site.answers):
        yield Page(
            addresses.educator_items(bank.objective),
            prose.plain(bank.label),
            "educator",
            partial(_items, site, bank),
            trail=(home,),
        )
    for quiz in site.course.quizzes.values():
        title = prose.plain(quiz.title)
        yield Page(
            addresses.workbook(quiz.name),
            say("Workbook: {quiz}", quiz=title),
            "educator",
            partial(_printed, site, quiz, "workbook", addresses.workbook(quiz.name)),
            trail=(home,),
        )
        yield Page(
            addresses.workbook_key(quiz.name),
            say("Answers: {quiz}", quiz=title),
            "educator",
            partial(_printed, site, quiz, "key", addresses.workbook_key(quiz.name)),
            trail=(home,),
        )


def _bank(site: Site) -> str:
    answers = site.answers
    banks = educator.banks(answers)
    return site.render(
        "educator/bank.html.j2",
        addresses.EDUCATOR,
        banks=banks,
        kinds=[
            kind
            for kind in ("one", "several", "number", "order", "pairs")
            if any(b.kinds[kind] for b in banks)
        ],
        sorts=sorted({sort for bank in banks for sort in bank.sorts}),
        quizzes=[educator.of_quiz(answers, quiz) for quiz in site.course.quizzes.values()],
        habits=HABITS,
        places=educator.places(answers.bank),
        papers=educator.PAPERS,
        problems=by_severity(site.for_educator or (), "warning", "hint"),
        made_up=len(answers.practised.cases),
        asked=answers.practised.asked,
        eases=list(eases(site.course, site.lesson_texts)) if is_english(site.course) else [],
        time=site.contact_time,
    )


def _items(site: Site, bank: educator.Bank) -> str:
    return site.render("educator/items.html.j2", addresses.educator_items(bank.objective), bank=bank)


def _printed(site: Site, quiz: Quiz, what: str, here: str) -> str:
    items = site.answers.first_draws[quiz.name]
    return site.render(f"educator/{what}.html.j2", here, quiz=quiz, asked=items)
