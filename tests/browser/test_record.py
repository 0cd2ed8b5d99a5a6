"""A learner's record: what it tells, how it goes to another device, what it refuses, what is printed."""

from __future__ import annotations

import csv
import json
import re
import shutil
from datetime import date, timedelta
from math import ceil, floor
from pathlib import Path
from typing import Any

import pytest

from builder.answers import Answers
from builder.exercises.page_data import key_digest
from builder.questions import draw_quiz
from builder.records import read
from builder.source import load
from builder.statistics import Row, chance

from ..conftest import ANKLE
from ..records.make import attempt, moment, old, quiz, record, step, walk
from .page import until
from .practice import answer_a_question, answer_step, build, narrow_faults, tab_to, tab_to_button

KEY = "casetrue:ankle-squat:"
READY = "document.querySelector('case-record [data-fill=learner]')?.textContent"


@pytest.fixture(scope="module")
def digests() -> dict[str, str]:
    return {item.id: item.digest for item in Answers(load(ANKLE).course).bank}


@pytest.fixture(scope="module")
def few(digests: dict[str, str]) -> dict[str, Any]:
    """One question missed, one that was right and has changed since, one walk with an unsafe answer."""
    return record(
        attempt("q-one", 1, mark=0, digest=digests["q-one"], quiz="ankle-check", draw=1),
        attempt("q-number", 2, digest="0" * 16, quiz="ankle-check", draw=1),
        walk(second=3, mark=0.5, passed=False, harm="serious"),
        step("first-visit/tern-03/warm_up", 3, mark=0, objective="choose-ankle-plan", harm="serious"),
    )


@pytest.fixture(scope="module")
def many(digests: dict[str, str]) -> dict[str, Any]:
    course = load(ANKLE).course
    objectives = {item.id: item.objective for item in Answers(course).bank}
    answers = [
        attempt(
            id,
            number * 60 + place,
            digest=digests[id],
            objective=objectives[id],
            mark=(number + place) % 3 > 0,
            quiz="ankle-check",
            draw=number + 1,
        )
        for number in range(60)
        for place, id in enumerate(sorted(digests))
    ]
    answers = [{**one, "mark": int(one["mark"]), "right": bool(one["mark"])} for one in answers]
    walks = [
        walk(
            f"first-visit/{case}",
            number * 60 + 59,
            harm=("none", "minor", "serious")[number % 3],
            passed=number % 3 < 2,
        )
        for number in range(9)
        for case in course.cases
    ]
    stop = step(
        "first-visit/rail-06/screen", 40, objective="", client="rail-06", unit="screen/pain", stopped=True
    )
    return record(*answers, *walks, stop, quiz(0.5, False, 30), quiz(1, True, 90))


def keep(page, site: Path | str, attempts: dict[str, Any], **more: str) -> None:
    """Opens the page, from a folder or an address, on a device that keeps this record."""
    page.open(site + "record.html" if isinstance(site, str) else site / "record.html")
    kept = {
        "record": {**attempts, "attempts": [{**one, "first": True} for one in attempts["attempts"]]},
        **more,
    }
    page.call(
        "(all) => { for (const [name, text] of Object.entries(all)) localStorage.setItem(name, text); }",
        {KEY + name: json.dumps(value) for name, value in kept.items()},
    )
    show(page)


def show(page) -> None:
    page.reload()
    page.wait_for(READY)
    page.wait_for("window.casetrueParts?.record")


def attempts_kept(page) -> list[dict[str, Any]]:
    return page.evaluate(f"JSON.parse(localStorage.getItem('{KEY}record')).attempts")


def saved(page, name: str) -> Path:
    """Takes the one file of this name, in which `*` stands for anything, away for others to come."""

    def there() -> list[Path]:
        found = list(page.downloads.glob(name))
        return [] if list(page.downloads.glob("*.part")) else [one for one in found if one.stat().st_size]

    assert until(there), f"{name} was not saved; there are {list(page.downloads.iterdir())}"
    (file,) = there()
    return file.replace(file.with_name(f"taken {page.store} {file.name}"))


def take(page, file: Path) -> str:
    page.evaluate("document.querySelector('.taken').replaceChildren()")
    page.evaluate("document.querySelector('.taken').closest('.fold').open = true; 0")
    page.choose_file("input[name=copy]", file)
    page.wait_for("document.querySelector('.taken').textContent")
    return page.text(".taken").strip()


@pytest.mark.parametrize("disk", [True, False], ids=["disk", "server"])
def test_from_an_answer_to_the_record(page, site, serve, disk):
    root = site.as_uri() + "/" if disk else serve(site)
    page.open(root + "quizzes/ankle-check.html")
    for _ in range(6):
        answer_a_question(page)
        page.click(".question > button")
    page.open(root + "record.html")
    page.wait_for(READY)
    kinds = [one["kind"] for one in attempts_kept(page)]
    assert kinds.count("question") == 6
    assert kinds.count("quiz") == 1
    assert "Finished: 1." in page.text("[data-part=quizzes]")
    assert page.count("[data-part=objectives] .bars > li") == 2
    assert "95% interval" in page.text("[data-part=objectives]")
    assert page.trouble == []


