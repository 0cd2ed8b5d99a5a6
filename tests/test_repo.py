"""What holds for the repository as a whole: what it may say, what must be there, how tests are written."""

from __future__ import annotations

import ast
import json
import re
import subprocess
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
LISTED = subprocess.run(
    ["git", "ls-files", "-z"], cwd=ROOT, check=True, capture_output=True, text=True
).stdout
TRACKED = sorted(name for name in LISTED.split("\0") if name and (ROOT / name).is_file())
TESTS = sorted((ROOT / "tests").rglob("test_*.py"))

MACHINE = [
    r"/" + r"(root|home|work|Users)/\w",
    r"\b[A-Z]:\\\\?Users",
    r"\b(files\.)?py" + r"pi\.org\b",
    r"\bregistry\." + r"npmjs",
    r"\bdeb\." + r"debian\.org",
    r"\bpython" + r"hosted\.org",
    r"\b" + r"localhost:\d{4,5}\b",
]
"""What tells of one machine or of one package registry; written so that this file does not match itself."""
WORDS_OF_MAKING = [
    "chat" + "gpt",
    "clau" + "de",
    "anthro" + "pic",
    "open" + "ai",
    "co-" + "pilot",
    "language " + "model",
]


def read(name: str) -> str:
    """The text of a tracked file; empty for pictures."""
    raw = (ROOT / name).read_bytes()
    return "" if b"\0" in raw[:8000] else raw.decode("utf-8")


def test_no_file_tells_of_a_machine_or_of_its_making():
    patterns = [*(re.compile(p) for p in MACHINE), *(re.compile(re.escape(w), re.I) for w in WORDS_OF_MAKING)]
    told = []
    for name in TRACKED:
        text = read(name)
        told += [f"{name}: {found[0]}" for pattern in patterns if (found := pattern.search(text))]
    assert told == []


def test_the_map_in_the_readme_is_true():
    named = re.findall(r"^\| `([^`]+)` \|", (ROOT / "README.md").read_text("utf-8"), flags=re.M)
    places = [place for place in named if not place.startswith("casetrue ")]
    assert len(places) >= 8
    for place in places:
        assert (ROOT / place).exists(), place


def test_the_commands_in_the_readme_are_there():
    readme = (ROOT / "README.md").read_text("utf-8")
    commands = re.findall(r"^```\n(bash .*)\n```$", readme, flags=re.M)
    assert commands == ["bash run-demo", "bash tests/run"]
    for command in commands:
        assert (ROOT / command.split()[1]).is_file()


def test_the_rooms_in_the_developers_map_are_there():
    rooms = re.findall(
        r"^\| `([a-z]+(?:/|\.py))` \|", (ROOT / "DEVELOPERS.md").read_text("utf-8"), flags=re.M
    )
    there = {
        path.name + "/" * path.is_dir() for path in (ROOT / "builder").iterdir() if path.name[0] not in "_."
    }
    assert set(rooms) == there


def pins(name: str) -> dict[str, str]:
    """The packages of a file of constraints/ with their exact versions; each must have hashes."""
    text = (ROOT / "constraints" / f"{name}.txt").read_text("utf-8").replace("\\\n", " ")
    found = {}
    for line in filter(None, re.sub(r"^#.*", "", text, flags=re.M).splitlines()):
        pin = re.fullmatch(r"([\w.-]+)==([\w.]+)( ; [^;]+?)?( +--hash=sha256:[0-9a-f]{64})+ *", line)
        assert pin, f"not one exact version with its hashes: {line[:80]}"
        found[pin[1].lower()] = pin[2]
    return found


def names(wanted: list[str]) -> set[str]:
    return {re.match(r"[\w-]+", line)[0].lower() for line in wanted}


def test_every_dependency_has_its_exact_version_and_its_reason():
    pyproject = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    extras = pyproject["project"]["optional-dependencies"]
    assert {file.stem for file in (ROOT / "constraints").iterdir()} == {"run", *extras}
    needed = pyproject["project"]["dependencies"] + pyproject["build-system"]["requires"]
    run = pins("run")
    assert names(needed) <= set(run)
    told = (ROOT / "DEVELOPERS.md").read_text("utf-8").lower()
    packages = json.loads((ROOT / "package.json").read_text("utf-8"))["devDependencies"]
    assert all(re.fullmatch(r"[\d.]+", version) for version in packages.values())
    for extra, wanted in extras.items():
        both = run | pins(extra)
        assert names(wanted) <= set(both)
        assert all(both[name] == version for name, version in run.items()), f"{extra} and run differ"
        needed += wanted
    for name in names(needed) | set(packages):
        assert name.startswith("types-") or name in told, f"DEVELOPERS.md does not say why {name}"


def test_the_lock_of_node_packages_names_no_host():
    assert "://" not in re.sub(r'"url": "[^"]*"', "", (ROOT / "package-lock.json").read_text("utf-8"))


@pytest.mark.parametrize("file", TESTS, ids=[str(file.relative_to(ROOT)) for file in TESTS])
def test_no_test_is_skipped_or_empty(file: Path):
    tree = ast.parse(file.read_text("utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute):
            assert node.attr not in ("skip", "skipif", "xfail", "importorskip"), (
                f"line {node.lineno}: {node.attr}"
            )
        if isinstance(node, ast.FunctionDef) and node.name.startswith("test_"):
            body = [
                part
                for part in node.body
                if not (isinstance(part, ast.Expr) and isinstance(part.value, ast.Constant))
            ]
            assert [part for part in body if not isinstance(part, ast.Pass)], f"line {node.lineno}: empty"


def test_names_of_tests_are_not_taken_twice_in_one_file():
    for file in TESTS:
        names = [n.name for n in ast.parse(file.read_text("utf-8")).body if isinstance(n, ast.FunctionDef)]
        twice = {name for name in names if name.startswith("test_") and names.count(name) > 1}
        assert not twice, f"{file.name}: {twice}"
