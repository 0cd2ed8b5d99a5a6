"""When things come back and what a day's practice holds, run by Node in several time zones."""

from __future__ import annotations

from pathlib import Path

import pytest

from ..node import run_node_tests


@pytest.mark.parametrize("zone", ["UTC", "Pacific/Kiritimati", "America/Los_Angeles"])
def test_the_laws_of_a_days_practice(zone: str) -> None:
    run_node_tests(Path(__file__).parent / "today.test.js", 16, TZ=zone)
