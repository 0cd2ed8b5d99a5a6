"""Problems for people: each with its line of the source, a caret below the spot, and the cure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from .printable import blanked, printable
from .problem import Problem, Scalar
from .tally import by_severity, summary

_STYLES = {"error": "bold red", "warning": "bold yellow", "hint": "bold cyan"}
_GUTTER = " │ "
_INDENT = 2


def write_text(problems: Iterable[Problem], texts: Mapping[str, str], console: Console) -> None:
    """Prints problems, then how many there are. Errors come last, where they stand above the prompt.

    `texts` maps files to what they hold, so that the line can be shown. Nothing is told by colour alone.
    """
    ordered = by_severity(problems, "hint", "warning", "error")
    for problem in ordered:
        _print_problem(problem, texts.get(problem.file), console)
    console.print(Text(summary(ordered)))


def _print_problem(problem: Problem, text: str | None, console: Console) -> None:
    head = Text()
    head.append(f"{problem.severity} {problem.code}", _STYLES[problem.severity])
    head.append(f"  {printable(problem.message)}", "bold")
    console.print(head)
    place = f"{printable(problem.file)}, line {problem.line}, column {problem.column}"
    console.print(Padding(Text(place, "dim"), (0, 0, 0, _INDENT), expand=False))
    lines = text.splitlines() if text is not None else []
    if 1 <= problem.line <= len(lines):
        for part in _excerpt(lines[problem.line - 1], problem, console.width):
            console.print(part, no_wrap=True, crop=True)
    for name, said in _notes(problem):
        console.print(
            Padding(Text.assemble((f"{name}: ", "bold"), printable(said)), (0, 0, 0, _INDENT), expand=False)
        )
    console.print()


def _notes(problem: Problem) -> Iterable[tuple[str, str]]:
    if problem.hint:
        yield "What to do", problem.hint
    if problem.region:
        yield "Who", problem.region
    if problem.example is not None:
        yield (
            "One such client",
            ", ".join(f"{name} {_scalar(value)}" for name, value in problem.example.items()),
        )


def _scalar(value: Scalar) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value)


def _excerpt(line: str, problem: Problem, width: int) -> tuple[Text, Text]:
    """The source line and the caret line, cut so that the caret stays in view."""
    number = " " * _INDENT + str(problem.line)
    room = max(10, width - len(number) - len(_GUTTER))
    shown = blanked(line)
    column = min(problem.column - 1, len(shown))
    start = max(0, column - room // 2) if len(shown) > room else 0
    part = shown[start : start + room]
    before = Text(part[: column - start]).cell_len
    return (
        Text.assemble((number + _GUTTER, "dim"), part),
        Text.assemble((" " * len(number) + _GUTTER, "dim"), " " * before, ("^", _STYLES[problem.severity])),
    )
