"""Checks of meaning: one rule a file, each a generator of faults, each with its help page as docstring."""

from .registry import CHECKS, check, problems_of
from .scope import Fault, Scope, plain

__all__ = ["CHECKS", "Fault", "Scope", "check", "plain", "problems_of"]
