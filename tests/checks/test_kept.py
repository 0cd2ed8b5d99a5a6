"""What checks found is never told again once anything has changed, and never differs from finding it anew."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from builder.checks import check, kept
from builder.problems import Problem
from builder.shelf import KEPT_FROM, Shelf
from builder.source import Loaded, load


class Checking:
    """Checks a course with a store, beside checking it without, and counts how often it was checked."""

    def __init__(self, course: Path, store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.course = course
        self.store = store
        self.times = 0

        def counted(loaded: Loaded, today: str | None = None) -> tuple[Problem, ...]:
            self.times += 1
            return check(loaded, today)

        monkeypatch.setattr(kept, "check", counted)

    def check(self, today: str | None = None, version: str = "1") -> bool:
        """Whether it was checked anew."""
        before, loaded = self.times, load(self.course)
        shelf = Shelf(self.course, "check", version, folder=self.store)
        assert kept.check_kept(self.course, loaded, today, shelf) == check(loaded, today)
        return self.times > before


@pytest.fixture
def checking(small_course: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Checking:
    table = small_course / "tables" / "plan.yml"
    table.write_text(table.read_text("utf-8").replace("stance: narrow", "stance: [narrow, hip]"), "utf-8")
    return Checking(small_course, tmp_path / "store", monkeypatch)


def test_nothing_is_checked_twice(checking: Checking) -> None:
    assert checking.check()
    assert not checking.check()
    assert checking.check(today="2031-01-01")
    assert not checking.check(today="2031-01-01")


def test_another_version_of_the_program_checks_anew(checking: Checking) -> None:
    checking.check()
    assert checking.check(version="2")


@pytest.mark.parametrize(
    "file",
    ["course.yml", "measures.yml", "tables/plan.yml", "cases/clients.yml", "lessons/index.md", "notes.yml"],
)
def test_any_change_is_checked(checking: Checking, file: str) -> None:
    checking.check()
    with (checking.course / file).open("a", encoding="utf-8") as stream:
        stream.write("\n# more\n")
    assert checking.check()
    assert not checking.check()


def test_a_file_that_moves_is_checked(checking: Checking) -> None:
    checking.check()
    (checking.course / "cases" / "clients.yml").rename(checking.course / "cases" / "people.yml")
    assert checking.check()


@pytest.mark.parametrize("damage", [b"", b"\xff\xfe", b"0" * 32 + b"\n{}", b'{"version":'])
def test_a_damaged_store_is_made_anew(checking: Checking, damage: bytes) -> None:
    checking.check()
    [file] = checking.store.iterdir()
    file.write_bytes(damage)
    assert checking.check()
    assert not checking.check()


def test_a_large_course_has_a_store_of_its_own(
    small_course: Path,
    course_folder: Callable[..., Path],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    kept.check_kept(small_course, load(small_course))
    assert list(tmp_path.glob("casetrue/build-*")) == []
    case = "- {{case: extra-{0}, client: {{name: X}}, readings: {{heel_pain: true}}}}\n"
    many = {"cases/more.yml": "".join(case.format(number) for number in range(KEPT_FROM))}
    large = course_folder(many, base=small_course)
    assert kept.check_kept(large, load(large)) == check(load(large))
    assert len(list(tmp_path.glob("casetrue/build-*"))) == 1
