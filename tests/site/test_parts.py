"""Small parts of the site, each by itself."""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from builder.answers import addresses
from builder.course import COMMON_PRACTICE, FROM_MEMORY, About, Course, Source
from builder.site import Page
from builder.site.assets import needed, stylesheet
from builder.site.bodies import anchors, opening, to_classes
from builder.site.citations import cite
from builder.site.environment import inert
from builder.site.policy import inline_hashes, with_policy
from builder.site.preview import Preview
from builder.site.shell import BODY, DESCRIPTION, SOURCE, STEM, TITLE, Shell
from builder.words import ENGLISH


@pytest.mark.parametrize(
    ("folder", "to", "link"),
    [
        ("", "clients/tern.html", "clients/tern.html"),
        ("clients", "index.html", "../index.html"),
        ("clients", "clients/index.html", "index.html"),
        ("clients", "measures.html#knee", "../measures.html#knee"),
        ("", "measures.html#knee", "measures.html#knee"),
    ],
)
def test_relative_links(folder: str, to: str, link: str) -> None:
    assert addresses.relative(folder, to) == link


@pytest.mark.parametrize(
    ("file", "uri"),
    [
        ("lessons/knee.md", "knee.html"),
        ("lessons/part/README.md", "part/index.html"),
        ("lessons/index.md", "index.html"),
    ],
)
def test_lessons_stand_where_mkdocs_puts_them(file: str, uri: str) -> None:
    assert addresses.lesson(file) == uri


def test_a_shell_is_filled_at_its_marks_alone() -> None:
    shell = Shell.cut(
        f"<title>{TITLE}</title><a href='/c/{STEM}.html' title='{DESCRIPTION}' rel='{SOURCE}'>{BODY}"
    )
    body = f"<h1>Tern</h1>{TITLE}"
    page = Page(
        "clients/tern 3.html", "Tern & <Co>", "client", lambda: body, "A 'line'", source="cases/a.yml"
    )
    assert shell.fill(page) == (
        "<title>Tern &amp; &lt;Co&gt;</title>"
        f"<a href='/c/tern%203.html' title='A &#x27;line&#x27;' rel='cases/a.yml'>{body}"
    )


@pytest.mark.parametrize("drawn", ["no body", BODY + BODY])
def test_a_theme_that_hides_the_body_is_told(drawn: str) -> None:
    with pytest.raises(ValueError, match="theme"):
        Shell.cut(drawn)


def test_hashes_of_the_policy_are_those_of_the_scripts() -> None:
    """W3C CSP Level 3, 2.3.1: hash-source is the base64 of the digest of the script's text."""
    page = '<script>a()</script><script src="b.js"></script><script type="application/json">{}</script>'
    digest = base64.b64encode(hashlib.sha256(b"a()").digest()).decode()
    assert inline_hashes(page) == (f"'sha256-{digest}'",)


def test_scripts_of_the_content_get_no_hash() -> None:
    content = "<p><script>bad()</script></p>"
    page = f'<meta charset="utf-8"><script>good()</script>{content}'
    policy = with_policy(page, content)
    assert policy.count("'sha256-") == 1
    assert policy.index("charset") < policy.index("Content-Security-Policy") < policy.index("good()")


def test_inert_json_can_end_no_script_block() -> None:
    value = {"a": "</script><!--<script>\u2028&", "b": [1, "é"]}
    text = inert(value)
    assert not set("<>&\u2028") & set(text)
    assert json.loads(text) == value


def test_alignment_by_style_becomes_class() -> None:
    assert to_classes('<td style="text-align: right;">1</td>') == '<td class="to-right">1</td>'


def test_an_opening_is_cut_at_its_first_section() -> None:
    cut = opening('<h1 id="a">Hello</h1>\n<p>One.</p>\n<h2>More</h2>\n<p>Two.</p>')
    assert cut.heading == '<h1 id="a">Hello</h1>'
    assert cut.first == "<p>One.</p>"
    assert cut.rest == "<h2>More</h2>\n<p>Two.</p>"
    assert opening("<p>Only.</p>").heading is None


def test_anchors_of_a_body() -> None:
    assert anchors('<h2 id="a">x</h2><p data-id="b" id="c">') == {"a", "c"}


def test_the_stylesheet_is_one_without_comments() -> None:
    sheet = stylesheet()
    assert "/*" not in sheet
    assert ".choice" in sheet
    assert "--paper" in sheet
    assert "url(" not in sheet
    assert "@import" not in sheet


@pytest.mark.parametrize(
    ("uri", "wanted"),
    [
        ("assets/javascripts/bundle.min.js", True),
        ("assets/javascripts/bundle.min.js.map", False),
        ("assets/javascripts/lunr/min/lunr.fr.min.js", False),
        ("assets/javascripts/lunr/min/lunr.de.min.js", True),
    ],
)
def test_what_no_page_needs_is_left_out(uri: str, wanted: bool) -> None:
    assert needed(uri, "de-CH") is wanted


def source(**item: Any) -> Course:
    return Course(About("c", "C"), sources={"s": Source("s", {"id": "s", "type": "article-journal", **item})})


def test_a_journal_article_is_cited() -> None:
    """An invented article."""
    course = source(
        title="Range of motion measurements",
        author=[
            {"family": "Heron", "given": "J. M."},
            {"family": "Wang", "given": "C."},
            {"family": "Forsyth", "given": "A."},
        ],
        issued={"date-parts": [[2011, 5]]},
        volume=17,
        issue="3",
        page="500-507",
        DOI="10.5555/wading.2011",
        **{"container-title": "Journal of Wading"},
    )
    cited = cite(ENGLISH, course, "s")
    assert cited.short == "Heron et al. 2011"
    assert cited.full == (
        "Heron JM, Wang C, Forsyth A (2011) Range of motion measurements. Journal of Wading 17(3): 500-507. "
        "doi:10.5555/wading.2011."
    )
    assert cited.link == "https://doi.org/10.5555/wading.2011"


