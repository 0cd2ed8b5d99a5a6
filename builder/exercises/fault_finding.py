"""The fault-finding walk: every fault of a drill as it shows, computed from the drill."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from builder.course import SENDS_ON, Course, Drill, Harm
from builder.questions.corrections import Asked, asked, carry_on
from builder.questions.item import option_id
from builder.questions.units import fault_unit
from builder.questions.wording import Wording, wording_of
from builder.words import ENGLISH, Words

from .walk import Walk, WalkOption, WalkStep

DONE = "done"


def fault_walk(course: Course, drill: Drill, words: Words = ENGLISH) -> Walk | None:
    """A walk through the faults of a drill, in order, and then through its stop list; None without faults.

    At each step a sign is shown. The first correction is the best answer and leads on; corrections of other
    signs leave the sign as it is. To carry on where the sign, or the drill's stop list, says stop is serious
    harm. The walk belongs to no client.
    """
    faults = [one for one in asked(course, drill) if one.wrong or one.fault.stop]
    if not faults:
        return None
    names = [*(f"sign-{number}" for number in range(1, len(faults) + 1)), "stop"]
    objective = drill.objectives[0] if drill.objectives else None
    steps = {
        name: _sign(name, following, one, objective, wording_of(course, words))
        for (name, following), one in zip(pairwise(names), faults, strict=True)
    }
    steps["stop"] = _stop(course, drill, objective, words)
    steps[DONE] = WalkStep(DONE, "end", words.say("Every sign of this drill is dealt with."))
    return Walk(
        exercise=f"drill.{drill.name}",
        case="",
        title=words.say("Find the fault: {drill}", drill=drill.title),
        start=names[0],
        steps=steps,
        best_path=(*names, DONE),
    )


def _sign(name: str, following: str, one: Asked, objective: str | None, wording: Wording) -> WalkStep:
    fault, words = one.fault, wording.words
    stays = words.say("The sign stays: {sign}", sign=fault.sign)
    if fault.stop:
        stays = words.say("This sign says stop, and the drill went on.")
    harm: Harm = "minor" if fault.stop else "none"
    options = [WalkOption("", one.right.say, True, following, reply=one.right.reply)]
    options += [WalkOption("", wrong.say, False, name, harm, stays) for wrong, _ in one.wrong]
    if fault.stop:
        opens = (fault.caution,) if fault.caution else ()
        options.append(WalkOption("", carry_on(wording), False, name, "serious", stays, opens))
    lettered = tuple(replace(option, id=option_id(number)) for number, option in enumerate(options))
    learnt = fault_unit(one.drill.name, fault.id)
    return WalkStep(name, "ask", one.question(wording), lettered, objective=objective, learnt=learnt)


def _stop(course: Course, drill: Drill, objective: str | None, words: Words) -> WalkStep:
    asks = words.say(
        "At any time in this drill: {signs}. What do you do?",
        signs="; ".join(sign.strip().rstrip(".") for sign in drill.stop),
    )
    went_on = words.say("Each of these signs ends the drill at once.")
    stops = words.say("Stop, let the client breathe as they like, and look at what tells you to refer them")
    stopping = tuple(
        one.caution
        for one in drill.cautions
        if one.caution in course.cautions and course.cautions[one.caution].level in SENDS_ON
    )
    return WalkStep(
        "stop",
        "ask",
        asks,
        (
            WalkOption("a", stops, True, DONE, reply=words.say("Nothing is lost by stopping.")),
            WalkOption("b", words.say("Make it easier and go on"), False, "stop", "minor", went_on),
            WalkOption("c", carry_on(wording_of(course, words)), False, "stop", "serious", went_on, stopping),
        ),
        objective=objective,
        learnt=f"step:drill.{drill.name}/stop",
    )