def test_nothing_yet(page, site):
    page.open(site / "index.html")
    page.click("main a", text="My record")
    page.wait_for(READY)
    assert "Nothing is kept here yet." in page.text("main")
    for name in ("glance", "objectives", "again", "ready", "quizzes", "walks", "attempts"):
        assert not page.sees(f"[data-part={name}]"), name
    assert page.sees("input[name=day]"), "the day of the test can be set at any time"
    assert page.trouble == []


def test_few_answers_are_told_to_be_few(page, site, few):
    keep(page, site, few)
    told = page.text("main")
    assert "0 of 1 right. 95% interval: 0 to 79%. So few answers say little." in told
    until(lambda: "Chance of passing" in page.text("[data-part=ready]"))
    assert re.search(r"90% interval: 0 to [1-9]\d%", page.text("[data-part=ready]")), "with its interval"
    assert page.evaluate("document.querySelector('[data-fill=dates]').textContent").startswith("3: ")
    again = page.text("[data-part=again]")
    assert again.count("Wrong last time.") == 1
    assert again.count("Unsafe last time.") == 1
    changed = page.text("[data-part=changed]")
    assert "The right answer has changed" in changed
    assert page.count("[data-part=changed] li") == 1
    assert page.evaluate("document.querySelector('[data-part=changed] a').getAttribute('href')") == (
        "quizzes/ankle-check.html?ask=q-number"
    )
    assert "Tern: First visit" in again
    assert page.evaluate(
        "document.querySelector('[data-part=again] a[href*=clients]').getAttribute('href')"
    ) == ("clients/tern-03.html")
    assert "Unsafe in 1 of 1." in page.text("[data-part=walks]")
    page.click("[data-part=attempts] summary")
    page.wait_for("document.querySelectorAll('[data-part=attempts] tbody tr').length === 3")


def test_no_chance_where_every_draw_asks_the_same(page, many, tmp_path):
    course = Path(shutil.copytree(ANKLE, tmp_path / "course"))
    (course / "quizzes" / "all-kinds.yml").unlink()
    fixed = "quiz: ankle-check\ntitle: The same\nquestions: [q-one, q-number]\n"
    (course / "quizzes" / "ankle-check.yml").write_text(fixed, "utf-8")
    keep(page, build(course, tmp_path / "site"), many)
    ready = page.text("[data-part=ready]")
    assert "This quiz asks the same questions every time, so no chance is shown" in ready
    assert "Chance of passing" not in ready


def test_the_chance_is_the_one_computed(page, site, many):
    keep(page, site, many)
    course = load(ANKLE).course
    answers = Answers(course)
    objectives = {item.id: item.objective for item in answers.bank}
    firsts: dict[str, list[int]] = {}
    met = set()
    for one in sorted(many["attempts"], key=lambda one: one["at"]):
        if one["kind"] == "question" and one["id"] not in met:
            met.add(one["id"])
            firsts.setdefault(objectives[one["id"]], []).append(one["mark"])
    asked = draw_quiz(course.quizzes["all-kinds"], answers.bank)
    pool = answers.pools["all-kinds"]
    unsafe = {item.objective for item in pool if any(option.harm == "serious" for option in item.options)}
    rows = [
        Row(
            sum(item.objective == name for item in asked),
            sum(marks),
            marks.count(0),
            (0, 0) if name in unsafe else None,
        )
        for name, marks in firsts.items()
    ]
    found = chance(rows, 5)
    until(lambda: "Chance of passing" in page.text("[data-part=ready]"))
    told = page.text("[data-part=ready]")
    assert f"Chance of passing: {round(100 * found.chance)}%" in told
    assert f"{floor(100 * found.low)} to {ceil(100 * found.high)}%." in told
    assert f"At least 5 of 6 must be right (80%){', and none unsafe' * bool(unsafe)}." in told


def test_an_objective_without_an_answer_is_named(page, site, few):
    keep(page, site, {**few, "attempts": few["attempts"][:1]})
    ready = page.text("[data-part=ready]")
    assert "Too few answers to say." in ready
    assert "No first answer yet on 1 of 2 objectives" in ready
    assert (
        page.evaluate("document.querySelector('[data-part=ready] li').textContent")
        == "Choose a plan for an ankle"
    )


