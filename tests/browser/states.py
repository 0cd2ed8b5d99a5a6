"""Every kind of page of a course that has everything, in every state that a learner can bring it to.

`KINDS` is the one list: a kind of page that is built but not listed fails `test_access.py`. Each entry opens
a page of its kind and yields the name of each state as soon as the page is in it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from tests.hostile.course import Seed

from .page import Page
from .practice import AGED, SURE, build

States = Callable[[Page, str], Iterator[str]]
"""From a page and the site's address (ends with `/`) to the names of the states it is brought to."""


def whole_site(folder: Path) -> Path:
    """A site with every kind of page."""
    course = Seed().write(folder / "course", lambda field, number: None)
    (course / "quizzes" / "sure.yml").write_text(SURE, "utf-8")
    return build(course, folder / "site")


def still(*names: str) -> States:
    """Pages that only change in what is unfolded."""

    def states(page: Page, site: str) -> Iterator[str]:
        for name in names:
            page.open(site + name)
            yield name
            if page.evaluate(
                "[...document.querySelectorAll('main details')].map(e => { e.open = true; }).length"
            ):
                yield f"{name}, unfolded"

    return states


def home(page: Page, site: str) -> Iterator[str]:
    page.open(site + "index.html")
    yield "at first"
    if page.sees(".menu"):
        page.click(".menu")
    page.click("header summary")
    yield "menu open"
    page.click("button.scheme")
    yield "the other colours"
    page.click("button.scheme")
    page.open(f"{site}quizzes/all-kinds.html?ask=q-one")
    page.wait_for("document.querySelector('.screen form button')")
    page.evaluate(FILL)
    page.click("case-quiz form button", text="Check my answer")
    page.open(site + "index.html")
    page.wait_for("document.querySelector('case-today').textContent")
    yield "nothing due"
    page.evaluate(AGED)
    page.reload()
    page.wait_for("document.querySelector('case-today .button')")
    yield "something due"


def clients(page: Page, site: str) -> Iterator[str]:
    for chosen in ("", "measure=stance", "mine=held"):
        page.open(f"{site}clients/index.html?{chosen}")
        yield chosen or "everyone"
    page.open(site + "clients/tern-03.html")
    answer(page, "clear")
    page.open(f"{site}clients/index.html?mine=begun")
    yield "one begun"


def search(page: Page, site: str) -> Iterator[str]:
    for words in ("", "ankle", "nowhere"):
        page.open(f"{site}search.html?q={words}")
        if words:
            page.wait_for("document.querySelector('case-search [role=status]').textContent")
        yield f"{words or 'nothing'} looked for"


def walk(page: Page, site: str) -> Iterator[str]:
    page.open(site + "clients/tern-03.html")
    yield "first step"
    answer(page)
    yield "nothing chosen"
    for choice, state in (
        ("clear", "held"),
        ("free", "missed"),
        ("b", "minor harm"),
        ("c", "serious harm"),
    ):
        answer(page, choice)
        yield state
        page.click(".now button", text="Next")
        if choice == "free":
            page.click(".now input[value=b]")
            yield "chosen"
    yield "end, not held"
    page.click(".past:nth-child(2) summary")
    page.click("button", text="Delete my answers on this device")
    yield "a step read again"
    page.reload()
    yield "come back to"
    page.open(site + "clients/plover-04.html")
    for choice in ("clear", "free", "a"):
        answer(page, choice)
        page.click(".now button", text="Next")
    yield "end, held"
    page.open(site + "clients/crake-07.html")
    answer(page, "clear")
    page.reload()
    yield "come back to, under way"
    page.open(site + "clients/rail-06.html")
    answer(page, "refer_out")
    yield "sent on"


def drill_walk(page: Page, site: str) -> Iterator[str]:
    page.open(site + "drills/wall_side.faults.html")
    yield "first step"
    answer(page, page.evaluate("document.querySelector('.now form input').value"))
    yield "answered"


def drill(page: Page, site: str) -> Iterator[str]:
    page.open(site + "drills/slow_squat.html")
    yield "without breath"
    page.open(site + "drills/wall_side.html")
    yield "before reading"
    page.click(".fault summary")
    page.click("breath-pacer button")
    yield "read, a fault unfolded"
    page.click("breath-pacer button", text="Start")
    yield "breathing"
    page.press("Escape")
    yield "stopped"


