"""What is made once for several clients or pages is what each would have been given alone."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path
from random import Random

import pytest

from builder.answers import Answers
from builder.course import Course
from builder.site import Page, Site
from builder.site.page import Made
from builder.site.pages.clients import client
from builder.site.pages.quizzes import pages as quizzes
from builder.source import load
from tests.bench.large_course import write

DEMO = Path(__file__).parents[2] / "course_src"


def crowded(course: Path, folder: Callable[..., Path]) -> Path:
    """The small course with clients of whom many share some of their readings and few share all."""
    chance, cases = Random(7), []
    for number in range(60):
        trials = [chance.choice((30, 34, 35, 40)) for _ in range(chance.choice((1, 1, 2)))]
        pain, stance = chance.choice(("true", "false")), chance.choice(("narrow", "hip", "wide"))
        readings = f"{{ankle_dorsiflexion: {trials}, heel_pain: {pain}, stance: {stance}}}"
        cases.append(f"- {{case: one-{number}, client: {{name: One {number}}}, readings: {readings}}}\n")
    return folder({"cases/crowd.yml": "".join(cases)}, base=course)


def alone(course: Course, case: str) -> tuple[Page, ...]:
    return tuple(client(Site(Answers(course), {}), course.cases[case]))


def drawn(made: Iterable[Made]) -> tuple[tuple[str, str], ...]:
    """Address and text of each."""
    return tuple((one.uri, one.draw()) for one in made)


@pytest.mark.parametrize("name", ["crowded", "demo", "large"])
def test_a_client_among_others_has_the_page_of_a_client_alone(
    name: str, small_course: Path, course_folder: Callable[..., Path], tmp_path: Path
) -> None:
    makers = {
        "crowded": lambda: crowded(small_course, course_folder),
        "demo": lambda: DEMO,
        "large": lambda: write(tmp_path, 60),
    }
    course = load(makers[name]()).course
    shared = Site(Answers(course), {})
    for case in course.cases.values():
        assert drawn(client(shared, case)) == drawn(alone(course, case.name)), case.name


def test_quizzes_after_clients_are_quizzes_alone(
    small_course: Path, course_folder: Callable[..., Path]
) -> None:
    course = load(crowded(small_course, course_folder)).course
    first = drawn(quizzes(Site(Answers(course), {})))
    later = Site(Answers(course), {})
    for case in course.cases.values():
        drawn(client(later, case))
    assert drawn(quizzes(later)) == first