def test_a_copy_goes_to_another_device_by_keyboard_and_back(browser, site, few, many):
    phone = browser.page()
    keep(phone, site, few)
    tab_to(phone, "e.name === 'learner'")
    phone.type("=Wren; Hollis")
    tab_to_button(phone, "Save a copy")
    phone.press("Enter")
    copy = saved(phone, "record-*.json")
    found = read(copy.read_bytes(), "ankle-squat")
    assert (found.learner, len(found.attempts)) == ("=Wren; Hollis", 4)
    assert found.build
    desk = browser.page(width=360)
    keep(desk, site, many)
    before = len(attempts_kept(desk))
    assert "This record carries the name =Wren; Hollis, and yours here carries none." in take(desk, copy)
    assert len(attempts_kept(desk)) == before
    tab_to(desk, "e.name === 'learner'")
    desk.type("=Wren; Hollis")
    desk.press("Tab")
    desk.wait_for(f"localStorage.getItem('{KEY}learner')")
    assert take(desk, copy) == "New attempts imported: 4. Here already: 0."
    assert take(desk, copy) == "New attempts imported: 0. Here already: 4."
    assert len(attempts_kept(desk)) == before + 4
    assert desk.evaluate("document.querySelector('[name=learner]').value") == "=Wren; Hollis"
    desk.click("[data-do=json]")
    back = saved(desk, "record-*.json")
    assert take(phone, back) == f"New attempts imported: {before}. Here already: 4."
    assert attempts_kept(phone) == attempts_kept(desk)
    assert phone.trouble == desk.trouble == []


RAIL = "clients/rail-06.html"


def answer_rail(page, site, value: str) -> None:
    page.open(site / RAIL)
    answer_step(page, value, "Right" if value == "refer_out" else "Unsafe")


def test_a_walk_that_is_left_keeps_its_unsafe_answer(page, site):
    answer_rail(page, site, "clear")
    (one,) = attempts_kept(page)
    assert (one["kind"], one["id"], one["answer"]) == ("step", "first-visit/rail-06/screen", "clear")
    assert (one["right"], one["known"], one["harm"], one["stopped"]) == (False, True, "serious", False)
    assert (one["client"], one["mode"], one["first"]) == ("rail-06", "practise", True)
    assert one["unit"].startswith("screen/")
    assert len(one["key"]) == 8
    assert one["ms"] > 0
    page.open(site / "record.html")
    show(page)
    told = page.text("[data-part=safety]")
    assert "Stopped 0 of 1" in told
    assert "Not stopped at the first answer: Rail." in told
    assert page.text("[data-part=safety] h3").strip() == "Unsafe answers"
    assert "Rail: May this client be coached today?" in told, "by the decision"
    walks = page.text("[data-part=walks]")
    assert "Left half way: 1." in walks
    assert "Unsafe in 1 of 1." in walks
    assert page.trouble == []


def test_stopped_counts_first_answers_alone(page, site):
    answer_rail(page, site, "refer_out")
    page.open(site / "record.html")
    show(page)
    assert "Stopped 1 of 1" in page.text("[data-part=safety]")
    assert "Not stopped" not in page.text("[data-part=safety]")
    page.open(site / RAIL)
    page.click(".now button", text="Next")
    page.click("button", text="Try it again")
    answer_step(page, "clear", "Unsafe")
    page.open(site / "record.html")
    show(page)
    told = page.text("[data-part=safety]")
    assert "Stopped 1 of 1" in told, "the second answer is no first one"
    assert "Unsafe answers" in told, "and named all the same"


def test_the_owner_sees_what_the_learner_saw_before_saving(page, site, few):
    practised = step(
        "first-visit/rail-06/screen", 9, mark=0, objective="", client="rail-06", stopped=False, harm="serious"
    )
    asked = {**few["attempts"][0], "mode": "quiz", "sitting": "0" * 16}
    end = quiz(0.5, False, 8, sitting="0" * 16)
    keep(page, site, record(asked, end, practised))
    page.evaluate("document.querySelector('[name=learner]').focus()")
    page.type("W\u0119gier / Kos")
    page.press("Tab")
    page.click("summary", text="Hand over to the owner")
    page.wait_for("document.querySelector('[data-do=owner]')")
    told = page.text(".hand-over")
    for words in (
        "Name: W\u0119gier / Kos.",
        "Stopped 0 of 1. Not stopped at the first answer: Rail.",
        "Unsafe answers: 0.",
        "Ankle check: first sitting 50%, not passed.",
        "Answers: 1, each with",
        "What you practised stays here.",
    ):
        assert words in told, words
    page.click("[data-do=owner]")
    device = page.evaluate(f"JSON.parse(localStorage.getItem('{KEY}record')).device")
    copy = saved(page, f"record-ankle-squat-W\u0119gier-Kos-{device[:8]}.json")
    found = read(copy.read_bytes(), "ankle-squat")
    assert [one.kind for one in found.attempts] == ["question", "quiz"]
    assert (found.device, found.learner, found.stopped) == (device, "W\u0119gier / Kos", {"rail-06": False})
    assert [one.counts for one in found.attempts if one.kind == "quiz"] == [True]
    page.click(".hand-over .check")
    told = page.text(".hand-over")
    for words in ("Unsafe answers: 1.", "Answers: 2, each with", "What you practised goes along."):
        assert words in told, words
    page.click("[data-do=owner]")
    copy = saved(page, "record-ankle-squat-W*.json")
    assert len(read(copy.read_bytes(), "ankle-squat").attempts) == 3
    assert page.trouble == []


