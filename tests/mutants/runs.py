"""Tries mutants on the tests of a room, in memory: no file is written anew.

pytest collects the tests once. Then each mutant has a process of its own, forked from there: it puts the
changed statement in place of the old one and runs the tests that enter the changed function, the quickest
first, until one fails. What was computed while modules loaded stays as it was, a test that uses what another
had computed counts as not entering, and programs that a test starts see the text as it stands: each of these
can only let a mutant survive.
"""

from __future__ import annotations

import ast
import functools
import json
import os
import signal
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import suppress
from importlib import import_module
from pathlib import Path
from types import CodeType, FrameType, FunctionType, ModuleType
from typing import Any

import pytest
from hypothesis import Phase, settings

from .changes import Mutant

ROOT = Path(__file__).parents[2]
FACTOR, LEAST = 4, 5
"""With a mutant a test may take so many times as long as without, and so many seconds besides; counted in the
processor's time, so that a busy machine does not matter."""
LONGEST = 1800
"""Seconds after which a run is ended that waits for something outside of it."""
EXAMPLES = 60
"""A law is tried on no more than so many."""
PLAIN = ("-q", "-x", "-s", "-p", "no:cacheprovider", "-p", "no:xdist", "--no-header")

settings.register_profile(
    "mutants",
    deadline=None,
    derandomize=True,
    database=None,
    report_multiple_bugs=False,
    phases=(Phase.explicit, Phase.generate),
)

Tell = Callable[[str], None]


class DoNotHold(Exception):
    """The tests of a room fail as they stand."""


def outcomes(folders: Sequence[str], mutants: Sequence[Mutant], tell: Tell) -> list[tuple[Mutant, str]]:
    """Each mutant with `killed`, `timed out` or `survived`. Raises DoNotHold."""
    with tempfile.TemporaryDirectory(prefix="casetrue-mutants-") as folder:
        trial = _Trial(mutants, tell, Path(folder))
        early = "-Wignore::pytest.PytestAssertRewriteWarning"
        options = ("--hypothesis-profile=mutants", f"--basetemp={folder}/tests", early)
        with _silence(Path(folder, "output")):
            pytest.main([*PLAIN, *options, *folders], plugins=[trial])
        if trial.fault:
            raise DoNotHold(f"{trial.fault}\n{Path(folder, 'output').read_text('utf-8', 'replace')[-2000:]}")
    return trial.found


class _Trial:
    """A plugin of pytest that takes the place of running the tests once."""

    def __init__(self, mutants: Sequence[Mutant], tell: Tell, folder: Path) -> None:
        self.found: list[tuple[Mutant, str]] = []
        self.fault = "The tests could not be collected."
        self._mutants = mutants
        self._tell = tell
        self._report = folder / "first-run.json"
        self._first = _FirstRun()
        self._is_child = False

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool | None:
        if session.testsfailed:
            return True
        self.fault = "The tests do not hold as they stand."
        for item in session.items:
            _shorten(item)
        items = session.items
        if self._held(functools.partial(session.config.pluginmanager.register, self._first)) is None:
            return None
        if not self._report.exists():
            return True
        self._first = _FirstRun(**json.loads(self._report.read_text("utf-8")))
        items.sort(key=lambda item: self._first.seconds[item.nodeid])
        self.fault = "The tests do not hold in another order."
        began = time.monotonic()
        held = self._held(lambda: None)
        if self._is_child:
            return None
        if held != "survived":
            return True
        self.fault = "The trial broke off."
        self._tell(f"{len(items)} tests in {time.monotonic() - began:.0f} s")
        for number, mutant in enumerate(self._mutants, 1):
            session.items = [item for item in items if self._first.enters(item.nodeid, mutant)]
            outcome = self._held(put_in(mutant))
            if outcome is None:
                return None
            self.found.append((mutant, outcome))
            where = f"{mutant.file.relative_to(ROOT)}:{mutant.line}"
            self._tell(f"{number}/{len(self._mutants)} {outcome:<9} {where}: {mutant.was} → {mutant.now}")
        self.fault = ""
        return True

    def _held(self, first: Callable[[], object]) -> str | None:
        """What becomes of the tests in a child; None in the child itself, where pytest goes on with them."""
        sys.stdout.flush()
        child = os.fork()
        if child == 0:
            self._is_child = True
            os.setsid()
            signal.alarm(LONGEST)
            os.environ["XDG_CACHE_HOME"] = tempfile.mkdtemp(dir=self._report.parent)
            try:
                first()
            except Exception:
                os._exit(1)
            return None
        _, status = os.waitpid(child, 0)
        with suppress(ProcessLookupError):
            os.killpg(child, signal.SIGKILL)  # what a test has started
        match os.waitstatus_to_exitcode(status):
            case 0:
                return "survived"
            case code if code < 0:
                return "timed out"
            case _:
                return "killed"

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[object]:
        if item.nodeid in self._first.seconds:
            signal.setitimer(signal.ITIMER_PROF, LEAST + FACTOR * self._first.seconds[item.nodeid])
        return (yield)

    @pytest.hookimpl(tryfirst=True)
    def pytest_sessionfinish(self, exitstatus: int) -> None:
        if self._is_child:
            if exitstatus == 0 and not self._report.exists():
                self._report.write_text(json.dumps(vars(self._first)), "utf-8")
            sys.stdout.flush()
            os._exit(exitstatus)


