"""What a YAML parser complains of, in plain words."""

from __future__ import annotations

import yaml

_QUOTES = 'Text with `: `, ` #` or a first letter such as `@`, `%`, `"` or `*` needs quotes, or a `|` block.'
_COLUMNS = "Lines that belong together start in the same column; use spaces, never tabs."

_WORDS: tuple[tuple[str, str, str, bool], ...] = (
    ("mapping values are not allowed", "There is a `:` here that cannot be a key's.", _QUOTES, False),
    ("'\\t' that cannot start", "This line starts with a tab.", "Use spaces.", False),
    ("tab character", "There is a tab where spaces should be.", "Use spaces.", False),
    ("could not find expected ':'", "Something is missing here: a key needs a `:` and a space after it.", _QUOTES, False),
    ("cannot start any token", "No text can start with this character.", _QUOTES, False),
    ("unexpected end of stream", "A quote is opened here and never closed.", "Close it, or use a `|` block.", True),
    ("document indicator", "A quote is opened here and never closed.", "Close it, or use a `|` block.", True),
    ("',' or ']'", "The list that starts here with `[` is never closed, or a comma is missing.", "", True),
    ("',' or '}'", "The part that starts here with `{` is never closed, or a comma is missing.", "", True),
    ("block sequence entries", "A list cannot start here.", "Put the first `- ` on a line of its own.", False),
    ("'-' indicator", "This line does not belong to the list above it.", _COLUMNS, False),
    ("did not find expected key", "This line does not line up with the lines above it.", _COLUMNS, False),
    ("expected <block end>", "This line does not line up with the lines above it.", _COLUMNS, False),
    ("escape", "A backslash in double quotes starts a code, and this is none.", "Use single quotes or a `|` block.", False),
    ("hexdecimal", "A backslash in double quotes starts a code, and this is none.", "Use single quotes or a `|` block.", False),
    ("alphabetic or numeric", "`&` and `*` have a meaning at the start of a text.", "Put the text in quotes.", False),
    ("tag", "`!` has a meaning at the start of a text.", "Put the text in quotes.", False),
    ("URI", "`!` has a meaning at the start of a text.", "Put the text in quotes.", False),
    ("directive", "A line that starts with `%` has a meaning of its own.", "Put the text in quotes.", False),
    ("version", "Only YAML 1.1 and 1.2 are read.", "Delete the line that starts with `%YAML`.", False),
    ("<document start>", "The file goes on here after its end.", _COLUMNS, False),
    ("indentation", "The text under `|` or `>` does not line up.", _COLUMNS, False),
    ("comment or line break", "After `|` or `>` the text must start on the next line.", "", False),
)  # fmt: skip


def plain_words(error: yaml.YAMLError) -> tuple[str, str, bool]:
    """The sentence and the hint for a syntax error, and whether it is to be placed where the broken part opens."""
    problem = getattr(error, "problem", None) or ""
    for sign, message, hint, opened in _WORDS:
        if sign in problem:
            return message, hint, opened
    return "This line cannot be read as YAML.", f"{_QUOTES} {_COLUMNS}", False
