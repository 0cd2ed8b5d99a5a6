"""A lesson, or a file beside it, brings something that acts by itself.

What: a lesson holds a script, a frame, a `<meta>`, a handler such as `onclick`, or a link that is a script;
or a file beside the lessons is a program, a page of its own, or a drawing (SVG) with such things in it.

Why: whoever opens the site trusts it. Lessons may be written by many; none of them should be able to make
a page run, load or lead elsewhere. Text, pictures, sound and film do all that a lesson needs.

Example:

    <meta http-equiv="refresh" content="0; url=https://elsewhere.example/">

Cure: take it out. Link to a film elsewhere instead of framing it. Save a drawing as "plain SVG", or as a PNG.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator

from builder.course import Place

from ..active import Active, active, active_drawing, is_script
from ..scope import Fault, Scope

CODE = "active-content"

_PROGRAMS = (".js", ".mjs", ".cjs", ".wasm", ".swf", ".hta", ".php", ".cgi")
_TAG = re.compile("<[A-Za-z]")
_NAMED = re.compile(r"<?[\w:-]+")


def check(scope: Scope) -> Iterator[Fault]:
    for lesson in scope.course.lessons:
        text = scope.texts.get(lesson.file, "")
        told = {one.what: one for one in _in_lesson(text)}
        for one in told.values():
            message = f"`{one.what}` would act by itself, which nothing in a lesson may."
            yield _fault("lesson", lesson.file, text, one, message, "Take it out.")
    for file in scope.attached:
        text = scope.texts.get(file, "")
        ending = os.path.splitext(file.lower())[1]  # noqa: PTH122
        found = next(active_drawing(text) if ending == ".svg" else _in_file(text), None)
        if ending in _PROGRAMS:
            found = Active(ending, 0)
            message = "This file is a program; beside lessons lie only things to look at, hear and read."
            yield _fault("file", file, text, found, message, "Take it out of lessons/.")
        elif found is not None and ending == ".svg":
            message = f"This drawing holds `{found.what}`, which would act by itself."
            yield _fault("file", file, text, found, message, "Save it as “plain SVG”, or as a PNG.")
        elif found is not None:
            message = "This file is a page of its own, or part of one."
            yield _fault(
                "file", file, text, found, message, "Make it a lesson, or give it as a PDF or `.txt`."
            )


def _in_lesson(text: str) -> Iterator[Active]:
    """What a lesson would bring to its page. Only where a lesson writes HTML, or an address that could be a
    script, is it worth the time to look."""
    if not _TAG.search(text) and not is_script(text):
        return
    from markdown import markdown  # type: ignore[import-untyped]  # most lessons do without
    from mkdocs.utils.meta import get_data

    body, front = get_data(text)
    page = markdown(body, extensions=["toc", "tables", "fenced_code"])  # as MkDocs does
    written = text.lower()
    for one in (*active(page), *active(str(front))):
        name = _NAMED.match(one.what.lower())
        signs = (name[0] if name else one.what, "script:", "](", "]:")
        yield Active(one.what, next((written.index(sign) for sign in signs if sign in written), 0))


def _in_file(text: str) -> Iterator[Active]:
    yield from (Active(tag[0], tag.start()) for tag in re.finditer("<[A-Za-z!?]", text))


def _fault(kind: str, file: str, text: str, one: Active, message: str, hint: str) -> Fault:
    line = text.count("\n", 0, one.at) + 1
    column = one.at - text.rfind("\n", 0, one.at)
    return Fault(Place(file, line, column), f"{kind}:{file}", message, hint)
