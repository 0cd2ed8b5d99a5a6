"""Reading pages: their titles, and whether they keep within bounds. MkDocs renders them."""

from __future__ import annotations

import re
from dataclasses import replace

from .bounds import MAX_BLOCK, MAX_LEAD, MAX_LESSON, MAX_LINES, MAX_OPEN, MAX_RUN
from .texts import ReadFault, control_fault, position
from .yaml_tree import parse

_FRONT = re.compile(r"-{3}[ \t]*\n(.*?\n)(?:-{3}|\.{3})[ \t]*(?:\n|\Z)", re.DOTALL)
"""As MkDocs finds it."""
_FENCE = re.compile(r" {0,3}(`{3,}|~{3,})")
_ATX = re.compile(r" {0,3}#[ \t]")
_UNDERLINE = re.compile(r" {0,3}=+[ \t]*\Z")
_MARKUP = re.compile(r"!?\[([^\[\]]*)\]\([^()]*\)|[*`]{1,3}|(?<!\w)_{1,3}(?=\S)|(?<=\S)_{1,3}(?!\w)")
_LEAD = re.compile(r"(?:[ \t]*(?:>|(?:[-+*]|[0-9]{1,9}[.)])(?=[ \t])))*[ \t]*")
_RUN = re.compile(rf"(.)\1{{{MAX_RUN}}}", re.DOTALL)
_BRACKETS = re.compile(r"[\[\]()>]|<(?=[A-Za-z/!?])")
_CLOSED_BY = {"]": "[", ")": "(", ">": "<"}


def lesson_title(text: str, file: str) -> str:
    """The title in the front matter, else the first top heading, else the file's name in words."""
    front = _FRONT.match(text)
    if front:
        value = parse(front.group(1)).value
        title = value.get("title") if isinstance(value, dict) else None
        if isinstance(title, str) and title.strip():
            return title.strip()
        text = text[front.end() :]
    return (
        _heading(text)
        or file.rpartition("/")[2].removesuffix(".md").replace("-", " ").replace("_", " ").capitalize()
    )


def form_fault(text: str) -> ReadFault | None:
    """A control character, or the first thing in the front matter that is no plain YAML."""
    front = _FRONT.match(text)
    faults = parse(front.group(1)).faults if front else ()
    return control_fault(text) or next((replace(fault, line=fault.line + 1) for fault in faults), None)


def bound_fault(text: str) -> ReadFault | None:
    """The first place where a lesson goes beyond the bounds of what Markdown can be trusted with.

    Looks at every letter a fixed number of times. No lesson that people can read comes near these bounds;
    beyond them the libraries that read Markdown take time that grows with the square of what they are given
    or faster, or more of the stack than there is.
    """
    if len(text) > MAX_LESSON:
        message = f"The lesson is longer than {MAX_LESSON:,} letters."
        return ReadFault((), *position(text[:MAX_LESSON]), message, "Split it into several lessons.")
    found = [fault for fault in (_run_fault(text), _block_fault(text)) if fault is not None]
    return min(found, key=lambda fault: (fault.line, fault.column), default=None)


def _run_fault(text: str) -> ReadFault | None:
    run = _RUN.search(text)
    if run is None:
        return None
    message = f"Here the same letter stands more than {MAX_RUN} times in a row."
    return ReadFault((), *position(text[: run.start()]), message, "Shorten the row.")


def _block_fault(text: str) -> ReadFault | None:
    """What stands between two blank lines: how long it is, how deep it nests, how many brackets are open.
    Tags of HTML stay open over blank lines."""
    size, lines, open_now = 0, 0, dict.fromkeys("[(<", 0)
    for number, line in enumerate(text.split("\n"), 1):
        if not line.strip():
            size, lines, open_now = 0, 0, {**open_now, "[": 0, "(": 0}
            continue
        size, lines = size + len(line) + 1, lines + 1
        if size > MAX_BLOCK or lines > MAX_LINES:
            most = f"{MAX_BLOCK:,} letters" if size > MAX_BLOCK else f"{MAX_LINES} lines"
            message = f"More than {most} stand here without a blank line."
            return ReadFault((), number, 1, message, "Put a blank line between paragraphs.")
        lead = _LEAD.match(line)
        if lead is not None and len(lead.group().expandtabs(4)) > MAX_LEAD:
            message = "This line nests too deep in lists or quotations."
            return ReadFault((), number, 1, message, "Start it further to the left.")
        for sign in _BRACKETS.finditer(line):
            kind = _CLOSED_BY.get(sign.group(), sign.group())
            open_now[kind] = max(0, open_now[kind] + (1 if kind == sign.group() else -1))
            if open_now[kind] > MAX_OPEN:
                message = f"Here more than {MAX_OPEN} brackets `{kind}` are open at once."
                return ReadFault((), number, sign.start() + 1, message, "Close or delete some of them.")
    return None


def _heading(text: str) -> str:
    fence = ""
    before = ""
    for line in text.split("\n"):
        opening = _FENCE.match(line)
        if opening and (not fence or opening.group(1).startswith(fence)):
            fence = "" if fence else opening.group(1)
        elif not fence:
            if _ATX.match(line):
                heading = _without_closing(line.lstrip(" ")[1:].strip(" \t"))
                if heading:
                    return _plain(heading)
            if before.strip() and _UNDERLINE.match(line):
                return _plain(before)
        before = "" if fence else line
    return ""


def _without_closing(heading: str) -> str:
    """A heading without the `#` that may close it."""
    words = heading.rstrip("#")
    return words.rstrip(" \t") if words.endswith((" ", "\t")) else heading


def _plain(heading: str) -> str:
    words, brace, inside = heading.rstrip().rpartition("{")
    if brace and inside.endswith("}") and "}" not in inside[:-1]:
        heading = words
    return _MARKUP.sub(lambda found: found.group(1) or "", heading).strip()
