"""What is read out of, and mended in, HTML that others have made: a lesson's, or the home page's opening."""

from __future__ import annotations

import re
from dataclasses import dataclass

from markupsafe import Markup

_ID = re.compile(r'\sid="([^"]+)"')
_ALIGNED = re.compile(r'<(t[dh]) style="text-align: (left|center|right);">')
_HEADING = re.compile(r"<h1\b.*?</h1>", re.DOTALL)
_ROOT = re.compile(r"<html\b", re.IGNORECASE)
_SECTION = re.compile(r"<h2\b")


def with_edition(page: str, edition: str) -> str:
    """The page with its edition on the root element, where scripts read it, whatever the theme."""
    return _ROOT.sub(lambda root: f'{root.group()} data-edition="{edition}"', page, count=1)


def anchors(html: str) -> set[str]:
    """Every id of a body that links can lead to."""
    return set(_ID.findall(html))


def to_classes(html: str) -> str:
    """Table alignment by class, since the policy admits no style attributes."""
    return _ALIGNED.sub(r'<\1 class="to-\2">', html)


@dataclass(frozen=True, slots=True)
class Opening:
    """The educator's own `index.md`, cut for the home page."""

    heading: Markup | None
    """Its `<h1>`, whole."""
    first: Markup
    """What stands before the first `<h2>`."""
    rest: Markup


def opening(html: str) -> Opening:
    heading = _HEADING.search(html)
    text = html.replace(heading.group(), "", 1) if heading else html
    section = _SECTION.search(text)
    cut = section.start() if section else len(text)
    return Opening(
        Markup(heading.group()) if heading else None, Markup(text[:cut].strip()), Markup(text[cut:].strip())
    )
