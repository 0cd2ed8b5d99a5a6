"""The plan that stays: the pages opened on each day of three weeks, by a learner who answers what is due."""

from __future__ import annotations

import json
import math
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

from builder.answers import Answers
from builder.questions.item import Item
from builder.questions.page_data import item_data
from builder.source import load

from ..conftest import ANKLE
from ..records.make import attempt, record
from .page import Page
from .practice import narrow_faults, tab_to

KEY = "casetrue:ankle-squat:"
START = date(2026, 3, 2)
READY = "document.querySelector('case-record .days')"
PAGES = (
    "record.html",
    "quizzes/ankle-check.html",
    "clients/tern-03.html",
    "quizzes/ankle-check.html?ask=q-one",
)
CLOCK = """() => {
    const Own = Date, ahead = new Own(%d, %d, %d, 12).getTime() - Own.now();
    globalThis.Date = class extends Own {
        constructor(...given) { if (given.length) super(...given); else super(Own.now() + ahead); }
        static now() { return Own.now() + ahead; }
    };
}"""
FILL = """(key) => {
    const form = document.querySelector('case-quiz form'), keys = [key].flat();
    const number = form.querySelector('input[inputmode]'), list = form.querySelector('.order');
    if (number) number.value = String(keys[0][0] / keys[0][1]);
    for (const id of keys) list?.append(list.querySelector(`li[data-option="${id}"]`));
    form.querySelectorAll('select').forEach((select, at) => { select.value = keys[at]; });
    for (const input of form.querySelectorAll('.choice input')) input.checked = keys.includes(input.value);
}"""
BEST = """(() => {
    const walk = JSON.parse(document.querySelector('case-walk script').textContent);
    return walk.steps[document.querySelector('.now').dataset.step].options.find(one => one.best)?.id;
})()"""


def gap(days: int) -> int:
    """Days between reviews: 30 % of the time to the test at a week, 7.5 % at a year, along its logarithm
    between (the middles of what Cepeda et al. 2008 found)."""
    along = min(1, max(0, math.log(days / 7) / math.log(365 / 7)))
    return max(1, math.floor(days * (0.3 + along * (0.075 - 0.3)) + 0.5))


@pytest.fixture(scope="module")
def bank() -> dict[str, Item]:
    return {item.id: item for item in Answers(load(ANKLE).course).bank}


@pytest.fixture(scope="module")
def units(site: Path) -> dict[str, str]:
    """Question or step to what is learnt by it."""
    text = (site / "assets" / "plan-index.js").read_text("utf-8")
    index = json.loads(text[text.index("=", text.index("]")) + 1 :].rstrip(";\n"))
    return {row[0]: unit for unit, _, rows in index["units"] for row in rows}


def on(page: Page, day: date) -> None:
    """The page's clock says noon of this day."""
    page.before(CLOCK % (day.year, day.month - 1, day.day))


def kept(page: Page, name: str) -> Any:
    return json.loads(page.call("(key) => localStorage.getItem(key)", KEY + name) or "null")


def keep(page: Page, site: Path | str, **values: Any) -> None:
    page.open(site + "index.html" if isinstance(site, str) else site / "index.html")
    page.call(
        "(all) => { for (const [name, text] of Object.entries(all)) localStorage.setItem(name, text); }",
        {KEY + name: json.dumps(value) for name, value in values.items()},
    )


def home(page: Page, site: Path) -> str:
    """What the home page says of today, once it has said it."""
    page.open(site / "index.html")
    page.wait_for("document.querySelector('case-today').textContent")
    return page.text("case-today .due").strip()


def answer_what_is_asked(page: Page, bank: dict[str, Item], wrong: str = "") -> None:
    """Answers all that the page asks, rightly but for the question `wrong`."""
    page.wait_for("document.querySelector('.screen form button, .now button, .now .onwards')")
    if page.count("case-walk"):
        if page.sees(".onwards button", "Try it again"):
            page.click(".onwards button", text="Try it again")
        while best := page.evaluate(BEST):
            page.click(f".now input[value={best}]")
            page.click(".now button", text="Check my answer")
            page.click(".now button", text="Next")
        return
    asked = page.evaluate("new URLSearchParams(location.search).get('ask')").split(",")
    assert page.evaluate("new URLSearchParams(location.search).get('mode')") == "today"
    for name in asked:
        page.wait_for("document.querySelector('.screen form button')")
        key = item_data(bank[name])["key"]
        page.call(FILL, "b" if name == wrong and key != "b" else key)
        page.click("case-quiz form button", text="Check my answer")
        page.click(".question > button")


