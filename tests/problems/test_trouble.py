"""Trouble of the system in plain sentences."""

from __future__ import annotations

import errno
import os

import pytest

from builder.problems.printable import one_line
from builder.problems.trouble import reason, sentence


@pytest.mark.parametrize(
    "number",
    ["ENOENT", "EACCES", "EPERM", "EROFS", "ENOSPC", "EDQUOT", "EBUSY", "EXDEV", "EEXIST", "ENOTEMPTY",
     "ENOTDIR", "EISDIR", "ELOOP", "ENAMETOOLONG", "EMFILE", "ENFILE", "EIO", "EFBIG"],
)  # fmt: skip
def test_ordinary_trouble_is_told_with_its_place_and_what_to_do(number: str) -> None:
    code = getattr(errno, number)
    told = sentence(OSError(code, os.strerror(code), "site/index.html"))
    assert told.startswith("site/index.html: ")
    assert told.count(".") >= 3  # of the name, of what is wrong, of what to do
    assert os.strerror(code) not in told
    assert number not in told


def test_rare_trouble_is_told_as_the_system_does() -> None:
    trouble = OSError(errno.ETXTBSY, "Text file busy", "a")
    assert sentence(trouble) == "a: Text file busy."


@pytest.mark.parametrize(
    "trouble", [OSError(), OSError("odd"), OSError(errno.EIO, None), OSError(99999, "odd")]
)
def test_trouble_without_a_name_is_told_too(trouble: OSError) -> None:
    told = sentence(trouble)
    assert told[0].isupper()
    assert told.endswith(".")
    assert sentence(trouble, "here").startswith("here: ")


def test_a_place_is_told_where_the_trouble_names_none() -> None:
    full = OSError(errno.ENOSPC, "No space left on device")
    assert sentence(full) == "The disk is full. Make room, then try again."
    assert sentence(full, "site") == "site: the disk is full. Make room, then try again."
    assert reason(full) == "the disk is full"


@pytest.mark.parametrize(
    ("path", "shown"),
    [
        ("a b/é.md", "a b/é.md"),
        ("a\x1b[31m\n", r"a\x1b[31m\n"),
        ("\u202egpj.exe", r"\u202egpj.exe"),
        (os.fsdecode(b"\xff"), r"\udcff"),
        (3, "3"),
    ],
)
def test_no_sign_of_a_path_moves_the_terminal(path: object, shown: str) -> None:
    assert one_line(path) == shown


def test_a_name_in_bytes_is_told_as_letters() -> None:
    assert sentence(OSError(errno.ENOENT, "", b"caf\xc3\xa9")).startswith("café: it is not there.")
