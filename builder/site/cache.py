"""What may be kept from one run to the next: files sealed with the hash of what they hold.

Two things are kept: templates in compiled form (compiled.py), and whether a written site is up to date (the
command `build`). All of it is read as data; a damaged or missing file costs time alone.
"""

from __future__ import annotations

import hashlib
import os
import sys
import tempfile
from contextlib import suppress
from functools import cache
from pathlib import Path

import platformdirs

import builder

OWN = (".py", ".j2", ".json", ".po", ".html", ".yml", ".css", ".js", ".svg")
"""Endings of the program's own files."""


def digest(*parts: bytes) -> str:
    """The hash of some bytes, each part kept apart from the next."""
    made = hashlib.blake2b(digest_size=16)
    for part in parts:
        made.update(len(part).to_bytes(8, "big"))
        made.update(part)
    return made.hexdigest()


@cache
def program() -> str:
    """The hash of this program with its templates, styles, schemas and words, the libraries beside it by name
    and version, and the Python that runs it."""
    package = Path(builder.__file__).resolve().parent
    files = [path for path in package.rglob("*") if path.suffix in OWN]
    files += (package.parent / "schemas").glob("*.json")  # in a source tree; a wheel has them in the package
    libraries = sorted(path.name for path in Path(platformdirs.__file__).parents[1].glob("*.dist-info"))
    names = ((path.relative_to(package.parent).as_posix(), path) for path in sorted(files))
    own = (part for name, path in names for part in (name.encode(), path.read_bytes()))
    return digest(sys.version.encode(), repr(libraries).encode(), *own)


def read_sealed(path: Path, about: bytes = b"") -> bytes | None:
    """What was written under the same `about`; None where there is no such file, or it is damaged."""
    try:
        seal, _, body = path.read_bytes().partition(b"\n")
    except OSError:
        return None
    return body if seal == _seal(about, body) else None


def write_sealed(path: Path, body: bytes, about: bytes = b"", mode: int = 0o600) -> None:
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
