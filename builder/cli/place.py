"""The place of a site: which folder may be one, and how a new site gets there whole or not at all.

A site is made aside, in a folder beside its place, and moved there by two renames: the former site out of the
way, the new one in. A build may be killed at any point; the next one to this place tidies up after it.
"""

from __future__ import annotations

import contextlib
import os
import re
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import IO

import click

from builder.problems.printable import one_line
from builder.problems.trouble import reason

from .manifest import is_ours, strangers

try:
    import fcntl
except ImportError:  # a system without such locks; nothing is tidied up there
    fcntl = None  # type: ignore[assignment]

_NEW, _OLD, _LOCK = "site", "old", "casetrue.lock"
"""What stands in the folder aside: the new site, the former one, and what a build holds while it runs."""
_SHOWN = 3


def place_of(out: Path, course_dir: Path) -> Path:
    """The folder for a site, links followed. Ends the command where none can stand there."""
    site = Path(os.path.realpath(out))
    shown = one_line(out)
    if out.is_symlink() and not site.is_dir():
        raise click.UsageError(f"{shown} is a link that leads nowhere. Delete it, or choose another folder.")
    file = next((above for above in site.parents if above.exists() and not above.is_dir()), None)
    if file is not None:
        raise click.UsageError(f"{one_line(file)} is a file, so no folder can stand in it.")
    course = Path(os.path.realpath(course_dir))
    if any(_same(above, course) for above in (site, *site.parents)):
        raise click.UsageError(
            f"{shown} belongs to the course, so no site can stand there. Choose a folder outside the course."
        )
    if any(_same(above, site) for above in course.parents):
        raise click.UsageError(
            f"{shown} holds the course, which a site there would replace. Choose another folder."
        )
    if site.is_dir() and os.path.ismount(site):
        inside = one_line(out / "site")
        raise click.UsageError(
            f"{shown} is a disk of its own and cannot be replaced. Choose a folder in it, such as {inside}."
        )
    return site


def _same(one: Path, other: Path) -> bool:
    """One folder, by whatever name: a disk may not tell capitals from small letters."""
    try:
        return one == other or one.samefile(other)
    except OSError:
        return False


def refuse_others(site: Path) -> None:
    """Ends the command where a build to this place would take away what no build wrote."""
    if not site.exists() or not any(site.iterdir()):
        return
    if not is_ours(site):
        raise click.UsageError(
            f"{one_line(site)} was not written by casetrue and is not empty, so it is left alone. "
            "Choose another folder."
        )
    found = strangers(site)
    if found:
        shown = ", ".join(map(one_line, found[:_SHOWN]))
        more = f" and {len(found) - _SHOWN} more" if len(found) > _SHOWN else ""
        raise click.UsageError(
            f"{one_line(site)} holds what no build wrote: {shown}{more}. It is left alone: move to another "
            "place what you want to keep, delete the rest, then build again."
        )


@contextlib.contextmanager
def aside(site: Path) -> Iterator[Path]:
    """A fresh folder on the same disk as the place of a site. Afterwards it is gone, unless it was moved.

    Ends the command where none can be made.
    """
    try:
        site.parent.mkdir(parents=True, exist_ok=True)
        with _alone(site.parent):
            around = Path(tempfile.mkdtemp(prefix=f".{site.name}-", dir=site.parent))
            lock = (around / _LOCK).open("xb")
            _hold(lock)
        (around / _NEW).mkdir()
    except OSError as trouble:
        why = "no folder can be made there" if isinstance(trouble, FileNotFoundError) else reason(trouble)
        raise click.UsageError(
            f"No site can be made at {one_line(site)}: {why}. Choose another folder."
        ) from trouble
    with lock:
        try:
            yield around / _NEW
        finally:
            with _alone(site.parent):
                _clear(around, site)


def move_in(folder: Path, site: Path) -> None:
    """Puts a folder made aside in its place; the former site goes once the new one stands. Raises OSError."""
    with _alone(site.parent):
        if os.path.lexists(site):
            site.rename(folder.with_name(_OLD))
        folder.rename(site)


def tidy_up(site: Path) -> None:
    """Clears away what killed builds to this place have left. One that was killed between its two renames
    gives the former site back. Folders of builds that run, or of anybody else, stay."""
    ours = re.compile(rf"\.{re.escape(site.name)}-[a-z0-9_]{{8}}")
    try:
        with os.scandir(site.parent) as scan:
            folders = [one for one in scan if ours.fullmatch(one.name)]
            left = [Path(one.path) for one in folders if one.is_dir(follow_symlinks=False)]
    except OSError:
        return
    if left:
        with _alone(site.parent):
            for around in left:
                with contextlib.suppress(OSError):
                    _sweep(around, site)


def _sweep(around: Path, site: Path) -> None:
    inside = {entry.name for entry in around.iterdir()}
    if not inside:
        around.rmdir()
    elif _LOCK in inside and inside <= {_LOCK, _NEW, _OLD}:
        with (around / _LOCK).open("rb") as lock:
            if _hold(lock):
                _clear(around, site)


def _clear(around: Path, site: Path) -> None:
    """Deletes a folder aside; the lock last, since by it the folder is known. Where both sites are still in
    it and none is in its place, the former one goes back first."""
    new, old, lock = around / _NEW, around / _OLD, around / _LOCK
    with contextlib.suppress(OSError):
        if new.exists() and old.exists() and not os.path.lexists(site):
            old.rename(site)
        shutil.rmtree(new, ignore_errors=True)
        shutil.rmtree(old, ignore_errors=True)
        if not new.exists() and not old.exists():
            lock.unlink()
            around.rmdir()


@contextlib.contextmanager
def _alone(folder: Path) -> Iterator[None]:
    """Nobody else moves sites in this folder meanwhile, where its disk knows locks."""
    with contextlib.ExitStack() as stack:
        with contextlib.suppress(OSError):
            handle = os.open(folder, os.O_RDONLY)
            stack.callback(os.close, handle)
            if fcntl is not None:
                fcntl.flock(handle, fcntl.LOCK_EX)
        yield


def _hold(lock: IO[bytes]) -> bool:
    """Whether this process now holds a lock; it does until the file is closed. The system lets go of it for
    a process that is killed."""
    try:
        if fcntl is not None:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
            return True
    except OSError:
        pass
    return False
