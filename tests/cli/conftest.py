from __future__ import annotations

import pytest
from click.testing import CliRunner, Result

from builder.cli.main import casetrue


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch):
    """`run("check", "--course", folder)`: the command's result; exceptions are not caught."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1780272000")  # 2026-06-01

    def invoke(*arguments: object) -> Result:
        return CliRunner().invoke(casetrue, [str(argument) for argument in arguments], catch_exceptions=False)

    return invoke
