"""Every kind of page in every state is open to everyone (WCAG 2.2, A and AA).

axe-core finds what a program can find. The rest is tried here as a person would: by Tab alone, with
reduced motion, in forced colours, at 320 px (which is 400 % zoom of 1280 px), on paper. `README.md` has
the script for what only a person can hear and see.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Literal

import pytest

from .conftest import Desk
from .page import Page
from .practice import narrow_faults
from .states import KINDS

WIDTHS = (320, 360, 1280)
SCHEMES: dict[str, tuple[tuple[Literal["light", "dark"], tuple[int, ...]], ...]] = {
    "chromium": (("light", WIDTHS),),
    "firefox": (("light", (360,)), ("dark", WIDTHS)),
}
"""By day in both browsers, on a phone at least; in the dark, where colours alone differ, in one of them."""
_KIND = re.compile(r'<body class="ct-page kind-([a-z-]+)')


def test_every_kind_of_page_is_listed(whole: Path) -> None:
    built = {_KIND.search(file.read_text("utf-8"))[1] for file in whole.rglob("*.html")}  # type: ignore[index]
    assert built == set(KINDS)


@pytest.mark.parametrize("kind", KINDS)
def test_axe_finds_nothing(
    browser: Desk, whole: Path, serve: Callable[[Path], str], axe: Callable[[Page], list[str]], kind: str
) -> None:
    found: list[str] = []
    for scheme, widths in SCHEMES[browser.name]:
        page = browser.page(scheme=scheme, motion=False)
        for state in KINDS[kind](page, serve(whole)):
            for width in widths:
                page.size(width, 800)
                told = [*axe(page), *(f"too wide: {one}" for one in page.too_wide)]
                if width == 360:
                    told += narrow_faults(page)
                if page.evaluate("document.getAnimations().length"):
                    told.append("something moves, though motion is not wanted")
                found += [f"{scheme}, {state} at {width}: {one}" for one in told]
        assert page.trouble == []
    assert found == []


FOCUS = """(() => {
    const e = document.activeElement, before = window.lastFocus;
    if (e === document.body || e === document.documentElement) return null;
    window.lastFocus = e;
    const r = e.getBoundingClientRect(), faults = [];
    const x = Math.min(Math.max(r.x + r.width / 2, 0), innerWidth - 1);
    const y = Math.min(Math.max(r.y + r.height / 2, 0), innerHeight - 1);
    const shown = r.width && r.height && r.right > 0 && r.left < innerWidth
        && r.bottom > 0 && r.top < innerHeight;
    if (!shown) faults.push('is off the screen');
    else {
        const hit = document.elementFromPoint(x, y);
        if (!(e.contains(hit) || hit?.contains(e))) {
            faults.push('is covered by ' + hit?.outerHTML.slice(0, 60));
        }
    }
    const ring = getComputedStyle(e.closest('.choice') ?? e);
    if (ring.outlineStyle === 'none' || parseFloat(ring.outlineWidth) < 2) faults.push('has no ring');
    if (before?.isConnected && !(before.compareDocumentPosition(e) & 4)) faults.push('comes too late');
    return faults.map(fault => e.outerHTML.slice(0, 80) + ' ' + fault);
})()"""


@pytest.mark.parametrize("kind", KINDS)
def test_tab_leads_on_in_order_and_the_focus_is_seen(
    browser: Desk, whole: Path, serve: Callable[[Path], str], kind: str
) -> None:
    """WCAG 2.2: 2.1.1, 2.1.2, 2.4.3, 2.4.7, 2.4.11, at 400 % zoom."""
    page, found = browser.page(width=320, height=640), []
    next(iter(KINDS[kind](page, serve(whole))))
    page.evaluate("document.activeElement.blur(); 0")
    for number in range(40):
        page.press("Tab")
        told = page.evaluate(FOCUS)
        if told is None:
            break
        found += told
        if number == 0:
            assert page.evaluate("document.activeElement.matches('.skip')")
    assert found == []


WORDS = """(() => [...document.querySelectorAll('main :is(h1, h2, h3, p, li, dt, dd, th, td, summary, svg)')]
    .filter(e => e.checkVisibility() && !e.closest(
        '.no-print, .plan, form, button, .button, .moves, .progress, case-filter, case-search, case-forget, '
        + '[role=status]'))
    .map(e => (e.textContent || e.tagName).replace(/\\s+/g, ' ').trim()))()"""
FOLDED = """[...document.querySelectorAll('main details > :not(summary)')]
    .filter(e => !e.checkVisibility() && !e.closest('.no-print, [hidden], .plan'))
    .map(e => e.outerHTML.slice(0, 80))"""


@pytest.mark.parametrize("kind", KINDS)
def test_paper_leaves_nothing_out(
    browser: Desk, whole: Path, serve: Callable[[Path], str], tmp_path: Path, kind: str
) -> None:
    """Chromium shows print styles as a page; of Firefox, which only prints to a file, just that is tried."""
    if browser.name == "firefox":
        page = browser.page()
        next(iter(KINDS[kind](page, serve(whole))))
        page.pdf(tmp_path / "page.pdf")
        assert (tmp_path / "page.pdf").read_bytes().startswith(b"%PDF")
        return
    screen, paper = browser.page(width=760), browser.page(width=760, print=True)
    for page in (screen, paper):
        for _ in KINDS[kind](page, serve(whole)):
            break
    assert paper.evaluate(FOLDED) == []
    left_out = set(screen.evaluate(WORDS)) - set(paper.evaluate(WORDS))
    assert left_out == set()


UNSEEN = """(() => {
    const told = [];
    for (const e of document.querySelectorAll('svg :is(path, circle, rect, text)')) {
        if (!e.checkVisibility()) continue;
        const {fill, stroke} = getComputedStyle(e);
        const drawn = [fill, stroke].filter(c => c !== 'none' && !c.startsWith('rgba(0, 0, 0, 0'));
        if (drawn.length && drawn.every(c => c === GROUND)) told.push(e.outerHTML.slice(0, 80));
    }
    return told;
})()"""
CANVAS = """(() => { const e = document.createElement('i'); e.style.color = 'Canvas'; document.body.append(e);
    const {color} = getComputedStyle(e); e.remove(); return color; })()"""


@pytest.mark.parametrize("kind", ["client", "quiz", "table", "positions", "measures"])
def test_forced_colours_keep_every_drawing(
    browser: Desk, whole: Path, serve: Callable[[Path], str], kind: str
) -> None:
    page, found = browser.page(forced_colors=True), []
    for state in KINDS[kind](page, serve(whole)):
        unseen = UNSEEN.replace("GROUND", repr(page.evaluate(CANVAS)))
        found += [f"{state}: {one}" for one in page.evaluate(unseen)]
    assert found == []
