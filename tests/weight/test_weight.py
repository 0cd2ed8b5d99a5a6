"""What a phone must load stays small: bytes with gzip, of the demo as it is built. `weigh.py` prints more."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.cli.main import casetrue

from .weigh import ROOT, needed, zipped

KB = 1000


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    site = tmp_path_factory.mktemp("demo") / "site"
    done = CliRunner().invoke(casetrue, ["build", "--course", str(ROOT / "course_src"), "--out", str(site)])
    assert done.exit_code == 0, done.output
    return site


def test_a_client_is_light_on_a_first_visit_and_lighter_on_the_next(demo: Path) -> None:
    clients = sorted(file.name for file in (demo / "clients").glob("*.html") if file.name != "index.html")
    assert clients
    for client in clients:
        files = needed(demo, f"clients/{client}")
        assert {"assets/casetrue.css", "assets/casetrue.js"} <= files.keys()
        assert sum(files.values()) < 100 * KB, client
        assert files[f"clients/{client}"] < 14 * KB, client


def first_of_each(site: Path) -> list[str]:
    """A client, and a drill with its walk."""
    (client, *_), (drill, *_) = (
        sorted(file for file in (site / folder).glob("*.html") if file.name != "index.html")
        for folder in ("clients", "drills")
    )
    walks = sorted((site / "drills").glob(f"{drill.stem}.*.html"))
    return [file.relative_to(site).as_posix() for file in (client, drill, *walks)]


def test_script_and_style_are_small(demo: Path) -> None:
    pages = ["quizzes/first-check.html", "record.html", "search.html", "index.html"]
    for page in pages + first_of_each(demo):
        files = needed(demo, page)
        scripts = sum(size for file, size in files.items() if file.endswith(".js"))
        assert 0 < scripts < 15 * KB, page
    assert 0 < zipped(demo / "assets" / "casetrue.css") < 10 * KB
