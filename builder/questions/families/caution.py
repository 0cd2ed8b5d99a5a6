"""Asks what a client's findings ask of the coach: go on, adapt, refer, or call for help.

The right answer is the gravest level among the cautions that the client meets, where to watch is to go on; it
is at least to refer where any table sends the client on. To ask for less than that is an unsafe answer: it is
serious where the right one is to refer or to call, else minor. It counts as serious only where the chance of
meeting what asks for it is high enough (course format, second edition, "Unsafe answers").

Example: `{id: g-heed, family: caution, cases: all, objective: screen-ankles}` asks "Tern: what do these
findings ask of you?" and so on, once for each client.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from builder.course import Caution, Family, Harm, Level
from builder.decide.evaluate import meets
from builder.decide.harm import SURELY, ActedOn
from builder.decide.thresholds import at_least

from ..frame import Answer, ClientFacts, Draft, Frame, Says
from ..units import caution_unit, rule_unit

Ask = Literal["go-on", "adapt", "refer", "call"]
ASKS: tuple[Ask, ...] = ("go-on", "adapt", "refer", "call")
"""From the least to the most."""
_OF_LEVEL: dict[Level, Ask] = {"watch": "go-on", "adapt": "adapt", "refer": "refer", "urgent": "call"}


def drafts(family: Family, about: ClientFacts) -> Iterator[Draft]:
    if not about.course.cautions:
        return
    key = _key(about)
    asking = [caution for caution in about.met if _OF_LEVEL[caution.level] == key]
    ending = _ending(about)
    surely = _is_sure(about, key, asking, ending)
    text = about.wording.text

    def wrong(ask: Ask) -> Answer:
        if ASKS.index(ask) > ASKS.index(key):
            return Answer(
                ask, text(f"caution-{ask}"), text("caution-more"), ActedOn("none", overcautious=True)
            )
        stops = key in ("refer", "call")
        harm: Harm = "serious" if stops else "minor"
        passed = tuple(ending) if stops and ask in ("go-on", "adapt") else ()
        acted = ActedOn(harm, passed_on=passed, unsure=not surely)
        return Answer(ask, text(f"caution-{ask}"), text("caution-less"), acted, "ignored")

    told = [text("caution-met", cautions="; ".join(caution.title for caution in asking))] if asking else []
    for name in ending if key == "refer" else ():
        table = about.course.tables[name]
        label = table.outcomes[about.outcome(name) or ""].label
        told.append(text("caution-ends", question=table.question, outcome=label))
    if key == "go-on":
        told.append(text("caution-none"))
    yield Draft(
        of=about.case.name,
        stem=text("caution-stem", client=about.case.client.name),
        right=Answer(key, text(f"caution-{key}")),
        wrong=tuple(wrong(ask) for ask in ASKS if ask != key),
        why="\n\n".join(told),
        learnt=_unit(about, key, asking, ending),
        order=ASKS,
        asks=text("caution-list"),
        source=next((caution.source for caution in asking if caution.source), None),
        case=about.case.name,
        right_name=key,
        sends={"call": "stopped", "refer": "referred"}.get(key),  # type: ignore[arg-type]
        stops=("refer", "call") if key == "refer" else ("call",) if key == "call" else (),
    )


def holds(family: Family, about: ClientFacts, says: Says) -> bool:
    """Whether no more and no less is asked for, by every caution and every table of the course."""
    cautions = [one for one in about.course.cautions.values() if meets(one, about.found)]
    asked = [ASKS.index(_OF_LEVEL[caution.level]) for caution in cautions]
    for name, came_to in about.outcomes.items():
        outcome = about.course.tables[name].outcomes.get(came_to or "")
        if outcome is not None and outcome.ends:
            asked.append(ASKS.index("refer"))
    return says == ASKS[max(asked, default=0)]


def chance(family: Family, about: ClientFacts) -> float | None:
    """At least how sure it is that every caution is met or not met, and every table sends on or does not, as
    recorded: 1 less the chances that one of them is otherwise (Bonferroni's inequality). None where one of
    them is not known."""
    otherwise = 0.0
    met = {caution.name for caution in about.met}
    for name in about.course.cautions:
        meeting = about.weighed.chance_of_meeting[name] if name in about.well_formed else None
        if meeting is None:
            return None
        otherwise += 1 - meeting if name in met else meeting
    ending = _ending(about)
    for name in about.explained:
        if name in about.well_formed and about.outcome(name) is not None:
            ends = about.weighed.chance_of_ending(name)
            if ends is None:
                return None
            otherwise += 1 - ends if name in ending else ends
    return max(0.0, 1 - otherwise)


def _key(about: ClientFacts) -> Ask:
    asked: list[Ask] = [_OF_LEVEL[caution.level] for caution in about.met]
    if _ending(about):
        asked.append("refer")
    return max(asked, key=ASKS.index, default="go-on")


def _ending(about: ClientFacts) -> list[str]:
    """The tables that send the client on, in pathway order."""
    names = (name for name in about.explained if about.outcome(name) is not None)
    return [name for name in names if about.course.tables[name].outcomes[about.outcome(name) or ""].ends]


def _is_sure(about: ClientFacts, key: Ask, asking: list[Caution], ending: list[str]) -> bool:
    """Whether what asks for the key is surely there: one of its cautions, or a table that sends on."""
    chances = [
        about.weighed.chance_of_meeting[one.name] if one.name in about.well_formed else None for one in asking
    ]
    if key == "refer":
        chances += [about.weighed.chance_of_ending(name) for name in ending]
    return any(one is None or at_least(one, SURELY) for one in chances)


def _unit(about: ClientFacts, key: Ask, asking: list[Caution], ending: list[str]) -> str:
    if asking and key != "go-on":
        return caution_unit(asking[0].name)
    if key == "refer" and ending:
        return rule_unit(about.explained[ending[0]].decision)
    return caution_unit("")


FRAME = Frame(("cases",), drafts, holds, chance=chance)
