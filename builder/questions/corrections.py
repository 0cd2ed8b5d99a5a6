"""Which correction a sign asks for, and which ones look as if it did."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.course import Correction, Course, Drill, DrillFault, Phase

from .pcg import Pcg32, seed_of
from .wording import Wording

WRONG = 3
"""Wrong corrections at most."""


@dataclass(frozen=True, slots=True)
class Asked:
    """One fault of a drill, with corrections of other faults beside its own."""

    drill: Drill
    phase: Phase
    fault: DrillFault
    wrong: tuple[tuple[Correction, DrillFault], ...]
    """Corrections that belong to another sign, each with the fault that it belongs to."""

    @property
    def right(self) -> Correction:
        """What to do first."""
        return self.fault.corrections[0]

    def question(self, wording: Wording) -> str:
        """The sign, and what is asked about it."""
        sign = self.fault.sign.strip().rstrip(".")
        return wording.text("fault-ask", phase=self.phase.label, sign=sign)


def asked(course: Course, drill: Drill) -> tuple[Asked, ...]:
    """Every fault of a drill, in order.

    The wrong corrections are drawn by a chance that the drill's and the fault's names settle, from the same
    drill first. Left out is what would be right as well (whatever some fault with the same sign asks for, at
    any place in its list) and whatever stops a drill: stopping is never wrong.
    """
    return tuple(
        Asked(drill, phase, fault, _wrong(course, drill, fault))
        for phase in drill.phases
        for fault in phase.faults
    )


def _wrong(course: Course, drill: Drill, fault: DrillFault) -> tuple[tuple[Correction, DrillFault], ...]:
    others = [one for name, one in sorted(course.drills.items()) if name != drill.name]
    faults = [other for one in (drill, *others) for other in _faults(one)]
    barred = {
        folded(correction.say)
        for other in faults
        if other.stop or other is fault or folded(other.sign) == folded(fault.sign)
        for correction in other.corrections
    }
    chance = Pcg32(seed_of(f"{drill.name}/{fault.id}"))
    found: dict[str, tuple[Correction, DrillFault]] = {}
    for pool in ([drill], others):
        pairs = [
            (correction, other) for one in pool for other in _faults(one) for correction in other.corrections
        ]
        for correction, other in chance.shuffled(pairs):
            if folded(correction.say) not in barred:
                found.setdefault(folded(correction.say), (correction, other))
    return tuple(list(found.values())[:WRONG])


def _faults(drill: Drill) -> Iterator[DrillFault]:
    return (fault for phase in drill.phases for fault in phase.faults)


def carry_on(wording: Wording) -> str:
    """The wrong answer to a sign that says stop."""
    return wording.text("fault-carry-on")


def folded(text: str) -> str:
    """A text for comparing: without its case, its spaces and its last point."""
    return " ".join(text.split()).casefold().rstrip(".")
