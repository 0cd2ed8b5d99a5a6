"""Shows a sign in a drill and asks what to do first.

The key is the first correction of the fault. The wrong options are corrections of other faults, of the same
drill where it has enough; none of them stands anywhere in the list of a fault with the same sign, and none
stops a drill, since stopping is never wrong. Where the sign says stop, carrying on is among them. The
explanation gives the likely cause and what to try next. There is no question about a fault for which fewer
than two wrong options can be found.

Example: `{id: g-faults, family: fault, drill: slow_squat, objective: coach-squat}` asks "Slow squat, go down:
The heels lift. What do you do first?" and so on, once for each fault of the drill.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Family

from ..corrections import Asked, asked, carry_on, folded
from ..frame import Answer, Draft, DrillFacts, Frame, Says
from ..units import fault_unit
from ..wording import Wording

FEWEST_WRONG = 2


def drafts(family: Family, about: DrillFacts) -> Iterator[Draft]:
    for one in asked(about.course, about.drill):
        yield _draft(one, about.wording)


def holds(family: Family, about: DrillFacts, says: Says) -> bool:
    """Whether some fault with the same sign asks for this, or the fault is one to stop at and this stops."""
    assert isinstance(says, tuple)
    fault, said = says
    drills = about.course.drills.values()
    known = [one for drill in drills for phase in drill.phases for one in phase.faults]
    sign = folded(next(one.sign for phase in about.drill.phases for one in phase.faults if one.id == fault))
    alike = [one for one in known if one.stop or folded(one.sign) == sign]
    return folded(said) in {folded(correction.say) for one in alike for correction in one.corrections}


def _draft(one: Asked, wording: Wording) -> Draft:
    wrong = [
        (correction.say, wording.text("fault-other-sign", sign=fault.sign)) for correction, fault in one.wrong
    ]
    if one.fault.stop:
        wrong.append((carry_on(wording), wording.text("fault-stop")))
    return Draft(
        of=one.fault.id,
        stem=wording.text("fault-stem", drill=one.drill.title, ask=one.question(wording)),
        right=Answer((one.fault.id, one.right.say), one.right.say),
        wrong=tuple(Answer((one.fault.id, said), said, why) for said, why in wrong),
        why=_why(one, wording),
        learnt=fault_unit(one.drill.name, one.fault.id),
        source=one.drill.source,
        drill=one.drill.name,
    )


def _why(one: Asked, wording: Wording) -> str:
    said = [wording.text("fault-cause", cause=one.fault.cause)]
    if one.right.reply:
        said.append(one.right.reply)
    said += [wording.text("fault-next", what=further.say) for further in one.fault.corrections[1:]]
    if one.fault.stop_when:
        said.append(wording.text("fault-stop-when", when=one.fault.stop_when))
    return "\n\n".join(said)


FRAME = Frame(("drill",), drafts, holds, FEWEST_WRONG)
