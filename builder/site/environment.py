"""The templates' surroundings: escaping on, undefined names refused, the interface's words at hand."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from functools import lru_cache, partial
from pathlib import Path

import jinja2
from jinja2 import nodes
from jinja2.compiler import CodeGenerator, Frame, MacroRef
from jinja2.utils import missing
from markupsafe import Markup, escape

from builder.answers import Answers, addresses
from builder.answers.sentences import acted_on, sure_of
from builder.checks.reviews import awaits_clinician, is_stale, unreviewed
from builder.course import RESERVED_SOURCES, SENDS_ON, Course, seen
from builder.questions.figures import LookFigure, phase_of
from builder.questions.item import Item
from builder.questions.reasons import why_not
from builder.words import Words, numbers, sentences

from . import excerpts, figures, items, walks
from .browser_words import browser_words
from .canvas import Canvas
from .citations import cite
from .compiled import COMPILED
from .pictured import pictures_for, positions_of
from .prose import plain
from .readings import Readings, drawing_first, readings_of
from .retest import retest_of

TEMPLATES = Path(__file__).parent / "templates"


class _Plain(CodeGenerator):
    """Compiles templates to plain Python: a call is a call, an attribute an attribute, a macro a function;
    what is safe already is not escaped once more. Jinja asks first, each time, whether something else could
    be meant; nothing else is here, and there are some hundred calls a page."""

    def visit_Call(self, node: nodes.Call, frame: Frame, forward_caller: bool = False) -> None:
        self.visit(node.node, frame)
        self.write("(")
        for given in (*node.args, *node.kwargs):
            self.visit(given, frame)
            self.write(", ")
        self.write("caller=caller)" if forward_caller else ")")

    def macro_def(self, macro_ref: MacroRef, frame: Frame) -> None:
        names = [one.name for one in macro_ref.node.args]
        if macro_ref.accesses_caller:
            names.append("caller")
        self.write(f"environment.function(macro, {tuple(names)!r})")

    def visit_Getattr(self, node: nodes.Getattr, frame: Frame) -> None:
        self.visit(node.node, frame)
        self.write(f".{node.attr}")

    def _output_child_pre(self, node: nodes.Expr, frame: Frame, finalize: object) -> None:
        self.write("(shown if type(shown := ")

    def _output_child_post(self, node: nodes.Expr, frame: Frame, finalize: object) -> None:
        self.write(") is Markup else escaped(shown))")

    def write_commons(self) -> None:
        super().write_commons()
        self.writeline("escaped = environment.escaped")


class _Environment(jinja2.Environment):
    code_generator_class = _Plain
    escaped = staticmethod(lru_cache(maxsize=8192, typed=True)(escape))
    """Most of what is shown, such as the outcomes of a table, is shown on many pages."""

    @staticmethod
    def function(draw: Callable[..., str], names: Sequence[str]) -> Callable[..., Markup]:
        """What a macro of these parameters is called by."""
        count = len(names)

        def called(*given: object, **named: object) -> Markup:
            if len(given) < count:
                given += tuple(named.pop(name, missing) for name in names[len(given) :])
            if named:
                raise TypeError(f"There is no parameter {next(iter(named))}.")
            return _safe(draw(*given))

        return called


_safe: Callable[[str], Markup] = partial(str.__new__, Markup)
"""`Markup` of plain text, without its question whether the text knows its own HTML."""


def environment(answers: Answers, canvas: Canvas) -> jinja2.Environment:
    """Jinja for the page bodies of one folder."""
    course, words, readings = answers.course, answers.words, Readings(answers)
    env = _Environment(
        loader=jinja2.FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=False,
        auto_reload=False,
        bytecode_cache=COMPILED,
    )
    env.globals.update(
        answers=answers,
        canvas=canvas,
        href=canvas.href,
        prose=canvas.prose,
        line=canvas.line,
        once=canvas.once,
        once_below=canvas.once_below,
        course=course,
        words=words,
        say=_saying(words),
        count=words.count,
        number=partial(_quantity, words),
        plain=plain,
        browser_words=browser_words,
        sentences=sentences,
        figures=figures,
        looks=seen,
        phase_of=phase_of,
        layers_of=partial(_layers_of, course),
        excerpts=excerpts,
        items=items,
        walks=walks,
        strip_of=readings.strip_of,
        pictures_of=readings.pictures_of,
        positions_of=positions_of,
        pictures_for=pictures_for,
        drawing_first=drawing_first,
        doubt_of=readings.doubt_of,
        readings_of=partial(readings_of, answers),
        asked_about=readings.asked_about,
        told_of=readings.told_of,
        sure_of=partial(sure_of, answers),
        acted_on=partial(acted_on, answers),
        why_not=partial(why_not, answers.rules.wording, course, answers.rules.said),
        retest_of=partial(retest_of, answers),
        cite=lambda name: cite(words, course, name),
        awaits_clinician=awaits_clinician,
        is_stale=is_stale,
        unreviewed=unreviewed(course),
        reserved=RESERVED_SOURCES,
        sends_on=SENDS_ON,
        addresses=addresses,
        inert=inert,
    )
    return env


def inert(value: object) -> Markup:
    """JSON for a `<script type="application/json">`: nothing in it can end the block or start a comment."""
    text = json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    for sign in "<>&\u2028\u2029":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return Markup(text)


def _saying(words: Words) -> Callable[..., str]:
    """`Words.say` for templates: what takes no values is looked up and escaped once."""
    known: dict[str, Markup] = {}

    def say(message: str, /, **values: object) -> str:
        if values:
            return words.say(message, **values)
        if message not in known:
            known[message] = escape(words.say(message))
        return known[message]

    return say


def _quantity(words: Words, value: Fraction | int | float, unit: str = "", places: int | None = None) -> str:
    """With its unit on the same line."""
    return numbers.quantity(words, value, unit, places).replace(" ", "\N{NO-BREAK SPACE}")


def _layers_of(course: Course, items: Iterable[Item]) -> Markup:
    """What the drawings of some questions share, each position once; see `figures.layers`."""
    drills = {one.figure.drill for one in items if isinstance(one.figure, LookFigure)}
    positions = dict.fromkeys(course.drills[name].position for name in sorted(drills))
    return Markup().join(figures.layers(course.positions[name]) for name in positions if name)
