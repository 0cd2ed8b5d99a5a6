"""Trouble with files, folders and disks in plain sentences: what is wrong, where, and what to do."""

from __future__ import annotations

import errno
import os

from .printable import one_line

_GONE = "It may have been moved or deleted just now. Look for it, then try again."
_FORBIDDEN = ("you may not read or change it", "Ask whoever may, or choose another place.")
_FULL = ("the disk is full", "Make room, then try again.")
_APART = ("it is in use, or is a disk of its own", "Choose a folder inside it, or another place.")
_THERE = ("something is there already", "Move it elsewhere, then try again.")
_MANY = ("too many files are open on this machine", "Close some programs, then try again.")

_SAID = {
    errno.ENOENT: ("it is not there", _GONE),
    errno.ENOTDIR: ("a part of this path is a file, not a folder", "Check the path."),
    errno.EISDIR: ("this is a folder, not a file", "Check the path."),
    errno.EACCES: _FORBIDDEN,
    errno.EPERM: _FORBIDDEN,
    errno.EROFS: ("this disk can be read, but not changed", "Choose another place."),
    errno.ENOSPC: _FULL,
    errno.EDQUOT: _FULL,
    errno.EFBIG: ("the file is too large for this disk", "Choose another place."),
    errno.ENAMETOOLONG: ("the name is too long", "Choose a shorter one."),
    errno.ELOOP: ("this link leads round to itself", "Delete the link."),
    errno.EBUSY: _APART,
    errno.EXDEV: _APART,
    errno.EEXIST: _THERE,
    errno.ENOTEMPTY: _THERE,
    errno.EMFILE: _MANY,
    errno.ENFILE: _MANY,
    errno.EIO: ("the disk or the network does not answer", "Check it, then try again."),
}
"""What an error of the system means (POSIX.1-2017, <errno.h>), and what helps."""


def reason(trouble: OSError) -> str:
    """What is wrong, as a clause."""
    return _said(trouble)[0]


def sentence(trouble: OSError, place: object = None) -> str:
    """What is wrong and what to do. `place` is told where the error itself names none."""
    what, cure = _said(trouble)
    named = trouble.filename
    where = place if named is None else os.fsdecode(named) if isinstance(named, bytes) else named
    start = f"{one_line(where)}: {what}" if where not in (None, "") else what[:1].upper() + what[1:]
    return f"{start}. {cure}".strip()


def _said(trouble: OSError) -> tuple[str, str]:
    return _SAID.get(trouble.errno or 0, (trouble.strerror or str(trouble) or "it cannot be used", ""))
