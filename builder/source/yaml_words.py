"""What a YAML parser complains of, in plain words."""

from __future__ import annotations

import re
from dataclasses import dataclass

import yaml

from .bounds import MAX_DEPTH

_QUOTES = 'Text with `: `, ` #` or a first letter such as `@`, `%`, `"` or `*` needs quotes, or a `|` block.'
_COLUMNS = "Lines that belong together start in the same column; use spaces, never tabs."
_CLOSE = "Close it, or use a `|` block."


@dataclass(frozen=True, slots=True)
class _Saying:
    signs: tuple[str, ...]
    """Any of these in the parser's own sentence; libyaml and pure Python word theirs differently."""
    message: str
    hint: str = ""
    opened: bool = False
    """True where the place to mend is where the broken part opens, not where the parser gave up."""


_TAB = _Saying(("tab character",), "There is a tab here.", "Use spaces.")
_SAYINGS = (
    _Saying(("mapping values are not allowed",), "There is a `:` here that cannot be a key's.", _QUOTES),
    _TAB,
    _Saying(
        ("could not find expected ':'",),
        "This line is no key: a key needs a `:` and a space after it.",
        _QUOTES,
        opened=True,
    ),
    _Saying(("cannot start any token",), "No text can start with this character.", _QUOTES),
    _Saying(
        ("unexpected end of stream", "document indicator", "unexpected document separator"),
        "A quote is opened here and never closed.",
        _CLOSE,
        opened=True,
    ),
    _Saying(
        ("',' or ']'",),
        "The list that starts here with `[` is never closed, or a comma is missing.",
        "Close it with `]`.",
        opened=True,
    ),
    _Saying(
        ("',' or '}'",),
        "The part that starts here with `{` is never closed, or a comma is missing.",
        "Close it with `}`.",
        opened=True,
    ),
    _Saying(
        ("block sequence entries", "sequence entries are not allowed"),
        "A list cannot start here.",
        "Put the first `- ` on a line of its own.",
    ),
    _Saying(("'-' indicator",), "This line does not belong to the list above it.", _COLUMNS),
    _Saying(
        ("did not find expected key", "expected <block end>"),
        "This line does not line up with the lines above it.",
        _COLUMNS,
    ),
    _Saying(
        ("escape", "hexdecimal", "Unicode character"),
        "A backslash in double quotes starts a code, and this is none.",
        "Use single quotes or a `|` block.",
    ),
    _Saying(
        ("alphabetic or numeric",),
        "`&` and `*` have a meaning at the start of a text.",
        "Put the text in quotes.",
    ),
    _Saying(("tag", "URI"), "`!` has a meaning at the start of a text.", "Put the text in quotes."),
    _Saying(
        ("version", "incompatible YAML"),
        "Only YAML 1.1 and 1.2 are read.",
        "Delete the line that starts with `%YAML`.",
    ),
    _Saying(
        ("directive",), "A line that starts with `%` has a meaning of its own.", "Put the text in quotes."
    ),
    _Saying(("<document start>",), "The file goes on here after its end.", _COLUMNS),
    _Saying(("node content",), "A value, a bracket or a quote is missing here.", "Close what was opened."),
    _Saying(
        ("maximum nesting depth",),
        f"Lists and keys are nested more than {MAX_DEPTH} deep here.",
        "Check the brackets.",
    ),
    _Saying(("indentation",), "The text under `|` or `>` does not line up.", _COLUMNS),
    _Saying(
        ("comment or line break",), "After `|` or `>` the text starts on the next line.", "Break the line."
    ),
)


_INDENTED = _Saying(
    (),
    "This key cannot stand here: the line above holds a value already, or lacks its `: `.",
    "Give this line as many spaces at its start as the keys it belongs to, or mend the line above.",
)
_QUOTED = _Saying(
    (),
    "The text in quotes ends here, and more follows.",
    "An apostrophe inside single quotes is written twice (`''`), or put the text in double quotes.",
)
_ONLY_A_KEY = re.compile(r"[ \t]*(?:- +)*[A-Za-z0-9_-]+ *\Z")


def _saying(problem: str, before: str) -> _Saying | None:
    """What to say of a parser's sentence, given the line before the place that it complains of."""
    if "mapping values are not allowed" in problem and _ONLY_A_KEY.match(before):
        return _INDENTED
    if "expected key" in problem and before.rstrip(" ").endswith(("'", '"')):
        return _QUOTED
    return next((saying for saying in _SAYINGS if any(sign in problem for sign in saying.signs)), None)


def plain_words(error: yaml.YAMLError, text: str) -> tuple[str, str, bool]:
    """Sentence and hint for a syntax error, and whether it is placed where the broken part opens."""
    problem = str(getattr(error, "problem", None) or "")
    mark = getattr(error, "problem_mark", None)
    if mark is not None and text[mark.index : mark.index + 1] == "\t":
        return _TAB.message, _TAB.hint, False
    before = text[: mark.index].rpartition("\n")[2] if mark is not None else ""
    saying = _saying(problem, before)
    if saying is not None:
        return saying.message, saying.hint, saying.opened
    return "This line cannot be read as YAML.", f"{_QUOTES} {_COLUMNS}", False
