"""Attempts and records, made short."""

from __future__ import annotations

import json
from typing import Any

DIGEST = "0123456789ab"


def attempt(id: str = "q-one", second: int = 0, **more: Any) -> dict[str, Any]:
    """An attempt at a question, held, so many seconds into a day."""
    at = f"2026-06-01T{second // 3600:02}:{second // 60 % 60:02}:{second % 60:02}.000Z"
    return {
        "kind": "question",
        "id": id,
        "digest": DIGEST,
        "at": at,
        "objective": "measure-ankle",
        "mark": 1,
        **more,
    }


def walk(id: str = "first-visit/tern-03", second: int = 0, **more: Any) -> dict[str, Any]:
    whole = {"kind": "walk", "objective": "", "harm": "none", "held": True}
    return attempt(id, second, **{**whole, **more})


def quiz(mark: float, held: bool, second: int = 0, id: str = "ankle-check") -> dict[str, Any]:
    return attempt(id, second, kind="quiz", objective="", mark=mark, held=held, quiz=id, seed=1)


def record(*attempts: dict[str, Any], **more: Any) -> dict[str, Any]:
    return {"format": 1, "course": "ankle-squat", "attempts": list(attempts), **more}


def raw(*attempts: dict[str, Any], **more: Any) -> bytes:
    return json.dumps(record(*attempts, **more)).encode()
