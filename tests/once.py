"""What takes long to make, and is made by one of the test processes for all."""

from __future__ import annotations

import fcntl
import os
import pickle
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

import pytest

Made = TypeVar("Made")


def once(factory: pytest.TempPathFactory, name: str, make: Callable[[Path], Made]) -> Made:
    """What `make` makes in a folder of its own, which all processes of this run share. It must be something
    that can be pickled."""
    base = factory.getbasetemp()
    root = (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / name
    kept = root / "made.pickle"
    with root.with_suffix(".lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not kept.exists():
            root.mkdir(exist_ok=True)
            kept.write_bytes(pickle.dumps(make(root)))
        made: Made = pickle.loads(kept.read_bytes())
        return made
