"""The one frame of all families: what a family takes, what it drafts, and how a draft becomes a question.

A family drafts questions: the right answer, wrong answers that each come from a mistake people make, why each
is wrong, what acting on it would do, and the unit that is learnt. It also says for any answer whether it
holds, by evaluating the course anew. A question is made only where its right answer holds; a wrong answer
that holds, or reads like another, is left out. So no question has two right answers.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from typing import Generic, Literal, Protocol, TypeVar

from builder.course import Case, Caution, Course, Drill, Family, Harm, Question, Table
from builder.decide.asking import Asking
from builder.decide.evaluate import decide
from builder.decide.explain import Check, Explanation
from builder.decide.found import Found
from builder.decide.grid import Value
from builder.decide.harm import ActedOn
from builder.decide.lines import DrawnLine
from builder.decide.near_lines import NearLine
from builder.decide.needs import Needs

from .corrections import folded
from .figures import Figure
from .item import Item, ItemOption, option_id
from .options import shown
from .wording import Wording
from .written import item_of

Says = object
"""What an answer claims, in its family's own terms: an outcome, a rule, a change of one reading."""

Slip = Literal["ignored", "neighbour", "unrounded", "single", "skipped", "mirrored"]
"""The mistake that leads to an outcome; see `slips`."""


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer that a question offers."""

    says: Says
    text: str
    why: str = ""
    """Of a wrong one: why it fails."""
    acted: ActedOn | None = None
    """What acting on it would have come to, where that is known."""
    slip: Slip | None = None
    """Of a wrong one: the mistake that leads to it, where one is known."""


@dataclass(frozen=True, slots=True)
class Draft:
    """A question as its family drafts it."""

    of: str
    """What it is about: the name of a client, of a fault or of a drill."""
    stem: str
    right: Answer
    wrong: tuple[Answer, ...]
    """The best first."""
    why: str
    """Why the right answer holds."""
    learnt: str
    order: tuple[Says, ...] | None = None
    """What the answers say, in the order shown; None to have them shown in an order drawn by chance."""
    steps: tuple[str, ...] = ()
    """For a question that asks for an order: the steps in that order. It has no answers to choose from."""
    number: tuple[Fraction, Fraction] | None = None
    """For a question that asks for a number: it, and how far off still holds. Nor has it any answers."""
    unit: str = ""
    figure: Figure | None = None
    """What is drawn with it."""
    asks: str = ""
    source: str | None = None
    case: str | None = None
    table: str | None = None
    drill: str | None = None
    right_name: str = ""
    sends: Literal["stopped", "referred"] | None = None
    stops: tuple[Says, ...] = ()
    """What those answers say that send the client on, where the right one does."""


class AskedClient(Protocol):
    """What is known of a client whom families ask about."""

    @property
    def facts(self) -> ClientFacts:
        """What a family may need to ask about them."""

    @property
    def items(self) -> Mapping[str, Item | None]:
        """Family to its question about them; None where there is nothing to ask. To be asked by key."""

    def judged(self, means: Mapping[str, str], written: Harm) -> ActedOn:
        """A written answer: the outcomes that it comes to, and what is written of its harm."""


class Weighed(Protocol):
    """How sure it is what the course says about a client."""

    @property
    def known_near(self) -> Mapping[str, bool]:
        """Well-formed table to whether the author names the number whose line is nearest."""

    @property
    def lines(self) -> Mapping[str, tuple[NearLine, ...]]:
        """Well-formed table to its nearest lines; to be asked by key."""

    @property
    def chance_of_meeting(self) -> Mapping[str, float | None]:
        """Well-formed caution to the chance of meeting it; to be asked by key."""

    @property
    def needs(self) -> Mapping[str, Needs]:
        """Table to what must be known to decide it; to be asked by key."""

    @property
    def asking(self) -> Mapping[str, Asking | None]:
        """Table to what must have been asked before it is decided; to be asked by key."""

    def misheard(self, measure: str, value: str | bool) -> ActedOn:
        """What would have followed from taking the client's words for another value."""

    def chance_of_key(self, table: str) -> float | None:
        """How sure a table's outcome is; None where that is not known."""

    def chance_of_ending(self, table: str) -> float | None:
        """How sure it is that a table sends the client on; None where that is not known."""


