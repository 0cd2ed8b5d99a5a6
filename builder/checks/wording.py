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

from .prose import texts
from .scope import Fault, Scope

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
        for word in _claims(text.text):
            yield Fault(
                text.place,
                text.subject,
                f"“{word}” claims more than the course says it has.",
                "Say “has passed the course”, or name the `accreditation` in course.yml.",
            )


def _claims(text: str) -> Iterator[str]:
    if not _CLAIM.search(text):
        return
    for sentence in _SENTENCE.findall(text):
        for claim in _CLAIM.finditer(sentence):
            denied = _DENIED.search(sentence[: claim.start()])
            if not denied and not _OTHERS.match(sentence, claim.end()) and _ABOUT.search(sentence):
                yield claim[0]