@pytest.mark.parametrize("practice", [False, True], ids=["quizzes alone", "with practice"])
def test_what_is_shown_before_saving_is_the_copy_word_for_word(page, site, few, practice):
    practised = step(
        "first-visit/rail-06/screen", 9, mark=0, objective="", client="rail-06", stopped=False, ms=4200
    )
    asked = {**few["attempts"][0], "mode": "quiz", "sitting": "0" * 16, "answer": "b", "sure": 3, "ms": 8000}
    keep(page, site, record(asked, quiz(0.5, False, 8, sitting="0" * 16), practised))
    page.click("summary", text="Hand over to the owner")
    page.wait_for("document.querySelector('[data-do=owner]')")
    if practice:
        page.click(".hand-over .check")
    page.click("summary", text="The copy, word for word")
    page.wait_for("document.querySelector('.hand-over pre')")
    page.click("summary", text="Every answer in the copy")
    page.wait_for("document.querySelector('.hand-over tbody')")
    shown = page.evaluate("document.querySelector('.hand-over pre').textContent")
    rows = page.evaluate(
        "[...document.querySelectorAll('.hand-over tbody tr')].map(r => [...r.cells].map(c => c.textContent))"
    )
    page.click("[data-do=owner]")
    text = saved(page, "record-ankle-squat-*.json").read_text("utf-8")
    assert shown == text, "nothing is saved that was not shown, and nothing shown that was not saved"
    attempts = json.loads(text)["attempts"]
    assert len(attempts) == 2 + practice
    assert [row[0] for row in rows] == [one["at"].replace("T", " ")[:16] for one in attempts]
    assert [row[2] for row in rows] == [one.get("answer", "") for one in attempts]
    assert [row[3].split(",")[0] for row in rows] == ["not right", "not passed", *["not right"] * practice]
    assert [row[4:] for row in rows] == [["Very sure", "8"], ["", ""], *[["", "4"]] * practice]
    assert page.trouble == []


def test_a_copy_says_what_was_no_first_and_what_does_not_count(page, site, few):
    """What came before may stay at home."""
    before = step("first-visit/tern-03/plan", 1, unit="plan/stiff", client="tern-03", objective="")
    asked = attempt(
        "q-made", 2, unit="plan/stiff", client="tern-03", quiz="ankle-check", draw=1, sitting="0" * 16
    )
    seen = {**asked, "at": moment(1), "id": "q-other", "unit": "plan/free", "sitting": "1" * 16}
    end = quiz(1, True, 8, sitting="0" * 16)
    keep(page, site, record(before, *({**one, "mode": "quiz"} for one in (asked, seen)), end))
    page.click("summary", text="Hand over to the owner")
    page.wait_for("document.querySelector('[data-do=owner]')")
    page.click("[data-do=owner]")
    found = read(saved(page, "record-*.json").read_bytes(), "ankle-squat")
    assert {one.id: one.first for one in found.attempts if one.kind == "question"} == {
        "q-made": False,
        "q-other": True,
    }
    assert [one.counts for one in found.attempts if one.kind == "quiz"] == [False]


def test_very_sure_and_wrong_is_told_unsafe_first(page, site, few):
    answers = [
        attempt("q-one", 1, mark=0, sure=3, harm="none", digest=few["attempts"][0]["digest"]),
        step("first-visit/plover-04/gone", 3, mark=0, sure=3, harm="serious", objective=""),
        attempt("q-made", 4, sure=3, harm="none"),
        attempt("q-else", 5, sure=1, harm="none"),
    ]
    keep(page, site, record(*answers))
    told = page.text("[data-part=sure]")
    assert "Not sure: 1 of 1 right. 95% interval: 21 to 100%." in told
    assert "Very sure: 1 of 3 right. 95% interval: 6 to 79%." in told
    things = page.evaluate(
        "[...document.querySelectorAll('[data-part=sure] .list > li')].map(e => e.textContent)"
    )
    assert len(things) == 2
    assert "Unsafe" in things[0]
    assert "Plover" in things[0]
    assert "Unsafe" not in things[1]


