"""The address of the course's site: given, or the `site_url` of the educator's own mkdocs.yml."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import urlsplit

import click

from .hosting import own_configuration


def site_address(course_dir: Path, given: str | None) -> str | None:
    """Without a slash at its end; None where there is none. Ends the command where what was given is none."""
    if given is not None:
        if not _is_address(given):
            raise click.BadParameter(
                f"{given} is no address of a site; write it as https://example.org/course/.",
                param_hint="--site",
            )
        return given.rstrip("/")
    file = own_configuration(course_dir)
    found = _site_url(file) if file is not None else None
    return found.rstrip("/") if isinstance(found, str) and _is_address(found) else None


def _site_url(file: Path) -> object:
    """Read as data: a tag, such as that of a variable of the system, gives nothing."""
    import yaml  # a course without a configuration needs none

    class Plain(yaml.SafeLoader):
        """Takes what has a tag of its own for nothing."""

    Plain.add_multi_constructor("", lambda _loader, _suffix, _node: None)
    try:
        settings = yaml.load(file.read_bytes(), Loader=Plain)
    except (OSError, yaml.YAMLError, ValueError, RecursionError):
        return None
    return settings.get("site_url") if isinstance(settings, dict) else None


_ODD = frozenset(" <>\"'`\\{}|^")


def _is_address(text: str) -> bool:
    try:
        parts = urlsplit(text)
    except ValueError:
        return False
    # Whoever gets a link would get a name and password in it too.
    is_bare = not (parts.query or parts.fragment or "@" in parts.netloc)
    is_plain = text.isprintable() and _ODD.isdisjoint(text) and is_bare
    return is_plain and parts.scheme in ("http", "https") and bool(parts.hostname)
