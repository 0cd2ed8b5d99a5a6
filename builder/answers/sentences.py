"""How sure a client's decision is, and what would have changed it, in the words of pages and of `explain`.

Only for someone who has the answer.
"""

from __future__ import annotations

from dataclasses import dataclass

from builder.course import SENDS_ON, Case, NumberScale
from builder.decide.doubt import chance, is_sure_enough, standard_error
from builder.decide.harm import ActedOn
from builder.decide.nearest import grouped
from builder.words import doubt as say
from builder.words import harm
from builder.words.sentences import outcome_label

from .answers import Answers

_AT_ONCE = 2
"""Values that the short form names."""


@dataclass(frozen=True, slots=True)
class Error:
    """A number whose error could turn the decision."""

    said: str
    origin: str
    """The error of one reading, and that it is assumed or whence it comes."""
    source: str | None
    """The published source that `origin` leads to."""
    one_more: str
    """What one more trial would do; empty where that does not shrink the error."""


@dataclass(frozen=True, slots=True)
class Sure:
    said: str
    near: bool
    """Whether the key is too unsure for a marked quiz."""
    errors: tuple[Error, ...]
    """The nearest to a line first."""
    changes: tuple[str, ...]
    """Readings that would have led elsewhere, the cheapest first."""
    first: str
    """The first of them in short; empty where there is none."""

    @property
    def others(self) -> tuple[str, ...]:
        """The changes that `first` does not tell in full."""
        return self.changes[1:] if self.changes[:1] == (self.first,) else self.changes


def sure_of(answers: Answers, case: Case, table: str) -> Sure | None:
    """How sure a client's decision is; None where nothing is decided or the table is not well-formed."""
    client, words, course = answers.of(case), answers.words, answers.course
    outcome = client.decisions[table].outcome
    if outcome is None or table not in answers.space.tables:
        return None
    ways = grouped(client.nearest[table])
    changes = tuple(say.change(words, course, table, one.outcome, one.instead) for one in ways)
    first = changes[0] if changes else ""
    if any(len(values) > _AT_ONCE for _, values in (ways[0].instead.values() if ways else ())):
        first = say.change(words, course, table, ways[0].outcome, ways[0].instead, most=_AT_ONCE)
    now = client.chances[table]
    if now.undecided == 1:
        return Sure(say.unknown(words), False, (), changes, first)
    names = dict.fromkeys(line.measure for line in client.lines[table])
    if not names:
        return Sure(
            say.certain(words, course.tables[table].outcomes[outcome].ends), False, (), changes, first
        )
    errors = tuple(_error(answers, case, table, outcome, name) for name in names)
    sure = now.chance[outcome]
    return Sure(say.sure(words, sure), not is_sure_enough(sure), errors, changes, first)


def acted_on(answers: Answers, case: Case | None, one: ActedOn) -> str:
    """What acting on an answer would have done to a client; empty where it would have done nothing."""
    words, course = answers.words, answers.course
    said = [harm.arguable(words)] if one.told == "arguable" else []
    if one.not_stopped:  # what would have followed after that matters no more
        met = answers.of(case).met if case and one.harm == "serious" else ()
        named = (caution.title for caution in met if caution.level in SENDS_ON)
        said.append(harm.not_stopped(words, named))
    else:
        led = dict.fromkeys((breach.table, breach.outcome) for breach in one.breaks)
        if led:
            said.append(harm.led_to(words, (outcome_label(course, *place) for place in led)))
        for breach in one.breaks:
            caution = course.cautions[breach.caution]
            allowed = (outcome_label(course, breach.table, name) for name in caution.demands[breach.table])
            said.append(harm.allows(words, caution.title, allowed))
    if one.overcautious and not one.breaks:
        said.append(harm.overcautious(words))
    return " ".join([*said, one.because.strip()]).strip()


def _error(answers: Answers, case: Case, table: str, outcome: str, name: str) -> Error:
    words, found = answers.words, answers.of(case).found
    measure, trials = answers.course.measures[name], found.recorded[name].trials
    scale = measure.scale
    assert isinstance(scale, NumberScale)

    def told() -> tuple[str, str, str | None]:
        said, assumed = (
            say.error(words, measure, trials, standard_error(scale, trials)),
            say.assumed(words, scale),
        )
        return said, assumed or say.published(words, scale), None if assumed else scale.sem_source

    one_more = ""
    if scale.sem_of == "trial":
        then = chance(answers.space, found, table, {name: 1}).chance[outcome]
        one_more = say.one_more(words, scale, standard_error(scale, trials + 1), then)
    return Error(*answers.rules.once(("error", name, trials), told), one_more)
