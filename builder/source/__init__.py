"""Strict reading: YAML with a place for every node, schemas by kind, the course folder into the model."""

from typing import TYPE_CHECKING

from .folder import NoCourse

if TYPE_CHECKING:
    from .loader import Loaded, load

__all__ = ["Loaded", "NoCourse", "load"]


def __getattr__(name: str) -> object:
    """Imported when asked for: which files a course has is told without reading YAML."""
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from . import loader

    return getattr(loader, name)
