"""`casetrue build`: what it writes, what it leaves alone."""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

Build = Callable[[Path, Path], Result]
CourseFolder = Callable[..., Path]

BARE = {
    "course.yml": "course: bare\ntitle: Bare course\n",
    "measures.yml": "measures:\n  pain: {label: Pain, kind: yes_no}\n",
}


def digests(folder: Path) -> dict[str, str]:
    """Every file with what it holds."""
    return {
        file.relative_to(folder).as_posix(): hashlib.sha256(file.read_bytes()).hexdigest()
        for file in sorted(folder.rglob("*"))
        if file.is_file()
    }


def test_a_second_build_replaces_the_first(build: Build, course_folder: CourseFolder, tmp_path: Path) -> None:
    out = tmp_path / "site"
    course = course_folder({**BARE, "lessons/one.md": "# One\n"})
    assert build(course, out).exit_code == 0
    (course / "lessons" / "one.md").rename(course / "lessons" / "two.md")
    assert build(course, out).exit_code == 0
    assert not (out / "one.html").exists()
    assert (out / "two.html").exists()
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".")] == []


def test_a_site_that_holds_something_else_is_left_alone(
    build: Build, course_folder: CourseFolder, tmp_path: Path
) -> None:
    out = tmp_path / "site"
    course = course_folder(BARE)
    build(course, out)
    (out / "thesis.txt").write_text("irreplaceable", "utf-8")
    course_folder({"lessons/one.md": "# One\n"}, base=course)
    before = digests(out)
    result = build(course, out)
    assert result.exit_code == 2
    assert "thesis.txt" in result.stderr
    assert digests(out) == before


def test_the_list_in_a_site_is_one_that_other_programs_check(ankle_site: Path) -> None:
    """GNU coreutils 9, `sha256sum --check --strict`."""
    command = ["sha256sum", "--check", "--strict", "--quiet", ".casetrue"]
    subprocess.run(command, cwd=ankle_site, check=True, capture_output=True)
    lines = (ankle_site / ".casetrue").read_text("utf-8").splitlines()
    named = {line.split("  ", 1)[1] for line in lines if not line.startswith("#")}
    assert named == digests(ankle_site).keys() - {".casetrue"}


def test_a_site_that_is_up_to_date_is_left_alone(build: Build, small_course: Path, tmp_path: Path) -> None:
    out = tmp_path / "site"
    first = build(small_course, out)
    before = {path: path.stat().st_mtime_ns for path in out.rglob("*")}
    second = build(small_course, out)
    assert second.exit_code == 0
    assert "Nothing has changed" in second.stderr
    assert second.stderr.splitlines()[:-1] == first.stderr.splitlines()[:1]
    assert {path: path.stat().st_mtime_ns for path in out.rglob("*")} == before


def test_an_error_leaves_the_site_as_it_was(build: Build, small_course: Path, tmp_path: Path) -> None:
    out = tmp_path / "site"
    build(small_course, out)
    before = digests(out)
    (small_course / "measures.yml").write_text("measures: [")
    result = build(small_course, out)
    assert result.exit_code == 1
    assert "measures.yml, line" in result.stderr
    assert digests(out) == before


def test_a_failing_build_leaves_the_site_as_it_was(build: Build, small_course: Path, tmp_path: Path) -> None:
    out = tmp_path / "site"
    build(small_course, out)
    before = digests(out)
    (small_course / "mkdocs.yml").write_text(
        "site_name: x\ndocs_dir: lessons\ntheme: casetrue\nplugins: [no-such]\n"
    )
    result = build(small_course, out)
    assert result.exit_code == 1
    assert "is as it was" in result.stderr
    assert digests(out) == before


def test_a_configuration_without_the_plugin_is_told(build: Build, small_course: Path, tmp_path: Path) -> None:
    (small_course / "mkdocs.yml").write_text(
        "site_name: x\ndocs_dir: lessons\ntheme: casetrue\nplugins: []\n"
    )
    result = build(small_course, tmp_path / "site")
    assert result.exit_code == 1
    assert "- casetrue" in result.stderr