@dataclass(frozen=True)
class ClientFacts:
    """One client, with all that a family may need to ask about them."""

    course: Course
    case: Case
    found: Found
    found_again: Found | None
    explained: Mapping[str, Explanation]
    """By table, in pathway order."""
    met: tuple[Caution, ...]
    """The cautions that the client meets."""
    acted_on: Mapping[str, Mapping[str, ActedOn]]
    """Table to what acting on each outcome but the key would have come to."""
    wording: Wording
    said: Callable[[Check], str]
    """A condition of the course's rules beside what was found, in words."""
    lines: Mapping[str, tuple[DrawnLine, ...]]
    """Number to the lines that the rules of all tables draw on it."""
    weighed: Weighed
    well_formed: frozenset[str]
    """The tables and cautions about which it is known how sure they are."""

    @cached_property
    def read(self) -> list[object]:
        """The client's readings by name, as the digest of a question sees them."""
        readings = sorted(self.case.readings.items())
        return [(name, [str(trial) for trial in one.trials] or one.finding) for name, one in readings]

    @cached_property
    def outcomes(self) -> Mapping[str, str | None]:
        """What every table comes to, decided anew."""
        return self._outcomes(self.found)

    @cached_property
    def astride(self) -> Mapping[str, tuple[Fraction, ...]]:
        """Number to the client's trials of it, in the order of size, where a line lies between them."""
        sorted_trials = {
            name: tuple(sorted(self.case.readings[name].trials))
            for name, one in self.found.recorded.items()
            if one.trials > 1
        }
        return {
            name: trials
            for name, trials in sorted_trials.items()
            if any(line.parts(trials[0], trials[-1]) for line in self.lines[name])
        }

    @cached_property
    def _instead(self) -> dict[tuple[str, Value], Mapping[str, str | None]]:
        return {}

    def outcomes_with(self, measure: str, value: Value) -> Mapping[str, str | None]:
        """What every table comes to with another value of one measure, worked out once for all."""
        key = measure, value
        if key not in self._instead:
            instead = replace(self.found.recorded[measure], value=value)
            self._instead[key] = self._outcomes(self.found.renewed(Found({measure: instead})))
        return self._instead[key]

    def _outcomes(self, found: Found) -> Mapping[str, str | None]:
        decided = decide(self.course, found, tuple(self.explained))
        return {name: one.outcome for name, one in decided.items()}

    def outcome(self, table: str) -> str | None:
        """The key of a table; None where it has none."""
        outcome = self.explained[table].decision.outcome
        return outcome if outcome in self.course.tables[table].outcomes else None


@dataclass(frozen=True)
class DrillFacts:
    """One drill, with all that a family may need to ask about it."""

    course: Course
    drill: Drill
    wording: Wording


Facts = TypeVar("Facts", ClientFacts, DrillFacts)


@dataclass(frozen=True)
class Frame(Generic[Facts]):
    """One family: what it takes, and how it makes its questions."""

    takes: tuple[Literal["table", "cases", "drill", "measure"], ...]
    drafts: Callable[[Family, Facts], Iterator[Draft]]
    holds: Callable[[Family, Facts, Says], bool]
    """Whether an answer that says this is right, worked out from the course without the draft."""
    fewest_wrong: int = 1
    most_wrong: int | None = None
    chance: Callable[[Family, Facts], float | None] | None = None
    """How sure the right answer is, given measurement error; None where it hangs on what was recorded
    alone."""

    def items(self, family: Family, facts: Facts) -> Iterator[Item]:
        """The family's questions about one client or drill."""
        for draft in self.drafts(family, facts):
            if self.holds(family, facts, draft.right.says):
                is_open = bool(draft.steps) or draft.number is not None
                item = _open(family, draft) if is_open else self._item(family, facts, draft)
                if item is not None:
                    yield item

    def _item(self, family: Family, facts: Facts, draft: Draft) -> Item | None:
        answers = {folded(draft.right.text): draft.right}
        for answer in draft.wrong:
            is_full = self.most_wrong is not None and len(answers) > self.most_wrong
            if not is_full and not self.holds(family, facts, answer.says):
                answers.setdefault(folded(answer.text), answer)
        if len(answers) <= self.fewest_wrong:
            return None
        name = f"{family.id}.{draft.of}"
        listed = _listed(name, draft, list(answers.values()))
        ids = {id(answer): option_id(number) for number, answer in enumerate(listed)}
        return Item(
            id=name,
            kind="one",
            objective=family.objective,
            stem=draft.stem,
            key=ids[id(draft.right)],
            right=draft.right_name,
            learnt=draft.learnt,
            stops=tuple(ids[id(answer)] for answer in listed if answer.says in draft.stops),
            options=tuple(
                ItemOption(
                    ids[id(one)],
                    one.text,
                    *(("", None, None) if one is draft.right else (one.why, one.acted, one.slip)),
                    says=one.says if isinstance(one.says, str) else "",
                )
                for one in listed
            ),
            why=draft.why,
            source=draft.source,
            case=draft.case,
            family=family.id,
            asks=draft.asks,
            table=draft.table,
            drill=draft.drill,
            figure=draft.figure,
            sends=draft.sends,
        )


def _listed(name: str, draft: Draft, answers: list[Answer]) -> list[Answer]:
    if draft.order is not None:
        return sorted(answers, key=lambda answer: draft.order.index(answer.says) if draft.order else 0)
    by_text = {answer.text: answer for answer in answers}
    return [by_text[text] for text in shown(name, list(by_text))]


def _open(family: Family, draft: Draft) -> Item:
    """A question without answers to choose from: it asks for an order or a number."""
    answer, within = draft.number or (None, Fraction(0))
    question = Question(
        id=f"{family.id}.{draft.of}",
        kind="order" if draft.steps else "number",
        objective=family.objective,
        stem=draft.stem,
        answer=answer,
        within=within,
        unit=draft.unit,
        items=draft.steps,
        why=draft.why,
        source=draft.source,
        case=draft.case,
    )
    return replace(
        item_of(question),
        family=family.id,
        asks=draft.asks,
        drill=draft.drill,
        figure=draft.figure,
        learnt=draft.learnt,
    )


def chance_of_key(family: Family, about: ClientFacts) -> float | None:
    """How sure the outcome of the family's table is."""
    return about.weighed.chance_of_key(family.table)


def is_sent_on_before(table: Table, about: ClientFacts) -> bool:
    """Whether an earlier table sends the client on and this one does not."""
    for name, explanation in about.explained.items():
        outcome = about.course.tables[name].outcomes.get(explanation.decision.outcome or "")
        if name == table.name:
            return False
        if outcome is not None and outcome.ends:
            key = table.outcomes.get(about.explained[table.name].decision.outcome or "")
            return key is None or not key.ends
    return False
