"""Which changes are tried, and that each is put in where it belongs."""

from __future__ import annotations

import ast
import tomllib
from pathlib import Path

import pytest

from .changes import mutants_of
from .runs import replace_parts


def changes(tmp_path: Path, text: str) -> list[str]:
    file = tmp_path / "module.py"
    file.write_text(text, "utf-8")
    return [f"{one.line} {one.function}: {one.was} → {one.now}" for one in mutants_of(file)]


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("x = a < b", ["a < b → a <= b", "a < b → a >= b"]),
        ("x = a == b", ["a == b → a != b"]),
        ("x = a in b", ["a in b → a not in b"]),
        ("x = a and b", ["a and b → a or b", "a and b → b", "a and b → a"]),
        ("x = not a", ["not a → a"]),
        ("x = a + b", ["a + b → a - b"]),
        ("x = True", ["True → False"]),
        ("x = y[0]", ["0 → 1"]),
        ("x = y[5]", ["5 → 6", "5 → 4"]),
        ("x = min(a, b)", ["min(a, b) → max(a, b)"]),
        ("x = sorted(a, key=b)", ["sorted(a, key=b) → list(a)"]),
        ("x = math.floor(a)", ["math.floor(a) → math.ceil(a)"]),
        ("x += a", ["x += a → x -= a", "x += a → pass"]),
        ("f(a)", ["f(a) → pass"]),
        ("x = a if b else c", ["a if b else c → a if not b else c"]),
        ("x = [a for a in b if c]", ["[a for a in b if c] → [a for a in b]"]),
        ("x = f'{a + b}'", ["a + b → a - b"]),
    ],
)
def test_what_is_changed(tmp_path: Path, line: str, expected: list[str]) -> None:
    assert changes(tmp_path, line) == [f"1 : {change}" for change in expected]
    for one in mutants_of(tmp_path / "module.py"):
        compile(ast.Module([one.statement()], []), "module.py", "exec")


@pytest.mark.parametrize(
    "line",
    [
        '"""Told."""',
        "import a.b as c",
        "x: int | None = a",
        "Kind = int | str",
        "Ways = Mapping[str, Literal[1, 2]]",
        "assert a < b",
        "x = 'wording'",
        "x = f'wording'",
        "if TYPE_CHECKING:\n    x = 1",
        "@cache(maxsize=3)\ndef f(a: int | None) -> int | None:\n    '''Told.'''",
        "x = isinstance(a, int | str)",
        "__all__ = ['a']",
        "x = zip(a, b, strict=True)",
    ],
)
def test_what_is_no_behaviour_is_left_alone(tmp_path: Path, line: str) -> None:
    assert changes(tmp_path, line) == []


def test_functions_and_lines_are_told(tmp_path: Path) -> None:
    text = "LIMIT = 2\n\nclass A:\n    most = 3\n\n    def f(self, a):\n        return [b for b in a]\n"
    assert changes(tmp_path, text) == [
        "1 : 2 → 3",
        "1 : 2 → 1",
        "4 : 3 → 4",
        "4 : 3 → 2",
        "7 A.f: return [b for b in a] → return None",
    ]


def test_one_change_leaves_the_others_out(tmp_path: Path) -> None:
    file = tmp_path / "module.py"
    file.write_text("def f(a):\n    return a + 1 < 2\n", "utf-8")
    made = {ast.unparse(one.statement()).splitlines()[1].strip() for one in mutants_of(file)}
    assert made == {
        "return None", "return a + 1 <= 2", "return a + 1 >= 2", "return a - 1 < 2",
        "return a + 2 < 2", "return a + 0 < 2", "return a + 1 < 3", "return a + 1 < 1",
    }  # fmt: skip


def test_whoever_holds_an_old_object_has_the_changed_one() -> None:
    class Old:
        most = 3

        def plain(self, n: int = 1) -> int:
            return n

        @property
        def part(self) -> int:
            return 1

        @staticmethod
        def fixed() -> int:
            return 1

    class New:
        most = 4

        def plain(self, n: int = 2) -> int:
            return n + 10

        @property
        def part(self) -> int:
            return 2

        @staticmethod
        def fixed() -> int:
            return 2

    held, bound = Old(), Old().plain
    replace_parts(Old, New)
    assert (held.most, held.plain(), bound(), held.part, held.fixed()) == (4, 12, 12, 2, 2)


def test_what_is_allowed_is_still_there_and_says_why() -> None:
    here = Path(__file__)
    for file, several in tomllib.loads(here.with_name("allowed.toml").read_text("utf-8")).items():
        tried = {(one.written, one.was, one.now) for one in mutants_of(here.parents[2] / file)}
        for one in several:
            assert (one["line"], one["was"], one["now"]) in tried, (file, one["line"])
            assert one["why"].endswith(".")
