"""Prints how long a site takes to build, beside bare MkDocs over Markdown pages of the same words.

    python tests/bench/bench_site.py [--theme material] [CLIENTS ...]        (100 1000 4000 without)

The course is that of large_course.py: no two clients share trials, story or name. CPU seconds (user and
system) and peak memory of one process each, all in one run and in turn: the least of three rounds, for the
machine may have other work and Python keeps compiled code from the first. Ours: a cold build, one when
nothing has changed, and `casetrue check`. MkDocs: in the same theme (ours, without `--theme`), a Markdown
page for every page of the site, out of the navigation, without search and with its own; ratios are to the
first, which flatters us less. Last, the seconds by the clock from saving a changed client to the fresh page
while `casetrue serve` runs, the worst of five.
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

from large_course import write
from lxml import html

ROOT = Path(__file__).parents[2]
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
    text = re.sub(r"came to the \w+ in", f"came to the {word} in", file.read_text("utf-8"), count=1)
    file.write_text(text, "utf-8")


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

    took = {"check": ours("check", "--course", str(course))}
    shutil.rmtree(folder / "site", ignore_errors=True)
    took["cold"] = build("site")
    took["same"] = build("site")
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
            wait_for(page, "came to the")
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
BUILDS = ("cold", "same")


def main(sizes: list[int], theme: str) -> None:
    columns = ("bare", "search", *BUILDS, *(f"{name}/bare" for name in BUILDS), "MB", "check", "serve s")
    print(f"{'clients':>8}" + "".join(f" {name:>{width(name)}}" for name in columns))
    for clients in sizes:
        with tempfile.TemporaryDirectory() as made:
            folder = Path(made)
            course = write(folder, clients, theme)
            rounds = [a_round(folder, course, number, theme) for number in range(ROUNDS)]
            least = {name: min(took[name][0] for took in rounds) for name in rounds[0]}
            figures = {name: f"{seconds:.2f}" for name, seconds in least.items()}
            for name in BUILDS:
                figures[f"{name}/bare"] = f"{least[name] / least['bare']:.2f}"
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
