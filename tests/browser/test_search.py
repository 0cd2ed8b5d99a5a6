"""A learner looks something up: by keyboard, from disk, without script, on a phone."""

from __future__ import annotations

from pathlib import Path

import pytest

from ..conftest import ANKLE
from .practice import build

DEMO = Path(__file__).parents[2] / "course_src"
STATUS = "document.querySelector('case-search [role=status]').textContent"
TITLES = "[...document.querySelectorAll('.results a')].map(e => e.textContent)"


def look_up(page, words: str, found: str) -> None:
    """Types into the empty field and waits for what is told."""
    page.evaluate("document.querySelector('#q').value = ''")
    page.evaluate("document.querySelector('#q').focus()")
    page.type(words)
    wait_for_all_of(page, words)
    page.wait_for(f"{STATUS}.includes({found!r})")


def wait_for_all_of(page, words: str) -> None:
    """Until the whole words are looked up: on a slow machine the start of them may be, too."""
    page.wait_for(f"new URLSearchParams(location.search).get('q') === {words!r}")


@pytest.mark.parametrize("disk", [True, False])
def test_by_keyboard_from_any_page_to_what_was_found(page, serve, site, disk):
    page.open(site / "clients/tern-03.html" if disk else serve(site) + "clients/tern-03.html")
    page.tab_to("header a", "Search")
    page.press("Enter")
    page.wait_for("document.querySelector('#q')")
    assert not any("search-index" in url for url in page.requests), "the list loads only when it is wanted"
    page.tab_to("#q")
    page.type("ferry")
    wait_for_all_of(page, "ferry")
    page.wait_for(f"{STATUS} === '1 found.'")
    page.tab_to(".results a")
    assert "Client · Ferry deckhand, back to the gym" in page.text(".results")
    page.press("Enter")
    page.wait_for("document.querySelector('h1')?.textContent === 'Tern, 41'")
    page.back()
    page.wait_for(f"document.querySelector('#q')?.value === 'ferry' && {TITLES}.join() === 'Tern'")
    assert page.trouble == []


def test_the_address_holds_the_words_and_survives_a_reload(page, site):
    page.open(site / "search.html")
    page.evaluate("document.querySelector('#q').focus()")
    page.type("heel & pain")
    page.press("Enter")
    wait_for_all_of(page, "heel & pain")
    page.wait_for(TITLES + ".length")
    assert page.url.endswith("search.html?q=heel+%26+pain")
    shown = page.evaluate(TITLES)
    page.reload()
    assert page.wait_for(f"{TITLES}.length && {TITLES}") == shown
    assert page.trouble == []


def test_titles_come_before_names_and_names_before_text(page, site):
    page.open((site / "search.html").as_uri() + "?q=knee")
    shown = page.wait_for(f"{TITLES}.length && {TITLES}")
    assert shown[:2] == ["Knee to wall", "Knee-to-wall dorsiflexion"]
    assert page.text(".results li:first-child p").startswith("Lesson · … with the foot flat, bring the knee")


def test_accents_cases_and_ends_of_words_do_not_matter_and_every_word_must_be_there(page, site):
    page.open(site / "search.html")
    look_up(page, "FÉRR", "1 found.")
    look_up(page, "ferry summ", "1 found.")
    look_up(page, "ferry clocks", "Nothing found")
    assert page.text("case-search").count("ferry clocks") == 1
    look_up(page, "erry", "Nothing found for “erry”. Try fewer words")
    assert page.sees("main .list a", "Clients"), "the lists are there when nothing is found"


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    return build(DEMO, tmp_path_factory.mktemp("demo") / "site")


def test_pregnant_finds_the_caution_first(page, demo):
    page.open(demo / "search.html")
    look_up(page, "pregnant", " found.")
    assert page.evaluate(TITLES)[:2] == ["Pregnancy", "Pregnant, with raised blood pressure"]
    assert page.text(".results li:first-child p").startswith("Caution · ")
    assert "who is pregnant starts" in page.text(".results li:first-child p"), "the words around the match"
    page.tab_to(".results a")
    page.press("Enter")
    page.wait_for("document.querySelector('h1')?.textContent === 'Pregnancy'")
    assert "/cautions/pregnancy.html" in page.url
    assert page.trouble == []


@pytest.mark.parametrize(
    ("words", "caution"),
    [
        ("pregnancies", "Pregnancy"),
        ("fainted", "Fainting or nearly fainting"),
        ("dizzying", "Dizzy or light-headed"),
    ],
)
def test_a_word_finds_its_family(page, demo, words, caution):
    page.open(demo / "search.html")
    look_up(page, words, " found.")
    assert page.evaluate(TITLES)[0] == caution


@pytest.mark.parametrize(
    ("words", "term", "caution"),
    [
        ("stroke", "Drooping face", "A drooping face, a weak arm, slurred speech"),
        ("heart attack", "Pain or pressure in the chest", "Pain or pressure in the chest"),
        ("vertigo", "Dizzy", "Dizzy or light-headed"),
        ("hypertension", "Blood pressure", "Pregnant, with raised blood pressure"),
    ],
)
def test_a_synonym_finds_the_caution_and_its_term(page, demo, words, term, caution):
    page.open(demo / "search.html")
    look_up(page, words, " found.")
    kinds = [told.split(" · ")[0] for told in page.evaluate(TITLES.replace("a'", "p'"))]
    found = list(zip(kinds, page.evaluate(TITLES), strict=True))
    assert found[0] == ("Caution", caution)
    assert ("Term", term) in found
    assert "Caution" not in kinds[kinds.count("Caution") :], "cautions stand together, at the top"
    page.open(demo / "glossary.html")
    assert words in page.text("main .glossary")


def test_what_is_not_there_is_said(page, demo):
    page.open(demo / "search.html")
    look_up(page, "zzyzx", "Nothing found for “zzyzx”. Try fewer words")
    assert page.count(".results li") == 0
    look_up(page, "pregnant zzyzx", "Nothing found for “pregnant zzyzx”.")


def test_no_words_find_nothing_and_say_nothing(page, site):
    page.open(site / "search.html")
    look_up(page, "ferry", "1 found.")
    page.press(*["Backspace"] * 5)
    page.wait_for(f"{STATUS} === ''")
    assert page.count(".results li") == 0
    assert page.url.endswith("search.html")


def test_hostile_words_stay_words(page, site):
    page.open((site / "search.html").as_uri() + "?q=%3Cimg%20src%3Dx%20onerror%3Dalert(1)%3E")
    page.wait_for(f"{STATUS}.includes('<img src=x onerror=alert(1)>')")
    assert page.count("main img") == 0
    assert page.dialogs == []
    assert page.trouble == []


def test_a_list_that_cannot_be_loaded_is_told(page, serve, tmp_path):
    site = build(ANKLE, tmp_path / "site")
    (site / "assets" / "search-index.js").unlink()
    page.open(serve(site) + "search.html?q=heel")
    page.wait_for(f"{STATUS}.includes('cannot be reached now')")


def test_without_script_the_lists_lead_on(browser, site):
    page = browser.page(script=False)
    page.open(site / "search.html")
    assert "Search needs script" in page.text("main")
    assert page.count("form, button, input") - page.count("button.scheme, button.menu") == 0
    page.click("main .list a", "Clients")
    page.wait_for("document.querySelector('h1').textContent === 'Clients'")
