"""What learners hand over: their records of practice, read with distrust, merged and summed up.

The file is defined by `schemas/record.schema.json`; the page My record writes it.
"""

from .reading import LARGEST, Refused, read
from .record import Attempt, Record, merge
from .summary import Learner, QuizScore, WalkScore, by_learner

__all__ = [
    "LARGEST",
    "Attempt",
    "Learner",
    "QuizScore",
    "Record",
    "Refused",
    "WalkScore",
    "by_learner",
    "merge",
    "read",
]
