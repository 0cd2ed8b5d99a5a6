"""A site that is as it would be built is left alone, and any change is noticed."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.cli.written import Written

Change = Callable[[Path, Path], object]


class Place:
    """A course, a site and a store."""

    def __init__(self, course: Path, folder: Path) -> None:
        self.course = course
        self.site = folder / "site"
        self.store = folder / "store"
        (course / "lessons" / "foot.png").write_bytes(b"\x89PNG")
        (self.site / "clients").mkdir(parents=True)
        (self.site / "index.html").write_text("home")
        (self.site / "clients" / "tern.html").write_text("tern")

    def known(self) -> Written:
        return Written(self.course, self.site, self.store)


@pytest.fixture
def place(small_course: Path, tmp_path: Path) -> Place:
    place = Place(small_course, tmp_path)
    place.known().keep("2 warnings.\n")
    return place


def test_what_was_told_is_told_again(place: Place) -> None:
    assert place.known().told() == "2 warnings.\n"
    assert place.known().told() == "2 warnings.\n"


def append(name: str) -> Change:
    def change(course: Path, site: Path) -> None:
        file = (site if (site / name).exists() else course) / name
        with file.open("ab") as stream:
            stream.write(b"\n")

    return change


def touch(course: Path, site: Path) -> None:
    """The same size, another time."""
    os.utime(site / "index.html", ns=(1, 1))


@pytest.mark.parametrize(
    "change",
    [
        *(append(name) for name in ("course.yml", "tables/plan.yml", "cases/clients.yml")),
        *(append(name) for name in ("lessons/index.md", "lessons/foot.png", "clients/tern.html")),
        lambda course, site: (course / "lessons" / "more.css").write_text("p {}"),
        lambda course, site: (course / "objectives.yml").rename(course / "aims.yml"),
        lambda course, site: (course / "lessons" / "foot.png").unlink(),
        lambda course, site: (course / "mkdocs.yml").write_text("site_name: x"),
        lambda course, site: (site / "index.html").unlink(),
        lambda course, site: (site / "more.html").write_text("more"),
        lambda course, site: (site / "index.html").rename(site / "home.html"),
        touch,
    ],
)
def test_a_change_is_noticed(place: Place, change: Change) -> None:
    change(place.course, place.site)
    assert place.known().told() is None


def test_a_link_to_a_file_of_the_course_is_followed(place: Place) -> None:
    (place.course / "more").mkdir()
    (place.course / "more" / "one.md").write_text("# One")
    (place.course / "lessons" / "linked.md").symlink_to("../more/one.md")
    place.known().keep("")
    assert place.known().told() == ""
    (place.course / "more" / "one.md").write_text("# Two")
    assert place.known().told() is None


@pytest.mark.parametrize("to", ["/", "/dev/zero", ".", "linked", "no-such", "pipe"])
def test_what_is_no_file_of_the_course_is_noticed_and_never_read(place: Place, to: str) -> None:
    os.mkfifo(place.course / "lessons" / "pipe")
    place.known().keep("")
    (place.course / "lessons" / "linked").symlink_to(to)
    assert place.known().told() is None


def test_what_cannot_be_read_is_for_the_build_to_tell(place: Place, monkeypatch: pytest.MonkeyPatch) -> None:
    def forbidden(*_: object) -> None:
        raise PermissionError(13, "Permission denied", "course.yml")

    monkeypatch.setattr(hashlib, "file_digest", forbidden)
    assert place.known().told() is None
    place.known().keep("")


def test_a_link_that_leads_nowhere_in_the_site_is_a_change(place: Place) -> None:
    (place.site / "more.html").symlink_to("no-such.html")
    assert place.known().told() is None


def test_a_cache_folder_that_cannot_be_written_keeps_nothing(place: Place, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("no folder")
    place.store = tmp_path / "file" / "store"
    place.known().keep("")
    assert place.known().told() is None


PLAIN = "site_name: x\ndocs_dir: lessons\ntheme: casetrue\nplugins: [casetrue]\n"


def test_a_plain_configuration_is_part_of_the_course(place: Place) -> None:
    (place.course / "mkdocs.yml").write_text(PLAIN)
    place.known().keep("told")
    assert place.known().told() == "told"
    (place.course / "mkdocs.yml").write_text(PLAIN.replace(": x", ": y"))
    assert place.known().told() is None


def test_with_plugins_of_others_a_course_is_always_built(place: Place) -> None:
    (place.course / "mkdocs.yml").write_text(PLAIN.replace("[casetrue]", "[casetrue, another]"))
    place.known().keep("told")
    assert place.known().told() is None


def test_a_site_that_is_up_to_date_needs_none_of_the_libraries_that_make_one() -> None:
    code = "import sys, builder.cli.build; print(*sys.modules)"
    told = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    heavy = {"yaml", "jsonschema", "jinja2", "mkdocs", "rich", "markdown_it", "builder.course"}
    assert heavy & set(told.stdout.split()) == set()


def test_a_change_while_building_is_noticed(place: Place) -> None:
    known = place.known()
    append("course.yml")(place.course, place.site)
    known.keep("")
    assert place.known().told() is None


def test_another_program_builds_anew(place: Place, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("builder.cli.written.program", lambda: "another")
    assert place.known().told() is None


def test_another_folder_is_another_site(place: Place, tmp_path: Path) -> None:
    place.site.rename(tmp_path / "moved")
    assert place.known().told() is None
    assert Written(place.course, tmp_path / "moved", place.store).told() is None


@pytest.mark.parametrize("damage", [b"", b"\xff\xfe", b"0" * 32 + b"\n{}", b'{"version":'])
def test_a_damaged_store_builds_anew(place: Place, damage: bytes) -> None:
    [file] = place.store.iterdir()
    file.write_bytes(damage)
    assert place.known().told() is None
    place.known().keep("")
    assert place.known().told() == ""


def test_no_course_is_nothing_known(tmp_path: Path) -> None:
    known = Written(tmp_path / "nowhere", tmp_path / "site", tmp_path / "store")
    assert known.told() is None
    known.keep("")
