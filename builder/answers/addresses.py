"""Addresses of pages, from the site's root. The one place that knows them, and which pages there are."""

from __future__ import annotations

import posixpath
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from pathlib import PurePosixPath

from builder.exercises import fault_walk

from .answers import Answers

HOME = "index.html"
LESSONS = "lessons.html"
CLIENTS = "clients/index.html"
TABLES = "tables/index.html"
CAUTIONS = "cautions/index.html"
QUIZZES = "quizzes/index.html"
DRILLS = "drills/index.html"
POSITIONS = "positions.html"
MEASURES = "measures.html"
GLOSSARY = "glossary.html"
SOURCES = "sources.html"
ABOUT = "about.html"
RECORD = "record.html"
RECORD_INDEX = "assets/record-index.js"
RECORD_ITEMS = "assets/record-items.js"
RECORD_SCRIPT = "assets/record.js"
HANDOVER_SCRIPT = "assets/handover.js"
CHANCES_SCRIPT = "assets/chances.js"
SEARCH = "search.html"
SEARCH_INDEX = "assets/search-index.js"
SEARCH_SCRIPT = "assets/search.js"
STYLE = "assets/casetrue.css"
SCRIPT = "assets/casetrue.js"
WALK_SCRIPT = "assets/walk.js"
ASKING_SCRIPT = "assets/asking.js"
NOTE_SCRIPT = "assets/note.js"
QUIZ_SCRIPT = "assets/quiz.js"
TASK_SCRIPT = "assets/task.js"
RESULT_SCRIPT = "assets/result.js"
DRAW_SCRIPT = "assets/draw.js"
PACER_SCRIPT = "assets/pacer.js"
FIGURE_SCRIPT = "assets/figure.js"
FILTER_SCRIPT = "assets/clients.js"
TODAY_SCRIPT = "assets/today.js"
PLAN_SCRIPT = "assets/plan.js"
PLAN_INDEX = "assets/plan-index.js"
MANIFEST = "manifest.webmanifest"
ICON = "assets/icon.svg"
KEEP_SCRIPT = "assets/keep.js"
WORKER = "sw.js"
OFFLINE = "offline.json"
OFFLINE_FILES = "offline-files.json"
EDUCATOR = "educator/index.html"
"""The educator's own pages, which no built site holds."""


def position_picture(name: str) -> str:
    """A position as a picture file."""
    return f"assets/position-{name}.svg"


def clients(choice: str, name: str) -> str:
    """The list of clients, narrowed down by `objective` or `measure`; see `web/filter-element.js`."""
    return f"{CLIENTS}?{choice}={name}"


def client(case: str, exercise: str | None = None) -> str:
    """A client's page; with `exercise`, the page of a further exercise for that client."""
    return f"clients/{case}.{exercise}.html" if exercise else f"clients/{case}.html"


def educator_items(objective: str) -> str:
    """Every question of an objective, with its answer, for the educator."""
    return f"educator/items-{objective}.html"


def workbook(quiz: str) -> str:
    """A quiz to be printed, without answers."""
    return f"educator/workbook-{quiz}.html"


def workbook_key(quiz: str) -> str:
    """The answers to a printed quiz."""
    return f"educator/key-{quiz}.html"


def walk(answers: Answers, case: str, exercise: str) -> str:
    """The page of a client's walk through an exercise; their own page holds the first."""
    return client(case, None if answers.exercises_of(case)[0] == exercise else exercise)


def table(name: str) -> str:
    return f"tables/{name}.html"


def caution(name: str) -> str:
    return f"cautions/{name}.html"


def quiz(name: str) -> str:
    return f"quizzes/{name}.html"


def single(quiz_name: str, questions: str) -> str:
    """A quiz's page that asks single questions: their ids, commas between; see `web/quiz-element.js`."""
    return f"{quiz(quiz_name)}?ask={questions}"


def task(quiz_name: str, draw: int, until: str) -> str:
    """A quiz's page that asks for a task: a draw until a day such as 2026-12-04; see `web/task.js`."""
    return f"{quiz(quiz_name)}?draw={draw}&until={until}"


def quiz_part(name: str, part: int | str) -> str:
    """A data file of a quiz."""
    return f"quizzes/{name}.{part}.js"


def drill(name: str) -> str:
    return f"drills/{name}.html"


def drill_walk(name: str) -> str:
    """The fault-finding walk through a drill."""
    return f"drills/{name}.faults.html"


def position(name: str) -> str:
    return f"{POSITIONS}#{name}"


def measure(name: str) -> str:
    return f"{MEASURES}#{name}"


def term(name: str) -> str:
    return f"{GLOSSARY}#{name}"


def source(name: str) -> str:
    return f"{SOURCES}#{name}"


def lesson(file: str) -> str:
    """The page of `lessons/x.md`; MkDocs puts it at the root."""
    inner = PurePosixPath(file).relative_to("lessons")
    stem = "index" if inner.stem == "README" else inner.stem
    return str(inner.with_name(stem + ".html"))


def relative(folder: str, to: str) -> str:
    """A link from a page in `folder` (empty for the root) to an address, which may carry a `#part`."""
    path, mark, part = to.partition("#")
    return _between(path, folder) + mark + part


_between = cache(posixpath.relpath)


def of_tries(folder: str) -> dict[str, str]:
    """What a learner can try, seen from a folder: addresses with `{name}` fields for the browser."""
    there = {
        "client": client("{client}"),
        "exercise": client("{client}", "{exercise}"),
        "drill": drill_walk("{drill}"),
        "quiz": quiz("{quiz}"),
        "ask": single("{quiz}", "{questions}"),
    }
    return {kind: relative(folder, address) for kind, address in there.items()}


def every_page(answers: Answers, unread: Mapping[str, Iterable[str]] | None = None) -> Iterator[str]:
    """The address of every page that the builder makes, those of lessons left out.

    `unread` holds, by kind, names that are written in the course and could not be read: their pages count.
    """
    course, lost = answers.course, unread or {}

    def names(kind: str, things: Iterable[str]) -> tuple[str, ...]:
        return tuple(dict.fromkeys((*things, *sorted(lost.get(kind, ())))))

    cases, quizzes = names("case", course.cases), names("quiz", course.quizzes)
    drills, tables = names("drill", course.drills), names("table", course.tables)
    cautions, unread_walks = names("caution", course.cautions), names("exercise", ())
    yield from (HOME, MEASURES, ABOUT, SEARCH)
    for page, things in (
        (LESSONS, [one for one in course.lessons if lesson(one.file) != HOME]),
        (RECORD, cases + quizzes),
        (POSITIONS, names("position", course.positions)),
        (GLOSSARY, names("term", course.terms)),
        (SOURCES, names("source", course.sources)),
        (CLIENTS, cases),
        (QUIZZES, quizzes),
        (DRILLS, drills),
        (TABLES, tables),
        (CAUTIONS, cautions),
    ):
        yield from (page,) if things else ()
    yield from map(quiz, quizzes)
    yield from map(table, tables)
    yield from map(caution, cautions)
    for name in cases:
        yield client(name)
        walked = answers.exercises_of(name)
        # A client's own page holds their first exercise; while some are unread, nobody knows which that is.
        yield from (client(name, one) for one in ((*walked, *unread_walks) if unread_walks else walked[1:]))
    for name in drills:
        yield drill(name)
        one = course.drills.get(name)
        if one is None or fault_walk(course, one) is not None:
            yield drill_walk(name)
