"""What a site tells a browser that keeps it: the manifest, the worker, the list of files."""

from __future__ import annotations

import hashlib
import json
import re
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any
from urllib.parse import urljoin, urlsplit
from xml.etree import ElementTree

import pytest
from click.testing import CliRunner, Result

from builder.answers import Answers, addresses
from builder.cli.main import casetrue
from builder.site import Site
from builder.site.offline import short
from builder.site.pages.home import home
from builder.source import load

from .conftest import ANKLE
from .html_pages import pages

WEB = Path(__file__).parents[2] / "builder" / "site" / "web"
Build = Callable[[Path, Path], Result]


def read(site: Path, name: str) -> Any:
    return json.loads((site / name).read_text("utf-8"))


def test_the_manifest_says_what_the_standard_asks_for(ankle_site: Path) -> None:
    """W3C, Web Application Manifest, 1: name and short_name, start_url within scope, a display mode of its
    list, lang (BCP 47), colours (CSS), icons with sizes, type and purpose (any, maskable, monochrome)."""
    made = read(ankle_site, "manifest.webmanifest")
    assert made["name"] == "Ankles and squats"
    assert made["short_name"] == "Ankles and"
    here = "https://coach.example/course/manifest.webmanifest"
    scope, start = (urljoin(here, made[member]) for member in ("scope", "start_url"))
    assert (scope, start) == ("https://coach.example/course/",) * 2
    assert made["display"] in {"fullscreen", "standalone", "minimal-ui", "browser"}
    assert re.fullmatch(r"[a-z]{2,3}(-[A-Za-z0-9]{2,8})*", made["lang"])
    assert all(re.fullmatch("#[0-9a-f]{6}", made[f"{what}_color"]) for what in ("theme", "background"))
    for icon in made["icons"]:
        assert (icon["sizes"], icon["type"]) == ("any", "image/svg+xml")
        assert set(icon["purpose"].split()) <= {"any", "maskable", "monochrome"}
        assert ElementTree.parse(ankle_site / icon["src"]).getroot().tag == "{http://www.w3.org/2000/svg}svg"


def test_the_icon_stays_whole_under_every_mask(ankle_site: Path) -> None:
    """W3C, Web Application Manifest, icon masks: every mask leaves a circle whose radius is 40 per cent of
    the icon's width."""
    root = ElementTree.parse(ankle_site / "assets" / "icon.svg").getroot()
    size = float(root.attrib["viewBox"].split()[2])
    ground, *drawn = [path.attrib for path in root]
    assert ground["d"] == f"M0 0H{size:g}V{size:g}H0Z"
    for path in drawn:
        half = float(path.get("stroke-width", 0)) / 2
        x = y = 0.0
        for command, given in re.findall(r"([MHVL])([\d. ]+)|Z", path["d"].replace("Z", "")):
            numbers = [float(number) for number in given.split()]
            points = [numbers[i : i + 2] for i in range(0, len(numbers), 2)] if command in "ML" else [numbers]
            for point in points:
                x = point[0] if command != "V" else x
                y = point[-1] if command != "H" else y
                assert ((abs(x - size / 2) + half) ** 2 + (y - size / 2) ** 2) ** 0.5 <= 0.4 * size, path["d"]


def test_every_page_names_the_manifest(ankle_site: Path) -> None:
    for uri, page in pages(ankle_site):
        (link,) = page.xpath("//link[@rel='manifest']/@href")
        assert uri == "404.html" or urljoin(f"/{uri}", link) == "/manifest.webmanifest", uri


@pytest.mark.parametrize(
    ("title", "said"),
    [
        ("Ankles", "Ankles"),
        ("Ankles and squats", "Ankles and"),
        ("Twelve signs", "Twelve signs"),
        ("Bewegungslehre für alle", "Bewegungsleh"),
    ],
)
def test_a_long_title_is_cut_between_words(title: str, said: str) -> None:
    assert short(title) == said


def test_every_file_is_listed_with_its_size_and_its_hash(ankle_site: Path) -> None:
    """FIPS 180-4, by Python's own SHA-256."""
    found = {
        path.relative_to(ankle_site).as_posix(): path
        for path in ankle_site.rglob("*")
        if path.is_file() and not path.name.startswith(".")
    }
    listed = read(ankle_site, "offline-files.json")
    assert listed["files"].keys() == found.keys() - {"sw.js", "offline.json", "offline-files.json"}
    for name, (size, start) in listed["files"].items():
        held = found[name].read_bytes()
        assert (size, start) == (len(held), hashlib.sha256(held).hexdigest()[:8]), name
    head = read(ankle_site, "offline.json")
    assert {**listed, "files": None} == {**head, "files": None}
    assert head["bytes"] == sum(size for size, _ in listed["files"].values())
    assert re.fullmatch("[0-9a-f]{8}", head["mark"])


def test_the_same_course_gives_the_same_lists_and_a_changed_picture_another_mark(
    build: Build, tmp_path: Path
) -> None:
    """The mark of the course's texts, which pages tell, does not change with a picture."""
    course = Path(shutil.copytree(ANKLE, tmp_path / "course"))
    picture = course / "lessons" / "foot.png"
    picture.write_bytes(b"\x89PNG 1")
    for name in ("one", "two"):
        assert build(course, tmp_path / name).exit_code == 0
    for name in ("offline.json", "offline-files.json", "sw.js", "manifest.webmanifest"):
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()
    picture.write_bytes(b"\x89PNG 2")
    assert build(course, tmp_path / "three").exit_code == 0
    one, three = (read(tmp_path / name, "offline.json") for name in ("one", "three"))
    assert one["mark"] != three["mark"]
    assert one["build"] == three["build"]


def test_the_copy_is_told_with_its_edition(build: Build, tmp_path: Path) -> None:
    course = Path(shutil.copytree(ANKLE, tmp_path / "course"))
    assert build(course, tmp_path / "site").exit_code == 0
    assert read(tmp_path / "site", "offline.json")["edition"] == ""
    asked = ["edition", "1.2", "--course", str(course)]
    done = CliRunner().invoke(casetrue, asked)
    assert done.exit_code == 0, done.output
    assert build(course, tmp_path / "site").exit_code == 0
    assert read(tmp_path / "site", "offline.json")["edition"].startswith("edition 1.2 of ")


def test_while_serving_nothing_is_offered_to_be_kept() -> None:
    loaded = load(ANKLE)
    for is_served in (True, False):
        site = Site(Answers(loaded.course), loaded.texts, is_served=is_served)
        assert ("case-keep" in home(site).body) is not is_served


def test_the_browser_part_knows_the_lists_by_the_builders_names() -> None:
    text = (WEB / "copies.js").read_text("utf-8")
    assert re.findall(r'export const [A-Z]+ = "(.*)"', text) == [addresses.OFFLINE, addresses.OFFLINE_FILES]
    assert f'"{addresses.WORKER}"' in (WEB / "worker.js").read_text("utf-8")
    for uri in (addresses.WORKER, addresses.OFFLINE, addresses.OFFLINE_FILES, addresses.MANIFEST):
        assert "/" not in urlsplit(uri).path, "a worker answers for its own folder alone"
