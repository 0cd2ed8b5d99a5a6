"""Files that begin with the hash of what they hold, so that a damaged one is as good as none."""

from __future__ import annotations

import os
import tempfile
from contextlib import suppress
from pathlib import Path

from .digest import digest


def read(path: Path, about: bytes = b"") -> bytes | None:
    """What was written under the same `about`; None where there is no such file, or it is damaged."""
    try:
        seal, _, body = path.read_bytes().partition(b"\n")
    except OSError:
        return None
    return body if seal == _seal(about, body) else None


def write(path: Path, body: bytes, about: bytes = b"", mode: int = 0o600) -> None:
    """Writes a file whole or not at all. One that cannot be written is left out, and nobody is told."""
    with suppress(OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=path.parent, suffix=path.suffix)
        try:
            with os.fdopen(handle, "wb") as stream:
                stream.writelines((_seal(about, body), b"\n", body))
            Path(name).chmod(mode)
            Path(name).replace(path)
        finally:
            Path(name).unlink(missing_ok=True)


def _seal(about: bytes, body: bytes) -> bytes:
    return digest(about, body).encode()
