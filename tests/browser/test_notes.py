"""Notes at a client and a caution: kept on this device, and in no copy unless that is ticked."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from .page import Page, until
from .practice import narrow_faults

NOTE = "case-note textarea"


def write(page: Page, where: str, text: str) -> None:
    page.open(where)
    page.wait_for("document.querySelector('case-note summary')")
    page.click("case-note summary")
    page.click(NOTE)
    page.type(text)


@pytest.fixture
def written(page: Page, serve, site) -> Page:
    write(page, serve(site) + "clients/tern-03.html", "The heel lifts late.")
    write(page, serve(site) + "cautions/heel_pain_loading.html", "Ask twice.")
    return page


def test_a_note_stays_where_it_was_written(written, serve, site):
    assert "No real person belongs here" in written.text("case-note")
    for where, text in (
        ("clients/tern-03", "The heel lifts late."),
        ("cautions/heel_pain_loading", "Ask twice."),
    ):
        written.open(f"{serve(site)}{where}.html")
        written.wait_for("document.querySelector('case-note summary')")
        assert written.text("case-note summary") == "My note: kept"
        assert written.evaluate(f"document.querySelector('{NOTE}').value") == text
    written.open(serve(site) + "clients/rail-06.html")
    assert written.evaluate(f"document.querySelector('{NOTE}').value") == ""
    assert written.trouble == []


def saved(page: Page, pattern: str) -> Path:
    return until(lambda: next((one for one in page.downloads.glob(pattern) if one.stat().st_size), None))


def test_notes_go_with_a_copy_only_when_it_is_ticked(written, serve, site):
    page = written
    page.open(serve(site) + "clients/tern-03.html")
    page.click("case-walk .now .choice")
    page.click("case-walk .now form button", text="Check my answer")
    page.open(serve(site) + "record.html")
    page.wait_for("document.querySelector('case-record [data-fill=learner]')?.textContent")
    page.click("[data-do=json]")
    copy = saved(page, "record-ankle-squat*.json")
    assert "heel lifts" not in copy.read_text("utf-8")
    assert list(page.downloads.glob("*.txt")) == []
    page.click("input[name=notes]")
    page.click("[data-do=json]")
    text = saved(page, "*notes*.txt").read_text("utf-8")
    assert text == "caution/heel_pain_loading\nAsk twice.\n\nclient/tern-03\nThe heel lifts late.\n"
    for file in page.downloads.glob("*.json"):
        assert "heel lifts" not in json.dumps(json.loads(file.read_text("utf-8")))


def test_notes_go_when_the_answers_are_deleted(written, serve, site):
    written.open(serve(site) + "clients/tern-03.html")
    written.click("button", text="Delete my answers on this device")
    written.click("button", text="Delete them")
    assert written.evaluate(f"document.querySelector('{NOTE}').value") == ""
    assert written.evaluate("Object.keys(localStorage)") == []


def test_a_note_fits_a_narrow_phone(browser, serve, site):
    page = browser.page(width=320)
    write(page, serve(site) + "clients/tern-03.html", "x" * 200)
    assert narrow_faults(page) == []
    assert page.too_wide == []
