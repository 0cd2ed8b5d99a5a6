"""Draws a phase of a drill and asks what is seen.

Asked once for each fault that `shows` something, and once for each phase that `looks` good, of which the
right answer is that nothing is off. Wrong ones are the other signs of the drill, those first that would
look most like what is drawn. A sign is left out where all that tells it is to be seen in the drawing as
well; one without `shows` is never offered, since no drawing can say that it is not there. There is no
question about a fault that looks as the phase does when it is good, or whose sign the question would tell,
nor about a drill without a position, which cannot be drawn.

Example: `{id: g-look, family: look, drill: slow_squat, objective: coach-squat}` asks "Slow squat. Go down:
what do you see?" and so on, beside the drawing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from builder.course import Drill, DrillFault, Family, Phase, are_alike, seen

from ..corrections import folded
from ..figures import LookFigure, phase_of
from ..frame import Answer, Draft, DrillFacts, Frame, Says
from ..units import fault_unit, phase_unit

WRONG = 4


@dataclass(frozen=True, slots=True)
class _Claim:
    """That this is seen in a drawing."""

    figure: LookFigure
    fault: str | None
    """None: nothing is off."""


def drafts(family: Family, about: DrillFacts) -> Iterator[Draft]:
    if about.drill.position is None:
        return
    for phase in about.drill.phases:
        if phase.looks:
            yield _draft(about, phase, None)
        for fault in phase.faults:
            if not are_alike(seen(phase, fault), seen(phase)):
                draft = _draft(about, phase, fault)
                if folded(fault.sign) not in folded(draft.stem):
                    yield draft


def holds(family: Family, about: DrillFacts, says: Says) -> bool:
    """Whether the phase is drawn as it is when good, or all that tells the fault is to be seen."""
    assert isinstance(says, _Claim)
    phase, fault = phase_of(about.drill, says.figure)
    drawn = seen(phase, fault)
    if says.fault is None:
        return are_alike(drawn, seen(phase))
    its, claimed = next((p, f) for p, f in _faults(about.drill) if f.id == says.fault)
    # What is told by nothing holds everywhere, and so is never offered.
    return all(values <= set(drawn[term]) for term, values in _told_by(its, claimed).items())


def _draft(about: DrillFacts, phase: Phase, fault: DrillFault | None) -> Draft:
    drill, text = about.drill, about.wording.text
    figure = LookFigure(drill.name, phase.id, fault.id if fault else None)
    nothing = _Claim(figure, None)
    signs = {_Claim(figure, one.id): one for _, one in _faults(drill)}

    def like(one: DrillFault) -> int:
        """In how many terms it would look otherwise."""
        drawn, there = seen(phase, fault), seen(phase, one)
        return sum(set(drawn[term]) != set(there[term]) for term in drawn)

    others = sorted(
        (claim for claim in signs if claim.fault != figure.fault), key=lambda one: like(signs[one])
    )
    wrong = [Answer(claim, signs[claim].sign, text("look-other")) for claim in others]
    if fault is not None:
        wrong.insert(0, Answer(nothing, text("look-nothing"), text("look-missed", sign=fault.sign)))
        right, learnt = Answer(_Claim(figure, fault.id), fault.sign), fault_unit(drill.name, fault.id)
        why = text("fault-cause", cause=fault.cause)
    else:
        right, learnt = Answer(nothing, text("look-nothing")), phase_unit(drill.name, phase.id)
        why = "\n\n".join([text("look-sound"), *phase.good])
    return Draft(
        of=fault.id if fault else f"sound.{phase.id}",
        stem=text("look-stem", drill=drill.title, phase=phase.label),
        right=right,
        wrong=tuple(wrong),
        why=why,
        learnt=learnt,
        order=(*signs, nothing),
        source=drill.source,
        drill=drill.name,
        right_name=learnt,
        figure=figure,
    )


def _faults(drill: Drill) -> Iterator[tuple[Phase, DrillFault]]:
    """Every fault with its phase."""
    return ((phase, fault) for phase in drill.phases for fault in phase.faults)


def _told_by(phase: Phase, fault: DrillFault) -> Mapping[str, set[str]]:
    """What a fault is told by: what its phase does not show when it is good; where it only lacks something,
    all that is left of it."""
    good = seen(phase)
    return {
        term: set(values) - set(good[term]) or set(values)
        for term, values in fault.shows.items()
        if set(values) != set(good[term])
    }


FRAME = Frame(("drill",), drafts, holds, most_wrong=WRONG)
