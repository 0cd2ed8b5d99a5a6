"""Where a site may stand, and that it gets there whole or not at all."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
from collections.abc import Callable
from pathlib import Path

import click
import pytest

from builder.cli.manifest import write_manifest
from builder.cli.place import aside, move_in, place_of, refuse_others, tidy_up

HERE = Path(__file__).parent


@pytest.fixture
def site(tmp_path: Path) -> Path:
    site = tmp_path / "site"
    site.mkdir()
    (site / "index.html").write_text("former", "utf-8")
    write_manifest(site)
    return site


def left(site: Path) -> list[str]:
    """What stands beside the site."""
    return sorted(path.name for path in site.parent.iterdir() if path != site)


def write(site: Path, text: str = "new") -> None:
    with aside(site) as folder:
        (folder / "index.html").write_text(text, "utf-8")
        write_manifest(folder)
        move_in(folder, site)


def text(site: Path) -> str:
    return (site / "index.html").read_text("utf-8")


@pytest.mark.parametrize("out", ["course", "course/site", "course/lessons/deep/site", ".", "other/../course"])
def test_a_site_neither_holds_the_course_nor_lies_in_it(tmp_path: Path, out: str) -> None:
    (tmp_path / "course").mkdir()
    with pytest.raises(click.UsageError, match="course"):
        place_of(tmp_path / out, tmp_path / "course")
    assert list((tmp_path / "course").iterdir()) == []


def test_links_and_other_names_of_the_course_are_seen_through(tmp_path: Path) -> None:
    course = tmp_path / "project" / "course"
    course.mkdir(parents=True)
    (tmp_path / "linked").symlink_to(course)
    (tmp_path / "around").symlink_to(tmp_path / "project")
    for out, course_dir in (("linked/site", course), ("around", course), ("project", tmp_path / "linked")):
        with pytest.raises(click.UsageError, match="course"):
            place_of(tmp_path / out, course_dir)


def test_a_disk_that_takes_capitals_for_small_letters_is_no_way_round(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "course").mkdir()
    (tmp_path / "COURSE").mkdir()
    stat = (tmp_path / "course").stat()
    real = os.stat
    monkeypatch.setattr(os, "stat", lambda path, **_: stat if str(path).endswith("COURSE") else real(path))
    with pytest.raises(click.UsageError, match="belongs to the course"):
        place_of(tmp_path / "COURSE", tmp_path / "course")


def test_a_folder_beside_the_course_is_a_place(tmp_path: Path) -> None:
    (tmp_path / "course").mkdir()
    assert place_of(tmp_path / "course-site", tmp_path / "course") == tmp_path / "course-site"
    assert place_of(tmp_path / "new" / "site", tmp_path / "course") == tmp_path / "new" / "site"


@pytest.mark.parametrize("to", ["nowhere", "out"])
def test_a_link_that_leads_nowhere_is_refused(tmp_path: Path, to: str) -> None:
    (tmp_path / "out").symlink_to(to)
    with pytest.raises(click.UsageError, match="leads nowhere"):
        place_of(tmp_path / "out", tmp_path / "course")
    assert not (tmp_path / "nowhere").exists()


def test_a_disk_of_its_own_is_refused_before_anything_is_built(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "out").mkdir()
    monkeypatch.setattr(os.path, "ismount", lambda path: Path(path) == tmp_path / "out")
    with pytest.raises(click.UsageError, match="Choose a folder in it"):
        place_of(tmp_path / "out", tmp_path / "course")


def test_what_is_left_alone_is_told_three_at_a_time(site: Path) -> None:
    refuse_others(site)
    for name in ("one.txt", "two.txt", "three\x1b[2J.txt", "zero.txt", "zulu.txt"):
        (site / name).write_text("mine", "utf-8")
    with pytest.raises(click.UsageError) as refused:
        refuse_others(site)
    told = refused.value.message
    assert ": one.txt, three\\x1b[2J.txt, two.txt and 2 more. " in told
    assert "\x1b" not in told


def test_a_new_site_replaces_the_former(site: Path) -> None:
    write(site)
    assert text(site) == "new"
    assert left(site) == []


def test_a_place_below_folders_that_are_not_there_is_made(tmp_path: Path) -> None:
    write(tmp_path / "a" / "b" / "site")
    assert text(tmp_path / "a" / "b" / "site") == "new"


def test_a_build_that_fails_leaves_nothing(site: Path) -> None:
    def build() -> None:
        with aside(site) as folder:
            (folder / "index.html").write_text("half", "utf-8")
            raise RuntimeError

    with pytest.raises(RuntimeError):
        build()
    assert text(site) == "former"
    assert left(site) == []


@pytest.mark.parametrize("failing", [1, 2])
def test_a_rename_that_fails_leaves_the_former_site(
    site: Path, monkeypatch: pytest.MonkeyPatch, failing: int
) -> None:
    real, calls = os.rename, 0

    def rename(*given: object) -> None:
        nonlocal calls
        calls += 1
        if calls == failing:
            raise OSError(16, "Device or resource busy")
        real(*given)

    monkeypatch.setattr(os, "rename", rename)
    with pytest.raises(OSError, match="busy"):
        write(site)
    assert text(site) == "former"
    assert left(site) == []


def test_where_not_even_the_former_site_can_be_put_back_it_is_kept_for_the_next_build(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real, calls = os.rename, 0

    def rename(*given: object) -> None:
        nonlocal calls
        calls += 1
        if calls > 1:
            raise OSError(5, "Input/output error")
        real(*given)

    with monkeypatch.context() as patched:
        patched.setattr(os, "rename", rename)
        with pytest.raises(OSError, match="Input"):
            write(site)
    assert not site.exists()
    tidy_up(site)
    assert text(site) == "former"
    assert left(site) == []


def test_no_kill_splits_a_site(tmp_path: Path) -> None:
    """Killed at every point of writing, then at every point of tidying up after that."""
    command = [sys.executable, str(HERE / "killing.py"), str(tmp_path / "root")]
    done = subprocess.run(command, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    writing, tidying = map(int, done.stdout.split())
    assert writing > 15
    assert tidying > 3 * writing


def test_folders_of_builds_that_run_stay(site: Path) -> None:
    with aside(site) as folder:
        before = left(site)
        tidy_up(site)
        assert left(site) == before
        assert folder.is_dir()
    assert left(site) == []


@pytest.mark.parametrize(
    "files",
    [
        [".site-abcdefgh/notes.txt"],
        [".site-abcdefgh/site/index.html"],
        [".site-abcdefgh/casetrue.lock", ".site-abcdefgh/thesis.txt"],
        [".site-abc/casetrue.lock"],
        [".site-abcdefghi/casetrue.lock"],
        [".site-ABCDEFGH/casetrue.lock"],
        [".other-abcdefgh/casetrue.lock"],
        ["site-abcdefgh/casetrue.lock"],
        [".site-abcdefgh"],
    ],
)
def test_what_may_be_anybody_elses_stays(site: Path, files: list[str]) -> None:
    for name in files:
        (site.parent / name).parent.mkdir(parents=True, exist_ok=True)
        (site.parent / name).write_text("mine", "utf-8")
    tidy_up(site)
    assert all((site.parent / name).read_text("utf-8") == "mine" for name in files)


def test_a_link_with_the_name_of_a_folder_aside_is_not_followed(site: Path, tmp_path: Path) -> None:
    mine = tmp_path / "mine"
    mine.mkdir()
    (mine / "casetrue.lock").touch()
    (tmp_path / ".site-abcdefgh").symlink_to(mine)
    tidy_up(site)
    assert (mine / "casetrue.lock").exists()


def test_two_builds_to_one_place_leave_one_whole_site(site: Path) -> None:
    def again(name: str) -> None:
        for number in range(20):
            tidy_up(site)
            write(site, f"{name} {number}")

    builds = [threading.Thread(target=again, args=(name,)) for name in ("one", "two")]
    for build in builds:
        build.start()
    for build in builds:
        build.join()
    refuse_others(site)
    assert text(site) in ("one 19", "two 19")
    assert left(site) == []


def killing(when: str) -> str:
    """`casetrue`, killed at a rename of the site."""
    return f"""
import os, signal
renames = 0
real = os.rename
def rename(one, other):
    global renames
    if "site" in str(one) and ".casetrue" not in str(one):
        renames += 1
        if renames == {when}:
            os.kill(os.getpid(), signal.SIGKILL)
    real(one, other)
os.rename = rename
from builder.cli.main import main
main()
"""


def test_a_killed_build_gives_the_site_back_even_where_the_next_one_finds_errors(
    run: Callable[..., object], small_course: Path, tmp_path: Path
) -> None:
    out = tmp_path / "site"
    arguments = ["build", "--course", str(small_course), "--out", str(out)]
    assert run(*arguments).exit_code == 0
    before = (out / "index.html").read_bytes()
    with (small_course / "course.yml").open("a", encoding="utf-8") as stream:
        stream.write("\n# changed\n")
    killed = subprocess.run([sys.executable, "-c", killing("2"), *arguments], capture_output=True)
    assert killed.returncode == -signal.SIGKILL, killed.stderr
    assert not out.exists()
    (small_course / "measures.yml").write_text("measures: [", "utf-8")
    assert run(*arguments).exit_code == 1
    assert (out / "index.html").read_bytes() == before
    assert left(out) == ["ankle"]
