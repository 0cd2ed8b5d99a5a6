"""Prints how long a site takes to build, beside bare MkDocs over Markdown pages of the same words.

    python tests/bench/bench_site.py [--theme material] [CLIENTS ...]        (100 1000 4000 without)

CPU seconds (user and system) and peak memory of one process each, all in one run and in turn: the least of
three rounds, for the machine may have other work and Python keeps compiled code from the first. Ours: a cold
build (nothing kept of the course), a warm one (nothing changed), one into another folder, and one after a
client has changed; then `casetrue check`, cold and unchanged. MkDocs: in the same theme (ours, without
`--theme`), a Markdown page for every page of the site, out of the navigation, with its own search as it comes
(our site has a search too) and without; ratios are to the first. Last, the seconds by the clock from saving a
changed client to the fresh page while `casetrue serve` runs, the worst of five.
"""

from __future__ import annotations

import argparse
import contextlib
import os
import re
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path

from lxml import html

ROOT = Path(__file__).parents[2]
ANKLE = ROOT / "tests" / "courses" / "ankle"
STORY = (
    "{name} came to the gym because the stairs at work had become a chore. Knees and hips are fine; the "
    "heels lift early in every squat, and a friend said that this was a matter of will.\n\n"
    "  The first weeks went to walking and to hinging at the hip. {name} likes to know why a thing is done "
    "and writes the answers down in a small blue book.\n\n"
    "  Nothing hurts at rest. Sleep is short, since the shift begins at five, and coffee is long."
)
HOOK = """
class Frame:
    language, version = "en", ""
    def say(self, text, **values): return text
    def kind(self, page): return "client"
    def trail(self, page): return ()
    def above(self, page): return ()
    def beside(self, page): return None, None

def on_env(env, config, files):
    env.globals["casetrue"] = Frame()
    return env
"""


def synthetic(folder: Path, clients: int, theme: str = "casetrue") -> Path:
    """The ankle course with so many clients, ten to a file."""
    course = Path(shutil.copytree(ANKLE, folder / f"course-{clients}"))
    shutil.rmtree(course / "cases")
    (course / "cases").mkdir()
    for first in range(0, clients, 10):
        cases = [case(number) for number in range(first, min(first + 10, clients))]
        (course / "cases" / f"c{first:05d}.yml").write_text("".join(cases), "utf-8")
    if theme != "casetrue":
        settings = f"site_name: Ankles\ndocs_dir: lessons\ntheme: {theme}\nplugins: [search, casetrue]\n"
        (course / "mkdocs.yml").write_text(settings, "utf-8")
    return course


def case(number: int) -> str:
    reading = 15 + number * 7 % 40
    name = f"Client {number}"
    return (
        f"- case: client-{number:05d}\n"
        f"  client: {{name: {name}, age: {20 + number % 50}, about: Works shifts}}\n"
        f"  story: |\n    {STORY.format(name=name).replace('  ', '    ')}\n"
        f"  readings: {{ankle_dorsiflexion: [{reading}, {reading + 1}, {reading}], "
        f"heel_pain: {'true' if number % 5 == 0 else 'false'}, "
        f"stance: {('narrow', 'hip', 'wide')[number % 3]}}}\n"
        "  near_cut: [ankle_dorsiflexion]\n"
    )


def markdown(site: Path, folder: Path, theme: str) -> None:
    """A MkDocs project with a Markdown page of the same words for every page of a site."""
    for file in sorted(site.rglob("*.html")):
        page = folder / "docs" / file.relative_to(site).with_suffix(".md")
        page.parent.mkdir(parents=True, exist_ok=True)
        text = "\n\n".join(blocks(html.document_fromstring(file.read_bytes()).find(".//main")))
        page.write_text(text + "\n", "utf-8")
    (folder / "hook.py").write_text(HOOK, "utf-8")
    for name, plugins in (("search", "[search]"), ("none", "[]")):
        (folder / f"{name}.yml").write_text(
            f"site_name: Bare\ntheme: {theme}\nplugins: {plugins}\nhooks: [hook.py]\nnav: [index.md]\n"
            "not_in_nav: '*'\nuse_directory_urls: false\n",
            "utf-8",
        )


def blocks(main: html.HtmlElement) -> Iterator[str]:
    marks = {"h1": "# ", "h2": "## ", "h3": "### ", "li": "- ", "label": "- ", "summary": "### "}
    inner = ("h1", "h2", "h3", "p", "li", "td", "th", "summary", "label", "title")
    for element in main.iter(*inner):
        if not any(child.tag in inner for child in element.iterdescendants()):
            words = " ".join(element.text_content().split())
            if words:
                yield marks.get(element.tag, "") + words


