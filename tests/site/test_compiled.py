"""Templates compiled once: what is kept on disk is good for the same text, program and extensions alone."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import jinja2
import pytest

from builder.site import compiled
from builder.site.compiled import Compiled


class Counting(jinja2.Environment):
    """Counts how often it compiles."""

    compiled = 0

    def compile(self, *given, **named):
        self.compiled += 1
        return super().compile(*given, **named)


@pytest.fixture(autouse=True)
def own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of templates that counts as the program's own."""
    monkeypatch.setattr(compiled, "PACKAGE", tmp_path)
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    (tmp_path / "page.html.j2").write_text("Hello {{ name }}", "utf-8")
    return tmp_path


def drawn(folder: Path, *extensions: str) -> tuple[str, int]:
    """The page as a new process would draw it, and how many templates were compiled for it."""
    loader = jinja2.FileSystemLoader(folder)
    env = Counting(loader=loader, bytecode_cache=Compiled(), extensions=extensions, autoescape=True)
    return env.get_template("page.html.j2").render(name="Ada"), env.compiled


def kept(folder: Path) -> list[Path]:
    return sorted((folder / "__pycache__").glob("*"))


def test_a_template_is_compiled_once(own: Path) -> None:
    assert drawn(own) == ("Hello Ada", 1)
    assert drawn(own) == ("Hello Ada", 0)
    assert len(kept(own)) == 1


def test_another_text_is_compiled_anew(own: Path) -> None:
    drawn(own)
    (own / "page.html.j2").write_text("Goodbye {{ name }}", "utf-8")
    assert drawn(own) == ("Goodbye Ada", 1)
    assert drawn(own) == ("Goodbye Ada", 0)


def test_another_program_compiles_anew(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    drawn(own)
    monkeypatch.setattr(compiled, "program", lambda: "another")
    assert drawn(own)[1] == 1


def test_other_extensions_compile_anew(own: Path) -> None:
    drawn(own)
    assert drawn(own, "jinja2.ext.do")[1] == 1


def test_one_environment_escapes_whatever_another_does(own: Path) -> None:
    shared, loader = Compiled(), jinja2.FileSystemLoader(own)
    for escapes, told in ((False, "Hello <b>"), (True, "Hello &lt;b&gt;"), (False, "Hello <b>")):
        env = jinja2.Environment(loader=loader, bytecode_cache=shared, autoescape=escapes)
        assert env.get_template("page.html.j2").render(name="<b>") == told


def test_a_write_that_fails_leaves_nothing(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError

    monkeypatch.setattr(Path, "replace", full)
    assert drawn(own) == ("Hello Ada", 1)
    assert kept(own) == []


@pytest.mark.parametrize(
    "spoil",
    [
        lambda whole: b"",
        lambda whole: whole[:-1],
        lambda whole: whole[:-1] + bytes([whole[-1] ^ 1]),
        lambda whole: b"no line at all",
    ],
)
def test_a_damaged_file_is_as_good_as_none(own: Path, spoil: Callable[[bytes], bytes]) -> None:
    drawn(own)
    (file,) = kept(own)
    file.write_bytes(spoil(file.read_bytes()))
    assert drawn(own) == ("Hello Ada", 1)
    assert drawn(own) == ("Hello Ada", 0)


def test_where_nothing_can_be_written_all_is_compiled(own: Path) -> None:
    (own / "__pycache__").write_text("no folder", "utf-8")
    assert drawn(own) == ("Hello Ada", 1)
    assert drawn(own) == ("Hello Ada", 1)


def test_who_asks_python_to_keep_nothing_is_obeyed(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    drawn(own)
    assert kept(own) == []


def test_templates_of_others_leave_nothing_beside_them(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(compiled, "PACKAGE", own / "elsewhere")
    assert drawn(own) == ("Hello Ada", 1)
    assert kept(own) == []


def test_one_run_compiles_once(own: Path) -> None:
    shared = Compiled()
    for expected in (1, 0):
        env = Counting(loader=jinja2.FileSystemLoader(own), bytecode_cache=shared)
        env.get_template("page.html.j2")
        assert env.compiled == expected
