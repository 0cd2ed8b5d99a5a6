"""Templates kept in the compiled form where Python keeps its own: in `__pycache__` beside them.

Compiling them takes longer than making the pages of a small course. What is kept holds for one text of a
template, one program and the same settings; a file that is damaged or cannot be written is as good as
none. Templates of others, as an educator's own for a theme, are kept in memory only.
"""

from __future__ import annotations

import sys
from importlib.util import cache_from_source
from pathlib import Path
from types import CodeType

import jinja2
from jinja2.bccache import Bucket

import builder

from .cache import digest, program, read_sealed, write_sealed

PACKAGE = Path(builder.__file__).parent


class Compiled(jinja2.BytecodeCache):
    """Each template is compiled once: in memory for this run, on disk for the next."""

    def __init__(self) -> None:
        self._kept: dict[tuple[str, str], CodeType | None] = {}

    def get_cache_key(self, name: str, filename: str | None = None) -> str:
        return filename or name

    def load_bytecode(self, bucket: Bucket) -> None:
        made_from = _made_from(bucket)
        key = bucket.key, made_from
        if key not in self._kept and _is_own(bucket):
            body = read_sealed(_path(bucket), made_from.encode())
            if body is not None:
                bucket.bytecode_from_string(body)
                self._kept[key] = bucket.code
        bucket.code = self._kept.get(key)

    def dump_bytecode(self, bucket: Bucket) -> None:
        made_from = _made_from(bucket)
        self._kept[bucket.key, made_from] = bucket.code
        if _is_own(bucket) and not sys.dont_write_bytecode:
            # As Python's own: whoever may run the program may read it.
            write_sealed(_path(bucket), bucket.bytecode_to_string(), made_from.encode(), 0o644)


COMPILED = Compiled()
"""The one of this run."""


def _made_from(bucket: Bucket) -> str:
    """The hash of all that the compiled form depends on."""
    env = bucket.environment
    settings = (sorted(env.extensions), env.autoescape, env.trim_blocks, env.lstrip_blocks, env.optimized)
    return digest(program().encode(), repr(settings).encode(), bucket.checksum.encode())


def _is_own(bucket: Bucket) -> bool:
    return Path(bucket.key).is_relative_to(PACKAGE)


def _path(bucket: Bucket) -> Path:
    return Path(cache_from_source(bucket.key))
