"""A word claims an accreditation that the course does not name.

What: a text says of the course, its certificate or its learners that they are certified, accredited or
licensed, and `accreditation` in course.yml is not filled in.

Why: a course of your own awards an assessment-based certificate. The other words promise that an outside body
stands behind it, and coaches and clients rely on that.

Example:

    title: Certified breathing coach

Cure: say "has passed the course", or name the accreditation in course.yml. "Licensed clinician" and the like
are always fine.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from builder.course import Place

from ..prose import texts
from ..scope import Fault, Scope

CODE = "wording"

_CLAIM = re.compile(r"\b(certified|accredited|licensed|licenced)\b", re.IGNORECASE)
_ABOUT = re.compile(
    r"\b(courses?|certificates?|certification|learners?|students?|trainees?|participants?|graduates?|you|your|"
    r"coach(es)?|trainers?|instructors?|program(me)?s?|training|class(es)?|lessons?|quiz(zes)?|diplomas?)\b",
    re.IGNORECASE,
)
_OTHERS = re.compile(
    r"\s+(\w+[\s-]+){0,2}?(clinicians?|physicians?|doctors?|physiotherapists?|therapists?|nurses?|midwi(fe|ves)|"
    r"professionals?|practitioners?|practices?|providers?|pharmacists?|psychologists?|dieti[ct]ians?|"
    r"dentists?|surgeons?|specialists?|health\w*|medical|clinics?|hospitals?|laborator(y|ies))\b",
    re.IGNORECASE,
)
_DENIED = re.compile(r"\b(not?|nobody|none|nothing|never|neither|nor|without)\b|n't\b", re.IGNORECASE)
_SENTENCE = re.compile(r"[^.!?\n]+(?:\n(?!\n)[^.!?\n]+)*")


def check(scope: Scope) -> Iterator[Fault]:
    if scope.course.about.accreditation or scope.about_unread:
        return
    for text in texts(scope.course):
        for _, word in claims(text.text):
            yield _fault(text.place, text.subject, word)
    for lesson in scope.course.lessons:
        written = scope.texts.get(lesson.file, "")
        for offset, word in claims(written):
            place = Place(lesson.file, written.count("\n", 0, offset) + 1)
            yield _fault(place, f"lesson:{lesson.file}", word)


def claims(text: str) -> Iterator[tuple[int, str]]:
    """The first claim of every sentence that makes one about the course, its certificate or its learners:
    where it stands in the text, and its word."""
    if not _CLAIM.search(text):
        return
    for sentence in _SENTENCE.finditer(text):
        said = sentence[0]
        denial = _DENIED.search(said)
        end = denial.start() if denial else len(said)
        made = (one for one in _CLAIM.finditer(said, 0, end) if not _OTHERS.match(said, one.end()))
        claim = next(made, None)
        if claim is not None and _ABOUT.search(said):
            yield sentence.start() + claim.start(), claim[0]


def _fault(place: Place, subject: str, word: str) -> Fault:
    message = f"“{word}” claims more than the course says it has."
    hint = "Say “has passed the course”, or name the `accreditation` in course.yml."
    return Fault(place, subject, message, hint)
