"""On a phone the question comes first: who, one line, what is asked about and the answers on one screen.

At every step with every client of the demo; and six Tabs at most lead from the top to the first answer."""

from __future__ import annotations

from pathlib import Path

import pytest

from .browser import NAMES
from .page import Page

DEMO = Path(__file__).parents[2] / "site_demo"
WIDTH, HEIGHT = 390, 844
CLIENTS = sorted(one.name for one in (DEMO / "clients").glob("*.html") if one.name != "index.html")
QUIZZES = sorted(one.name for one in (DEMO / "quizzes").glob("*.html") if one.name != "index.html")

LOOK = """(card, place, data) => {
    const who = card.querySelector('.who') ?? (place === data?.start ? document.querySelector('h1') : null);
    const last = [...card.querySelectorAll('.choice, .number, .pairs > li, .order > li')].at(-1);
    const seen = [who, card.querySelector('legend'), card.querySelector('.short'), last].filter(Boolean);
    const boxes = seen.map(one => one.getBoundingClientRect());
    if (boxes.some(box => box.top < -1 || box.bottom > innerHeight))
        found.push(`${place}: ${boxes.map(box => `${Math.round(box.top)} to ${Math.round(box.bottom)}`)}`);
}"""
WALK = f"""() => {{
    const found = [], look = {LOOK};
    const walk = document.querySelector('case-walk');
    const data = JSON.parse(walk.querySelector('script[type="application/json"]').textContent);
    let steps = 0;
    for (const step of data.best_path) {{
        const now = walk.querySelector('.now');
        if (!now.querySelector('form')) break;
        look(now, step, data);
        steps += 1;
        const best = data.steps[step].options.find(option => option.best);
        now.querySelector(`input[value="${{best.id}}"]`).click();
        now.querySelector('form button:not([type])').click();
        [...walk.querySelectorAll('.now > .onwards button')].at(-1).click();
    }}
    return [steps, found];
}}"""
QUIZ = f"""() => {{
    const found = [], look = {LOOK};
    const buttons = () => [...document.querySelectorAll('.moves button')];
    const next = () => buttons().find(one => one.textContent === 'Next');
    let steps = 0;
    for (;;) {{
        look(document.querySelector('.screen'), document.querySelector('.progress').textContent);
        steps += 1;
        if (!next()) return [steps, found];
        next().click();
    }}
}}"""


@pytest.fixture
def phone(browser) -> Page:
    return browser.page(width=WIDTH, height=HEIGHT)


def test_every_step_of_every_client(phone, browser, serve):
    """Half of the clients in each browser."""
    here = CLIENTS[NAMES.index(browser.name) :: len(NAMES)]
    told, steps = [], 0
    for name in here:
        phone.open(f"{serve(DEMO)}clients/{name}")
        phone.wait_for("document.querySelector('case-walk .now')")
        taken, found = phone.call(WALK)
        steps += taken
        told += [f"{name}, {one}" for one in found]
    assert told == []
    assert steps > 2 * len(here)
    assert phone.trouble == []


@pytest.mark.parametrize("name", QUIZZES)
def test_every_question_of_a_quiz(phone, serve, name):
    phone.open(f"{serve(DEMO)}quizzes/{name}")
    phone.wait_for("document.querySelector('.screen h2')")
    asked, found = phone.call(QUIZ)
    assert found == []
    assert asked == int(phone.text(".progress").split(" of ")[1].split()[0])


@pytest.mark.parametrize("where", ["clients/beatriz-01.html", "quizzes/first-check.html"])
def test_six_tabs_lead_to_the_first_answer(phone, serve, where):
    phone.open(serve(DEMO) + where)
    phone.wait_for("document.querySelector('.now input, .screen input')")
    phone.tab_to("input", most=6)
    assert phone.evaluate("document.activeElement.type") == "radio"


def test_the_ways_around_the_site_are_one_press_away(phone, serve):
    phone.open(serve(DEMO) + "clients/beatriz-01.html")
    assert not phone.sees(".around a")
    phone.tab_to(".menu", most=3)
    phone.press("Enter")
    assert phone.sees(".around a", text="Cautions")
    phone.press("Escape")
    assert not phone.sees(".around a")
    assert phone.evaluate("document.activeElement.matches('.menu')")
