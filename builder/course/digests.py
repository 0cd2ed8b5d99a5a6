"""Short digests by which it is told whether something has changed."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Hashable, Mapping
from functools import lru_cache


def digest(value: object, digits: int = 16) -> str:
    """So many hexadecimal digits of the SHA-256 of a plain value: texts, numbers, lists, and mappings in
    whatever order their keys stand."""
    text = json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"), default=_plain)
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:digits]


@lru_cache(maxsize=4096)  # most questions share theirs with others
def digest_of_key(kind: str, right: Hashable) -> str:
    """Eight digits for what is right in a question or a step of this kind."""
    return digest([kind, right], 8)


def _plain(value: object) -> object:
    return dict(value) if isinstance(value, Mapping) else str(value)
