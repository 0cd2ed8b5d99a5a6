from __future__ import annotations

import importlib
import sys

import click
import pytest

from builder.cli import main as cli
from builder.source import NoCourse


@pytest.mark.parametrize("name", cli.COMMANDS)
def test_every_command_takes_a_course_and_has_help(run, name: str):
    command = importlib.import_module(f"builder.cli.{name}").command
    assert isinstance(command, click.Command)
    options = {option for parameter in command.params for option in parameter.opts}
    assert "--course" in options
    result = run(name, "--help")
    assert result.exit_code == 0
    assert command.help
    assert "[default: course_src]" in " ".join(result.stdout.split())


def test_the_list_of_commands_has_a_line_for_each(run):
    text = run("--help").stdout
    for name in cli.COMMANDS:
        assert f"\n  {name} " in text


@pytest.mark.parametrize("arguments", [["nonsense"], ["--nonsense"], []])
def test_wrong_use_exits_with_2(run, arguments: list[str]):
    assert run(*arguments).exit_code == 2


def test_a_fault_of_ours_is_told_without_a_traceback(monkeypatch, capsys, tmp_path):
    def broken(path):
        raise RuntimeError("wheels fell off\nand more")

    monkeypatch.setattr("builder.source.load", broken)
    monkeypatch.setattr(sys, "argv", ["casetrue", "check", "--course", str(tmp_path), "--format", "json"])
    with pytest.raises(SystemExit) as stopped:
        cli.main()
    assert stopped.value.code == cli.FAULT
    out, err = capsys.readouterr()
    assert out == ""
    assert "wheels fell off" in err
    assert "fault in itself" in err
    assert "Traceback" not in err


def test_a_trace_is_shown_where_it_is_asked_for(monkeypatch, tmp_path):
    def broken(path):
        raise RuntimeError("wheels fell off")

    monkeypatch.setenv("CASETRUE_TRACE", "1")
    monkeypatch.setattr("builder.source.load", broken)
    monkeypatch.setattr(sys, "argv", ["casetrue", "check", "--course", str(tmp_path)])
    with pytest.raises(RuntimeError, match="wheels"):
        cli.main()


def test_no_course_is_wrong_use_and_not_a_fault(monkeypatch, capsys, tmp_path):
    monkeypatch.setattr(sys, "argv", ["casetrue", "check", "--course", str(tmp_path / "nowhere")])
    with pytest.raises(SystemExit) as stopped:
        cli.main()
    assert stopped.value.code == 2
    assert issubclass(NoCourse, Exception)
