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

from builder.course import Course, Drill, Family
from builder.words import Words

from ..corrections import Asked, asked, carry_on
from ..item import Item
from ..options import lettered, shown
from ..units import fault_unit

FEWEST_WRONG = 2


def write(family: Family, course: Course, drill: Drill, words: Words) -> Iterator[Item]:
    for one in asked(course, drill):
        item = _item(family, one, words)
        if len(item.options) > FEWEST_WRONG:
            yield item


def _item(family: Family, one: Asked, words: Words) -> Item:
    belongs = {
        correction.say: words.say("That belongs to another sign: {sign}", sign=fault.sign)
        for correction, fault in one.wrong
    }
    if one.fault.stop:
        belongs[carry_on(words)] = words.say("This sign says stop.")
    name = f"{family.id}.{one.fault.id}"
    options = lettered(shown(name, [one.right.say, *belongs]), belongs)
    return Item(
        id=name,
        kind="one",
        objective=family.objective,
        stem=words.say("{drill}. {ask}", drill=one.drill.title, ask=one.question(words)),
        key=next(option.id for option in options if option.text == one.right.say),
        learnt=fault_unit(one.drill.name, one.fault.id),
        options=options,
        why=_why(one, words),
        source=one.drill.source,
        family=family.id,
        drill=one.drill.name,
    )


def _why(one: Asked, words: Words) -> str:
    said = [words.say("Likely cause: {cause}", cause=one.fault.cause)]
    if one.right.reply:
        said.append(one.right.reply)
    said += [
        words.say("If that does not help: {what}", what=next_one.say)
        for next_one in one.fault.corrections[1:]
    ]
    if one.fault.stop_when:
        said.append(words.say("When to stop: {when}", when=one.fault.stop_when))
    return "\n\n".join(said)
