"""Prints how long a site takes to build, beside bare MkDocs over Markdown pages of the same words.

    python tests/bench/bench_site.py [CLIENTS ...]        (100 1000 without)

CPU seconds (user and system) and peak memory of one process each, all in one run: a cold build (nothing
kept), a warm one (nothing changed), and MkDocs alone with the same theme, out of the navigation, search off.
"""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
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


def synthetic(folder: Path, clients: int) -> Path:
    """The ankle course with so many clients, ten to a file."""
    course = Path(shutil.copytree(ANKLE, folder / f"course-{clients}"))
    shutil.rmtree(course / "cases")
    (course / "cases").mkdir()
    for first in range(0, clients, 10):
        cases = [case(number) for number in range(first, min(first + 10, clients))]
        (course / "cases" / f"c{first:05d}.yml").write_text("".join(cases), "utf-8")
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


def markdown(site: Path, folder: Path) -> Path:
    """A MkDocs project with a Markdown page of the same words for every client's page."""
    (folder / "docs" / "clients").mkdir(parents=True)
    (folder / "docs" / "index.md").write_text("# Start\n", "utf-8")
    for file in sorted((site / "clients").glob("client-*.html")):
        text = "\n\n".join(blocks(html.document_fromstring(file.read_bytes()).find(".//main")))
        (folder / "docs" / "clients" / f"{file.stem}.md").write_text(text + "\n", "utf-8")
    (folder / "hook.py").write_text(HOOK, "utf-8")
    (folder / "mkdocs.yml").write_text(
        "site_name: Bare\ntheme: casetrue\nplugins: []\nhooks: [hook.py]\nnav: [index.md]\n"
        "not_in_nav: /clients/\nuse_directory_urls: false\n",
        "utf-8",
    )
    return folder / "mkdocs.yml"


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
        environment = {**os.environ, "XDG_CACHE_HOME": str(cache), "NO_MKDOCS_2_WARNING": "1"}
        os.chdir(ROOT)
        os.execve(sys.executable, [sys.executable, "-c", code, *arguments], environment)
    _, status, used = os.wait4(process, 0)
    if status:
        raise SystemExit(f"did not build: {arguments}")
    return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def main(sizes: list[int]) -> None:
    ours = "from builder.cli.main import main; main()"
    bare = "from mkdocs.__main__ import cli; cli()"
    print(
        f"{'clients':>8} {'cold s':>8} {'warm s':>8} {'bare s':>8} "
        f"{'cold/bare':>10} {'warm/bare':>10} {'cold MB':>8}"
    )
    for clients in sizes:
        with tempfile.TemporaryDirectory() as made:
            folder = Path(made)
            course, out, cache = synthetic(folder, clients), folder / "site", folder / "cache"
            arguments = ("build", "--course", str(course), "--out", str(out))
            cold, memory = run(ours, *arguments, cache=cache)
            warm, _ = run(ours, *arguments, cache=cache)
            config = markdown(out, folder / "bare")
            plain, _ = run(bare, "build", "-q", "-f", str(config), "-d", str(folder / "plain"), cache=cache)
        row = f"{cold:8.2f} {warm:8.2f} {plain:8.2f} {cold / plain:10.2f} {warm / plain:10.2f} {memory:8.0f}"
        print(f"{clients:8} {row}", flush=True)


if __name__ == "__main__":
    main([int(size) for size in sys.argv[1:]] or [100, 1000])
