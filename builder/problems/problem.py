"""One thing that is wrong with a course, in the educator's words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

Severity = Literal["error", "warning", "hint"]
"""A hint asks somebody to judge: it says that something may be wrong."""
Scalar = str | int | float | bool


@dataclass(frozen=True, slots=True)
class Problem:
    """What is wrong, where it stands and what to do about it.

    `severity` follows from `code` (see `codes.py`); it is stored so that writers need no registry.
    """

    code: str
    severity: Severity
    subject: str
    """What it is about, as `kind:name`, for example `table:ankle_class` or `rule:ankle_class/low`."""
    file: str
    """Path below the course folder, with `/`."""
    line: int
    column: int
    message: str
    """One sentence that stands alone."""
    hint: str = ""
    """The cure, or the nearest valid choice. May be empty."""
    example: Mapping[str, Scalar] | None = field(default=None)
    """For proofs: readings of one client who shows the fault, by measure name."""
    region: str = ""
    """For proofs: every client who shows the fault, in words. Text output only."""

    @property
    def order(self) -> tuple[str, int, int, str, str, str]:
        """Sorts problems in file order."""
        return (self.file, self.line, self.column, self.code, self.subject, self.message)
