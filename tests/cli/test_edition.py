"""`casetrue edition` keeps a course, and the pages of a site say which edition they are."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from builder.source import load
from builder.source.folder import contents

from ..site.html_pages import pages


def keep(run, course: Path, *arguments: object):
    return run("edition", *arguments, "--course", course)


def test_an_edition_is_written_once_with_its_day(run, small_course: Path) -> None:
    result = keep(run, small_course, "1.0", "--today", "2026-05-04")
    assert result.exit_code == 0, result.output
    file = small_course / "editions" / "1.0.json"
    data = json.loads(file.read_text("utf-8"))
    assert (data["edition"], data["date"]) == ("1.0", "2026-05-04")
    before = file.read_bytes()
    again = keep(run, small_course, "1.0")
    assert again.exit_code == 2
    assert "is there already" in again.stderr
    assert file.read_bytes() == before
    assert load(small_course).problems == ()


def test_the_same_course_and_day_give_the_same_bytes(run, small_course: Path) -> None:
    keep(run, small_course, "1.0")
    keep(run, small_course, "2.0")
    one, two = ((small_course / "editions" / f"{version}.json").read_bytes() for version in ("1.0", "2.0"))
    assert one.replace(b'"edition": "1.0"', b'"edition": "2.0"') == two, "an edition is no part of the next"
    assert json.loads(one)["date"] == "2026-06-01", "the day of SOURCE_DATE_EPOCH"


@pytest.mark.parametrize("version", ["", ".1", "a/b", "../x", "1 0", "ä", "x" * 101, "1.0\n"])
def test_a_version_that_cannot_be_a_name_is_refused(run, small_course: Path, version: str) -> None:
    result = keep(run, small_course, version)
    assert result.exit_code == 2
    assert "is no version" in result.stderr
    assert not (small_course / "editions").exists()


def test_versions_that_some_machines_take_for_one_are_one(run, small_course: Path) -> None:
    assert keep(run, small_course, "1.0-RC").exit_code == 0
    assert keep(run, small_course, "1.0-rc").exit_code == 2


def test_no_edition_is_kept_of_a_course_with_errors(run, small_course: Path) -> None:
    table = small_course / "tables" / "ankle_class.yml"
    table.write_text(table.read_text("utf-8").replace("at_least: 35", "above: 35"), "utf-8")
    result = keep(run, small_course, "1.0")
    assert result.exit_code == 1
    assert "table-gap" in result.stderr
    assert "No edition was written." in result.stderr
    assert not (small_course / "editions").exists()


def test_every_page_says_the_newest_edition(run, small_course: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"

    def built() -> dict[str, tuple[str, str]]:
        """Of every page, the edition on its root and the words at its foot."""
        assert run("build", "--course", small_course, "--out", site).exit_code == 0
        return {
            uri: (page.get("data-edition"), " ".join(page.find_class("foot")[0].text_content().split()))
            for uri, page in pages(site)
        }

    without = built()
    assert {edition for edition, _ in without.values()} == {""}
    assert "404.html" in without
    assert "clients/tern-03.html" in without

    keep(run, small_course, "1.9", "--today", "2026-05-04")
    keep(run, small_course, "1.10", "--today", "2026-05-04")
    keep(run, small_course, "2.0", "--today", "2026-01-01")
    same = built()
    assert {edition for edition, _ in same.values()} == {"1.10"}
    assert all("edition 1.10 of 2026-05-04" in foot for _, foot in same.values())
    about = (site / "about.html").read_text("utf-8")
    assert "<dt>Edition</dt><dd>edition 1.10 of 2026-05-04</dd>" in about

    case = small_course / "cases" / "clients.yml"
    case.write_text(case.read_text("utf-8") + "# A comment.\n", "utf-8")
    ((edition, foot),) = set(built().values())
    assert edition.startswith("1.10+")
    build = edition.removeprefix("1.10+")
    assert len(build) == 8
    assert f"changed since edition 1.10 of 2026-05-04, build {build}" in foot


def test_a_new_edition_is_a_change_of_the_course(run, small_course: Path) -> None:
    before = list(contents(small_course))
    keep(run, small_course, "1.0")
    assert list(contents(small_course)) != before


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("1.0.json", "{"),
        ("1.0.json", "[]"),
        ("1.0.json", '{"edition": "1.1", "date": "2026-01-01", "build": "01234567"}'),
        ("1.0.json", '{"edition": "1.0", "date": "June", "build": "01234567"}'),
        ("1.0.json", '{"edition": "1.0", "date": "2026-01-01", "build": "0123456"}'),
        ('1".json', '{"edition": "1\\"", "date": "2026-01-01", "build": "01234567"}'),
        ("deep.json", "[" * 200_000),
        ("notes.txt", "Not an edition."),
    ],
)
def test_what_is_no_edition_is_told_and_not_read(small_course: Path, name: str, text: str) -> None:
    folder = small_course / "editions"
    folder.mkdir()
    (folder / name).write_text(text, "utf-8")
    loaded = load(small_course)
    assert loaded.course.editions == ()
    assert [(one.code, one.file) for one in loaded.problems] == [("file-ignored", f"editions/{name}")]