class Learner:
    """What should be due, worked out beside the browser from what its record says was answered."""

    def __init__(self, units: dict[str, str], end: int) -> None:
        self._units, self._end = units, end
        self._every: dict[str, int] = {}
        self.due: dict[str, int | None] = {}

    def answered(self, attempts: list[dict[str, Any]], day: int) -> None:
        today = str(START + timedelta(day))
        found: dict[str, tuple[bool, int]] = {}
        for one in attempts:
            if one["kind"] in ("question", "step") and one["at"][:10] == today:
                every = self._every.setdefault(one.get("unit", one["id"]), gap(self._end - day))
                unit = self._units[one["id"]]
                found[unit] = found.get(unit, (True, 0))[0] and one["mark"] == 1, every
        for unit, (right, every) in found.items():
            after = day + every if right else day + 1
            self.due[unit] = after if after < self._end or not right else None

    def waiting(self, day: int) -> list[str]:
        return [unit for unit, due in self.due.items() if due is not None and due <= day]


def test_three_weeks(page: Page, site: Path, bank: dict[str, Item], units: dict[str, str]) -> None:
    end = 21
    learner = Learner(units, end)
    on(page, START)
    keep(page, site, day=str(START + timedelta(end)))
    quiz = (site / "quizzes" / "ankle-check.html").as_uri()
    page.open(f"{quiz}?ask=q-one,q-number,g-plan.tern-03&mode=today")
    answer_what_is_asked(page, bank, wrong="q-one")
    learner.answered(kept(page, "record")["attempts"], 0)
    seen = set()
    for day in range(end):
        on(page, START + timedelta(day))
        plan = kept(page, "plan")
        waiting = learner.waiting(day)
        told = home(page, site)
        seen.add(bool(waiting))
        while waiting:
            assert told.startswith(f"Due today: {len(waiting)}."), (day, told, waiting)
            for name in PAGES:
                page.open(f"{site.as_uri()}/{name}")
            page.open(site / "record.html")
            page.wait_for(READY)
            assert page.text(".days > li:first-child time") == f"Today: {len(waiting)} due"
            assert page.sees(".days > li:first-child a.button", "Practise today")
            assert page.count(".days > li:first-child .list a[href]")
            assert kept(page, "plan") == plan, "looking moves no day"
            home(page, site)
            page.click("case-today a", text="Today: 5 minutes")
            page.wait_for("location.search.includes('mode=today')")
            answer_what_is_asked(page, bank, wrong="q-number" if day == 7 else "")
            learner.answered(kept(page, "record")["attempts"], day)
            plan = kept(page, "plan")
            waiting = learner.waiting(day)
            told = home(page, site)
        nearest = min((due for due in learner.due.values() if due is not None), default=None)
        if nearest is None:
            assert told.startswith("Nothing"), (day, told)
            assert "Choose the day you want to be ready" in told, (day, told)
        else:
            assert told.startswith("Nothing"), (day, told)
            assert " Next back: " in told, (day, told)
            next_day = START + timedelta(nearest)
            assert told.endswith(f"{next_day:%a}, {next_day:%b} {next_day.day}, {next_day.year}"), (day, told)
        assert kept(page, "plan") == plan
    assert seen == {True, False}
    days = {units.get(key, key): due for key, (_, _, due) in kept(page, "plan")["days"].items()}
    assert set(days) == set(learner.due)
    assert page.trouble == []


def tried(*attempts: dict[str, Any]) -> dict[str, Any]:
    """A record of these attempts, on the day before the first."""
    dated = enumerate(attempts)
    return record(*({**one, "at": f"2026-03-01T12:00:{n:02}.000Z", "first": True} for n, one in dated))


ONE = tried(attempt("q-one", mark=0, quiz="ankle-check"))


DAMAGED = ("{", "7", '{"end": null, "days": 7}', '{"end": null, "days": {"q-one": [1, 2, 3]}}')


def address(page: Page) -> str:
    return page.evaluate("document.querySelector('case-today .button').getAttribute('href')")


