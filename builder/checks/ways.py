"""What can be said of a client's way through the tables while parts of the course are broken.

What only follows from something broken is not told: whoever cured it would cure the wrong thing, and might
give readings to a client who must be sent on.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.answers import Answers
from builder.answers.on_demand import OnDemand
from builder.course import Case
from builder.decide.pathway import behind

Step = tuple[str, str]
"""Name of a client, and of a table."""


class Ways:
    """The ways of all clients of a course, each looked at once however many checks ask."""

    def __init__(self, answers: Answers, tables: Sequence[str]) -> None:
        """`tables` are all tables in the order in which clients meet them, unread ones among them; empty
        where nobody can say."""
        self._answers = answers
        self._course = answers.course
        self._tables = tables
        self._needed = OnDemand(self._needed_readings)
        self._waits = OnDemand(self._does_wait)
        self._may_end = OnDemand(self._may_be_sent_on)
        self._fed_by = OnDemand[str, tuple[str, ...]](
            lambda table: tuple(name for name in self._behind[table] if name not in self._course.measures)
        )
        self._behind = OnDemand[str, tuple[str, ...]](lambda table: behind(answers.course, table))

    def needed_readings(self, case: Case) -> dict[str, str]:
        """Every measure that must be read of this client, and what needs it."""
        return self._needed[case.name]

    def waits(self, case: Case, table: str) -> bool:
        """Whether nobody can say what a client comes to at a table, for a reason that another problem tells:
        no or several rules match somewhere before, a reading is missing or impossible, a name is not known,
        or tables form a circle.
        """
        return self._waits[case.name, table]

    def may_end(self, case: Case, table: str) -> bool:
        """Whether a client is sent on at a table, for all that can be said."""
        return self._may_end[case.name, table]

    def _needed_readings(self, case: str) -> dict[str, str]:
        needed = {
            name: f"the caution {caution.name}"
            for _, caution in sorted(self._course.cautions.items())
            for when in caution.when
            for name in when
        }
        for table in reversed(tuple(self._way(case))):
            needed.update((name, f"the table {table}") for name in self._course.tables[table].inputs)
        for name, measure in self._course.measures.items():
            if measure.of_client:
                # It is asked of everyone, also of those who are sent on before it is read.
                readers = (table for table, one in self._course.tables.items() if name in one.inputs)
                needed.setdefault(name, f"the table {next(readers, '')}")
        return needed

    def _does_wait(self, step: Step) -> bool:
        case, table = step
        client = self._answers.clients[case]
        return any(
            self._is_broken(case, name)
            or (
                name in self._needed[case]
                and name in self._course.measures
                and name not in client.found.recorded
            )
            for name in self._behind[table]
        )

    def _may_be_sent_on(self, step: Step) -> bool:
        case, table = step
        if table not in self._course.tables:
            return True  # it could not be read, or its name is wrong
        written = self._course.tables[table]
        ending = {name for name, outcome in written.outcomes.items() if outcome.ends}
        if any(self._is_broken(case, name) for name in self._fed_by[table]):
            return bool(ending) or any(rule.then not in written.outcomes for rule in written.rules)
        outcome = self._answers.clients[case].decisions[table].outcome
        return outcome in ending if outcome is not None else bool(ending) and self._is_refused(case, table)

    def _way(self, case: str) -> Iterator[str]:
        """The tables up to the first at which the client is sent on, or may be, itself included; without
        those of which nobody can say whether they are reached, since a table before them is not known."""
        measures, order = self._course.measures, self._answers.order
        for table in self._tables:
            if all(name in measures or name in order for name in self._behind[table]):
                yield table
            if self._may_end[case, table]:
                return

    def _is_broken(self, case: str, name: str) -> bool:
        """Whether a table is not well-formed, or has no outcome for a client by a fault of its own."""
        if name in self._course.measures:
            return False
        decisions = self._answers.clients[case].decisions
        return name not in self._answers.space.tables or decisions[name].state in ("gap", "overlap")

    def _is_refused(self, case: str, table: str) -> bool:
        """Whether a table has no outcome for a client since one of their readings is refused, by its name or
        its value. One that is simply not there is asked for together with all others."""
        client, measures = self._answers.clients[case], self._course.measures
        read = client.case.readings
        return not read.keys() <= measures.keys() or any(
            name in read and name not in client.found.recorded
            for name in self._behind[table]
            if name in measures
        )
