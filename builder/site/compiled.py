"""Templates kept in the compiled form where Python keeps its own: in `__pycache__` beside them.

Compiling them takes longer than making the pages of a small course. What is kept holds for one text of a
template, one program and the same settings; a file that is damaged or cannot be written is as good as
none. Templates of others, as an educator's own for a theme, are kept in memory only.
"""

from __future__ import annotations

import os
import sys
import tempfile
from contextlib import suppress
from importlib.util import cache_from_source
from pathlib import Path
from types import CodeType

import jinja2
from jinja2.bccache import Bucket

import builder
from builder.shelf import digest, program

PACKAGE = Path(builder.__file__).parent


class Compiled(jinja2.BytecodeCache):
    """Each template is compiled once: in memory for this run, on disk for the next."""

    def __init__(self) -> None:
        self._kept: dict[tuple[str, str], CodeType | None] = {}

    def get_cache_key(self, name: str, filename: str | None = None) -> str:
        return filename or name

    def load_bytecode(self, bucket: Bucket) -> None:
        key = bucket.key, _made_from(bucket)
        if key not in self._kept and _is_own(bucket):
            with suppress(OSError):
                head, _, body = _path(bucket).read_bytes().partition(b"\n")
                if head == _seal(bucket, body):
                    bucket.bytecode_from_string(body)
                    self._kept[key] = bucket.code
        bucket.code = self._kept.get(key)

    def dump_bytecode(self, bucket: Bucket) -> None:
        self._kept[bucket.key, _made_from(bucket)] = bucket.code
        if sys.dont_write_bytecode or not _is_own(bucket):
            return
        path = _path(bucket)
        body = bucket.bytecode_to_string()
        with suppress(OSError):
            path.parent.mkdir(exist_ok=True)
            handle, name = tempfile.mkstemp(dir=path.parent, suffix=path.suffix)
            try:
                with os.fdopen(handle, "wb") as stream:
                    stream.writelines((_seal(bucket, body), b"\n", body))
                Path(name).chmod(0o644)  # as Python's own: whoever may run the program may read it
                Path(name).replace(path)
            finally:
                Path(name).unlink(missing_ok=True)


COMPILED = Compiled()
"""The one of this run."""


def _made_from(bucket: Bucket) -> str:
    """The hash of all that the compiled form depends on."""
    env = bucket.environment
    settings = (sorted(env.extensions), env.autoescape, env.trim_blocks, env.lstrip_blocks, env.optimized)
    return digest(program().encode(), repr(settings).encode(), bucket.checksum.encode())


def _seal(bucket: Bucket, body: bytes) -> bytes:
    """Fits one compiled form of one template only: what it does not fit is never taken for code."""
    return digest(_made_from(bucket).encode(), body).encode()


def _is_own(bucket: Bucket) -> bool:
    return Path(bucket.key).is_relative_to(PACKAGE)


def _path(bucket: Bucket) -> Path:
    return Path(cache_from_source(bucket.key))
