"""Reads a learner's record with distrust: it may be broken, foreign or made to do harm."""

from __future__ import annotations

import json
from typing import Any, Literal, NoReturn

from jsonschema import ValidationError

from builder.source.schemas import schema_files
from builder.source.validators import validator

from .names import shown
from .record import ANSWERS, Record
from .sound import sound

LARGEST = 16_000_000
"""Bytes."""
MOST = 20_000
"""Attempts."""

_NEWEST = 2
"""The format that is written."""
_ODD = "the file is not as the site writes records:"

Reason = Literal["size", "json", "record", "format", "course", "many", "part"]


class Refused(Exception):
    """Why a file is no record of this course; as text, one sentence in plain words."""

    def __init__(self, reason: Reason, message: str) -> None:
        super().__init__(message)
        self.reason: Reason = reason


def read(raw: bytes, course: str) -> Record:
    """The record in a file, with all attempts that are sound. Raises `Refused` for no record of `course`."""
    if len(raw) > LARGEST:
        raise Refused("size", "the file is too large to be a record.")
    file = _parsed(raw)
    if not isinstance(file, dict) or not {"format", "attempts"} <= file.keys():
        raise Refused("record", "the file is no learner's record.")
    number = _format_of(file["format"])
    _check_parts(file)
    if file["course"] != course:
        raise Refused("course", f"the record belongs to another course, {file['course']}.")
    attempts = file["attempts"]
    if len(attempts) > MOST:
        raise Refused("many", f"the file holds more than {MOST} attempts; no record is so long.")
    found = [sound(attempt) for attempt in (map(_converted, attempts) if number == 1 else attempts)]
    return Record(
        course,
        tuple(one for one in found if one is not None),
        shown(file.get("learner", "")),
        file.get("device", ""),
        shown(file.get("version", "")),
        file.get("build", ""),
        file.get("stopped", {}),
        tuple(place for place, one in enumerate(found, 1) if one is None),
    )


_RENAMED = {"seed": "draw", "certainty": "sure", "held": "passed"}


def _converted(attempt: Any) -> Any:
    """An attempt of format 1 as one of format 2, what it answered unknown. What is none stays none."""
    if not isinstance(attempt, dict):
        return attempt
    new = {name: one for name, one in attempt.items() if name not in _RENAMED}
    new |= {_RENAMED[name]: one for name, one in attempt.items() if name in _RENAMED}
    if attempt.get("kind") in ANSWERS:
        new["right"] = attempt.get("mark") == 1 and attempt.get("mark") is not True
        new["known"] = True
        new["mode"] = "quiz" if "seed" in attempt else "practise"
    return new


def _parsed(raw: bytes) -> Any:
    try:
        return json.loads(raw.decode("utf-8-sig"), parse_constant=_no_number)
    except (ValueError, RecursionError):
        raise Refused(
            "json",
            "the file cannot be read as a record. It may be cut off, or be the copy for spreadsheets.",
        ) from None


def _no_number(name: str) -> NoReturn:
    raise ValueError(name)


def _format_of(number: object) -> int:
    if isinstance(number, int | float) and not isinstance(number, bool) and number >= 1 and number % 1 == 0:
        if number <= _NEWEST:
            return int(number)
        raise Refused("format", "the record was written by a newer edition of Casetrue than this one.")
    raise Refused("record", "the file is no learner's record.")


def _check_parts(file: dict[str, Any]) -> None:
    """The parts around the attempts, which are looked at one by one."""
    attempts = file["attempts"]
    head = {**file, "attempts": [] if isinstance(attempts, list) else attempts}
    error: ValidationError | None = next(validator("record.schema.json").iter_errors(head), None)
    if error is None:
        return
    if error.path:
        raise Refused("part", f"{_ODD} its part {error.path[0]} cannot be read.")
    unknown = sorted(file.keys() - schema_files()["record.schema.json"]["properties"].keys())
    if not unknown:
        raise Refused("part", f"{_ODD} its part course is missing.")
    name = ascii(unknown[0])[1:-1][:60]
    raise Refused("part", f"the file has a part that this program does not know: {name}.")