def test_a_record_of_format_1_is_converted_where_it_is_kept(page, site, digests):
    first = old(
        "q-one", 1, mark=0, digest=digests["q-one"], quiz="ankle-check", seed=1, certainty=3, first=True
    )
    end = old("ankle-check", 2, kind="quiz", objective="", mark=0.5, held=False, quiz="ankle-check", seed=1)
    walked = old("first-visit/tern-03", 3, kind="walk", objective="", held=True, harm="minor")
    damage(page, site, json.dumps({**record(first, end, walked), "format": 1}))
    assert "cannot be read" not in page.text("main")
    assert "Very sure: 0 of 1 right." in page.text("[data-part=sure]")
    assert "First 50% on" in page.text("[data-part=quizzes]")
    assert "Minor harm in 1 of 1." in page.text("[data-part=walks]")
    page.open(site / "clients/tern-03.html")
    page.click("case-walk .now .choice")
    page.click("case-walk .now form button", text="Check my answer")
    kept = page.evaluate(f"JSON.parse(localStorage.getItem('{KEY}record'))")
    assert kept["format"] == 2
    assert len(kept["device"]) == 16
    converted = [{key: one[key] for key in one if key not in ("first", "counts")} for one in kept["attempts"]]
    wanted = [
        {
            **attempt("q-one", 1, mark=0, digest=digests["q-one"], quiz="ankle-check", draw=1, sure=3),
            "mode": "quiz",
        },
        quiz(0.5, False, 2),
        walk(second=3, harm="minor"),
    ]
    assert converted[:3] == wanted
    assert page.evaluate(f"localStorage.getItem('{KEY}aside:1')") is None
    assert page.trouble == []


def test_the_right_answer_has_changed_is_told_where_it_is_asked(page, site, digests):
    moved = [
        step("first-visit/rail-06/screen", 1, key="0" * 8, objective="", client="rail-06", sitting="0" * 16),
        walk("first-visit/rail-06", 1, sitting="0" * 16),
        attempt("q-one", 2, key="0" * 8),
        attempt("q-number", 3, key="0" * 8, mark=0),
    ]
    keep(page, site, record(*moved))
    assert page.text("[data-part=changed]").count("\u00b7") == 0
    assert page.count("[data-part=changed] li") == 3
    page.open(site / "index.html")
    page.wait_for("document.querySelector('case-today').textContent")
    assert "Right answers that have changed since you answered: 3. Look which" in page.text("case-today")
    page.open(site / RAIL)
    told = page.text(".moved")
    assert told.startswith("The right answer has changed")
    assert "May this client be coached today?" in told
    page.open(site / "clients/index.html")
    mark = "document.querySelector('[data-case=rail-06] .mine').textContent"
    page.wait_for(f"{mark} === 'Not passed yet'")
    page.open(site / "quizzes/all-kinds.html")
    assert page.count(".moved li") == 2
    assert "What you answered before counts for nothing. Answer again." in page.text(".moved")
    answer_a_question(page)
    page.reload()
    assert page.count(".moved li") == 1, "done again"
    page.open(site / "clients/tern-03.html")
    assert page.count(".moved") == 0
    assert page.trouble == []


def test_what_cannot_be_true_is_not_taken_in(page, site, few, tmp_path):
    bank = {item.id: item for item in Answers(load(ANKLE).course).bank}
    item = bank["g-plan.tern-03"]
    wrong = next(option.id for option in item.options if option.id != item.key)
    keep(page, site, few)
    file = tmp_path / "copy.json"
    bad = [
        attempt(item.id, 20, digest=item.digest, answer=wrong),
        {**attempt("q-made", 21), "at": "2199-01-01T00:00:00.000Z"},
        quiz(1, True, 22, id="no-such-quiz"),
        step("first-visit/tern-03/class", 23, answer="free", key=page_key("class")),
    ]
    file.write_text(json.dumps(record(*bad, attempt("q-else", 24))))
    told = take(page, file)
    assert told.startswith("New attempts imported: 1. Here already: 0. ")
    assert "Attempts that cannot be true and were left out: 4 (" in told
    for words in (
        "g-plan.tern-03: its mark is not what its answers give",
        "q-made: its day has not come yet",
        "no-such-quiz: this course has no such quiz",
        "first-visit/tern-03/class: its mark is not what its answers give",
    ):
        assert words in told, words
    assert page.trouble == []


def page_key(at: str) -> str:
    """The digest of the right answer at a step of Tern's walk."""
    walk = Answers(load(ANKLE).course).clients["tern-03"].walks["first-visit"]
    return key_digest(walk.steps[at])