def run(code: str, *arguments: str, cache: Path) -> tuple[float, float]:
    """CPU seconds and peak megabytes of `python -c code arguments`."""
    process = os.fork()
    if process == 0:
        quiet = os.open(os.devnull, os.O_WRONLY)
        os.dup2(quiet, 1)
        if not os.environ.get("LOUD"):
            os.dup2(quiet, 2)
        os.chdir(ROOT)
        os.execve(sys.executable, [sys.executable, "-c", code, *arguments], surroundings(cache))
    _, status, used = os.wait4(process, 0)
    if status:
        raise SystemExit(f"did not build: {arguments}")
    return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def surroundings(cache: Path) -> dict[str, str]:
    """As on a user's machine: nothing is kept of a course, compiled programs are kept."""
    ordinary = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return {**ordinary, "XDG_CACHE_HOME": str(cache), "NO_MKDOCS_2_WARNING": "1"}


def change(course: Path, word: str) -> None:
    """Another word in the story of the first client."""
    file = min((course / "cases").iterdir())
    file.write_text(
        re.sub(r"had become a \w+", f"had become a {word}", file.read_text("utf-8"), count=1), "utf-8"
    )


def a_round(folder: Path, course: Path, number: int, theme: str) -> dict[str, tuple[float, float]]:
    """Everything once, each beside the others."""
    cache = folder / f"cache-{number}"

    def ours(*arguments: str) -> tuple[float, float]:
        return run("from builder.cli.main import main; main()", *arguments, cache=cache)

    def build(out: str) -> tuple[float, float]:
        return ours("build", "--course", str(course), "--out", str(folder / out))

    def bare(plugins: str) -> tuple[float, float]:
        config = folder / "bare" / f"{plugins}.yml"
        arguments = ("build", "-q", "-f", str(config), "-d", str(folder / "plain"))
        return run("from mkdocs.__main__ import cli; cli()", *arguments, cache=cache)

    took = {"check cold": ours("check", "--course", str(course))}
    took["check same"] = ours("check", "--course", str(course))
    shutil.rmtree(cache, ignore_errors=True)  # a small course keeps nothing
    took["cold"] = build("site")
    took["warm"] = build("site")
    took["elsewhere"] = build(f"site-{number}")
    change(course, f"chore{number}")
    took["one client"] = build("site")
    if not (folder / "bare").exists():
        markdown(folder / "site", folder / "bare", theme)
    took["search"] = bare("search")
    took["bare"] = bare("none")
    return took


def preview(folder: Path, course: Path) -> float:
    """Seconds from saving a changed client to the fresh page, the worst of five."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = str(free.getsockname()[1])
    command = [sys.executable, "-m", "builder.cli", "serve", "--course", str(course), "--port", port]
    page = f"http://127.0.0.1:{port}/clients/client-00000.html"
    worst = 0.0
    with (folder / "serve.log").open("w") as log:
        server = subprocess.Popen(
            command, cwd=ROOT, env=surroundings(folder / "cache-0"), stdout=log, stderr=log
        )
        try:
            wait_for(page, "had become")
            for number in range(5):
                time.sleep(1 + number / 10)
                begun = time.monotonic()
                change(course, f"trial{number}")
                wait_for(page, f"trial{number}")
                worst = max(worst, time.monotonic() - begun)
        finally:
            server.terminate()
            server.wait()
    return worst


def wait_for(page: str, words: str) -> None:
    while True:
        with contextlib.suppress(OSError), urllib.request.urlopen(page) as answer:
            if words in answer.read().decode():
                return
        time.sleep(0.01)


ROUNDS = 3
BUILDS = ("cold", "warm", "elsewhere", "one client")
CHECKS = ("check cold", "check same")


def main(sizes: list[int], theme: str) -> None:
    columns = ("bare", "search", *BUILDS, *(f"{name}/search" for name in BUILDS), "MB", *CHECKS, "serve s")
    print(f"{'clients':>8}" + "".join(f" {name:>{width(name)}}" for name in columns))
    for clients in sizes:
        with tempfile.TemporaryDirectory() as made:
            folder = Path(made)
            course = synthetic(folder, clients, theme)
            rounds = [a_round(folder, course, number, theme) for number in range(ROUNDS)]
            least = {name: min(took[name][0] for took in rounds) for name in rounds[0]}
            figures = {name: f"{seconds:.2f}" for name, seconds in least.items()}
            for name in BUILDS:
                figures[f"{name}/search"] = f"{least[name] / least['search']:.2f}"
            figures["MB"] = f"{max(took['cold'][1] for took in rounds):.0f}"
            figures["serve s"] = f"{preview(folder, course):.2f}"
        print(f"{clients:>8}" + "".join(f" {figures[name]:>{width(name)}}" for name in columns), flush=True)


def width(name: str) -> int:
    return max(len(name), 6)


if __name__ == "__main__":
    asked = argparse.ArgumentParser()
    asked.add_argument("--theme", default="casetrue")
    asked.add_argument("clients", nargs="*", type=int, default=[100, 1000, 4000])
    given = asked.parse_args()
    main(given.clients, given.theme)
