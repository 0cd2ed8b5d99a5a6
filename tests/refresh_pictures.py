"""Takes the README's two pictures from the demo's own build: the home page, and a walk's word on an answer.

.venv/bin/python -m tests.refresh_pictures
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from click.testing import CliRunner

from builder.cli.main import casetrue
from tests.browser.conftest import Desk
from tests.browser.page import Page

ROOT = Path(__file__).parents[1]
PICTURES = ROOT / "pictures"
MOST = 150_000
"""Bytes that one picture may weigh."""

PICK = """value => [...document.querySelectorAll(`input[value=${value}]:enabled`)]
    .find(e => e.checkVisibility()).click()"""


def take(page: Page, name: str) -> None:
    file = PICTURES / name
    page.screenshot(file, whole=False)
    size = file.stat().st_size
    print(f"{file.relative_to(ROOT)}: {size:,} bytes")
    if size > MOST:
        raise SystemExit(f"{name} is heavier than {MOST:,} bytes; make its window smaller")


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        site = Path(folder) / "site"
        done = CliRunner().invoke(
            casetrue, ["build", "--course", str(ROOT / "course_src"), "--out", str(site)]
        )
        if done.exit_code:
            raise SystemExit(done.output)
        desk = Desk("chromium")
        try:
            home = desk.page(width=1000, height=640)
            home.open(site / "index.html")
            take(home, "home.png")
            walk = desk.page(width=560, height=900)
            walk.open(site / "clients" / "osei-01.html")
            for pick, last in (("go_on", False), ("below", False), ("go_on", False), ("narrow", True)):
                walk.call(PICK, pick)
                walk.click("button", text="Check my answer")
                if not last:
                    walk.click("button", text="Next")
            walk.evaluate(
                "[...document.querySelectorAll('.ask')].find(e => e.checkVisibility()).scrollIntoView()"
            )
            take(walk, "feedback.png")
        finally:
            desk.close()


if __name__ == "__main__":
    main()
