"""Prints how heavy and how quick search and the list of clients are.

    python -m tests.bench.bench_lookup [CLIENTS ...]        (1000 without)

Sizes are bytes, plain and by gzip. Times are milliseconds in each browser, the median of several runs:
`script` is the time of the page's own code, `to frame` ends when the next frame has been drawn. Stories
differ from client to client (`large_course.py`), so that they compress like text and not like copies of one.
"""

from __future__ import annotations

import gzip
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.bench.large_course import write
from tests.browser.browser import NAMES, Browser

ROOT = Path(__file__).parents[2]

FILTER = """async (names) => {
    const frame = () => new Promise(done => requestAnimationFrame(() => setTimeout(done)));
    const times = [];
    for (const [name, value] of names) {
        const select = document.querySelector(`select[name=${name}]`);
        await frame();
        const start = performance.now();
        select.value = value;
        select.dispatchEvent(new Event('change', {bubbles: true}));
        const script = performance.now() - start;
        await frame();
        times.push([script, performance.now() - start]);
    }
    return times;
}"""
CHOICES = [["measure", "stance"], ["measure", ""], ["mine", "untried"], ["mine", "held"], ["mine", ""]] * 4

SEARCH = """async (queries) => {
    const field = document.querySelector('#q'), form = field.form, times = [];
    const status = document.querySelector('case-search [role=status]');
    for (const query of queries) {
        status.textContent = '';
        const start = performance.now();
        field.value = query;
        form.requestSubmit();
        while (!status.textContent) await new Promise(done => setTimeout(done));
        times.push([performance.now() - start, performance.now() - start]);
    }
    return times;
}"""


def main(sizes: list[int]) -> None:
    for clients in sizes:
        with tempfile.TemporaryDirectory() as made:
            site = build(Path(made), clients)
            print(f"{clients} clients")
            for name in (
                "assets/search-index.js",
                "clients/index.html",
                "assets/search.js",
                "assets/walk.js",
                "assets/casetrue.css",
            ):
                print(f"  {name:24} {weight((site / name).read_bytes())}")
            for name in NAMES:
                with Browser(name) as browser:
                    page = browser.page(width=360)
                    page.open(site / "clients/index.html")
                    told("filter", name, page.call(FILTER, CHOICES))
                    page.open(site / "search.html")
                    told("first search, list loaded", name, page.call(SEARCH, ["knee"]))
                    told("search", name, page.call(SEARCH, ["knee", "wo", "squatted", "a b", "nowhere"] * 4))
    print("  own part of the script    " + weight(own_script()))
    print("  own part of the style     " + weight((ROOT / "builder/site/style/lookup.css").read_bytes()))


def build(folder: Path, clients: int) -> Path:
    course = write(folder, clients)
    ours = "from builder.cli.main import main; main()"
    command = [sys.executable, "-c", ours, "build", "--course", course, "--out", folder / "site"]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    return folder / "site"


def weight(data: bytes) -> str:
    return f"{len(data):9} plain {len(gzip.compress(data, 6)):8} gzip"


def told(what: str, browser: str, times: list[list[float]]) -> None:
    script, frame = (sorted(each)[len(each) // 2] for each in zip(*times, strict=True))
    print(f"  {what:26} {browser:9} script {script:6.1f}  to frame {frame:6.1f}", flush=True)


def own_script() -> bytes:
    """Search and filter, bundled alone: more than they add, since they share modules with the rest."""
    source = 'export * from "./search-element.js"; export * from "./filter-element.js";'
    options = ["--bundle", "--format=iife", "--target=es2022", "--minify", "--charset=utf8"]
    command = [ROOT / "node_modules/.bin/esbuild", *options]
    return subprocess.run(
        command, input=source.encode(), capture_output=True, check=True, cwd=ROOT / "builder/site/web"
    ).stdout


if __name__ == "__main__":
    main([int(size) for size in sys.argv[1:]] or [1000])
