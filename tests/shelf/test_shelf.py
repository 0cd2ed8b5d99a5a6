"""What is kept between runs is found again, and never believed when it should not be."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from builder.shelf.digest import digest
from builder.shelf.shelf import MOST_FILES, Shelf
from builder.source import load

VALUE = {"a": [1, Decimal("1.10"), "é\u2028", None, True], "": {}}


def never() -> Any:
    raise AssertionError("made again")


def kept(tmp_path: Path, version: str = "1") -> Shelf:
    return Shelf(tmp_path / "course", "test", version, folder=tmp_path / "cache")


def fill(tmp_path: Path) -> Path:
    shelf = kept(tmp_path)
    shelf.get("name", "hash", lambda: VALUE)
    shelf.save()
    (path,) = (tmp_path / "cache").iterdir()
    return path


def test_what_was_kept_is_found(tmp_path: Path) -> None:
    fill(tmp_path)
    value = kept(tmp_path).get("name", "hash", never)
    assert value == VALUE
    assert str(value["a"][1]) == "1.10"


@pytest.mark.parametrize(
    ("name", "made_from", "version"), [("other", "hash", "1"), ("name", "new", "1"), ("name", "hash", "2")]
)
def test_another_name_hash_or_version_is_made_anew(
    tmp_path: Path, name: str, made_from: str, version: str
) -> None:
    fill(tmp_path)
    assert kept(tmp_path, version).get(name, made_from, lambda: "new") == "new"


@pytest.mark.parametrize("spoil", [b"", b"x", b"\xff\xfe", b"0" * 32 + b"\n{}"])
def test_a_damaged_file_is_made_anew(tmp_path: Path, spoil: bytes) -> None:
    path = fill(tmp_path)
    path.write_bytes(spoil)
    assert kept(tmp_path).get("name", "hash", lambda: "new") == "new"


def test_one_changed_byte_is_noticed(tmp_path: Path) -> None:
    path = fill(tmp_path)
    data = path.read_bytes()
    for index in range(0, len(data), 7):
        path.write_bytes(data[:index] + bytes([data[index] ^ 1]) + data[index + 1 :])
        assert kept(tmp_path).get("name", "hash", lambda: "new") == "new"


def test_a_folder_that_cannot_be_written_is_no_fault(tmp_path: Path) -> None:
    (tmp_path / "cache").write_text("a file in the way")
    shelf = kept(tmp_path)
    assert shelf.get("name", "hash", lambda: VALUE) == VALUE
    shelf.save()


def test_a_user_without_a_home_keeps_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    shelf = Shelf(tmp_path / "course", "test", "1", folder=Path("~", ".cache"))
    shelf.get("name", "hash", lambda: VALUE)
    shelf.save()
    assert list(tmp_path.iterdir()) == []


def test_what_was_not_asked_for_is_forgotten(tmp_path: Path) -> None:
    path = fill(tmp_path)
    shelf = kept(tmp_path)
    shelf.get("other", "hash", lambda: 1)
    shelf.save()
    assert b"name" not in path.read_bytes()


def test_a_turned_shelf_holds_what_was_asked_for_last(tmp_path: Path) -> None:
    fill(tmp_path)
    shelf = kept(tmp_path)
    shelf.get("name", "hash", never)
    shelf.get("other", "hash", lambda: 1)
    shelf.turn()
    assert shelf.get("other", "hash", never) == 1
    shelf.turn()
    assert shelf.get("name", "hash", lambda: 2) == 2
    shelf.turn()
    shelf.write()
    again = kept(tmp_path)
    assert again.get("name", "hash", never) == 2
    assert again.get("other", "hash", lambda: 3) == 3


def test_old_courses_make_room(tmp_path: Path) -> None:
    for number in range(MOST_FILES + 5):
        shelf = Shelf(tmp_path / str(number), "test", "1", folder=tmp_path / "cache")
        shelf.get("name", "hash", lambda: 1)
        shelf.save()
    assert len(list((tmp_path / "cache").iterdir())) == MOST_FILES


def test_parts_of_a_digest_are_kept_apart() -> None:
    assert digest(b"ab", b"c") != digest(b"a", b"bc")


@pytest.fixture
def big_course(course_folder: Callable[..., Path], small_course: Path) -> Path:
    case = "case: extra-{0}\nclient: {{name: X}}\nreadings: {{a: 0.{0}0, b: [{0}, 1.50], c: true}}\n"
    extra = {f"cases/extra-{number}.yml": case.format(number) for number in range(60)}
    return course_folder(
        {**extra, "cases/bad.yml": "case: bad\n", "cases/worse.yml": "case: ["}, base=small_course
    )


def test_a_warm_reading_equals_a_cold_one(
    big_course: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "user"))
    before = {path: path.read_bytes() for path in big_course.rglob("*") if path.is_file()}
    cold = load(big_course)
    assert len(list((tmp_path / "user" / "casetrue").iterdir())) == 1
    monkeypatch.setattr("builder.source.units.content", never)
    warm = load(big_course)
    assert warm == cold
    assert len(warm.problems) == 3
    case = "extra-7"
    assert warm.course.cases[case].origin.at("readings", "a") == cold.course.cases[case].origin.at(
        "readings", "a"
    )
    assert {path: path.read_bytes() for path in big_course.rglob("*") if path.is_file()} == before


def test_a_changed_file_is_read_again(
    big_course: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "user"))
    load(big_course)
    changed = big_course / "cases" / "extra-7.yml"
    changed.write_text(changed.read_text("utf-8").replace("name: X", "name: Changed"), "utf-8")
    shutil.copy(changed, big_course / "cases" / "extra-70.yml")
    loaded = load(big_course)
    assert loaded.course.cases["extra-7"].client.name == "Changed"
    assert "duplicate-name" in {problem.code for problem in loaded.problems}
