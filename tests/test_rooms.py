"""The laws of the house: which room may import which, who may print, what is pure."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

BUILDER = Path(__file__).parents[1] / "builder"
ROOMS = [
    "problems",
    "course",
    "words",
    "source",
    "decide",
    "questions",
    "exercises",
    "answers",
    "checks",
    "editions",
    "records",
    "statistics",
    "site",
    "plugin",
    "cli",
]
"""In the order of the journey; a room imports only earlier ones."""
PURE = ["course", "decide", "questions", "exercises", "editions", "statistics"]
FILES_AND_OS = {"io", "os", "pathlib", "shutil", "subprocess", "sys", "tempfile", "threading", "logging"}
CLOCKS_AND_CHANCE = {"datetime", "random", "secrets", "time"}
WEB = {"asyncio", "http", "mkdocs", "socket", "urllib"}
OUTSIDE = FILES_AND_OS | CLOCKS_AND_CHANCE | WEB | {"click"}
SPEAKERS = ["problems", "cli"]


def room(file: Path) -> str:
    first = file.relative_to(BUILDER).parts[0]
    return first.removesuffix(".py")


FILES = sorted(file for file in BUILDER.rglob("*.py") if file.parent != BUILDER or file.stem in ROOMS)


def of_rooms(rooms: list[str]) -> pytest.MarkDecorator:
    """One run of the test for each file of these rooms."""
    files = [file for file in FILES if room(file) in rooms]
    return pytest.mark.parametrize("file", files, ids=[str(file.relative_to(BUILDER)) for file in files])


def imports(file: Path) -> Iterator[tuple[int, str]]:
    """Every module that the file imports, anywhere in it, by its full name."""
    package = ("builder", *file.relative_to(BUILDER).parent.parts)
    for node in ast.walk(ast.parse(file.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            for name in node.names:
                yield node.lineno, name.name
        elif isinstance(node, ast.ImportFrom):
            base = ".".join(package[: len(package) - node.level + 1]) if node.level else ""
            module = ".".join(part for part in (base, node.module) if part)
            for name in node.names:
                yield node.lineno, f"{module}.{name.name}"


def test_every_room_is_known():
    there = {path.name.removesuffix(".py") for path in BUILDER.iterdir() if path.name[0] not in "._"}
    assert there - {"schemas"} <= set(ROOMS)


def test_every_room_has_tests_of_its_own():
    rooms = [path.name for path in BUILDER.iterdir() if path.is_dir() and path.name in ROOMS]
    assert [name for name in rooms if not any((BUILDER.parent / "tests" / name).glob("test_*.py"))] == []


@of_rooms(ROOMS)
def test_a_room_imports_only_earlier_ones(file: Path):
    here = room(file)
    for line, module in imports(file):
        if not module.startswith("builder.") or module == "builder.__version__":
            continue
        other = module.split(".")[1]
        assert other in ROOMS, f"line {line}: {module} is no room"
        assert ROOMS.index(other) <= ROOMS.index(here), f"line {line}: {here} comes before {other}"


@of_rooms(["decide"])
def test_decisions_know_the_model_alone(file: Path):
    """No words, no files, no problems: what is decided is told elsewhere."""
    for line, module in imports(file):
        if module.startswith("builder."):
            assert module.split(".")[1] in ("course", "decide"), f"line {line}: {module}"


@of_rooms(PURE)
def test_pure_rooms_touch_no_file_clock_or_web(file: Path):
    for line, module in imports(file):
        assert module.split(".")[0] not in OUTSIDE, f"line {line}: {module}"
    for node in ast.walk(ast.parse(file.read_text("utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            assert node.func.id not in ("open", "print", "input"), f"line {node.lineno}: {node.func.id}"


@of_rooms([name for name in ROOMS if name not in SPEAKERS])
def test_only_writers_of_problems_and_commands_print(file: Path):
    for node in ast.walk(ast.parse(file.read_text("utf-8"))):
        if isinstance(node, ast.Call):
            called = ast.unparse(node.func)
            assert called not in ("print", "click.echo", "click.secho", "sys.stdout.write"), (
                f"line {node.lineno}"
            )
