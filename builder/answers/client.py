"""One client and everything that the course says about them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from functools import cached_property

from builder.course import Case, Caution, Harm, Reading
from builder.decide.asking import Asking, asking, least_minutes
from builder.decide.budget import Unfinished
from builder.decide.doubt import Chance, chance_of_meeting, chances
from builder.decide.evaluate import Decision, decide, met
from builder.decide.explain import Explanation, explain
from builder.decide.found import Found, find
from builder.decide.harm import SURELY, ActedOn, acted_on, judged
from builder.decide.near_lines import NearLine, is_known_near, near_lines
from builder.decide.nearest import Change, nearest
from builder.decide.needs import Needs, needs
from builder.decide.retest import Retested, retest
from builder.decide.thresholds import at_least
from builder.exercises import Walk, bind_walk
from builder.questions import ClientFacts, Item, item_about

from .on_demand import OnDemand
from .rules import Rules


class ClientAnswers:
    """Everything that a course says about one client, each thing made once and only when it is asked for.

    Mappings by table hold well-formed tables alone, but `explained` and `decisions`, which hold all.
    """

    def __init__(self, rules: Rules, case: Case) -> None:
        self._rules = rules
        self.case = case
        self.lines = OnDemand[str, tuple[NearLine, ...]](
            lambda table: near_lines(rules.space, self.found, table)
        )
        """Table to the nearest lines of every number that could turn it; to be asked by key."""
        self.nearest = OnDemand[str, tuple[Change, ...]](
            lambda table: nearest(rules.space, self.found, table)
        )
        """Table to the cheapest other readings that lead elsewhere; to be asked by key."""
        self.known_near = OnDemand[str, bool](
            lambda table: is_known_near(rules.space, self.found, table, case.near_cut)
        )
        """Table to whether the author names the number whose line is nearest; to be asked by key."""
        self.chance_of_meeting = OnDemand[str, float | None](
            lambda caution: chance_of_meeting(rules.space, self.found, caution)
        )
        """Caution to the chance of meeting it, None where it cannot be told; to be asked by key."""
        self.needs = OnDemand[str, Needs](self._needs)
        """Table to what must be known to decide it; to be asked by key."""
        self.asking = OnDemand[str, Asking | None](self._asking)
        """Table to what must have been asked before it is decided; None where there is no outcome, or the
        table is too large; to be asked by key."""
        self.acted_on = OnDemand[str, Mapping[str, ActedOn]](
            lambda table: {
                answer: self._weighed(one)
                for answer, one in acted_on(
                    rules.course, rules.graph, self.found, self.decisions, self.met, table
                ).items()
            }
        )
        """Table to what acting on each outcome but the key would have come to; to be asked by key."""
        self.walks = OnDemand[str, Walk](self._walk)
        """Exercise to this client's walk through it; to be asked by key."""
        self.items = OnDemand[str, Item | None](lambda family: item_about(rules.families[family], self))
        """Family to its question about this client; to be asked by key."""

    @cached_property
    def facts(self) -> ClientFacts:
        """What families of questions are told."""
        rules = self._rules
        return ClientFacts(
            rules.course,
            self.case,
            self.found,
            self.found_again,
            self.explained,
            self.met,
            self.acted_on,
            rules.wording,
            rules.said,
            rules.lines,
            self,
            rules.well_formed,
        )

    @cached_property
    def found(self) -> Found:
        """What was found of the client."""
        return find(self._rules.course, self.case.readings)

    @cached_property
    def found_again(self) -> Found | None:
        """What was found at the re-test; None for a client who was not tested again."""
        again = self.case.retest
        return None if again is None else find(self._rules.course, again.readings)

    @cached_property
    def explained(self) -> Mapping[str, Explanation]:
        """Table to its decision with the reasons, in pathway order."""
        told = explain(self._rules.course, self.found, self._rules.order)
        return {one.decision.table: one for one in told}

    @cached_property
    def decisions(self) -> Mapping[str, Decision]:
        """Table to its decision, in pathway order."""
        return {table: one.decision for table, one in self.explained.items()}

    @cached_property
    def met(self) -> tuple[Caution, ...]:
        """The cautions that the client meets, by name."""
        return met(self._rules.course, self.found)

    @cached_property
    def chances(self) -> Mapping[str, Chance]:
        """Table to how sure its outcomes are."""
        return chances(self._rules.space, self.found)

    def chance_of_key(self, table: str) -> float | None:
        """How sure the outcome of a table is; None where there is no outcome, or the table is not
        well-formed."""
        outcome = self.decisions[table].outcome
        if outcome is None or table not in self._rules.space.tables:
            return None
        return self.chances[table].chance[outcome]

    def judged(self, means: Mapping[str, str], written: Harm) -> ActedOn:
        """What acting on outcomes of several tables at once would have come to, and what is written of it."""
        course = self._rules.course
        return self._weighed(
            judged(course, self._rules.graph, self.found, self.decisions, self.met, means, written)
        )

    def _weighed(self, one: ActedOn) -> ActedOn:
        """What is serious counts where it surely is: where the chance of meeting a caution that is broken,
        or of the outcomes that should have stopped the client together, is enough. A chance that cannot be
        told is taken as recorded."""
        if one.computed != "serious":
            return one
        known = self._rules.space.cautions
        chances = [
            self.chance_of_meeting[breach.caution] if breach.caution in known else None
            for breach in one.breaks
        ]
        chances += [self.chance_of_ending(table) for table in one.passed_on]
        return replace(one, unsure=not any(chance is None or at_least(chance, SURELY) for chance in chances))

    def chance_of_ending(self, table: str) -> float | None:
        """How sure it is that a table sends the client on; None where the table is not well-formed."""
        if table not in self._rules.space.tables:
            return None
        outcomes = self._rules.course.tables[table].outcomes
        return sum(chance for name, chance in self.chances[table].chance.items() if outcomes[name].ends)

    @cached_property
    def retested(self) -> Retested | None:
        """What the re-test shows; None for a client who was not tested again."""
        again = self.found_again
        return None if again is None else retest(self._rules.course, self.found, again)

    @cached_property
    def drills(self) -> tuple[tuple[str, bool], ...]:
        """Drills that the client's outcomes lead to, in file order, and whether they allow its pause; none
        for a client who is referred."""
        course = self._rules.course
        keys = {table: one.outcome for table, one in self.decisions.items() if one.outcome is not None}
        outcomes = (course.tables[table].outcomes.get(key) for table, key in keys.items())
        if any(outcome.ends for outcome in outcomes if outcome):
            return ()
        return tuple(
            (name, drill.breath is not None and _come_to(keys, drill.breath.pause_for, every=True))
            for name, drill in course.drills.items()
            if _come_to(keys, drill.leads_here, every=False)
        )

    @property
    def exercises(self) -> tuple[str, ...]:
        """Names of the exercises that the client walks, in file order."""
        return self._rules.exercises_of(self.case.name)

    def _needs(self, table: str) -> Needs:
        space = self._rules.space
        if table not in space.tables or self.decisions[table].outcome is None:
            return Needs(exact=table in space.tables)
        try:
            return needs(space, self.found, table)
        except Unfinished:
            return Needs(exact=False)

    def _asking(self, table: str) -> Asking | None:
        space = self._rules.space
        if table not in space.tables:
            return None
        try:
            return asking(space, self.found, table)
        except Unfinished:
            return None

    def least_minutes(self, exercise: str) -> Fraction | None:
        """The least time in which all can be asked that the best way through an exercise must know; None
        where that cannot be told."""
        walk = self.walks[exercise]
        tables = [walk.steps[step].table for step in walk.best_path]
        every = [self.asking[table] for table in tables if table]
        if None in every:
            return None
        return least_minutes(self._rules.space, [one for one in every if one], self.case.told)

    def misheard(self, measure: str, value: str | bool) -> ActedOn:
        """What would have followed from taking the client's words for another value: by what the tables come
        to with it, against the cautions truly met."""
        course = self._rules.course
        taken = find(course, {**self.case.readings, measure: Reading(finding=value)})
        came_to = decide(course, taken, self._rules.order)
        return self.judged({name: one.outcome for name, one in came_to.items() if one.outcome}, "none")

    def _walk(self, exercise: str) -> Walk:
        rules = self._rules
        return bind_walk(
            rules.course,
            rules.exercise(exercise),
            self.case,
            self.decisions,
            self.met,
            self,
            rules.words,
        )


def _come_to(keys: Mapping[str, str], named: Mapping[str, tuple[str, ...]], *, every: bool) -> bool:
    """Whether keys are among the outcomes named, of every table or of one; nothing named is nobody."""
    among = [keys.get(table) in outcomes for table, outcomes in named.items()]
    return bool(among) and (all(among) if every else any(among))
