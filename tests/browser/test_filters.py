"""A learner narrows down the list of clients."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from .practice import answer_a_question, answer_step, build, go_on

SHOWN = """[...document.querySelectorAll('.clients > li')].filter(e => !e.hidden).map(e => e.dataset.case)"""
EVERYONE = ["tern-03", "plover-04", "knot-05", "rail-06", "crake-07"]
LIST = "clients/index.html"


def choose(page, name: str, value: str) -> None:
    """Chooses in a list by its keys, as a learner does without a mouse."""
    page.tab_to(f"select[name={name}]")
    for _ in range(9):
        if page.evaluate("document.activeElement.value") == value:
            return
        page.press("ArrowDown")
    raise AssertionError(f"{name} has no {value}")


def forget(page) -> None:
    page.click("case-forget button")
    page.wait_for("document.querySelector('case-forget').textContent.includes('Delete them')")
    page.click("case-forget button", text="Delete them")


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
    for value, said in (("clear", "Right"), ("stiff", "Right"), ("a", "Right")):
        answer_step(page, value, said)
        go_on(page)
    page.open(site / "clients/plover-04.html")
    for value, said in (("clear", "Right"), ("stiff", "Not right"), ("a", "Right")):
        answer_step(page, value, said)
        go_on(page)
    page.open(site / LIST)
    rows = "[...document.querySelectorAll('.clients > li')]"
    marks = page.evaluate(rows + ".map(e => e.querySelector('.mine')?.textContent ?? '')")
    assert marks == ["Passed", "Not passed yet", "", "", ""]
    for value, expected in {
        "tried": ["tern-03", "plover-04"],
        "untried": EVERYONE[2:],
        "held": ["tern-03"],
        "open": ["plover-04"],
    }.items():
        page.open((site / LIST).as_uri() + f"?mine={value}")
        assert page.evaluate(SHOWN) == expected, value
    forget(page)
    assert page.evaluate(SHOWN) == []
    assert page.count(".mine") == 0
    assert status(page) == "No client fits all of that. Show all, or choose less."


def marks(page) -> list[str]:
    return page.evaluate(
        """[...document.querySelectorAll('.clients > li')]
            .map(e => e.querySelector('.mine')?.textContent ?? '')"""
    )


@pytest.mark.parametrize("disk", [True, False])
def test_a_walk_under_way_is_marked_and_found_again(page, serve, site, disk):
    base = site.as_uri() + "/" if disk else serve(site)
    page.open(base + "clients/plover-04.html")
    answer_step(page, "clear", "Right")
    page.open(base + LIST)
    assert marks(page) == ["", "Started", "", "", ""], "while the reason of its first answer is still read"
    page.open(base + "clients/plover-04.html")
    go_on(page)
    page.open(base + LIST)
    choose(page, "mine", "begun")
    assert page.url.endswith("?mine=begun")
    assert page.evaluate(SHOWN) == ["plover-04"]
    for value, expected in {"untried": ["tern-03", *EVERYONE[2:]], "tried": [], "open": []}.items():
        page.open(f"{base}{LIST}?mine={value}")
        assert page.evaluate(SHOWN) == expected, value
    forget(page)
    assert marks(page) == [""] * 5
    assert page.evaluate("Object.keys(localStorage)") == []
    assert page.trouble == []


def test_a_walk_that_ended_or_starts_again_is_no_longer_begun(page, site):
    page.open(site / "clients/tern-03.html")
    for value in ("clear", "stiff"):
        answer_step(page, value, "Right")
        go_on(page)
    answer_step(page, "a", "Right")
    page.open(site / LIST)
    assert marks(page)[0] == "Started", "the end is not seen yet"
    page.open(site / "clients/tern-03.html")
    assert page.sees(".resumed a", "Go on where you stopped")
    go_on(page)
    page.open(site / LIST)
    assert marks(page)[0] == "Passed"
    page.open(site / "clients/tern-03.html")
    assert page.count(".resumed") == 0
    page.click("button", text="Try it again")
    answer_step(page, "clear", "Right")
    page.open(site / LIST)
    assert marks(page)[0] == "Passed · Started"
    page.open(site / "clients/tern-03.html")
    page.click("button", text="Start this client again")
    page.open(site / LIST)
    assert marks(page)[0] == "Passed"


def test_a_walk_kept_of_another_digest_is_forgotten_when_it_is_opened(page, site):
    page.open(site / "clients/plover-04.html")
    answer_step(page, "clear", "Right")
    page.evaluate(
        """(() => { for (const [key, text] of Object.entries(localStorage))
            if (key.includes(':walk:'))
                localStorage.setItem(key, text.replace('"digest":"', '"digest":"old')); })()"""
    )
    page.open(site / "clients/plover-04.html")
    assert page.count(".past, .feedback, .resumed") == 0
    page.open(site / LIST)
    assert marks(page) == [""] * 5


@pytest.mark.parametrize("disk", [True, False])
def test_the_way_back_from_a_client_leads_to_the_list_as_it_was(page, serve, site, disk):
    base = site.as_uri() + "/" if disk else serve(site)
    page.open(base + LIST)
    choose(page, "measure", "stance")
    shown = page.evaluate(SHOWN)
    page.open(base + "clients/tern-03.html")
    page.click(".above a")
    page.wait_for("location.search === '?measure=stance' && document.querySelector('case-filter form')")
    assert page.evaluate(SHOWN) == shown
    page.click("case-filter > button", text="Show all")
    page.open(base + "clients/tern-03.html")
    page.click(".above a")
    page.wait_for("document.querySelector('case-filter form')")
    assert page.evaluate("location.search") == ""
    assert page.evaluate(SHOWN) == EVERYONE


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
    page.wait_for("document.querySelector('case-filter form')")
    assert page.evaluate(SHOWN) == ["knot-05"]
    page.open(site / "measures.html")
    page.click("a", text="Clients with this reading")
    page.wait_for("location.search === '?measure=ankle_dorsiflexion'")
    page.wait_for("document.querySelector('case-filter form')")
    assert "rail-06" not in page.evaluate(SHOWN)


def test_without_script_everyone_shows_and_nothing_is_dead(browser, site):
    page = browser.page(script=False)
    page.open((site / LIST).as_uri() + "?mine=held")
    assert page.evaluate(SHOWN) == EVERYONE
    assert page.count("main select, main form, main button") == 0


@pytest.mark.parametrize(
    ("path", "act", "query"),
    [
        (f"{LIST}?measure=stance", "Show all", ""),
        ("search.html?q=tern", "", ""),
        ("quizzes/ankle-check.html?draw=9", "Go on with them", ""),
    ],
)
def test_an_address_with_two_slashes_works_too(page, serve, site, path, act, query):
    """Behind a host alone, a path that starts with two slashes would name another host."""
    folder = serve(site)
    if act.startswith("Go on"):
        page.open(folder + "quizzes/ankle-check.html")
        answer_a_question(page)
    page.open(f"{folder}/{path}")
    if act:
        page.click("main button", text=act)
    else:
        page.evaluate("document.querySelector('[name=q]').select()")
        page.press("Backspace", "Enter")
    page.wait_for("location.search === ''")
    assert page.url == f"{folder}/{path.partition('?')[0]}{query}"
    assert page.trouble == []
