"""One hash for all that is kept."""

from __future__ import annotations

import hashlib


def digest(*parts: bytes) -> str:
    """The hash of some bytes, each part kept apart from the next."""
    made = hashlib.blake2b(digest_size=16)
    for part in parts:
        made.update(len(part).to_bytes(8, "big"))
        made.update(part)
    return made.hexdigest()
