"""A whole course in Spanish: an invented one about bread, which makes no statement about health."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner
from lxml import html

from builder.cli.main import casetrue

from ..conftest import ANKLE
from ..site.html_pages import pages
from .pseudo import seen
from .spanish import english

BREAD = ANKLE.with_name("bread")


def built(course: Path, out: Path) -> dict[str, html.HtmlElement]:
    done = CliRunner().invoke(casetrue, ["build", "--course", str(course), "--out", str(out)])
    assert done.exit_code == 0, (done.output, done.exception)
    return dict(pages(out))


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> dict[str, html.HtmlElement]:
    return built(BREAD, tmp_path_factory.mktemp("bread"))


def words(page: html.HtmlElement, path: str) -> list[str]:
    return [" ".join(found.text_content().split()) for found in page.xpath(path)]


def test_the_course_has_no_fault() -> None:
    done = CliRunner().invoke(casetrue, ["check", "--course", str(BREAD)])
    assert "No problem found." in done.output


def test_no_word_of_the_interface_is_english(site: dict[str, html.HtmlElement]) -> None:
    assert len(site) > 15
    assert {uri: left for uri, page in site.items() if (left := english(seen(page)))} == {}


def test_english_would_be_noticed(small_course: Path) -> None:
    found = {
        uri: english(seen(page)) for uri, page in built(small_course, small_course.parent / "site").items()
    }
    assert all(found.values())


def test_every_page_says_that_nobody_reviewed_its_words(
    site: dict[str, html.HtmlElement],
) -> None:
    for uri, page in site.items():
        assert page.get("lang") == "es", uri
        assert page.xpath("//*[@lang]") == [page], uri
        (foot,) = words(page, "//footer")
        assert "Nadie que entrene y hable español las ha revisado." in foot, uri


def test_an_english_page_says_nothing_of_that(small_course: Path) -> None:
    for uri, page in built(small_course, small_course.parent / "site").items():
        assert "translated" not in page.text_content(), uri


def test_numbers_have_a_decimal_comma(site: dict[str, html.HtmlElement]) -> None:
    client = site["clients/hogaza-01.html"]
    assert words(client, "//span[@class='value']")[0] == "4,2 cm (4,1; 4,3; 4,2)"
    said = client.text_content()
    for text in ("se pide menos de 3,5 cm: 0,7 cm por encima", "error estándar 0,12 cm", "3,97 a 4,43 cm"):
        assert text in said
    assert "80\N{NO-BREAK SPACE}%" in site["quizzes/masas.html"].text_content()
    assert "1,5, según la entidad" in site["about.html"].text_content()


def test_drawings_keep_points_where_they_are_no_words(site: dict[str, html.HtmlElement]) -> None:
    """SVG 2 and JSON know the point alone."""
    for drawn in site["clients/hogaza-01.html"].xpath("//svg//*[@d or @x]"):
        for name in ("d", "x", "y"):
            assert "," not in drawn.get(name, ""), html.tostring(drawn)


def test_the_glossary_is_in_the_order_of_the_spanish_alphabet(site: dict[str, html.HtmlElement]) -> None:
    assert words(site["glossary.html"], "//dt") == [
        "Amasado",
        "Hidratación",
        "Nube de harina",
        "Ñora",
        "Oreja",
    ]


def test_in_mexico_the_same_words_go_with_a_point(tmp_path: Path) -> None:
    """Unicode CLDR, symbols of numbers for es-MX."""
    course = tmp_path / "course"
    for file in BREAD.rglob("*.*"):
        (course / file.relative_to(BREAD)).parent.mkdir(parents=True, exist_ok=True)
        text = file.read_text("utf-8").replace("language: es", "language: es-MX")
        (course / file.relative_to(BREAD)).write_text(text, "utf-8")
    page = built(course, tmp_path / "site")["clients/hogaza-01.html"]
    assert page.get("lang") == "es-MX"
    assert words(page, "//span[@class='value']")[0] == "4.2 cm (4.1, 4.3, 4.2)"