class _FirstRun:
    """A plugin of pytest that notes how long each test takes and which functions of the builder it enters."""

    def __init__(
        self, seconds: dict[str, float] | None = None, entered: dict[str, list[str]] | None = None
    ) -> None:
        self.seconds = seconds or {}
        self.entered = entered or {}

    def enters(self, test: str, mutant: Mutant) -> bool:
        return not mutant.function or f"{mutant.file}:{mutant.function}" in self.entered[test]

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        self.seconds[report.nodeid] = self.seconds.get(report.nodeid, 0) + report.duration

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[object]:
        codes: set[CodeType] = set()

        def note(frame: FrameType, event: str, _: object) -> None:
            if event == "call":
                codes.add(frame.f_code)

        sys.setprofile(note)
        try:
            return (yield)
        finally:
            sys.setprofile(None)
            names = {f"{code.co_filename}:{code.co_qualname.partition('.<locals>')[0]}" for code in codes}
            self.entered[item.nodeid] = sorted(
                name for name in names if name.startswith(str(ROOT / "builder"))
            )


def _shorten(item: pytest.Item) -> None:
    """Lets a law be tried on fewer examples."""
    law = getattr(item, "obj", None)
    if getattr(law, "is_hypothesis_test", False):
        # Hypothesis has no public way to settle this anew.
        settled = law._hypothesis_internal_use_settings
        law._hypothesis_internal_use_settings = settings(
            settled, max_examples=min(EXAMPLES, settled.max_examples)
        )


def put_in(mutant: Mutant) -> Callable[[], None]:
    """What puts the changed statement into the module that is loaded, and wherever its old value went."""
    name = ".".join(mutant.file.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")
    module = import_module(name)
    statement = mutant.statement()
    code = compile(
        ast.Module([statement], []), mutant.file, "exec", annotations.compiler_flag, dont_inherit=True
    )

    def put() -> None:
        if isinstance(statement, ast.FunctionDef | ast.ClassDef):
            names = dict(vars(module))
            exec(code, names)
            replace_parts(getattr(module, statement.name), names[statement.name])
        else:
            before = dict(vars(module))
            exec(code, vars(module))
            _spread(module, before)

    return put


def replace_parts(old: Any, new: Any) -> None:
    """Makes the functions of an old object do what those of the new one do."""
    if isinstance(old, FunctionType):
        old.__code__, old.__defaults__, old.__kwdefaults__ = (
            new.__code__,
            new.__defaults__,
            new.__kwdefaults__,
        )
    elif isinstance(old, type):
        for name, part in vars(new).items():
            if name in vars(old):
                replace_parts(vars(old)[name], part)
                if isinstance(part, int | float | str | tuple) and name[:2] != "__":
                    setattr(old, name, part)
    else:
        for inner in ("__wrapped__", "__func__", "fget", "func"):
            if isinstance(getattr(old, inner, None), FunctionType):
                replace_parts(getattr(old, inner), getattr(new, inner))


def _spread(module: ModuleType, before: Mapping[str, Any]) -> None:
    """Gives what a module names anew to whoever has taken the old value under the same name."""
    for name, value in vars(module).items():
        if name in before and before[name] is not value:
            for other in list(sys.modules.values()):
                if vars(other).get(name, module) is before[name]:
                    setattr(other, name, value)


class _silence:
    """Sends what this process prints into a file."""

    def __init__(self, file: Path) -> None:
        self._file = file

    def __enter__(self) -> None:
        sys.stdout.flush()
        self._kept = os.dup(1), os.dup(2)
        to = os.open(self._file, os.O_WRONLY | os.O_CREAT | os.O_APPEND)
        os.dup2(to, 1)
        os.dup2(to, 2)
        os.close(to)

    def __exit__(self, *_: object) -> None:
        sys.stdout.flush()
        for number, kept in enumerate(self._kept, 1):
            os.dup2(kept, number)
            os.close(kept)
