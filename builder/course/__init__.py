"""The model: frozen dataclasses, no behaviour. Names are those of the course format."""

from .clients import Case, Client, Retest
from .course import COMMON_PRACTICE, FROM_MEMORY, RESERVED_SOURCES, About, Contact, Course, Emergency, Source, Term
from .learning import (
    AskStep,
    BlueprintRow,
    Cases,
    Choice,
    DecideStep,
    EndStep,
    Exercise,
    Family,
    Harm,
    Lesson,
    Objective,
    Option,
    Pair,
    Question,
    QuestionKind,
    Quiz,
    Step,
)
from .measures import ChoiceScale, Measure, NumberScale, Reading, Reference, Scale, YesNoScale
from .origin import NOWHERE, Key, Origin, Path, Place
from .rules import AnyOf, Band, Bound, Caution, Condition, Is, Level, Outcome, Review, Rule, Table, When

__all__ = [
    "COMMON_PRACTICE", "FROM_MEMORY", "NOWHERE", "RESERVED_SOURCES", "About", "AnyOf", "AskStep", "Band",
    "BlueprintRow", "Bound", "Case", "Cases", "Caution", "Choice", "ChoiceScale", "Client", "Condition", "Contact",
    "Course", "DecideStep", "Emergency", "EndStep", "Exercise", "Family", "Harm", "Is", "Key", "Lesson", "Level",
    "Measure", "NumberScale", "Objective", "Option", "Origin", "Outcome", "Pair", "Path", "Place", "Question", "QuestionKind",
    "Quiz", "Reading", "Reference", "Retest", "Review", "Rule", "Scale", "Source", "Step", "Table", "Term", "When",
    "YesNoScale",
]
