"""The plugin beside others, in other themes, and with an educator's own configuration."""

from __future__ import annotations

import json
import logging
import unicodedata
from collections.abc import Callable
from pathlib import Path
from urllib.parse import unquote

import pytest
from lxml import html
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort

from .html_pages import pages

Made = Callable[..., Path]


@pytest.fixture
def mkdocs(small_course: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Made:
    """`mkdocs(settings, files)` runs plain MkDocs, strictly, over the small course; returns the site."""
    monkeypatch.setenv("NO_MKDOCS_2_WARNING", "1")

    def run(settings: str, files: dict[str, str] | None = None) -> Path:
        for name, text in (files or {}).items():
            (small_course / name).write_text(text, "utf-8")
        config = small_course / "mkdocs.yml"
        config.write_text(f"site_name: Ankles\ndocs_dir: lessons\nstrict: true\n{settings}", "utf-8")
        site = tmp_path / "site"
        loaded = load_config(str(config), site_dir=str(site))
        loaded.plugins.on_startup(command="build", dirty=False)
        build(loaded)
        loaded.plugins.on_shutdown()
        return site

    return run


def test_stock_search_learns_nothing_from_our_pages(mkdocs: Made) -> None:
    site = mkdocs("theme: mkdocs\nplugins: [search, casetrue]\n")
    index = json.loads((site / "search" / "search_index.json").read_text("utf-8"))["docs"]
    lessons = {"index.html", "knee-to-wall.html"}
    assert {entry["location"].partition("#")[0] for entry in index if entry["text"]} == lessons
    assert not [entry for entry in index if entry["location"].startswith("clients/tern")]


@pytest.mark.parametrize("order", ["[search, casetrue]", "[casetrue, search]"])
def test_order_among_plugins_does_not_matter(mkdocs: Made, order: str) -> None:
    site = mkdocs(f"theme: casetrue\nplugins: {order}\n")
    assert "Raise the heels" not in (site / "search" / "search_index.json").read_text("utf-8")
    assert not (site / "search" / "main.js").exists()


def test_hooks_see_and_change_every_page(mkdocs: Made, small_course: Path) -> None:
    end = "'<p>hooked</p></body>'"
    hook = f"def on_post_page(output, page, config):\n    return output.replace('</body>', {end})\n"
    site = mkdocs("theme: casetrue\nplugins: [casetrue]\nhooks: [hook.py]\n", {"hook.py": hook})
    for uri, page in pages(site):
        assert uri == "404.html" or page.xpath("//p[text()='hooked']"), uri


def test_material_still_builds(mkdocs: Made) -> None:
    site = mkdocs("theme: material\nplugins: [search, casetrue]\n")
    for uri, page in pages(site):
        assert len(page.xpath("//h1")) == 1 or uri == "404.html", uri
        [policy] = page.xpath("//meta[@http-equiv='Content-Security-Policy']/@content")
        assert "'sha256-" in policy
        for address in page.xpath("//link/@href | //script/@src | //img/@src"):
            assert not address.startswith(("http:", "https:", "//")), (uri, address)
        assert "casetrue-mark" not in html.tostring(page, encoding="unicode")
    assert "Tern" in (site / "clients" / "tern-03.html").read_text("utf-8")
    assert not list(site.rglob("*.map"))
    assert not list(site.rglob("lunr.fr.min.js"))


def test_another_theme_leads_to_search_by_its_navigation(mkdocs: Made) -> None:
    site = mkdocs("theme: {name: material, font: false}\nplugins: [casetrue]\n")
    page = dict(pages(site))["about.html"]
    assert "search.html" in page.xpath("//nav//a/@href")


def test_own_navigation_is_kept(mkdocs: Made) -> None:
    site = mkdocs(
        "theme: casetrue\nplugins: [casetrue]\nnav: [index.md, {Read: [knee-to-wall.md]}, clients/index.md]\n"
    )
    page = dict(pages(site))["about.html"]
    assert page.xpath("//nav[@aria-label='Site']//a/text()") == ["Knee to wall", "Clients", "Search"]


def test_edit_links_only_from_a_whole_address(mkdocs: Made) -> None:
    site = mkdocs("theme: casetrue\nplugins: [casetrue]\nedit_uri: https://code.example/edit/main/lessons/\n")
    found = dict(pages(site))
    assert "https://code.example/edit/main/cases/clients.yml" in _edit(found["clients/tern-03.html"])
    assert "https://code.example/edit/main/tables/plan.yml" in _edit(found["tables/plan.html"])
    assert "https://code.example/edit/main/lessons/knee-to-wall.md" in _edit(found["knee-to-wall.html"])
    assert not _edit(found["clients/index.html"])


def test_no_edit_links_beside_a_repository(mkdocs: Made) -> None:
    site = mkdocs("theme: casetrue\nplugins: [casetrue]\nrepo_url: https://github.com/some/course\n")
    assert not _edit(dict(pages(site))["tables/plan.html"])


def _edit(page: html.HtmlElement) -> list[str]:
    return list(page.xpath("//footer//a/@href"))


def test_addresses_and_site_map_with_a_site_address(mkdocs: Made) -> None:
    site = mkdocs(
        "theme: casetrue\nplugins: [casetrue]\nuse_directory_urls: true\n"
        "site_url: https://coach.example/course/\n"
    )
    page = dict(pages(site))["clients/tern-03.html"]
    assert page.xpath("//link[@rel='canonical']/@href") == [
        "https://coach.example/course/clients/tern-03.html"
    ]
    sitemap = (site / "sitemap.xml").read_text("utf-8")
    for uri, _ in pages(site):
        assert (f"<loc>https://coach.example/course/{uri}</loc>" in sitemap) == (uri != "404.html")
    assert "lastmod" not in sitemap
    assert not (site / "sitemap.xml.gz").exists()


def test_no_site_map_without_a_site_address(mkdocs: Made) -> None:
    site = mkdocs("theme: casetrue\nplugins: [casetrue]\n")
    assert not list(site.glob("sitemap*"))


def test_lessons_may_link_to_our_pages_and_their_parts(mkdocs: Made) -> None:
    text = "[client](clients/tern-03.html) [table](tables/plan.md#rules) [measure](measures.md#stance)\n"
    site = mkdocs("theme: casetrue\nplugins: [casetrue]\n", {"lessons/knee-to-wall.md": text})
    hrefs = dict(pages(site))["knee-to-wall.html"].xpath("//main//a/@href")
    assert hrefs == ["clients/tern-03.html", "tables/plan.html#rules", "measures.html#stance"]


def test_an_aligned_table_in_a_lesson_has_classes(mkdocs: Made) -> None:
    text = "# Knee\n\n| a | b |\n|---|--:|\n| 1 | 2 |\n"
    site = mkdocs("theme: casetrue\nplugins: [casetrue]\n", {"lessons/knee-to-wall.md": text})
    page = dict(pages(site))["knee-to-wall.html"]
    assert page.xpath("//td/@class") == ["to-right"]
    assert not page.xpath("//@style")


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        '<script src="foot.txt"></script>',
        '<meta http-equiv="refresh" content="0; url=about.html">',
        '<b onclick="alert(1)">a</b>',
        "[a](javascript:alert(1))",
    ],
)
def test_no_page_is_made_of_a_lesson_that_acts(
    mkdocs: Made, caplog: pytest.LogCaptureFixture, text: str
) -> None:
    with caplog.at_level(logging.ERROR), pytest.raises(Abort):
        mkdocs("theme: casetrue\nplugins: [casetrue]\n", {"lessons/knee-to-wall.md": f"# Knee\n\n{text}\n"})
    assert "lessons/knee-to-wall.md, line 3: active-content" in caplog.text


