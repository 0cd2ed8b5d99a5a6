"""Short digests by which it is told whether something has changed."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping


def digest(value: object, digits: int = 16) -> str:
    """So many hexadecimal digits of the SHA-256 of a plain value: texts, numbers, lists, and mappings in
    whatever order their keys stand."""
    text = json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"), default=_plain)
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:digits]


def _plain(value: object) -> object:
    return dict(value) if isinstance(value, Mapping) else str(value)