def test_a_folder_of_others_is_refused(build: Build, small_course: Path, tmp_path: Path) -> None:
    out = tmp_path / "mine"
    out.mkdir()
    (out / "thesis.txt").write_text("irreplaceable")
    result = build(small_course, out)
    assert result.exit_code == 2
    assert digests(out) == {"thesis.txt": hashlib.sha256(b"irreplaceable").hexdigest()}


@pytest.mark.parametrize(
    "inside", ["lessons/site", "drills", "Cases/site", "glossary/../positions", "site", ".hidden"]
)
def test_a_site_where_the_course_has_its_content_is_refused(
    build: Build, small_course: Path, inside: str
) -> None:
    assert not (small_course / inside).exists()
    result = build(small_course, small_course / inside)
    assert result.exit_code == 2
    assert "belongs to the course" in result.stderr
    assert not (small_course / inside).exists()


def test_a_build_never_takes_its_course_away(build: Build, small_course: Path, tmp_path: Path) -> None:
    """A course that was copied into the site of another one."""
    out = tmp_path / "project"
    build(small_course, out)
    copied = Path(shutil.copytree(small_course, out / "course"))
    before = digests(out)
    for place in (out, copied, out / "x" / ".."):
        result = build(copied, place)
        assert result.exit_code == 2
        assert "course" in result.stderr
    assert digests(out) == before


def test_a_site_below_a_file_is_refused(build: Build, small_course: Path, tmp_path: Path) -> None:
    (tmp_path / "notes").write_text("a file", "utf-8")
    done = build(small_course, tmp_path / "notes" / "site")
    assert done.exit_code == 2
    assert "is a file, so no folder can stand in it" in done.stderr


def test_an_empty_folder_is_taken(build: Build, small_course: Path, tmp_path: Path) -> None:
    out = tmp_path / "empty"
    out.mkdir()
    assert build(small_course, out).exit_code == 0


def test_no_course_is_wrong_use(build: Build, tmp_path: Path) -> None:
    assert build(tmp_path / "nowhere", tmp_path / "site").exit_code == 2


def test_measures_alone_make_a_site(build: Build, course_folder: CourseFolder, tmp_path: Path) -> None:
    """Without mkdocs.yml, lessons, clients or tables."""
    result = build(course_folder(BARE), tmp_path / "site")
    assert result.exit_code == 0, result.output
    there = {name for name in digests(tmp_path / "site") if name.endswith(".html")}
    assert there == {"404.html", "about.html", "index.html", "measures.html", "search.html"}


def test_lessons_without_a_configuration(build: Build, course_folder: CourseFolder, tmp_path: Path) -> None:
    course = course_folder(
        {**BARE, "lessons/one.md": "# One\n\nRead [two](two.md).\n", "lessons/two.md": "Two.\n"}
    )
    assert build(course, tmp_path / "site").exit_code == 0
    one = (tmp_path / "site" / "one.html").read_text("utf-8")
    assert '<a href="two.html">two</a>' in one
    assert 'rel="next" href="two.html"' in one


def test_a_lesson_in_the_place_of_a_page_is_told(
    build: Build, course_folder: CourseFolder, tmp_path: Path
) -> None:
    course = course_folder({**BARE, "lessons/about.md": "# Us\n"})
    result = build(course, tmp_path / "site")
    assert result.exit_code == 1
    assert "lessons/about.md" in result.stderr
    assert not (tmp_path / "site").exists()


@pytest.mark.parametrize("seeds", [("1", "2")])
def test_the_same_course_gives_the_same_bytes(
    small_course: Path, course_folder: CourseFolder, tmp_path: Path, seeds: tuple[str, str]
) -> None:
    """In two folders, with two hash seeds, time zones and locales, on two days."""
    found = []
    for number, seed in enumerate(seeds):
        out = tmp_path / f"place-{number}" / ("deeper/" * number) / "site"
        environment = {
            **os.environ,
            "PYTHONHASHSEED": seed,
            "TZ": ("UTC", "Asia/Tokyo")[number],
            "LC_ALL": ("C", "C.UTF-8")[number],
            "SOURCE_DATE_EPOCH": ("1700000000", "1800000000")[number],
        }
        code = "from builder.cli.main import main; main()"
        arguments = [sys.executable, "-c", code, "build", "--course", str(small_course), "--out", str(out)]
        subprocess.run(arguments, check=True, capture_output=True, env=environment)
        found.append(digests(out))
    assert found[0] == found[1]