def test_what_an_extension_of_markdown_brings_in_is_seen_too(
    mkdocs: Made, caplog: pytest.LogCaptureFixture
) -> None:
    text = '# Knee\n\nWords.\n{: onclick="alert(1)" }\n'
    settings = "theme: casetrue\nplugins: [casetrue]\nmarkdown_extensions: [attr_list]\n"
    with caplog.at_level(logging.ERROR), pytest.raises(Abort):
        mkdocs(settings, {"lessons/knee-to-wall.md": text})
    assert "knee-to-wall.md: `onclick=` would act by itself" in caplog.text


def test_in_our_own_theme_no_inline_script_is_admitted_whoever_wrote_it(mkdocs: Made) -> None:
    end = "'<script>alert(1)</script></body>'"
    hook = f"def on_post_page(output, page, config):\n    return output.replace('</body>', {end})\n"
    settings = (
        "theme: casetrue\nplugins: [casetrue]\ncopyright: <script>alert(1)</script>\nhooks: [hook.py]\n"
    )
    for uri, page in pages(mkdocs(settings, {"hook.py": hook})):
        assert page.xpath("//script[not(@src) and not(@type)]"), uri
        [policy] = page.xpath("//meta[@http-equiv='Content-Security-Policy']/@content")
        assert "script-src 'self';" in policy, uri


