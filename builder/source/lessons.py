"""Reading pages: only their titles are read here; MkDocs renders them."""

from __future__ import annotations

import re

from .yaml_tree import parse

_FRONT = re.compile(r"\A---[ \t]*\n(.*?)^(?:---|\.\.\.)[ \t]*$\n?", re.DOTALL | re.MULTILINE)
_FENCE = re.compile(r" {0,3}(`{3,}|~{3,})")
_ATX = re.compile(r" {0,3}#[ \t]+(.+?)(?:[ \t]+#+)?[ \t]*$")
_UNDERLINE = re.compile(r" {0,3}=+[ \t]*$")
_ATTRIBUTES = re.compile(r"\s*\{[^{}]*\}\s*$")
_MARKUP = re.compile(r"!?\[([^\]]*)\]\([^)]*\)|[*`]{1,3}|(?<!\w)_{1,3}(?=\S)|(?<=\S)_{1,3}(?!\w)")


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


def _heading(text: str) -> str:
    fence = ""
    before = ""
    for line in text.split("\n"):
        opening = _FENCE.match(line)
        if opening and (not fence or opening.group(1).startswith(fence)):
            fence = "" if fence else opening.group(1)
        elif not fence:
            heading = _ATX.match(line)
            if heading:
                return _plain(heading.group(1))
            if before.strip() and _UNDERLINE.match(line):
                return _plain(before)
        before = "" if fence else line
    return ""


def _plain(heading: str) -> str:
    return _MARKUP.sub(lambda found: found.group(1) or "", _ATTRIBUTES.sub("", heading)).strip()
