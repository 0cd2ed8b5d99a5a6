"""Names that stand for learners' own, so that a page can lie on a desk."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence

from .names import same
from .summary import Learner

_LETTERS = "BCDFGHJKLMNPQRSTVWXZ"
"""Without vowels, and without what looks like a figure or another letter when written by hand."""
_SHORTEST = 2


def pseudonyms(learners: Sequence[Learner], course: str) -> tuple[str, ...]:
    """A letter and two or more figures for each learner, as `K42`: from the name (else device, else file) and
    the course alone, so that a coach keeps theirs from week to week. Two that would be alike get more
    figures. They hide a name from who glances at it, and from nobody who tries all names of the team."""
    digests = [_digest(one, course) for one in learners]
    marks = []
    for digest in digests:
        length = _SHORTEST
        while sum(_mark(other, length) == _mark(digest, length) for other in digests) > 1 and length < 18:
            length += 1
        marks.append(_mark(digest, length))
    return tuple(marks)


def _digest(learner: Learner, course: str) -> int:
    who = same(learner.name) or next(iter(learner.devices or learner.files))
    return int.from_bytes(hashlib.sha256(f"{course}\n{who}".encode()).digest(), "big")


def _mark(digest: int, length: int) -> str:
    letter, figures = digest % len(_LETTERS), digest // len(_LETTERS)
    return f"{_LETTERS[letter]}{figures % 10**length:0{length}}"