def test_names_in_two_parts_become_addresses_in_one(mkdocs: Made, small_course: Path) -> None:
    """As a file system of macOS keeps them (Unicode's form NFD)."""
    decomposed = unicodedata.normalize("NFD", "\u00fcbung")
    (small_course / "lessons" / f"{decomposed}.png").write_bytes(b"\x89PNG")
    text = "# Knee\n\n[a](\u00fcbung.md) ![b](\u00fcbung.png)\n"
    files = {f"lessons/{decomposed}.md": "# Words\n", "lessons/knee-to-wall.md": text}
    site = mkdocs("theme: casetrue\nplugins: [casetrue]\n", files)
    assert {path.name for path in site.glob("*bung.*")} == {"\u00fcbung.html", "\u00fcbung.png"}
    page = dict(pages(site))["knee-to-wall.html"]
    addresses = page.xpath("//main//p/a/@href | //main//p/img/@src")
    assert [unquote(address) for address in addresses] == ["\u00fcbung.html", "\u00fcbung.png"]
    assert "\u00fcbung.html" in (site / "assets" / "search-index.js").read_text("utf-8")


def test_only_files_on_the_courses_list_are_published(mkdocs: Made, small_course: Path) -> None:
    files = {
        f"lessons/{name}": "# Words\n" for name in ("old.md.bak", "~notes.txt", "#a.md#", "more.markdown")
    }
    (small_course / "lessons" / ".git").mkdir()
    site = mkdocs("theme: casetrue\nplugins: [casetrue]\n", files)
    found = {path.name for path in site.iterdir()}
    assert not found & {"old.md.bak", "~notes.txt", "#a.md#", "more.html", "more.markdown"}


@pytest.mark.parametrize("docs_dir", ["cases", "../elsewhere"])
def test_lessons_are_read_from_the_course_alone(
    mkdocs: Made, tmp_path: Path, caplog: pytest.LogCaptureFixture, docs_dir: str
) -> None:
    (tmp_path / "elsewhere").mkdir()
    with caplog.at_level(logging.ERROR), pytest.raises(Abort):
        mkdocs(f"theme: casetrue\nplugins: [casetrue]\ndocs_dir: {docs_dir}\n")
    assert "Write `docs_dir: lessons`." in caplog.text


def test_errors_of_the_course_stop_mkdocs(mkdocs: Made, caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level(logging.ERROR), pytest.raises(Abort):
        mkdocs("theme: casetrue\nplugins: [casetrue]\n", {"measures.yml": "measures: ["})
    assert "measures.yml, line" in caplog.text
