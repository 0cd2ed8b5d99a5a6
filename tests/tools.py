"""The programs beside Python's and npm's packages that the tests need, and the least version of each.

`.venv/bin/python -m tests.tools` installs what is missing or too old, and says in one sentence what it could
not. Python's own least version stands in pyproject.toml as `requires-python`.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

Version = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Tool:
    command: str
    package: str
    """Debian's package that holds it."""
    least: Version
    """The oldest that the tests were run with."""


BROWSERS = (
    Tool("chromium", "chromium", (150,)),
    Tool("chromedriver", "chromium-driver", (150,)),
    Tool("firefox-esr", "firefox-esr", (140,)),
)
TOOLS = (*BROWSERS, Tool("node", "nodejs", (18, 19)), Tool("npm", "npm", (9, 2)))


@dataclass(frozen=True, slots=True)
class Lack:
    tool: Tool
    why: str
    """Part of a sentence."""


def version(text: str) -> Version:
    """The first number with dots in what a program says of itself; empty where there is none."""
    found = re.search(r"\d+(?:\.\d+)*", text)
    return tuple(map(int, found[0].split("."))) if found else ()


def written(version: Version) -> str:
    return ".".join(map(str, version))


def ask(command: str) -> str:
    """What a command answers to --version; empty where it is not there or does not run."""
    if shutil.which(command) is None:
        return ""
    return subprocess.run([command, "--version"], capture_output=True, text=True, check=False).stdout


def lacks(tools: tuple[Tool, ...] = TOOLS, ask: Callable[[str], str] = ask) -> list[Lack]:
    """What of these is missing or too old; of Chromium and its driver also the one behind the other."""
    here = {tool.command: version(ask(tool.command)) for tool in tools}
    newest = max(here["chromium"][:1], here["chromedriver"][:1])
    found = []
    for tool in tools:
        has = here[tool.command]
        least = max(tool.least, newest) if tool.command in ("chromium", "chromedriver") else tool.least
        if not has:
            found.append(Lack(tool, f"{tool.command} {written(least)} or later is missing"))
        elif has < least:
            found.append(Lack(tool, f"{tool.command} is {written(has)}, {written(least)} or later is needed"))
    return found


def sentence(found: list[Lack]) -> str:
    packages = " ".join(lack.tool.package for lack in found)
    return f"Cannot test: {'; '.join(lack.why for lack in found)}. Packages of Debian: {packages}."


def main() -> None:
    if found := lacks():
        install = Path(__file__).with_name("packages")
        subprocess.run(["bash", install, *(lack.tool.package for lack in found)], check=False)
        if found := lacks():
            sys.exit(sentence(found))


if __name__ == "__main__":
    main()