def test_spreadsheets_get_no_formula(page, site, few):
    keep(page, site, few)
    page.click("[data-do=csv]")
    text = saved(page, "record-*.csv").read_text("utf-8")
    rows = list(csv.DictReader(text.splitlines(keepends=True)))
    assert [row["id"] for row in rows][:2] == ["q-one", "q-number"]
    assert not [
        cell for row in csv.reader(text.splitlines()) for cell in row if cell[:1] in tuple("=+-@\t\r")
    ]


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"{", "cannot be read as a record"),
        (b"[]", "is no learner's record"),
        (json.dumps({**record(), "course": "tallow-yard"}), "belongs to another course: tallow-yard."),
        (json.dumps({**record(), "format": 3}), "a newer edition of this site"),
        (
            json.dumps(record())[:-1] + ', "__proto__": {"a": 1}}',
            "__proto__ is missing, cannot be read",
        ),
        (json.dumps(record(attempt()))[:-9], "It may be cut off"),
        (
            json.dumps({**record(), "course": "<img src=x onerror=alert(1)>"}),
            "course is missing, cannot be read",
        ),
        (b" " * 16_000_001, "too large"),
        (json.dumps(record(attempt(second=9), learner="Plover")), "carries another name, Plover."),
    ],
    ids=[
        "broken",
        "foreign",
        "other course",
        "newer",
        "hostile",
        "cut off",
        "markup",
        "large",
        "someone else's",
    ],
)
def test_a_bad_copy_is_refused_with_a_reason(page, site, few, tmp_path, content, words):
    keep(page, site, few, learner="Wren")
    kept = attempts_kept(page)
    file = tmp_path / "copy.json"
    file.write_bytes(content if isinstance(content, bytes) else content.encode())
    assert words in take(page, file)
    assert attempts_kept(page) == kept
    assert page.dialogs == []
    assert page.trouble == []


def test_of_a_copy_all_that_is_sound_is_taken(page, site, few, tmp_path):
    keep(page, site, few)
    file = tmp_path / "copy.json"
    file.write_text(json.dumps(record(attempt("x", 60), attempt("y", 61, mark=9), attempt("q-one", 62))))
    assert take(page, file) == (
        "New attempts imported: 2. Here already: 0. "
        "Attempts in the file that cannot be read and were left out: 1."
    )
    assert [one["id"] for one in attempts_kept(page)][-2:] == ["x", "q-one"]
    assert page.trouble == []


def test_names_are_one_learners_whatever_the_capitals_and_spaces(page, site, few, tmp_path):
    keep(page, site, few, learner="Dee Ellis")
    file = tmp_path / "copy.json"
    file.write_text(json.dumps(record(attempt("x", 60), learner="DEE \u202e\u00a0ellis ")))
    assert take(page, file) == "New attempts imported: 1. Here already: 0."
    page.evaluate("document.querySelector('[name=learner]').focus()")
    page.evaluate("document.querySelector('[name=learner]').select()")
    page.type("\u3000\u200b")
    page.press("Tab")
    page.wait_for(f"localStorage.getItem('{KEY}learner') === null")
    assert page.evaluate("document.querySelector('[data-fill=learner]').textContent") == "\u00a0"
    page.evaluate("document.querySelector('[name=learner]').focus()")
    page.type("\u202eWren  \u2066H")
    page.press("Tab")
    page.wait_for(f"localStorage.getItem('{KEY}learner')")
    assert page.evaluate(f"localStorage.getItem('{KEY}learner')") == '"Wren H"'
    assert page.trouble == []


def damage(page, site, text: str) -> None:
    """A device whose record is this text."""
    page.open(site / "record.html")
    page.call("(key, text) => localStorage.setItem(key, text)", KEY + "record", text)
    show(page)


def test_one_attempt_that_cannot_be_read_costs_no_other(page, site, few):
    broken = {**few, "attempts": [*few["attempts"], attempt("odd", 9, mark=7)]}
    damage(page, site, json.dumps(broken))
    told = "Attempts of yours that cannot be read and do not count: 1."
    assert told in page.text("main")
    assert "0 of 1 right." in page.text("[data-part=objectives]")
    page.open(site / "quizzes/ankle-check.html")
    answer_a_question(page)
    assert "Part of your record cannot be read." in page.text(".shut")
    assert len(attempts_kept(page)) == len(few["attempts"]) + 1
    page.open(site / "record.html")
    page.wait_for(READY)
    assert told in page.text("main")
    page.click("button", text="Save what cannot be read")
    kept = json.loads(saved(page, "record-ankle-squat-unread.json").read_text("utf-8"))
    assert [one["id"] for one in kept["attempts"]] == ["odd"]
    page.click("button", text="Delete it from this device")
    assert told not in page.text("main")
    show(page)
    assert told not in page.text("main")
    assert len(attempts_kept(page)) == len(few["attempts"]) + 1
    assert page.trouble == []


