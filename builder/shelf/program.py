"""The program itself: where its schemas lie, and one hash of all but the course that results rest on."""

from __future__ import annotations

import sys
from functools import cache
from pathlib import Path

import platformdirs

import builder

from .digest import digest

OWN = (".py", ".j2", ".json", ".po", ".html", ".yml", ".css", ".js", ".svg")
"""Endings of the program's own files."""


def schemas_dir() -> Path:
    """The folder of the schemas: inside the installed package, or beside it in a source tree."""
    package = Path(builder.__file__).resolve().parent
    inside = package / "schemas"
    return inside if inside.is_dir() else package.parent / "schemas"


@cache
def program() -> str:
    """The hash of this program with its templates, styles, schemas and words, the libraries beside it by name
    and version, and the Python that runs it."""
    package = Path(builder.__file__).resolve().parent
    files = [path for path in package.rglob("*") if path.suffix in OWN] + list(schemas_dir().glob("*.json"))
    libraries = sorted(path.name for path in Path(platformdirs.__file__).parents[1].glob("*.dist-info"))
    names = ((path.relative_to(package.parent).as_posix(), path) for path in sorted(files))
    own = (part for name, path in names for part in (name.encode(), path.read_bytes()))
    return digest(sys.version.encode(), repr(libraries).encode(), *own)
