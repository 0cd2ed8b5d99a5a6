"""What stands between the server and the builds while serving, piece by piece."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

import pytest
from watchdog.events import FileSystemEvent, FileSystemEventHandler

from builder.site.preview import Preview
from builder.site.watching import Watcher, look

App = Callable[[dict[str, Any], Callable[..., Any]], Iterable[bytes]]


def files(root: Path) -> App:
    """A server that answers with the files of a folder."""

    def serve(environ: dict[str, Any], start: Callable[..., Any]) -> list[bytes]:
        file = root / environ["PATH_INFO"].removeprefix("/")
        start("200 OK" if file.is_file() else "404 Not Found", [("Content-Type", "text/html")])
        return [file.read_bytes() if file.is_file() else b"nothing there"]

    return serve


def ask(app: App, path: str = "/index.html", **more: str) -> tuple[str, str]:
    status: list[str] = []
    body = b"".join(app({"PATH_INFO": path, **more}, lambda begun, _: status.append(begun)))
    return status[-1], body.decode()


@pytest.fixture
def shown(tmp_path: Path) -> tuple[Preview, App]:
    (tmp_path / "index.html").write_text("<body>home</body>", "utf-8")
    preview = Preview()
    return preview, preview.over(files(tmp_path), str(tmp_path), "/")


@pytest.mark.parametrize("host", ["localhost", "localhost:80", "127.0.0.1:8000", "[::1]", "[::1]:65535"])
def test_this_machine_is_answered(shown: tuple[Preview, App], host: str) -> None:
    assert ask(shown[1], HTTP_HOST=host)[0] == "200 OK"


@pytest.mark.parametrize(
    "host",
    ["", "example.org", "localhost.example.org", "example.org:8000", "127.0.0.1\n", "127.0.0.2", "::1",
     "localhost:", "localhost:80:80", "a@localhost", "localhost:١"],
)  # fmt: skip
def test_any_other_host_is_refused_before_anything_is_read(shown: tuple[Preview, App], host: str) -> None:
    preview, app = shown
    preview.unwritten = {"client.html": lambda: pytest.fail("made")}
    for path in ("/index.html", "/client.html", "/livereload/1/1"):
        status, told = ask(app, path, HTTP_HOST=host)
        assert status == "403 Forbidden"
        assert told.startswith("This preview is for this machine alone.")


def test_who_serves_to_others_on_purpose_is_let(tmp_path: Path) -> None:
    (tmp_path / "index.html").write_text("home", "utf-8")
    app = Preview().over(files(tmp_path), str(tmp_path), "/", for_all=True)
    assert ask(app, HTTP_HOST="192.0.2.1:8000") == ("200 OK", "home")


def test_a_page_is_made_once_and_only_when_asked_for(shown: tuple[Preview, App]) -> None:
    preview, app = shown
    made: list[str] = []
    preview.unwritten = {"client.html": lambda: made.append("one") or "<body>Tern</body>"}
    ask(app)
    assert made == []
    assert ask(app, "/client.html") == ask(app, "/client.html") == ("200 OK", "<body>Tern</body>")
    assert made == ["one"]


def test_no_page_is_made_while_a_build_runs(shown: tuple[Preview, App], tmp_path: Path) -> None:
    """Else a page of the course as it was would stand in the new site."""
    preview, app = shown
    preview.unwritten = {"client.html": lambda: "old"}
    asking = threading.Thread(target=ask, args=(app, "/client.html"))

    def build() -> None:
        asking.start()
        asking.join(0.2)
        assert asking.is_alive()
        assert not (tmp_path / "client.html").exists()
        preview.unwritten = {"client.html": lambda: "new"}

    preview.guard(build)()
    asking.join()
    assert preview.faults == ()
    assert (tmp_path / "client.html").read_text("utf-8") == "new"


def test_pages_are_made_one_at_a_time(shown: tuple[Preview, App]) -> None:
    preview, app = shown
    inside, most = 0, 0

    def make() -> str:
        nonlocal inside, most
        inside += 1
        most = max(most, inside)
        threading.Event().wait(0.01)
        inside -= 1
        return "page"

    preview.unwritten = {f"{number}.html": make for number in range(8)}
    asking = [threading.Thread(target=ask, args=(app, f"/{number}.html")) for number in range(8)]
    for one in asking:
        one.start()
    for one in asking:
        one.join()
    assert most == 1


@pytest.mark.parametrize(
    ("fault", "told"),
    [
        (OSError(28, "No space left on device"), "The disk is full. Make room"),
        (KeyError("tern"), "KeyError('tern')"),
    ],
)
def test_a_page_that_cannot_be_made_is_told(shown: tuple[Preview, App], fault: Exception, told: str) -> None:
    preview, app = shown

    def make() -> str:
        raise fault

    preview.unwritten = {"client.html": make}
    status, page = ask(app, "/client.html")
    assert status.startswith("500")
    assert told in page


def test_a_page_that_the_server_never_finds_is_not_made_for_ever(tmp_path: Path) -> None:
    preview = Preview()
    made: list[str] = []
    preview.unwritten = {"client.html": lambda: made.append("") or "page"}
    app = preview.over(files(tmp_path / "elsewhere"), str(tmp_path), "/")
    assert ask(app, "/client.html")[0] == "404 Not Found"
    assert 1 <= len(made) <= 3


def test_without_the_folder_nothing_is_built_and_the_pages_say_so(
    shown: tuple[Preview, App], tmp_path: Path
) -> None:
    preview, app = shown
    built: list[str] = []
    guarded = preview.guard(lambda: built.append("once"), tmp_path / "course")
    guarded()
    assert built == []
    assert "course is not there. Once it is back, the site follows." in ask(app)[1]
    (tmp_path / "course").mkdir()
    guarded()
    assert built == ["once"]
    assert ask(app)[1] == "<body>home</body>"


def test_a_file_that_vanishes_while_it_is_read_is_told_in_plain_words(shown: tuple[Preview, App]) -> None:
    preview, app = shown

    def build() -> None:
        raise FileNotFoundError(2, "No such file or directory", "lessons/foot.png")

    preview.guard(build)()
    assert "<li>lessons/foot.png: it is not there." in ask(app)[1]


class Told(FileSystemEventHandler):
    """Counts what it is told."""

    def __init__(self) -> None:
        self.times = 0

    def on_any_event(self, event: FileSystemEvent) -> None:
        assert not event.is_directory
        self.times += 1


@pytest.mark.parametrize(
    "change",
    [
        lambda course: (course / "course.yml").write_text("three"),
        lambda course: os.utime(course / "course.yml", ns=(1, 1)),
        lambda course: (course / "course.yml").unlink(),
        lambda course: (course / "cases" / "b.yml").write_text("b"),
        lambda course: (course / "cases").rename(course / "kases"),
        lambda course: course.rename(course.with_name("away")),
    ],
)
def test_a_change_is_told_once(tmp_path: Path, change: Callable[[Path], object]) -> None:
    course = tmp_path / "course"
    (course / "cases").mkdir(parents=True)
    (course / "course.yml").write_text("one")
    (course / "cases" / "a.yml").write_text("a")
    watcher, told = Watcher(60), Told()
    watcher.schedule(told, str(course))
    watcher.compare()
    assert told.times == 0
    change(course)
    watcher.compare()
    watcher.compare()
    assert told.times == 1


def test_a_folder_that_comes_back_is_told_again(tmp_path: Path) -> None:
    course = tmp_path / "course"
    course.mkdir()
    (course / "course.yml").write_text("one")
    watcher, told = Watcher(60), Told()
    watcher.schedule(told, str(course))
    for times in (1, 3, 5):
        course.rename(tmp_path / "away")
        watcher.compare()
        assert told.times == times
        (tmp_path / "away").rename(course)
        watcher.compare()
        assert told.times == times + 1


def test_hidden_files_and_what_links_lead_to_do_not_count(tmp_path: Path) -> None:
    (tmp_path / ".git").mkdir()
    (tmp_path / ".git" / "index").write_text("a")
    (tmp_path / ".swap").write_text("a")
    (tmp_path / "one.md~").write_text("a")
    (tmp_path / "all").symlink_to("/")
    (tmp_path / "self").symlink_to(".")
    os.mkfifo(tmp_path / "pipe")
    seen = look(str(tmp_path))
    assert {Path(path).name for path in seen} == {"pipe"}
    (tmp_path / ".swap").unlink()
    assert look(str(tmp_path)) == seen


def test_one_file_is_watched_as_well_and_the_watch_can_end(tmp_path: Path) -> None:
    file = tmp_path / "mkdocs.yml"
    watcher, told = Watcher(0.001), Told()
    watch = watcher.schedule(told, str(file))
    file.write_text("one")
    watcher.compare()
    assert told.times == 1
    watcher.unschedule(watch)
    file.unlink()
    watcher.compare()
    assert told.times == 1
    watcher.start()
    watcher.stop()
    watcher.join()
