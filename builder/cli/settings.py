"""Whether an educator's own mkdocs.yml lets a build read nothing but the course."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

_KEYS = {
    "site_name", "site_url", "site_description", "site_author", "site_dir", "copyright", "docs_dir", "theme",
    "plugins", "nav", "not_in_nav", "extra", "extra_css", "extra_javascript", "repo_url", "repo_name",
    "edit_uri", "strict", "validation", "use_directory_urls", "dev_addr", "markdown_extensions",
}  # fmt: skip
"""Settings of MkDocs 1.6 that are data for pages, or that we set ourselves. Not among them: what is run
(`hooks`), and what names further files (`INHERIT`, `extra_templates`)."""
_THEMES = {"casetrue", "material", "mkdocs", "readthedocs"}
"""Ours and those of our libraries, whose versions are known."""
_PLUGINS = {"casetrue": frozenset[str](), "search": frozenset({"lang", "separator", "min_search_length"})}
"""Plugins with the options that name no file and run nothing."""
_EXTENSIONS = {
    "abbr", "admonition", "attr_list", "codehilite", "def_list", "extra", "fenced_code", "footnotes",
    "md_in_html", "meta", "nl2br", "sane_lists", "smarty", "tables", "toc", "wikilinks",
}  # fmt: skip
"""Extensions that come with Python-Markdown 3; none reads a file."""


def reads_the_course_alone(file: Path) -> bool:
    """Whether a configuration of MkDocs names no more than search, our plugin, a known theme, plain settings.

    It is read as data: a tag, such as that of a variable of the system, makes it unknown. Raises OSError.
    """
    import yaml  # most courses have no configuration of their own

    try:
        settings = yaml.load(file.read_bytes(), Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
    except (yaml.YAMLError, ValueError, RecursionError):
        return False
    return (
        isinstance(settings, dict)
        and settings.keys() <= _KEYS
        and settings.get("docs_dir", "docs") in ("docs", "lessons")
        and _is_known_theme(settings.get("theme", "mkdocs"))
        and _all_known(settings.get("plugins", ["search"]), _PLUGINS)
        and _all_known(settings.get("markdown_extensions", []), dict.fromkeys(_EXTENSIONS))
    )


def _is_known_theme(theme: object) -> bool:
    if isinstance(theme, dict):
        theme = None if "custom_dir" in theme else theme.get("name")
    return isinstance(theme, str) and theme in _THEMES


def _all_known(given: object, known: Mapping[str, frozenset[str] | None]) -> bool:
    """Whether a list, or a mapping of names to options, holds known names with known options alone. None for
    the known options stands for any."""
    if isinstance(given, dict):
        given = [{name: options} for name, options in given.items()]
    return isinstance(given, list) and all(_is_known(one, known) for one in given)


def _is_known(one: object, known: Mapping[str, frozenset[str] | None]) -> bool:
    if isinstance(one, str):
        return one in known
    if not isinstance(one, dict) or not one.keys() <= known.keys():
        return False
    return all(_fits(options or {}, known[name]) for name, options in one.items())


def _fits(options: object, known: frozenset[str] | None) -> bool:
    return known is None or (isinstance(options, dict) and options.keys() <= known)