def quiz(page: Page, site: str) -> Iterator[str]:
    for name in ("sure", "all-kinds"):
        page.open(f"{site}quizzes/{name}.html")
        number = 0
        while not page.count(".result") and number < 12:
            number += 1
            yield f"{name} {number}, asked"
            page.evaluate(FILL)
            page.click("case-quiz form button", text="Check my answer")
            yield f"{name} {number}, answered"
            page.click(".question > button")
        yield f"{name}, result"
    page.click(".answered li:nth-child(2) summary")
    yield "an answer read again"
    page.click("button", text="Draw new questions")
    page.wait_for("document.querySelector('.progress')")
    yield "drawn anew"
    page.evaluate(FILL)
    page.click("case-quiz form button", text="Check my answer")
    page.open(f"{site}quizzes/all-kinds.html?draw=1")
    page.wait_for("document.querySelector('.onwards button')")
    yield "another draw asked for"
    page.open(f"{site}quizzes/all-kinds.html?ask=q-one,gone")
    yield "a single question"
    page.evaluate(FILL)
    page.click("case-quiz form button", text="Check my answer")
    page.click(".question > button")
    yield "its end"
    page.open(f"{site}quizzes/all-kinds.html?ask=gone")
    page.wait_for("document.querySelector('case-quiz').innerText.includes('no longer')")
    yield "a question that is gone"


def record(page: Page, site: str) -> Iterator[str]:
    page.open(site + "record.html")
    page.wait_for(READY)
    yield "empty"
    for kind in (walk, quiz):
        for _ in kind(page, site):
            pass
    page.open(site + "record.html")
    page.wait_for(READY)
    page.wait_for("window.casetrueParts?.record")
    page.evaluate("for (const one of document.querySelectorAll('main details')) one.open = true; 0")
    page.wait_for("document.querySelector('[data-part=attempts] tbody tr')")
    yield "filled"
    page.evaluate(
        """(() => { const day = document.querySelector('[name=day]');
        day.valueAsDate = new Date(Date.now() + 9e9);
        day.dispatchEvent(new Event('change', {bubbles: true})); })()"""
    )
    page.wait_for("document.querySelector('.days details')")
    yield "with a plan"
    page.evaluate(AGED)
    page.reload()
    page.wait_for("document.querySelector('.days .button')")
    page.evaluate("for (const one of document.querySelectorAll('.days details')) one.open = true; 0")
    yield "with something due"
    bad = page.downloads / "bad.json"
    bad.write_text("{")
    page.choose_file("input[name=copy]", bad)
    page.wait_for("document.querySelector('.taken').textContent")
    yield "a copy refused"


def answer(page: Page, choice: str | None = None) -> None:
    """Answers the step at hand."""
    if choice is not None:
        page.click(f".now input[value={choice}]")
    page.click(".now button", text="Check my answer")


READY = "document.querySelector('case-record [data-fill=learner]')?.textContent"
FILL = """(() => { const form = document.querySelector('case-quiz form');
    form.querySelector('.choice input')?.click();
    const number = form.querySelector('[inputmode]'); if (number) number.value = '32';
    for (const select of form.querySelectorAll('select')) select.selectedIndex = 1;
    form.querySelector('.sure input')?.click();
})()"""

KINDS: dict[str, States] = {
    "about": still("about.html"),
    "caution": still("cautions/chest_pain.html", "cautions/heel_pain_loading.html", "cautions/reviewed.html"),
    "cautions": still("cautions/index.html"),
    "client": walk,
    "clients": clients,
    "drill": drill,
    "drill-walk": drill_walk,
    "drills": still("drills/index.html"),
    "glossary": still("glossary.html"),
    "home": home,
    "lesson": still("knee-to-wall.html"),
    "lessons": still("lessons.html"),
    "measures": still("measures.html"),
    "missing": still("404.html"),
    "positions": still("positions.html"),
    "quiz": quiz,
    "quizzes": still("quizzes/index.html"),
    "record": record,
    "search": search,
    "sources": still("sources.html"),
    "table": still("tables/plan.html", "tables/screen.html"),
    "tables": still("tables/index.html"),
}
"""Kind of page, as its body's class says, to its states."""
