"""Attempts and records, made short."""

from __future__ import annotations

import json
from typing import Any

from builder.records import Attempt

DIGEST = "0123456789ab"


def attempt(id: str = "q-made", second: int = 0, **more: Any) -> dict[str, Any]:
    """An attempt at a question that no course has, right, so many seconds into a day."""
    whole = {
        "kind": "question",
        "id": id,
        "digest": DIGEST,
        "at": moment(second),
        "objective": "measure-ankle",
        "mark": 1,
        **more,
    }
    if whole["kind"] in ("question", "step"):
        whole = {"right": whole["mark"] == 1, "known": True, "mode": "practise", **whole}
    return whole


def attempt_of(data: dict[str, Any]) -> Attempt:
    """An entry of a file, whole or not, as it is held."""
    return Attempt(**{name: tuple(one) if isinstance(one, list) else one for name, one in data.items()})


def moment(second: int) -> str:
    return f"2026-06-01T{second // 3600:02}:{second // 60 % 60:02}:{second % 60:02}.000Z"


def step(id: str = "first-visit/tern-03/class", second: int = 0, **more: Any) -> dict[str, Any]:
    return attempt(id, second, kind="step", **more)


def walk(id: str = "first-visit/tern-03", second: int = 0, **more: Any) -> dict[str, Any]:
    whole = {"kind": "walk", "objective": "", "harm": "none", "passed": True}
    return attempt(id, second, **{**whole, **more})


def quiz(mark: float, passed: bool, second: int = 0, id: str = "ankle-check", **more: Any) -> dict[str, Any]:
    whole = {"kind": "quiz", "objective": "", "mark": mark, "passed": passed, "quiz": id, "draw": 1}
    return attempt(id, second, **{**whole, **more})


def record(*attempts: dict[str, Any], **more: Any) -> dict[str, Any]:
    return {"format": 2, "course": "ankle-squat", "attempts": list(attempts), **more}


def raw(*attempts: dict[str, Any], **more: Any) -> bytes:
    return json.dumps(record(*attempts, **more)).encode()


def old(id: str = "q-made", second: int = 0, **more: Any) -> dict[str, Any]:
    """An attempt as format 1 wrote it."""
    parts = (id, DIGEST, moment(second), "measure-ankle", 1)
    names = ("id", "digest", "at", "objective", "mark")
    return {"kind": "question", **dict(zip(names, parts, strict=True)), **more}
