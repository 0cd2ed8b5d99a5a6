"""A learner narrows down the list of clients."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from ..conftest import ANKLE
from .practice import answer_step, build, go_on

SHOWN = """[...document.querySelectorAll('.clients > li')].filter(e => !e.hidden).map(e => e.dataset.case)"""
EVERYONE = ["tern-03", "plover-04", "knot-05", "rail-06", "crake-07"]
LIST = "clients/index.html"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return build(ANKLE, tmp_path_factory.mktemp("filters") / "site")


def choose(page, name: str, value: str) -> None:
    """Chooses in a list by its keys, as a learner does without a mouse."""
    page.tab_to(f"select[name={name}]")
    for _ in range(9):
        if page.evaluate("document.activeElement.value") == value:
            return
        page.press("ArrowDown")
    raise AssertionError(f"{name} has no {value}")


def status(page) -> str:
    return page.text("case-filter [role=status]")


@pytest.mark.parametrize("disk", [True, False])
def test_a_measure_chosen_by_keyboard_survives_a_reload(page, serve, site, disk):
    page.open(site / LIST if disk else serve(site) + LIST)
    assert page.evaluate(SHOWN) == EVERYONE
    assert status(page) == "5 of 5 clients are shown."
    choose(page, "measure", "stance")
    assert page.url.endswith("clients/index.html?measure=stance")
    shown = page.evaluate(SHOWN)
    assert "rail-06" not in shown
    assert status(page) == f"{len(shown)} of 5 clients are shown."
    page.reload()
    assert page.evaluate(SHOWN) == shown
    assert page.evaluate("document.querySelector('select[name=measure]').value") == "stance"
    page.tab_to("button", "Show all")
    page.press("Enter")
    assert page.evaluate(SHOWN) == EVERYONE
    assert page.url.endswith("clients/index.html")
    assert page.evaluate("document.activeElement.name") == "objective"
    assert page.trouble == []


def test_tried_and_held_come_from_the_record(page, site):
    page.open(site / "clients/tern-03.html")
    for value, said in (("clear", "That holds"), ("stiff", "That holds"), ("a", "That holds")):
        answer_step(page, value, said)
        go_on(page)
    page.open(site / "clients/plover-04.html")
    for value, said in (("clear", "That holds"), ("stiff", "That does not hold"), ("a", "That holds")):
        answer_step(page, value, said)
        go_on(page)
    page.open(site / LIST)
    rows = "[...document.querySelectorAll('.clients > li')]"
    marks = page.evaluate(rows + ".map(e => e.querySelector('.mine')?.textContent ?? '')")
    assert marks == ["Held", "Not held yet", "", "", ""]
    for value, expected in {
        "tried": ["tern-03", "plover-04"],
        "untried": EVERYONE[2:],
        "held": ["tern-03"],
        "open": ["plover-04"],
    }.items():
        page.open((site / LIST).as_uri() + f"?mine={value}")
        assert page.evaluate(SHOWN) == expected, value
    page.click("case-forget button")
    page.click("case-forget button", text="Forget them")
    assert page.evaluate(SHOWN) == []
    assert page.count(".mine") == 0
    assert status(page) == "No client fits all of that. Show all, or choose less."


def test_a_link_that_names_what_is_not_there_shows_everyone(page, site):
    page.open((site / LIST).as_uri() + "?measure=nothing&mine=%3Cb%3E&other=1")
    assert page.evaluate(SHOWN) == EVERYONE


def test_a_measure_and_an_objective_lead_to_their_clients(page, small_course, tmp_path):
    course = Path(shutil.copytree(small_course, tmp_path / "course"))
    cases = course / "cases" / "clients.yml"
    aimed = "- case: knot-05\n  objectives: [measure-ankle]"
    cases.write_text(cases.read_text("utf-8").replace("- case: knot-05", aimed), "utf-8")
    site = build(course, tmp_path / "site")
    page.open(site / "lessons.html")
    page.click("main a", text="Measure an ankle")
    page.wait_for(SHOWN + ".length")
    assert page.evaluate(SHOWN) == ["knot-05"]
    page.open(site / "measures.html")
    page.click("a", text="Clients with this reading")
    page.wait_for("location.search === '?measure=ankle_dorsiflexion'")
    assert "rail-06" not in page.wait_for(f"{SHOWN}.length && {SHOWN}")


def test_without_script_everyone_shows_and_nothing_is_dead(browser, site):
    page = browser.page(script=False)
    page.open((site / LIST).as_uri() + "?mine=held")
    assert page.evaluate(SHOWN) == EVERYONE
    assert page.count("main select, main form, main button") == 0
