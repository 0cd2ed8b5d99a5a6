"""A name cannot be held by every machine, or cannot be read.

What: a file is named as Windows names its devices, ends in a dot or a space, holds one of `< > : " \\ | ? *`,
or differs from another only in capital letters; a page would be named so; or a client's name shows nothing,
or turns the direction in which what follows is read.

Why: somebody could not copy the course, or open its site; or would read another name than the one written.

Example:

    case: con              # Windows keeps con, nul, aux and others for itself

Cure: choose another name. Letters, digits, `-` and `_` are fine everywhere.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator

from builder.course import Place
from builder.source.files import alike

from ..scope import Fault, Scope

CODE = "name-unfit"

_SIGNS = re.compile(r'[<>:"\\|?*]')
_DEVICE = re.compile(r"(?:con|prn|aux|nul|conin\$|conout\$|(?:com|lpt)[0-9¹²³])", re.IGNORECASE)
"""Source: Microsoft, Naming Files, Paths, and Namespaces (from memory)."""
_TURNS = re.compile("[\u202a-\u202e\u2066-\u2069]")
"""Embeddings, overrides and isolates (Unicode Standard Annex 9)."""


def check(scope: Scope) -> Iterator[Fault]:
    yield from _files(scope)
    course = scope.course
    for kind, things in (
        ("table", course.tables),
        ("caution", course.cautions),
        ("case", course.cases),
        ("drill", course.drills),
        ("quiz", course.quizzes),
    ):
        for name, thing in things.items():
            if _DEVICE.fullmatch(name):
                message = f"No page can be called `{name}`: Windows keeps that name for a device."
                yield Fault(thing.origin.at(kind), f"{kind}:{name}", message, "Choose another name.")
    for name, case in course.cases.items():
        if not any(map(_is_seen, case.client.name)):
            message, hint = "The client's name shows nothing.", "Write a name, such as Tern."
        elif _TURNS.search(case.client.name):
            message = "The client's name holds a sign that turns the direction of what follows."
            hint = "Type the name again, without copying it."
        else:
            continue  # a place is found by reading the file once more
        yield Fault(case.origin.at("client", "name"), f"case:{name}", message, hint)


def _files(scope: Scope) -> Iterator[Fault]:
    first: dict[str, str] = {}
    for file in sorted({*scope.texts, *scope.attached}):
        wrong = next(filter(None, map(_wrong, file.split("/"))), None)
        if wrong is not None:
            yield Fault(Place(file), f"file:{file}", wrong, "Rename it.")
        other = first.setdefault(alike(file), file)
        if other != file and not file.startswith("lessons/"):
            message = f"The names of {other} and {file} differ only in capital letters."
            yield Fault(Place(file), f"file:{file}", message, "Rename one of them.")


def _wrong(part: str) -> str | None:
    """Why a file or folder cannot be called so."""
    sign = _SIGNS.search(part)
    if sign is not None:
        return f"`{part}` holds `{sign[0]}`, which no name on Windows may."
    if part.endswith((".", " ")):
        return f"`{part}` ends in a dot or a space, which Windows leaves out."
    if _DEVICE.fullmatch(part.split(".")[0].rstrip(" ")):
        return f"`{part}` is called like a device of Windows."
    return None


def _is_seen(sign: str) -> bool:
    """False for spaces, and for signs that only do something to others."""
    return unicodedata.category(sign)[0] not in "ZCM"
