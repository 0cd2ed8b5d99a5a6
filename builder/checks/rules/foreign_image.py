"""A picture from another place will not be shown.

What: a text or a lesson shows a picture by a web address.

Why: pages of the course ask nothing of other places: they work without a network, and nobody learns who reads
them. Only the picture's description is shown.

Example:

    text: "![A foot at the wall](https://pictures.example/foot.png)"

Cure: put the picture into a lesson's folder and name it from there, if its licence allows it.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Place

from ..markup import foreign_images
from ..prose import texts
from ..scope import Fault, Scope

CODE = "foreign-image"


def check(scope: Scope) -> Iterator[Fault]:
    for text in texts(scope.course):
        for address in foreign_images(text.text):
            yield _fault(text.place, text.subject, address)
    for file, found in scope.lesson_addresses:
        if found.is_image and found.is_foreign:
            yield _fault(Place(file, found.line), f"lesson:{file}", found.address)


def _fault(place: Place, subject: str, address: str) -> Fault:
    shown = address if len(address) <= 60 else address[:59] + "…"
    message = f"The picture {shown} lies outside the course and will not be shown."
    return Fault(place, subject, message, "Keep pictures in the course's own folder.")