def test_what_was_missed_comes_back_with_another_client(
    page: Page, site: Path, units: dict[str, str]
) -> None:
    alike: dict[str, list[str]] = {}
    for name in (name for name in units if name.startswith("g-plan.")):
        alike.setdefault(units[name], []).append(name)
    missed, *others = max(alike.values(), key=len)
    assert others
    on(page, START)
    missing = attempt(missed, mark=0, objective="choose-ankle-plan", quiz="ankle-check")
    keep(page, site, record=tried(missing))
    assert home(page, site).startswith("Due today: 1. Wrong last time: 1.")
    asked = address(page).partition("?ask=")[2].partition("&")[0].split(",")
    assert asked[0] in others
    assert missed not in asked
    assert address(page).endswith("&minutes=5&mode=today")


def test_by_keyboard_on_a_phone(browser: Any, site: Path, bank: dict[str, Item]) -> None:
    page = browser.page(width=360, height=640)
    on(page, START)
    keep(page, site, record=ONE)
    home(page, site)
    assert narrow_faults(page) == []
    tab_to(page, "e.textContent === 'Today: 5 minutes'")
    page.press("Enter")
    page.wait_for("location.search.includes('mode=today')")
    answer_what_is_asked(page, bank)
    assert "q-one" in [one["id"] for one in kept(page, "record")["attempts"][1:]]
    assert "Wrong last time" not in home(page, site)
    assert page.trouble == []


def test_deleting_all_answers_clears_the_plan(
    browser: Any, site: Path, serve: Any, bank: dict[str, Item]
) -> None:
    page = browser.page()
    other = browser.page(beside=page)
    for one in (page, other):
        on(one, START)
    keep(page, serve(site), record=ONE)
    page.reload()
    page.wait_for("document.querySelector('case-today .button')")
    page.click("case-today a", text="Today: 5 minutes")
    answer_what_is_asked(page, bank)
    assert kept(page, "plan")
    other.open(serve(site) + "index.html")
    other.wait_for("document.querySelector('case-today').textContent")
    page.click("button", text="Delete my answers on this device")
    page.click("button", text="Delete them")
    assert kept(page, "plan") is None
    other.wait_for("document.querySelector('case-today').textContent === ''")
    assert page.trouble == other.trouble == []


@pytest.mark.parametrize("plan", DAMAGED)
def test_a_damaged_plan_is_dropped(page: Page, site: Path, bank: dict[str, Item], plan: str) -> None:
    on(page, START)
    keep(page, site, record=ONE)
    page.call("(key, text) => localStorage.setItem(key, text)", KEY + "plan", plan)
    assert home(page, site).startswith("Due today: 1.")
    page.click("case-today a", text="Today: 5 minutes")
    page.wait_for("location.search.includes('mode=today')")
    answer_what_is_asked(page, bank)
    days = kept(page, "plan")["days"]
    assert all(len(day) == 3 for day in days.values())
    assert len(days) > 1
    assert page.trouble == []


def test_nothing_is_shown_without_a_record_or_script_or_storage(browser: Any, site: Path) -> None:
    page = browser.page()
    page.open(site / "index.html")
    page.wait_for("!!customElements.get('case-today')")
    assert page.text("case-today") == ""
    assert "plan-index" not in " ".join(page.requests)
    shut = browser.page()
    shut.before("() => Object.defineProperty(window, 'localStorage', {get() { throw new Error('shut'); }})")
    shut.open(site / "index.html")
    shut.wait_for("!!customElements.get('case-today')")
    assert shut.text("case-today") == ""
    assert page.trouble == shut.trouble == []
    plain = browser.page(script=False)
    plain.open(site / "index.html")
    assert plain.text("case-today") == ""
    assert not plain.sees("a", "Practise today")


def aim(page: Page, day: date) -> None:
    page.call(
        """(day) => { const field = document.querySelector('[name=day]'); field.value = day;
            field.dispatchEvent(new Event('change', {bubbles: true})); }""",
        str(day),
    )