@pytest.mark.parametrize(
    ("item", "short"),
    [
        ({"author": [{"family": "Weir", "given": "Joseph P."}], "issued": {"raw": "2005"}}, "Weir 2005"),
        ({"author": [{"literal": "NHS England UK"}], "issued": {"raw": "2024"}}, "NHS England UK 2024"),
        ({"author": [{"family": "A", "given": "B"}, {"family": "C", "given": "D"}]}, "A & C"),
        ({"author": [{"literal": "Some Body"}], "issued": "2017-01-01"}, "Some Body 2017"),
        ({"publisher": "A College", "issued": [{"year": 2020}]}, "A College 2020"),
        ({"title": "Nobody's words"}, "Nobody's words"),
        ({}, "s"),
        ({"author": "wrong", "issued": {"date-parts": [[]]}, "title": ["wrong"]}, "s"),
    ],
)
def test_short_citations(item: dict[str, Any], short: str) -> None:
    assert cite(ENGLISH, source(**item), "s").short == short


def test_reserved_sources_say_that_nothing_was_published() -> None:
    assert cite(ENGLISH, source(), COMMON_PRACTICE).short == "Common practice: no published source"
    assert "no published source" in cite(ENGLISH, source(), FROM_MEMORY).short


def test_an_unsafe_address_is_no_link() -> None:
    assert cite(ENGLISH, source(URL="javascript:alert(1)"), "s").link == ""


def application(environ: dict[str, Any], start: Callable[..., Any]) -> list[bytes]:
    body = b"<html><body class='x'>old</body></html>" if environ["PATH_INFO"] == "/" else b"old"
    kind = "text/html" if environ["PATH_INFO"] == "/" else "text/css"
    start("200 OK", [("Content-Type", kind), ("Content-Length", str(len(body)))])
    return [body]


def answer(preview: Preview, path: str) -> tuple[dict[str, str], bytes]:
    seen: dict[str, str] = {}
    shown = preview.over(application, "", "/")
    body = b"".join(shown({"PATH_INFO": path}, lambda _, headers: seen.update(headers)))
    return seen, body


def test_a_failed_build_is_told_on_the_old_pages() -> None:
    preview = Preview()

    def fail() -> None:
        raise ValueError("tables/a.yml, line 3: <gap>\nsecond")

    preview.guard(fail)()
    headers, body = answer(preview, "/")
    assert b"<li>tables/a.yml, line 3: &lt;gap&gt;</li><li>second</li>" in body
    assert b">old</body>" in body
    assert headers["Content-Length"] == str(len(body))
    assert answer(preview, "/style.css")[1] == b"old"
    preview.guard(lambda: None)()
    assert b"<li>" not in answer(preview, "/")[1]


def test_serving_survives_an_error_and_shows_its_mending(small_course: Path) -> None:
    """The plugin's own guard around MkDocs' build: an error in the course leaves the site as it was."""
    from mkdocs.commands.build import build
    from mkdocs.config import load_config

    config_file = small_course / "mkdocs.yml"
    config_file.write_text("site_name: x\ndocs_dir: lessons\ntheme: casetrue\nplugins: [casetrue]\n", "utf-8")
    site = small_course.parent / "site"

    config = load_config(str(config_file), site_dir=str(site))
    config.plugins.on_startup(command="serve", dirty=False)
    preview = config.plugins["casetrue"].preview

    def once() -> None:
        config = load_config(str(config_file), site_dir=str(site))
        build(config, serve_url="http://127.0.0.1:8000/")

    def page() -> str:
        return preview.unwritten["clients/tern-03.html"]()

    guarded = preview.guard(once)
    guarded()
    assert preview.faults == ()
    assert not (site / "clients" / "tern-03.html").exists()
    assert "Content-Security-Policy" not in page()
    cases = small_course / "cases" / "clients.yml"
    before = cases.read_text("utf-8")
    cases.write_text(before.replace("name: Tern", "nome: Tern"), "utf-8")
    guarded()
    assert "cases/clients.yml, line" in preview.faults[0]
    assert "Tern" in page()
    cases.write_text(before.replace("name: Tern", "name: Puffin"), "utf-8")
    guarded()
    assert preview.faults == ()
    assert "Puffin" in page()


def test_a_page_is_written_when_asked_for(tmp_path: Path) -> None:
    """The server answers with files of its folder; `/course/` stands in front of their addresses."""
    preview = Preview()
    preview.unwritten = {"clients/tern-03.html": lambda: "<body>Tern</body>"}

    def server(environ: dict[str, Any], start: Callable[..., Any]) -> list[bytes]:
        file = tmp_path / environ["PATH_INFO"].removeprefix("/course/")
        start("200 OK" if file.is_file() else "404 Not Found", [("Content-Type", "text/html")])
        return [file.read_bytes() if file.is_file() else b"nothing there"]

    def ask(path: str) -> tuple[str, bytes]:
        status: list[str] = []
        shown = preview.over(server, str(tmp_path), "/course/")
        return b"".join(shown({"PATH_INFO": path}, lambda begun, _: status.append(begun))), status[-1]

    assert ask("/course/clients/tern-03.html") == (b"<body>Tern</body>", "200 OK")
    assert ask("/course/clients/tern-04.html") == (b"nothing there", "404 Not Found")
    assert ask("/course/clients/../../secret.html") == (b"nothing there", "404 Not Found")
    assert [file.name for file in tmp_path.rglob("*.html")] == ["tern-03.html"]
