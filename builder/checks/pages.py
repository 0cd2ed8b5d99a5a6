"""The help pages of all codes as one document, `CHECKS.md`: what each problem means and how it is cured."""

from __future__ import annotations

import inspect

from builder.problems import CODES

from .registry import CHECKS

_LOADING = {
    "yaml": """\
The file cannot be read as plain YAML.

What: something in the file is written in a way that YAML does not know, or in one of its ways that lead to
surprises: two equal keys, a tag, `yes` or `no` for true and false, a file that is not UTF-8.

Why: a file that can be read in two ways would be read in the wrong one some day.

Example:

    policy: unique
    policy: first

Cure: the message says what stands there. Text with a colon, a `#` or quotes in it is safest as a block: write
`|` after the key, and the text on the next lines, set in by two spaces.""",
    "schema": """\
A key is missing, unknown, or holds the wrong kind of value.

What: every kind of thing has its keys; some must be there, others may be. This one does not fit.

Why: a misspelt key would otherwise be left out without a word.

Example:

    table: ankle_class
    polcy: unique          # meant: policy

Cure: the hint says what may stand there. The keys of every kind are described in `schemas/`; an editor that
knows JSON Schema completes them while you type.""",
    "file-refused": """\
Something lies in the course that can be no part of it.

What: a link that leads out of the course, to a folder, to a hidden file or to nothing; a pipe, a device or a
socket; a file whose name is not UTF-8 or holds signs that cannot be seen; a file or folder that cannot be
opened, or, beside the lessons, one that is neither of a known kind nor plain text.

Why: a site shows what is in the course's folder and nothing else of the machine that builds it. What cannot
be looked at cannot be vouched for.

Example:

    lessons/foot.png -> ../../pictures/foot.png

Cure: put the file itself where the link is, or delete it.""",
    "lesson-bound": """\
A lesson is longer, or nests deeper, than anybody can read.

What: a lesson has more letters than the message says, in all or between two blank lines; or too many brackets
are open at once, lists or quotations nest too deep, or one letter follows itself too often.

Why: the program that turns Markdown into pages would need hours for such a text, or stop halfway.

Example:

    [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[

Cure: put a blank line between paragraphs, close brackets, and split a lesson that is too long.""",
    "file-ignored": """\
A file lies in the course that is not read.

What: a file in one of the course's folders has an ending or a place that the builder does not know.

Why: what you wrote in it would be missing from the course.

Example:

    tables/ankle.txt       # meant: tables/ankle.yml

Cure: rename or move it, or take it out of the course.""",
}
"""Pages of what is found while a course is loaded, before any check runs."""


def page(code: str) -> str:
    """The help page of one code. Raises KeyError for an unknown one."""
    if code in _LOADING:
        return _LOADING[code]
    return inspect.cleandoc(inspect.getmodule(CHECKS[code]).__doc__ or "")


def document() -> str:
    """All pages, errors first, in the order of the codes."""
    parts = [
        "# What can be wrong with a course",
        "`casetrue check` tells every problem with its code. An error stops the site from being built; a "
        "warning does not, nor does a hint, which asks somebody to judge. What only follows from an error is "
        "not told, so more may show once it is mended.",
    ]
    for heading, severity in (("Errors", "error"), ("Warnings", "warning"), ("Hints", "hint")):
        parts.append(f"## {heading}")
        for code in CODES.values():
            if code.severity == severity:
                parts += [f"### `{code.name}`", page(code.name)]
    return "\n\n".join(parts) + "\n"