@pytest.mark.parametrize("harm", ["cut off", "newer"])
def test_what_cannot_be_read_is_kept_before_anything_is_written(page, site, few, harm, tmp_path):
    text = json.dumps({**few, "format": 3}) if harm == "newer" else json.dumps(few)[:-5]
    words = "written by a newer edition" if harm == "newer" else "is damaged and cannot be read"
    damage(page, site, text)
    assert words in page.text("main")
    assert "Nothing is kept here yet." in page.text("main")
    page.open(site / "clients/tern-03.html")
    page.click("case-walk .now .choice")
    page.click("case-walk .now form button", text="Check my answer")
    assert "Part of your record cannot be read." in page.text(".shut"), "the first answer is recorded at once"
    assert page.evaluate(f"localStorage.getItem('{KEY}aside:1')") == text
    assert attempts_kept(page)
    file = tmp_path / "copy.json"
    page.open(site / "record.html")
    page.wait_for(READY)
    assert words in page.text("main")
    file.write_text(json.dumps(few))
    assert "New attempts imported: 4." in take(page, file)
    page.click("button", text="Save what cannot be read")
    assert saved(page, "record-ankle-squat-unread.json").read_text("utf-8") == text
    assert page.trouble == []


def test_a_full_store_is_told_and_nothing_is_lost(page, site, few, tmp_path):
    keep(page, site, few)
    page.evaluate(
        """(() => { for (let size = 2 ** 22; size; size = size >> 1)
            try { for (let n = 0; ; n++) localStorage.setItem(`${size}-${n}`, 'a'.repeat(size)); }
            catch {} })()"""
    )
    show(page)
    assert "This browser cannot keep your answers" in page.text(".shut")
    file = tmp_path / "copy.json"
    file.write_text(json.dumps(record(*[attempt(f"q{n}", 100 + n) for n in range(200)])))
    assert "New attempts imported: 200." in take(page, file)
    assert len(attempts_kept(page)) == 4
    page.click("[data-do=json]")
    assert len(read(saved(page, "record-*.json").read_bytes(), "ankle-squat").attempts) == 204
    page.click("button", text="Delete my answers on this device")
    page.click("button", text="Delete them")
    assert "Nothing is kept here yet." in page.text("main")
    assert page.errors == []


def test_what_is_begun_can_be_gone_on_with(page, site):
    """With nothing ended, too."""
    page.open(site / "clients/tern-03.html")
    page.click("case-walk form .choice")
    page.click("case-walk form button", text="Check my answer")
    page.open(site / "quizzes/ankle-check.html")
    answer_a_question(page)
    page.evaluate(f"localStorage.removeItem('{KEY}record')")
    page.open(site / "record.html")
    page.wait_for("document.querySelectorAll('[data-fill=begun] a').length === 2")
    links = "[...document.querySelectorAll('[data-fill=begun] a')].map(a => a.getAttribute('href'))"
    assert page.evaluate(links) == ["clients/tern-03.html", "quizzes/ankle-check.html"]
    assert not page.sees("[data-part=none]")
    assert not page.sees("[data-part=objectives]")


def test_what_was_missed_leads_to_itself(page, site, few):
    keep(page, site, few)
    links = page.evaluate(
        "[...document.querySelectorAll('[data-fill=again] a')].map(a => a.getAttribute('href'))"
    )
    assert "quizzes/ankle-check.html?ask=q-one" in links


def test_printing_the_plan_leaves_no_trace(page, site, few):
    keep(page, site, few, day=str(date.today() + timedelta(30)))
    page.evaluate("window.print = () => { window.shown = document.documentElement.dataset.print; }; 0")
    page.click("[data-do=plan]")
    assert page.evaluate("window.shown") == "plan"
    page.evaluate("dispatchEvent(new Event('afterprint'))")
    assert page.evaluate("document.documentElement.dataset.print ?? ''") == ""


def test_everything_is_forgotten(page, site, few):
    keep(page, site, few, learner="Wren", day="2030-01-01")
    page.click("button", text="Delete my answers on this device")
    page.click("button", text="Delete them")
    assert page.evaluate("Object.keys(localStorage)") == []
    assert "Nothing is kept here yet." in page.text("main")
    assert page.evaluate("document.querySelector('[name=learner]').value") == ""
    show(page)
    assert "Nothing is kept here yet." in page.text("main")


def test_other_courses_on_this_device_are_left_alone(page, site, few):
    page.open(site / "record.html")
    other = {**few, "course": "other", "attempts": few["attempts"]}
    page.call("(r) => localStorage.setItem('casetrue:other:record', r)", json.dumps(other))
    show(page)
    assert "Nothing is kept here yet." in page.text("main")


def test_without_script(browser, site):
    page = browser.page(script=False)
    page.open(site / "record.html")
    told = page.text("main")
    assert "A record needs script" in told
    assert KEY in told
    assert not page.sees("main button")
    assert not page.sees("main input")


