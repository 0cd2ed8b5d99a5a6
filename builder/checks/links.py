"""Where lessons lead to, and which pages and files of the site there are to lead to."""

from __future__ import annotations

import posixpath
from collections.abc import Iterator
from urllib.parse import unquote, urlsplit

from builder.answers.addresses import CLIENTS, every_page
from builder.course import Place
from builder.problems.nearest import nearest_word

from .markup import Address
from .scope import Fault, Scope

_PAGES = (".md", ".html", "")


def dead_links(scope: Scope) -> Iterator[Fault]:
    """Links and pictures of lessons that lead to nothing in the course."""
    found = [(file, address) for file, address in scope.lesson_addresses if not address.is_foreign]
    known = there(scope) if found else frozenset()
    for file, address in found:
        path = _path(address)
        here = posixpath.dirname(file.removeprefix("lessons/"))
        # Pages that the builder makes bear `.html` on the site, whatever MkDocs calls them before.
        target = posixpath.normpath(posixpath.join(here, path))
        if _is_told(path) and not known & {target, _markdown(target)}:
            what = (
                "page of the site" if posixpath.splitext(target)[1] in _PAGES else "file beside the lessons"
            )
            place = Place(file, address.line, address.column)
            yield Fault(place, f"lesson:{file}", f"`{path}` is no {what}.", _hint(target, here, known))


def _is_told(path: str) -> bool:
    """Not the page or folder itself, and no address from the root of the host, which nobody knows here."""
    return path not in ("", ".", "./") and not path.startswith("/")


def there(scope: Scope) -> frozenset[str]:
    """All that a lesson may lead to, as it is written there: a client's page ends in `.html`, any other in
    `.md`. What is in the course and could not be read counts too."""
    return frozenset((*_made(scope), *_beside(scope)))


def _beside(scope: Scope) -> Iterator[str]:
    for lesson in scope.course.lessons:
        name = lesson.file.removeprefix("lessons/")
        yield name
        if posixpath.basename(name) == "README.md":
            yield posixpath.join(posixpath.dirname(name), "index.md")  # as MkDocs calls its page
    yield from (file.removeprefix("lessons/") for file in scope.attached)


def _made(scope: Scope) -> Iterator[str]:
    """The pages that the builder makes."""
    for page in every_page(scope.answers, scope.unread):
        is_client = page.startswith("clients/") and page != CLIENTS
        yield page if is_client else _markdown(page)


def _path(address: Address) -> str:
    """The address without its `?choice` and `#part`."""
    try:
        return unquote(urlsplit(address.address).path)
    except ValueError:
        return address.address


def _markdown(path: str) -> str:
    return path.removesuffix(".html") + ".md" if path.endswith(".html") else path


def _hint(target: str, here: str, known: frozenset[str]) -> str:
    """The nearest that there is: under the same name elsewhere or with another ending, or nearly so."""
    folder = posixpath.dirname(target)
    meant = f"{target}/index.md"
    if meant not in known:
        by_folder = sorted(known, key=lambda one: (posixpath.dirname(one) == folder, one))
        near = {_bare(one): one for one in by_folder if _bare(one) != "index"}
        word = nearest_word(_bare(target), near)
        meant = near[word] if word else ""
    if not meant:
        return "Correct it, or write what it leads to."
    return f"Did you mean `{posixpath.relpath(meant, here or '.')}`?"


def _bare(path: str) -> str:
    return posixpath.splitext(posixpath.basename(path))[0]
