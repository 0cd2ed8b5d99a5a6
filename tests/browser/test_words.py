"""What the browser part says comes from the catalogue too: a pseudo-language, walked to its ends."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from ..conftest import ANKLE
from ..words.pseudo import ATTRIBUTES, foreign, pseudo_site
from .practice import AGED, SURE

TEXTS = """(names) => {
    const texts = [document.title];
    const walker = document.createTreeWalker(document.documentElement);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const unseen = /^(SCRIPT|STYLE|NOSCRIPT|CITE)$/.test(node.parentNode.tagName);
        if (node.nodeType === Node.TEXT_NODE && !unseen) texts.push(node.data);
        if (node.nodeType !== Node.ELEMENT_NODE) continue;
        texts.push(...names.map(name => node.getAttribute(name) ?? ''));
    }
    return texts;
}"""

HERE = "main .now, case-quiz section.question"
"""The step or question at hand."""

ANSWER = """(here, pick) => {
    const form = document.querySelector(here).querySelector('form');
    const groups = Map.groupBy(form.querySelectorAll('[type=radio]'), input => input.name);
    for (const group of groups.values()) group.at(pick % group.length).click();
    form.querySelector('[type=checkbox]')?.click();
    for (const input of form.querySelectorAll('[type=text]')) input.value = '1';
    for (const select of form.querySelectorAll('select')) select.selectedIndex = 1;
    form.requestSubmit();
}"""
"""Fills whatever is asked and answers."""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("words")
    own = Path(shutil.copytree(ANKLE, folder / "own"))
    (own / "quizzes" / "sure.yml").write_text(SURE, "utf-8")
    return pseudo_site(folder, own, ANKLE.with_name("drills"))


def left(page) -> list[str]:
    return foreign(page.call(TEXTS, list(ATTRIBUTES)))


def answers(page, done: str, pick: int) -> Iterator[str]:
    """Every state up to the end of a walk or a quiz."""
    for number in range(30):
        if page.count(done):
            return
        page.call("(here) => document.querySelector(here).querySelector('form').requestSubmit()", HERE)
        yield f"nothing given, {number}"
        page.call(ANSWER, HERE, pick + number)
        yield f"answered, {number}"
        page.call(
            "(here) => [...document.querySelector(here).querySelectorAll('button')].at(-1).click()", HERE
        )
    raise AssertionError("no end")


@pytest.mark.parametrize("pick", [0, 1, 2])
def test_a_walk_to_its_end(page, site, pick):
    page.open(site / "clients/tern-03.html")
    assert left(page) == []
    for state in answers(page, ".ended", pick):
        assert left(page) == [], state
    page.reload()
    assert left(page) == []
    assert "⟦" in page.text(".ended")


def test_a_walk_taken_up_again_and_forgotten(page, site):
    page.open(site / "clients/tern-03.html")
    page.call(ANSWER, HERE, 0)
    page.reload()
    assert page.count(".resumed") == 2, "atop the page, and above the steps"
    assert left(page) == []
    for _ in range(2):
        page.evaluate("document.querySelector('case-forget button').click()")
        assert left(page) == []


@pytest.mark.parametrize("quiz", ["all-kinds", "sure", "drill-check"])
def test_a_quiz_to_its_end(page, site, quiz):
    page.open(site / f"quizzes/{quiz}.html")
    assert left(page) == []
    for state in answers(page, ".result", 0):
        assert left(page) == [], state
    assert page.text(".result").count("⟦") > 3
    assert left(page) == []
    page.open(site / "record.html")
    page.wait_for("document.querySelector('case-record [data-fill=learner]')?.textContent")
    page.evaluate("document.querySelectorAll('details').forEach(e => { e.open = true })")
    page.wait_for("document.querySelector('[data-part=attempts] tbody tr')")
    page.wait_for("document.querySelector('.days')")
    assert left(page) == []
    page.open(site / "index.html")
    page.wait_for("document.querySelector('case-today').textContent")
    assert left(page) == []
    page.evaluate(AGED)
    page.reload()
    page.wait_for("document.querySelector('case-today .button')")
    assert left(page) == []


def test_a_drill_and_every_page_that_script_fills(page, site):
    for file in sorted(site.rglob("*.html")):
        if file.name != "404.html":
            page.open(file)
            assert left(page) == [], file.name


def test_search_and_the_list_of_clients(page, site):
    for query in ("", "?mine=untried", "?mine=held"):
        page.open((site / "clients/index.html").as_uri() + query)
        assert left(page) == []
    status = "document.querySelector('case-search [role=status]').textContent"
    for words in ("ｔｅｒｎ", "９９"):
        page.open((site / "search.html").as_uri() + f"?q={words}")
        page.wait_for(status)
        assert left(page) == []
