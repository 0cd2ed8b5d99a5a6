"""`casetrue serve` as it runs: for this machine alone, and through what happens to a folder in a day."""

from __future__ import annotations

import contextlib
import http.client
import os
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

LONG = 5000
"""Times to ask, with a pause each: minutes, where a change takes a second."""


def free_port() -> int:
    with socket.create_server(("127.0.0.1", 0)) as server:
        return int(server.getsockname()[1])


class Served:
    """A course that is being served, in a process of its own."""

    def __init__(self, course: Path, log: Path, *more: str) -> None:
        self.port = free_port()
        self.log = log
        command = [sys.executable, "-m", "builder.cli", "serve", "--course", str(course), *more]
        with log.open("wb") as told:
            self.process = subprocess.Popen(
                [*command, "--port", str(self.port)],
                stdout=told,
                stderr=told,
                env={**os.environ, "TZ": "UTC"},
            )

    def ask(self, path: str, host: str | None = None) -> tuple[int, str]:
        connection = http.client.HTTPConnection("127.0.0.1", self.port)
        with contextlib.closing(connection):
            connection.request("GET", path, headers={} if host is None else {"Host": host})
            answer = connection.getresponse()
            return answer.status, answer.read().decode()

    def until(self, holds: Callable[[str], bool], path: str = "/index.html") -> str:
        """The page, once it is as asked for; fails when the server ends before, or has long gone deaf."""
        for _ in range(LONG):
            if self.process.poll() is not None:
                break
            with contextlib.suppress(OSError, http.client.HTTPException):
                status, page = self.ask(path)
                if status == 200 and holds(page):
                    return page
            time.sleep(0.05)
        raise AssertionError(self.log.read_text("utf-8"))


@pytest.fixture
def served(small_course: Path, tmp_path: Path) -> Iterator[Served]:
    served = Served(small_course, tmp_path / "log")
    try:
        served.until(lambda page: "</html>" in page)
        yield served
    finally:
        served.process.kill()
        served.process.wait()


def test_a_folder_that_was_away_for_a_moment_is_followed_again(
    served: Served, small_course: Path, tmp_path: Path
) -> None:
    """As when a branch is changed to one without the course, and back to another one with it."""
    small_course.rename(tmp_path / "away")
    page = served.until(lambda page: 'class="faults"' in page)
    assert "ankle is not there" in page
    cases = tmp_path / "away" / "cases" / "clients.yml"
    cases.write_text(cases.read_text("utf-8").replace("name: Tern", "name: Puffin"), "utf-8")
    shutil.copytree(tmp_path / "away", small_course)
    served.until(lambda page: "Puffin" in page and 'class="faults"' not in page, "/clients/tern-03.html")
    # It still listens: the same once more.
    shutil.rmtree(small_course)
    served.until(lambda page: 'class="faults"' in page)
    cases.write_text(cases.read_text("utf-8").replace("name: Puffin", "name: Dunlin"), "utf-8")
    shutil.copytree(tmp_path / "away", small_course)
    served.until(lambda page: "Dunlin" in page and 'class="faults"' not in page, "/clients/tern-03.html")
    assert "Traceback" not in served.log.read_text("utf-8")
    for name in ("localhost", "LOCALHOST:1", "127.0.0.1", f"127.0.0.1:{served.port}", "[::1]:8000"):
        assert served.ask("/index.html", name)[0] == 200
    for name in (
        "example.org",
        f"example.org:{served.port}",
        "127.0.0.1.example.org",
        "localhost.",
        "0.0.0.0",
    ):
        status, told = served.ask("/index.html", name)
        assert status == 403
        assert told.startswith("This preview is for this machine alone.")


def test_a_port_that_is_taken_is_told_before_anything_is_built(run, small_course: Path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = other.getsockname()[1]
        result = run("serve", "--course", small_course, "--port", port)
    assert result.exit_code == 2
    assert f"Port {port} is taken by another program. Choose another: --port " in result.stderr
    assert "Building" not in result.stderr


def test_trouble_with_a_file_is_no_trouble_with_the_port(
    run, small_course: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def gone(*_: object, **__: object) -> None:
        raise FileNotFoundError(2, "No such file or directory", "lessons/one.md")

    monkeypatch.setattr("builder.cli.serve.serve", gone)
    result = run("serve", "--course", small_course, "--port", free_port())
    assert result.exit_code == 2
    assert "lessons/one.md: it is not there." in result.stderr
    assert "Port" not in result.stderr


def test_the_educators_pages_are_served_only_where_they_are_asked_for(
    served: Served, small_course: Path, tmp_path: Path
) -> None:
    assert served.ask("/educator/index.html")[0] == 404
    for_educator = Served(small_course, tmp_path / "other-log", "--educator")
    try:
        page = for_educator.until(lambda page: "</html>" in page, "/educator/index.html")
        assert "What the check tells" in page
        assert "educator/index.html" in for_educator.log.read_text("utf-8")
        for there in ("items-choose-ankle-plan", "workbook-ankle-check", "key-ankle-check"):
            assert for_educator.ask(f"/educator/{there}.html")[0] == 200
    finally:
        for_educator.process.kill()
        for_educator.process.wait()
