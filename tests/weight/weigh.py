"""Weighs the demo's pages as a phone gets them, and prints the result. Asserts nothing.

    .venv/bin/python tests/weight/weigh.py                bytes of each kind of page, cold and warm
    .venv/bin/python tests/weight/weigh.py --lighthouse   and the marks that Lighthouse gives

Bytes are those of the bodies as a server sends them with gzip. Cold: the page and all that it loads by
itself. Warm: the page alone, with style and scripts on the device already. `test_weight.py` holds the bounds.
Lighthouse comes from npm into this folder the first time; its network and processor are simulated.
"""

from __future__ import annotations

import argparse
import functools
import gzip
import json
import os
import re
import subprocess
import sys
import tempfile
import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import urljoin, urlsplit

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
sys.path.insert(0, str(ROOT))

MARKS = ("performance", "accessibility", "best-practices", "seo")
LEVEL = 6
"""The gzip level that servers use unless told otherwise."""
_LOADED = re.compile(r'<(?:script|img|source|iframe)\b[^>]*?\ssrc="([^"]+)"')
_LINKED = re.compile(r'<link\b[^>]*?\srel="(?:stylesheet|icon)"[^>]*?\shref="([^"]+)"')


def zipped(file: Path) -> int:
    return len(gzip.compress(file.read_bytes(), LEVEL, mtime=0))


def needed(site: Path, page: str) -> dict[str, int]:
    """The page and every file that it loads by itself, with its bytes."""
    text = (site / page).read_text("utf-8")
    files = [page]
    for address in [*_LINKED.findall(text), *_LOADED.findall(text)]:
        if not urlsplit(address).scheme:
            files.append(urljoin(f"/{page}", address).lstrip("/"))
    return {file: zipped(site / file) for file in files}


def pages(site: Path) -> Iterator[str]:
    """One page of each kind that is weighed: the heaviest of its folder."""
    yield "index.html"
    for folder in ("clients", "quizzes", "cautions"):
        found = [file for file in (site / folder).glob("*.html") if file.name != "index.html"]
        if found:
            yield f"{folder}/{max(found, key=lambda file: (zipped(file), file.name)).name}"


class _Zipping(SimpleHTTPRequestHandler):
    """Sends text with gzip, and lets it be kept."""

    protocol_version = "HTTP/1.1"

    def do_GET(self) -> None:
        file = Path(self.translate_path(self.path))
        if not file.is_file():
            self.send_error(404)
            return
        body = gzip.compress(file.read_bytes(), LEVEL, mtime=0)
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(str(file)))
        self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(body)))
        self.send_header("Cache-Control", "max-age=31536000")
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *_: object) -> None:
        pass


@contextmanager
def served(site: Path) -> Iterator[str]:
    server = ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(_Zipping, directory=str(site)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/"
    finally:
        server.shutdown()
        server.server_close()


def marks(address: str) -> Mapping[str, float]:
    """Lighthouse's marks for a phone, from 0 to 100."""
    command = [
        str(HERE / "node_modules" / ".bin" / "lighthouse"),
        address,
        "--output=json",
        "--quiet",
        f"--only-categories={','.join(MARKS)}",
        "--chrome-flags=--headless=new --no-sandbox --disable-dev-shm-usage",
    ]
    with tempfile.TemporaryDirectory() as home:
        around = {**os.environ, "CHROME_PATH": "/usr/bin/chromium", "HOME": home}
        done = subprocess.run(command, capture_output=True, text=True, env=around, check=True)
    report = json.loads(done.stdout)
    return {name: 100 * float(report["categories"][name]["score"] or 0) for name in MARKS} | {
        "missed": [  # type: ignore[dict-item]
            audit["id"]
            for audit in report["audits"].values()
            if audit["score"] is not None and audit["score"] < 0.9
        ]
    }


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--course", type=Path, default=ROOT / "course_src")
    asked.add_argument("--lighthouse", action="store_true")
    options = asked.parse_args()
    if options.lighthouse and not (HERE / "node_modules").is_dir():
        subprocess.run(["npm", "ci", "--ignore-scripts", "--no-audit", "--no-fund"], cwd=HERE, check=True)
    with tempfile.TemporaryDirectory() as folder:
        site = Path(folder) / "site"
        subprocess.run(
            [sys.executable, "-m", "builder.cli", "build", "--course", options.course, "--out", site],
            check=True,
            cwd=ROOT,
        )
        report(site, lighthouse=options.lighthouse)


def report(site: Path, *, lighthouse: bool) -> None:
    print(f"{'page':44}{'cold':>9}{'warm':>9}  bytes")
    for page in pages(site):
        files = needed(site, page)
        print(f"{page:44}{sum(files.values()):9,}{files[page]:9,}")
    for file in sorted((site / "assets").glob("*.*s")):
        print(f"assets/{file.name:37}{zipped(file):9,}")
    data = sorted(site.rglob("quizzes/*.js"))
    if data:
        print(f"{'data files of quizzes: all, and the largest':44}", end="")
        print(f"{sum(map(zipped, data)):9,}{max(map(zipped, data)):9,}")
    whole = [file for file in site.rglob("*") if file.is_file()]
    print(f"{'the whole site, not zipped':44}{sum(file.stat().st_size for file in whole):9,}")
    if lighthouse:
        with served(site) as address:
            for page in pages(site):
                print(page, dict(marks(address + page)))


if __name__ == "__main__":
    main()
