"""Kills the writing of a site at every point, and the tidying up after that at every point.

    python killing.py FOLDER        (as test_place.py runs it)

A point is whatever Python reports before it changes a file or a folder (PEP 578). Prints how many were tried.
Fails where the site is neither the former one nor the new one, whole, or where something is left over.
"""

from __future__ import annotations

import os
import shutil
import signal
import sys
from collections.abc import Callable
from pathlib import Path

from builder.cli.manifest import strangers, write_manifest
from builder.cli.place import aside, move_in, tidy_up

POINTS = {"os.mkdir", "os.remove", "os.rename", "os.rmdir", "fcntl.flock"}
NAMES = ("index.html", "clients/tern.html")


def write(site: Path, text: str) -> None:
    tidy_up(site)
    with aside(site) as folder:
        (folder / "clients").mkdir()
        for name in NAMES:
            (folder / name).write_text(text, "utf-8")
        write_manifest(folder)
        move_in(folder, site)


def killed(work: Callable[[], None], point: int) -> bool:
    """Whether a process that does this was killed before its end, at the given point."""
    child = os.fork()
    if child:
        return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == -signal.SIGKILL
    passed = 0

    def stop(event: str, given: tuple[object, ...]) -> None:
        nonlocal passed
        if event in POINTS or (event == "open" and "r" not in str(given[1])):
            passed += 1
            if passed == point:
                os.kill(os.getpid(), signal.SIGKILL)

    sys.addaudithook(stop)
    work()
    os._exit(0)


def shown(site: Path) -> set[str]:
    """The texts of a site, which must be whole."""
    assert strangers(site) == [], strangers(site)
    return {(site / name).read_text("utf-8") for name in NAMES}


def main(root: Path) -> None:
    site = root / "site"
    tried = [0, 0]
    for first in range(1, 1000):
        for second in range(1, 1000):
            shutil.rmtree(root, ignore_errors=True)
            root.mkdir()
            write(site, "former")
            writing = killed(lambda: write(site, "new"), first)
            tidying = killed(lambda: tidy_up(site), second)
            tidy_up(site)
            assert shown(site) in ({"former"}, {"new"}), (first, second)
            assert list(root.iterdir()) == [site], (first, second, list(root.iterdir()))
            tried[1] += 1
            if not tidying:
                break
        tried[0] += 1
        if not writing:
            assert shown(site) == {"new"}
            break
    print(*tried)


main(Path(sys.argv[1]))
