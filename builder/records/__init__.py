"""What learners hand over: their records of practice, read with distrust, merged and summed up.

The file is defined by `schemas/record.schema.json`; the page My record writes it.
"""

from .facts import Facts
from .handed_over import HandedOver, read_all
from .plausible import Reason, implausible
from .reading import LARGEST, Refused, read
from .record import Attempt, Record, has_changed, merge
from .summary import First, Learner, QuizScore, WalkScore, by_learner, right_of

__all__ = [
    "LARGEST",
    "Attempt",
    "Facts",
    "First",
    "HandedOver",
    "Learner",
    "QuizScore",
    "Reason",
    "Record",
    "Refused",
    "WalkScore",
    "by_learner",
    "has_changed",
    "implausible",
    "merge",
    "read",
    "read_all",
    "right_of",
]
