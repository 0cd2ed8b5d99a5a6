"""A quiz in Spanish on a phone: a decimal comma is right, and a mark that may part thousands is not."""

from __future__ import annotations

from ..words.pseudo import ATTRIBUTES
from ..words.spanish import english
from ..words.test_spanish import BREAD
from .practice import build, narrow_faults
from .test_words import ANSWER, HERE, TEXTS

TYPE = """(here, text) => {
    const form = document.querySelector(here).querySelector('form');
    form.querySelector('[inputmode=decimal]').value = text;
    form.querySelector('[name=certainty]').click();
    form.requestSubmit();
}"""
NEXT = "(here) => [...document.querySelector(here).querySelectorAll('button')].at(-1).click()"


def test_a_quiz_on_a_phone(page, tmp_path):
    page.size(390, 844)
    page.open(build(BREAD, tmp_path / "site") / "quizzes/masas.html")
    assert "Pregunta 1 de 4" in page.text(".progress")
    assert narrow_faults(page) == []
    page.call(TYPE, HERE, "3.500")
    assert "Escribe solo el número" in page.text(HERE)
    page.call(TYPE, HERE, "tres")
    assert "Escribe solo el número, por ejemplo 5." in page.text(HERE)
    page.call(TYPE, HERE, "3,5")
    assert page.text(".feedback").strip() == "Bien"
    page.call(NEXT, HERE)
    for _ in range(3):
        page.call(ANSWER, HERE, 0)
        assert english(page.call(TEXTS, list(ATTRIBUTES))) == []
        page.call(NEXT, HERE)
    assert "La nota para aprobar es del 80\N{NO-BREAK SPACE}%." in page.text(".working")
    assert english(page.call(TEXTS, list(ATTRIBUTES))) == []
    assert narrow_faults(page) == []
    assert page.trouble == []
