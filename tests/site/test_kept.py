"""What is kept between builds is never stale, and a damaged store costs nothing but time."""

from __future__ import annotations

from collections.abc import Callable
from gettext import NullTranslations
from pathlib import Path

import pytest

from builder.course import Case
from builder.shelf import KEPT_FROM, Shelf
from builder.site import Page, Site, kept
from builder.site.kept import Made
from builder.site.pages import pages
from builder.source import load
from builder.words import ENGLISH, Words

Change = Callable[[Path], None]


class Counting:
    """Makes all of a site with a store, beside one made without, and tells what of clients was made anew."""

    def __init__(self, course: Path, store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.course = course
        self.store = store
        self.made: list[str] = []
        start = Site.start

        def counted(site: Site, here: str) -> None:
            if here.startswith(("clients/", "quizzes/")):
                self.made.append(here)
            start(site, here)

        monkeypatch.setattr(Site, "start", counted)

    def build(self, version: str = "1", words: Words = ENGLISH) -> tuple[Made, ...]:
        loaded = load(self.course)
        assert loaded.problems == ()
        self.made.clear()
        store = Shelf(self.course, "pages", version, folder=self.store)
        built = tuple(pages(Site(loaded.course, loaded.texts, words, store)))
        store.save()
        made = list(self.made)
        assert built == tuple(pages(Site(loaded.course, loaded.texts, words)))
        self.made = made
        return built


@pytest.fixture
def counting(small_course: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Counting:
    return Counting(small_course, tmp_path / "store", monkeypatch)


def test_nothing_is_made_twice(counting: Counting) -> None:
    first = counting.build()
    assert counting.made
    assert counting.build() == first
    assert counting.made == []


def replace(file: str, old: str, new: str) -> Change:
    def change(course: Path) -> None:
        text = (course / file).read_text("utf-8")
        assert old in text
        (course / file).write_text(text.replace(old, new), "utf-8")

    return change


def another_lesson(course: Path) -> None:
    (course / "lessons" / "squat.md").write_text("# Squat\n", "utf-8")


@pytest.mark.parametrize(
    "change",
    [
        replace("tables/ankle_class.yml", "below: 35", "below: 34"),
        replace("tables/plan.yml", "A wedge under the heels", "A plate under the heels"),
        replace("measures.yml", "label: Hip width", "label: Hip-wide"),
        replace("cautions/heel_pain_loading.yml", "Stop loading the foot.", "Stop."),
        replace("course.yml", 'number: "112"', 'number: "911"'),
        replace("course.yml", "Ask at the front desk", "Ring first"),
        replace("exercises/first-visit.yml", "title: First visit", "title: First hour"),
        replace("cases/clients.yml", "Tern", "Puffin"),
        another_lesson,
    ],
)
def test_a_change_makes_all_that_it_touches(counting: Counting, change: Change) -> None:
    """`Counting.build` itself compares with bodies made without a store."""
    counting.build()
    change(counting.course)
    counting.build()
    assert counting.made


def test_another_version_of_the_program_makes_all(counting: Counting) -> None:
    counting.build("1")
    made = list(counting.made)
    counting.build("2")
    assert counting.made == made


def test_another_language_makes_all(counting: Counting) -> None:
    counting.build()
    made = list(counting.made)
    counting.build(words=Words(NullTranslations(), "xx"))
    assert counting.made == made


def test_one_client_in_a_file_of_its_own_makes_one_page(counting: Counting) -> None:
    alone = counting.course / "cases" / "alone.yml"
    alone.write_text(
        "case: alone-01\nclient: {name: Auk}\n"
        "readings: {ankle_dorsiflexion: 44, heel_pain: false, stance: hip}\n"
    )
    counting.build()
    replace("cases/alone.yml", "Auk", "Razorbill")(counting.course)
    built = counting.build()
    own = {here for here in counting.made if here.startswith("clients/")} - {"clients/index.html"}
    assert own == {"clients/alone-01.html"}
    assert any("Razorbill" in made.body for made in built if isinstance(made, Page))


def test_a_lesson_that_keeps_its_title_makes_nothing_of_clients(counting: Counting) -> None:
    counting.build()
    lesson = counting.course / "lessons" / "knee-to-wall.md"
    lesson.write_text(lesson.read_text("utf-8") + "\nOne more thing.\n", "utf-8")
    counting.build()
    assert counting.made == []


@pytest.mark.parametrize("damage", [b"", b"\xff\xfe", b"0" * 32 + b"\n{}", b'{"version":'])
def test_a_damaged_store_is_made_anew(counting: Counting, damage: bytes) -> None:
    first = counting.build()
    [file] = counting.store.iterdir()
    file.write_bytes(damage)
    assert counting.build() == first
    assert counting.build() == first
    assert counting.made == []


def test_small_courses_keep_nothing(small_course: Path, tmp_path: Path) -> None:
    course = load(small_course).course
    assert kept.shelf_for(small_course, course, tmp_path) is None


def test_large_courses_keep_their_pages(small_course: Path, tmp_path: Path) -> None:
    course = load(small_course).course
    case = next(iter(course.cases.values()))
    many: dict[str, Case] = {f"case-{number}": case for number in range(KEPT_FROM)}
    object.__setattr__(course, "cases", many)
    assert kept.shelf_for(small_course, course, tmp_path) is not None
