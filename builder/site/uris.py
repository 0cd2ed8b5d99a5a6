"""Addresses of pages, from the site's root. The one place that knows them."""

from __future__ import annotations

import posixpath
from functools import cache
from pathlib import PurePosixPath

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
RECORD_SCRIPT = "assets/record.js"
SEARCH = "search.html"
SEARCH_INDEX = "assets/search-index.js"
STYLE = "assets/casetrue.css"
SCRIPT = "assets/casetrue.js"
WALK_SCRIPT = "assets/walk.js"
QUIZ_SCRIPT = "assets/quiz.js"
PACER_SCRIPT = "assets/pacer.js"


def clients(choice: str, name: str) -> str:
    """The list of clients, narrowed down by `objective` or `measure`; see `web/filter-element.js`."""
    return f"{CLIENTS}?{choice}={name}"


def client(case: str, exercise: str | None = None) -> str:
    """A client's page; with `exercise`, the page of a further exercise for that client."""
    return f"clients/{case}.{exercise}.html" if exercise else f"clients/{case}.html"


def table(name: str) -> str:
    return f"tables/{name}.html"


def caution(name: str) -> str:
    return f"cautions/{name}.html"


def quiz(name: str) -> str:
    return f"quizzes/{name}.html"


def single(quiz_name: str, questions: str) -> str:
    """A quiz's page that asks single questions: their ids, commas between; see `web/quiz-element.js`."""
    return f"{quiz(quiz_name)}?ask={questions}"


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


def of_tries(here: str) -> dict[str, str]:
    """What a learner can try, seen from the page `here`: addresses with `{name}` fields for the browser."""
    there = {
        "client": client("{client}"),
        "exercise": client("{client}", "{exercise}"),
        "drill": drill_walk("{drill}"),
        "quiz": quiz("{quiz}"),
        "ask": single("{quiz}", "{questions}"),
    }
    return {kind: relative(here, address) for kind, address in there.items()}


def relative(here: str, to: str) -> str:
    """A link from the page `here` to `to`, which may carry a `#part`."""
    path, mark, part = to.partition("#")
    if path == here:
        return mark + part if mark else posixpath.basename(path)
    return _between(posixpath.dirname(here), path) + mark + part


@cache
def _between(folder: str, path: str) -> str:
    return posixpath.relpath(path, folder or ".")