def test_the_record_lists_the_days(page: Page, site: Path, bank: dict[str, Item]) -> None:
    on(page, START)
    marks = {"q-number": 1, "q-one": 0, "q-several": 0}
    answers = [
        attempt(name, mark=mark, digest=bank[name].digest, quiz="ankle-check") for name, mark in marks.items()
    ]
    keep(page, site, record=tried(*answers))
    page.open(site / "record.html")
    page.wait_for(READY)
    days = "[...document.querySelectorAll('.days time')].map(e => e.dateTime)"
    assert "Choose a day, and the days to review appear here." in page.text("[data-fill=plan]")
    assert page.evaluate(days) == [str(START)]
    for ahead in (30, 7, 60):
        aim(page, START + timedelta(ahead))
        assert page.evaluate(days) == [str(START), str(START + timedelta(gap(ahead + 1) - 1))]
        assert f"in {ahead} days" in page.text("[data-fill=plan]")
    links = """(n) => [...document.querySelectorAll(`.days > li:nth-child(${n}) a`)]
        .map(a => a.pathname.split('/').at(-1) + a.search)"""
    assert page.call(links, 2) == ["all-kinds.html?ask=q-number"]
    today = page.call(links, 1)
    assert {"all-kinds.html?ask=q-one&mode=today", "all-kinds.html?ask=q-several&mode=today"} <= set(today)
    aim(page, START + timedelta(1))
    assert "no day between" in page.text("[data-fill=plan]")
    aim(page, START)
    assert "Choose a day after today." in page.text("[data-fill=plan]")
    assert page.trouble == []


def begin_today(page: Page, serve: Any, site: Path, words: str = "Today: 5 minutes") -> list[str]:
    on(page, START)
    keep(page, serve(site), record=ONE)
    page.reload()
    page.click("case-today a", text=words)
    page.wait_for("document.querySelector('.screen form button')")
    asked: list[str] = page.evaluate("new URLSearchParams(location.search).get('ask')").split(",")
    return asked


def answer_one(page: Page, bank: dict[str, Item], name: str) -> None:
    page.wait_for("document.querySelector('.screen form button')")
    page.call(FILL, item_data(bank[name])["key"])
    page.click("case-quiz form button", text="Check my answer")


def test_today_is_the_first_button_of_home_and_says_what_comes_back(
    page: Page, site: Path, serve: Any, bank: dict[str, Item]
) -> None:
    on(page, START)
    keep(page, serve(site), record=ONE, day=str(START + timedelta(21)))
    page.reload()
    page.wait_for("document.querySelector('case-today .button')")
    assert page.text("main .button") == "Today: 5 minutes"
    assert [page.sees("case-today a", text=f"{n} minutes") for n in (3, 10)] == [True, True]
    asked = begin_today(page, serve, site, "3 minutes")
    keep_day = "(key, day) => localStorage.setItem(key, JSON.stringify(day))"
    page.call(keep_day, KEY + "day", str(START + timedelta(21)))
    for name in asked:
        answer_one(page, bank, name)
        page.click(".question > button")
    page.wait_for("document.querySelector('.result')")
    assert "What comes back, and when" in page.text(".result")
    assert f", 2026: {len(asked)}" in page.text(".result")
    assert page.trouble == []


def test_a_sitting_that_was_left_can_be_gone_on_with(
    page: Page, site: Path, serve: Any, bank: dict[str, Item]
) -> None:
    asked = begin_today(page, serve, site)
    answer_one(page, bank, asked[0])
    page.open(serve(site) + "index.html")
    page.click("case-today a.button", text=f"Go on with today: {len(asked) - 1} left")
    page.wait_for("document.querySelector('.screen form button')")
    assert page.evaluate("new URLSearchParams(location.search).get('ask')").split(",") == asked[1:]
    for name in asked[1:]:
        answer_one(page, bank, name)
        page.click(".question > button")
    page.open(serve(site) + "index.html")
    page.wait_for("document.querySelector('case-today .due')")
    assert "Go on with today" not in page.text("case-today")
    assert page.trouble == []


def test_a_sitting_ends_on_time(page: Page, site: Path, serve: Any, bank: dict[str, Item]) -> None:
    asked = begin_today(page, serve, site)
    answer_one(page, bank, asked[0])
    later = (
        "() => { const now = performance.now.bind(performance); performance.now = () => now() + 300_001; }"
    )
    page.call(later)
    page.click(".question > button")
    page.wait_for("document.querySelector('.result')")
    assert "The minutes are over. What is left comes another time." in page.text("case-quiz")
    assert "1 of 1 right." in page.text(".result")
    assert page.trouble == []
