"""The list of a site's files: what it names, and what it finds that no build wrote."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.cli.manifest import MARKER, is_ours, strangers, write_manifest

BEFORE = "Written by `casetrue build`, which replaces the whole folder.\n"


@pytest.fixture
def site(tmp_path: Path) -> Path:
    site = tmp_path / "site"
    for name in ("index.html", "clients/tern.html", "assets/a b.js"):
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        (site / name).write_text(name, "utf-8")
    write_manifest(site)
    return site


def test_a_site_as_it_was_written_holds_nothing_strange(site: Path) -> None:
    assert is_ours(site)
    assert strangers(site) == []


def test_the_same_site_gives_the_same_list(site: Path) -> None:
    before = (site / MARKER).read_bytes()
    write_manifest(site)
    assert (site / MARKER).read_bytes() == before
    lines = before.splitlines()
    assert [line[66:] for line in lines[2:]] == [b"assets/a b.js", b"clients/tern.html", b"index.html"]


def put(name: str, text: str = "mine") -> Callable[[Path], object]:
    def change(site: Path) -> None:
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        (site / name).write_text(text, "utf-8")

    return change


def replace_by_link(site: Path) -> None:
    (site / "index.html").rename(site.parent / "mine.html")
    (site / "index.html").symlink_to(site.parent / "mine.html")


def replace_by_folder(site: Path) -> None:
    (site / "index.html").unlink()
    put("index.html/notes.txt")(site)


@pytest.mark.parametrize(
    ("change", "found"),
    [
        (put("notes.txt"), ["notes.txt"]),
        (put("clients/notes.txt"), ["clients/notes.txt"]),
        (put(".git/objects/00/1"), [".git/"]),
        (put("clients/mine/a/b.txt"), ["clients/mine/"]),
        (put(".nojekyll", ""), [".nojekyll"]),
        (put("index.html", "edited"), ["index.html (changed)"]),
        (lambda site: (site / "dangling").symlink_to("nowhere"), ["dangling"]),
        (lambda site: (site / "folder").symlink_to("/"), ["folder"]),
        (lambda site: os.mkfifo(site / "pipe"), ["pipe"]),
        (replace_by_link, ["index.html (changed)"]),
        (replace_by_folder, ["index.html/"]),
        (lambda site: put(os.fsdecode(b"\xff.txt"))(site), [os.fsdecode(b"\xff.txt")]),
        # What harms nobody:
        (lambda site: (site / "index.html").unlink(), []),
        (lambda site: (site / "empty" / "deep").mkdir(parents=True), []),
        (put("clients/.DS_Store"), []),
    ],
)
def test_what_no_build_wrote_is_found(site: Path, change: Callable[[Path], object], found: list[str]) -> None:
    change(site)
    assert strangers(site) == found


@pytest.mark.parametrize("marker", ["", "nonsense", "# Written by a thief\n", "0" * 64 + " index.html\n"])
def test_a_list_that_names_nothing_makes_all_strange(site: Path, marker: str) -> None:
    (site / MARKER).write_text(marker, "utf-8")
    assert strangers(site) == ["index.html", "assets/", "clients/"]


def test_a_site_from_when_no_list_was_kept_is_taken(site: Path) -> None:
    """Its pages can be no one else's; what is hidden, or a link, was never written by a build."""
    (site / MARKER).write_text(BEFORE, "utf-8")
    assert strangers(site) == []
    put(".git/config")(site)
    (site / "linked").symlink_to("/")
    assert strangers(site) == ["linked", ".git/config"]


def test_a_marker_that_is_a_link_is_not_ours(site: Path) -> None:
    (site / MARKER).rename(site.parent / "marker")
    (site / MARKER).symlink_to(site.parent / "marker")
    assert not is_ours(site)


@pytest.mark.parametrize(
    "name", ["a\nb.txt", "back\\slash.txt", "\\n.txt", "line\rback.txt", " lead.txt", "é.txt"]
)
def test_odd_names_are_listed_as_others_read_them(site: Path, name: str) -> None:
    """GNU coreutils 9, `sha256sum`: a backslash before the line says that the name is escaped."""
    (site / name).write_text("odd", "utf-8")
    write_manifest(site)
    assert strangers(site) == []
    command = ["sha256sum", "--check", "--strict", "--quiet", MARKER]
    subprocess.run(command, cwd=site, check=True, capture_output=True)


def test_a_folder_that_cannot_be_opened_is_no_empty_one(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = os.scandir

    def forbidden(path: str) -> object:
        if str(path).endswith("clients"):
            raise PermissionError(13, "Permission denied", path)
        return real(path)

    monkeypatch.setattr(os, "scandir", forbidden)
    with pytest.raises(PermissionError):
        strangers(site)
