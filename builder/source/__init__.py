"""Strict reading: YAML with a place for every node, schemas by kind, the course folder into the model."""

from .folder import NoCourse
from .loader import Loaded, load

__all__ = ["Loaded", "NoCourse", "load"]