def test_on_paper(browser, site, many):
    page = browser.page()
    keep(page, site, many, learner="Wren Hollis", day=str(date.today() + timedelta(30)))
    file = page.downloads / "record.pdf"
    page.pdf(file)
    assert file.stat().st_size > 10_000
    if browser.name == "firefox":
        return
    paper = browser.page(print=True)
    keep(paper, site, many, learner="Wren Hollis", day=str(date.today() + timedelta(30)))
    told = paper.text("main")
    for words in (
        "Wren Hollis",
        "Ankles and squats, version 1.0, build ",
        "1 as claimed by the provider; not computed",
        "Jun 1, 2026",
        "Ankle check",
        "Tries that were left count too.",
        "Stopped 1 of 1",
        "signature",
        "A record of practice, no certificate.",
    ):
        assert words in told, words
    for words in ("Ready for the test?", "A plan towards", "Save a copy", "Look at again"):
        assert words not in told, words
    paper.evaluate("document.documentElement.dataset.print = 'plan'")
    told = paper.text("main")
    assert "Today: " in told
    assert "signature" not in told
    assert "unsafe" not in told


PICKED = "document.querySelectorAll('case-walk .past, case-walk .answered').length"


@pytest.mark.parametrize("disk", [True, False], ids=["disk", "server"])
def test_what_one_page_deletes_no_other_brings_back(browser, serve, site, few, disk):
    root = site.as_uri() + "/" if disk else serve(site)
    page = browser.page()
    page.open(root + "record.html")
    page.call("(key, text) => localStorage.setItem(key, text)", KEY + "record", json.dumps(few))
    walked, asked = browser.page(beside=page), browser.page(beside=page)
    walked.open(root + "clients/tern-03.html")
    walked.click("case-walk .now .choice")
    walked.click("case-walk .now form button", text="Check my answer")
    walked.click("case-walk .now .onwards button", text="Next")
    asked.open(root + "quizzes/ankle-check.html")
    answer_a_question(asked)
    show(page)
    page.click("button", text="Delete my answers on this device")
    page.click("button", text="Delete them")
    walked.wait_for(f"{PICKED} === 0")
    asked.wait_for("document.querySelector('.progress').textContent.includes('0 answered')")
    assert "Your answers are deleted." in walked.text("case-forget")
    assert page.evaluate("Object.keys(localStorage)") == []
    walked.click("case-walk .now .choice")
    walked.click("case-walk .now form button", text="Check my answer")
    # What one page writes reaches another in its own time.
    asked.wait_for(f"JSON.parse(localStorage.getItem('{KEY}record') ?? '{{}}').attempts?.length === 1")
    answer_a_question(asked)
    page.wait_for(
        f"JSON.parse(localStorage.getItem('{KEY}record') ?? '{{}}').attempts?.length === 2"
        " && Object.keys(localStorage).some(k => k.includes(':walk:'))"
    )
    assert [one["kind"] for one in attempts_kept(page)] == ["step", "question"]
    kept = page.evaluate("Object.keys(localStorage).filter(key => key.includes(':walk:'))")
    assert [len(page.call("key => JSON.parse(localStorage[key]).picks", key)) for key in kept] == [1]
    assert page.trouble == walked.trouble == asked.trouble == []


def test_a_page_that_comes_back_brings_nothing_back(page, serve, site):
    page.open(serve(site) + "clients/tern-03.html")
    page.click("case-walk .now .choice")
    page.click("case-walk .now form button", text="Check my answer")
    page.open(serve(site) + "record.html")
    page.wait_for(READY)
    page.click("button", text="Delete my answers on this device")
    page.click("button", text="Delete them")
    page.back()
    page.wait_for("document.querySelector('case-walk .now')")
    page.wait_for(f"{PICKED} === 0")
    assert page.evaluate("Object.keys(localStorage)") == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_state_is_open_to_everyone(browser, axe, serve, site, few, many, tmp_path, scheme):
    """In both schemes and at both widths, in each browser."""
    width = 320 if (scheme == "light") == (browser.name == "chromium") else 1280
    page = browser.page(width=width, scheme=scheme)
    page.open(serve(site) + "record.html")
    page.wait_for(READY)
    assert axe(page) == [], "empty"
    for state, kept in (("few", few), ("many", many)):
        keep(page, serve(site), kept, learner="Wren Hollis", day=str(date.today() + timedelta(90)))
        page.evaluate("for (const d of document.querySelectorAll('main details')) d.open = true; 0")
        page.wait_for("document.querySelector('[data-part=attempts] tbody tr')")
        assert axe(page) == [], state
        assert page.too_wide == [], state
        if width == 320:
            assert narrow_faults(page) == [], state
    bad = tmp_path / "x.json"
    bad.write_text("{")
    take(page, bad)
    assert axe(page) == [], "refused"
    page.call("(key) => localStorage.setItem(key, '{')", KEY + "aside:1")
    show(page)
    page.click("button", text="Save what cannot be read")
    saved(page, "record-ankle-squat-unread.json")
    assert axe(page) == [], "unread"
    if width == 320:
        assert narrow_faults(page) == [], "unread"
    assert page.trouble == []
