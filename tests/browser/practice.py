"""The small course as a built site, and how a learner who has only a keyboard gets about in it."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner

from builder.cli.main import casetrue

from .page import Page

SURE = """
quiz: sure
title: How sure are you
marking: certainty
questions: [q-one, q-number, q-several]
"""

AGED = """for (const [key, text] of Object.entries(localStorage).filter(([key]) => key.endsWith(':record'))) {
    const record = JSON.parse(text);
    for (const one of record.attempts) {
        one.at = '2025-01-01T12:00:00.000Z';
        one.mark = 0;
        if ('right' in one) one.right = false;
    }
    localStorage.setItem(key, JSON.stringify(record));
} 0"""
"""Makes all that this device keeps wrong and long ago, so that all of it is due."""


def build(course: Path, out: Path) -> Path:
    """The course's site, built as an educator builds it."""
    done = CliRunner().invoke(casetrue, ["build", "--course", str(course), "--out", str(out)])
    assert done.exit_code == 0, (done.output, done.exception)
    return out


def tab_to(page: Page, what: str, *, most: int = 80) -> None:
    """Presses Tab until the focus is on something that the JavaScript condition on `e` accepts."""
    for _ in range(most):
        page.press("Tab")
        if page.evaluate(f"(e => {what})(document.activeElement)"):
            return
    raise AssertionError(f"Tab never reaches {what}; focus is on {page.focus}")


def tab_to_button(page: Page, words: str) -> None:
    tab_to(page, f"e.tagName === 'BUTTON' && e.textContent === {words!r}")


def pick(page: Page, value: str) -> None:
    """Chooses the answer with this value by Tab, Space and the arrow keys."""
    tab_to(page, "e.type === 'radio' || e.type === 'checkbox'")
    if page.evaluate("document.activeElement.type === 'checkbox'"):
        while page.evaluate("document.activeElement.value") != value:
            page.press("Tab")
        page.press("Space")
        return
    page.press("Space")
    for _ in range(9):
        if page.evaluate("document.activeElement.value") == value:
            return
        page.press("ArrowDown")
    raise AssertionError(f"no answer {value}")


def answer_step(page: Page, value: str, said: str) -> None:
    """Answers the step at hand by keyboard and reads the verdict."""
    pick(page, value)
    tab_to_button(page, "Check my answer")
    page.press("Enter")
    assert page.evaluate("document.activeElement.matches('.feedback')"), page.focus
    assert page.text(".feedback").strip() == said


def go_on(page: Page) -> None:
    tab_to_button(page, "Next")
    page.press("Enter")


def narrow_faults(page: Page) -> list[str]:
    """What a phone cannot show or a thumb cannot hit (WCAG 2.2: 1.4.10; 44 px as in its 2.5.5)."""
    return page.evaluate(
        """[...document.querySelectorAll('main button, main .choice, main select, main summary, '
                + 'main .button, header a, header summary, .list > li > a, .clients > li > a')]
            .filter(e => e.checkVisibility() && (e.offsetHeight < 44 || e.offsetWidth < 44))
            .map(e => e.outerHTML.slice(0, 80) + ' ' + e.offsetWidth + 'x' + e.offsetHeight)
            .concat(document.documentElement.scrollWidth > innerWidth
                ? ['scrolls sideways: ' + document.documentElement.scrollWidth] : [])"""
    )


def answer_a_question(page) -> None:
    """Anything, whatever its kind."""
    page.evaluate("""(() => {
        const form = document.querySelector('case-quiz form');
        const choice = form.querySelector('.choice');
        if (choice) choice.click();
        for (const input of form.querySelectorAll('input[inputmode]')) input.value = '1';
        for (const select of form.querySelectorAll('select')) select.selectedIndex = 1;
    })()""")
    page.click("case-quiz form button", text="Check my answer")
