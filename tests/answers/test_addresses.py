"""Where pages are, and which there are."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builder.answers import Answers, addresses
from builder.course import About, Case, Client, Correction, Course, Drill, DrillFault, Exercise, Lesson, Phase

from ..exercises.exercises import case, table


def test_each_kind_of_page_has_its_address() -> None:
    assert addresses.client("wren") == "clients/wren.html"
    assert addresses.client("wren", "second") == "clients/wren.second.html"
    assert addresses.clients("measure", "angle") == "clients/index.html?measure=angle"
    assert addresses.table("plan") == "tables/plan.html"
    assert addresses.caution("pain") == "cautions/pain.html"
    assert addresses.quiz("check") == "quizzes/check.html"
    assert addresses.single("check", "q1,q2") == "quizzes/check.html?ask=q1,q2"
    assert addresses.quiz_part("check", 3) == "quizzes/check.3.js"
    assert addresses.drill("squat") == "drills/squat.html"
    assert addresses.drill_walk("squat") == "drills/squat.faults.html"
    assert addresses.position("standing") == "positions.html#standing"
    assert addresses.measure("angle") == "measures.html#angle"
    assert addresses.term("sem") == "glossary.html#sem"
    assert addresses.source("weir") == "sources.html#weir"
    assert addresses.lesson("lessons/foot.md") == "foot.html"
    assert addresses.lesson("lessons/part/foot.md") == "part/foot.html"
    assert addresses.lesson("lessons/README.md") == "index.html"
    assert addresses.lesson("lessons/part/README.md") == "part/index.html"


@pytest.mark.parametrize(
    ("folder", "to", "link"),
    [
        ("", "tables/plan.html", "tables/plan.html"),
        ("tables", "tables/plan.html", "plan.html"),
        ("clients", "measures.html#angle", "../measures.html#angle"),
        ("part/one", "index.html", "../../index.html"),
    ],
)
def test_a_link_is_relative_to_the_folder_of_its_page(folder: str, to: str, link: str) -> None:
    assert addresses.relative(folder, to) == link


def test_what_a_learner_can_try_as_the_browser_fills_it_in() -> None:
    assert addresses.of_tries("clients") == {
        "client": "{client}.html",
        "exercise": "{client}.{exercise}.html",
        "drill": "../drills/{drill}.faults.html",
        "quiz": "../quizzes/{quiz}.html",
        "ask": "../quizzes/{quiz}.html?ask={questions}",
    }


ALWAYS = {"index.html", "measures.html", "about.html", "search.html"}
LISTS = {"record.html", "clients/index.html"}
BARE = Course(About("c", "C"))


def pages(course: Course, **unread: set[str]) -> set[str]:
    found = list(addresses.every_page(Answers(course), unread))
    assert len(found) == len(set(found))
    return set(found)


def test_a_course_with_nothing_in_it_has_the_pages_that_every_site_has() -> None:
    assert pages(BARE) == set(addresses.every_page(Answers(BARE))) == ALWAYS


def test_a_list_of_lessons_needs_one_besides_the_home_page() -> None:
    home, foot = Lesson("lessons/index.md", "Home"), Lesson("lessons/foot.md", "Foot")
    assert pages(replace(BARE, lessons=(home,))) == ALWAYS
    assert pages(replace(BARE, lessons=(home, foot))) == {*ALWAYS, "lessons.html"}


def test_a_table_has_a_page_and_a_list() -> None:
    assert pages(replace(BARE, tables={"one": table("one", 5)})) - ALWAYS == {
        "tables/index.html",
        "tables/one.html",
    }


def test_the_first_exercise_stands_on_the_clients_own_page() -> None:
    wren, tern = case(3), case(7, "tern")
    course = replace(
        BARE,
        cases={"wren": wren, "tern": tern},
        exercises={
            "a": Exercise("a", "A", ("tern",), "x", {}),
            "b": Exercise("b", "B", "all", "x", {}),
            "c": Exercise("c", "C", ("wren",), "x", {}),
        },
    )
    own = {"clients/wren.html", "clients/tern.html"}
    assert pages(course) - ALWAYS - LISTS == {*own, "clients/wren.c.html", "clients/tern.b.html"}
    assert pages(replace(course, exercises={})) - ALWAYS - LISTS == own
    # Any of them may be the first, or a further one, while another could not be read.
    assert pages(course, exercise={"d"}) - ALWAYS - LISTS == own | {
        f"clients/{name}.html" for name in ("wren.b", "wren.c", "wren.d", "tern.a", "tern.b", "tern.d")
    }


def test_a_drill_has_a_walk_where_it_has_faults() -> None:
    fault = DrillFault("f", "Sign", "Cause", (Correction("Do this"),), stop=True)
    plain = Drill("plain", "Plain", ("Pain",), (Phase("go", "Go", ()),))
    faulty = Drill("faulty", "Faulty", ("Pain",), (Phase("go", "Go", (), faults=(fault,)),))
    assert pages(replace(BARE, drills={"plain": plain, "faulty": faulty})) == ALWAYS | {
        "drills/index.html",
        "drills/plain.html",
        "drills/faulty.html",
        "drills/faulty.faults.html",
    }


def test_what_could_not_be_read_has_its_pages_too() -> None:
    unread = {"case": {"wren"}, "quiz": {"check"}, "drill": {"squat"}, "caution": {"pain"}, "term": {"sem"}}
    assert pages(replace(BARE, cases={"wren": case(3)}), **unread) == ALWAYS | LISTS | {
        "clients/wren.html",
        "quizzes/index.html",
        "quizzes/check.html",
        "drills/index.html",
        "drills/squat.html",
        "drills/squat.faults.html",
        "cautions/index.html",
        "cautions/pain.html",
        "glossary.html",
    }


def test_pages_come_in_the_same_order_whatever_could_not_be_read() -> None:
    """What is unread is a set, and its order is by hash."""
    names = {f"n{number}" for number in range(20)}
    course = replace(BARE, cases={"wren": Case("wren", Client("Wren"), {})})
    found = list(addresses.every_page(Answers(course), {"case": names, "exercise": names}))
    clients = [page for page in found if page.startswith("clients/n") and page.count(".") == 1]
    assert clients == sorted(clients)
    walks = [page for page in found if page.startswith("clients/wren.n")]
    assert walks == sorted(walks)
    assert (len(clients), len(walks)) == (20, 20)
