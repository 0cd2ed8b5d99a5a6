"""What holds for every page of a built site."""

from __future__ import annotations

import posixpath
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest
from click.testing import Result

from .html_pages import pages

GOLDEN_PAGES = [
    "about.html",
    "cautions/heel_pain_loading.html",
    "cautions/index.html",
    "clients/index.html",
    "clients/tern-03.html",
    "index.html",
    "measures.html",
    "tables/plan.html",
]
WITH_CLIENTS_OR_TABLES = ("clients/", "tables/", "measures", "quizzes/", "cautions/", "about", "index")


@pytest.mark.parametrize("uri", GOLDEN_PAGES)
def test_page_is_as_last_read(ankle_site: Path, golden: Callable[[str, str], None], uri: str) -> None:
    golden(uri.replace("/", "."), (ankle_site / uri).read_text("utf-8"))


def test_every_kind_of_page_is_there(ankle_site: Path) -> None:
    there = {uri for uri, _ in pages(ankle_site)}
    assert there >= {
        "404.html", "about.html", "cautions/heel_pain_loading.html", "cautions/index.html",
        "clients/index.html", "clients/tern-03.html", "index.html", "knee-to-wall.html", "lessons.html",
        "measures.html", "quizzes/ankle-check.html", "quizzes/index.html", "sources.html",
        "tables/index.html", "tables/plan.html",
    }  # fmt: skip
    assert "glossary.html" not in there  # the course has no terms


def test_links_and_their_parts_lead_somewhere(ankle_site: Path) -> None:
    parts = {uri: {e.get("id") for e in page.iter() if e.get("id")} for uri, page in pages(ankle_site)}
    lost = []
    for uri, page in pages(ankle_site):
        for element in page.iter():
            for name in ("href", "src"):
                address = element.get(name)
                if address is None or uri == "404.html":
                    continue
                link = urlsplit(address)
                if link.scheme:
                    assert element.tag == "a", f"{uri} asks another host for {address}"
                    continue
                path = (
                    posixpath.normpath(posixpath.join(posixpath.dirname(uri), unquote(link.path)))
                    if link.path
                    else uri
                )
                if not (ankle_site / path).is_file() or (link.fragment and link.fragment not in parts[path]):
                    lost.append(f"{uri}: {address}")
    assert lost == []


def test_every_page_has_one_h1_and_headings_in_order(ankle_site: Path) -> None:
    for uri, page in pages(ankle_site):
        levels = [int(e.tag[1]) for e in page.iter("h1", "h2", "h3", "h4", "h5", "h6")]
        assert levels.count(1) == 1, uri
        assert levels[0] == 1, uri
        assert all(after <= before + 1 for before, after in pairwise(levels)), (
            uri,
            levels,
        )


def test_no_id_stands_twice(ankle_site: Path) -> None:
    for uri, page in pages(ankle_site):
        ids = [e.get("id") for e in page.iter() if e.get("id")]
        assert len(ids) == len(set(ids)), uri


def test_no_page_carries_inline_script_or_style(ankle_site: Path) -> None:
    for uri, page in pages(ankle_site):
        for element in page.iter():
            names = [str(name) for name in element.attrib]
            assert not [name for name in names if name == "style" or name.startswith("on")], uri
        assert not list(page.iter("style")), uri
        for script in page.iter("script"):
            assert script.get("src") or script.get("type") == "application/json", uri


def test_every_page_has_a_policy_without_unsafe_inline(ankle_site: Path) -> None:
    for uri, page in pages(ankle_site):
        [policy] = page.xpath("//meta[@http-equiv='Content-Security-Policy']/@content")
        assert "default-src 'none'" in policy, uri
        assert "unsafe" not in policy, uri


def test_pages_with_clients_or_tables_say_what_they_are_for(ankle_site: Path) -> None:
    for uri, page in pages(ankle_site):
        if uri.startswith(WITH_CLIENTS_OR_TABLES):
            assert "nvented clients" in page.xpath("string(//main)"), uri


def test_every_page_says_language_and_title(ankle_site: Path) -> None:
    titles = [page.findtext(".//title") for _, page in pages(ankle_site)]
    assert all(titles)
    assert len(titles) == len(set(titles))
    assert {page.get("lang") for _, page in pages(ankle_site)} == {"en"}


def test_readings_give_no_line_away(ankle_site: Path) -> None:
    """The strips among the readings draw no line between outcomes; those behind the answer do."""
    page = dict(pages(ankle_site))["clients/tern-03.html"]
    assert page.xpath("//*[@data-readings]//*[@class='mark']")
    assert not page.xpath("//*[@data-readings]//*[@class='line']")
    assert page.xpath("//details//*[@class='line']")


def test_a_rule_without_conditions_says_why_it_decides(
    build: Callable[[Path, Path], Result], small_course: Path, tmp_path: Path
) -> None:
    file = small_course / "exercises" / "first-visit.yml"
    asked = "{decide: ankle_class, go: {stiff: warm_up, free: warm_up}}"
    instead = "{decide: plan, go: {refer_out: done, raise_heels: done, widen: done, deep_squat: warm_up}}"
    file.write_text(file.read_text("utf-8").replace(asked, instead), "utf-8")
    assert build(small_course, tmp_path / "site").exit_code == 0
    clients = tmp_path / "site" / "clients"
    told = {case: (clients / f"{case}.html").read_text("utf-8") for case in ("knot-05", "tern-03")}
    assert "Nothing above fits, so this is what is left." in told["knot-05"]
    assert "No rule above fits" not in told["tern-03"]


def test_doubt_stands_behind_the_answer_and_nowhere_else(ankle_site: Path) -> None:
    page = dict(pages(ankle_site))["clients/tern-03.html"]
    [band] = page.xpath("//*[@id='step-class']//*[contains(@class, 'strip')]//*[@class='doubt']")
    assert float(band.get("width")) > 1
    assert not page.xpath("//*[@data-readings]//*[@class='doubt' or @class='hatch']")
    for block in page.xpath("//main//*[@class='how-sure' or @class='hatched']"):
        assert block.xpath("ancestor::details")
    said = page.xpath("string(//*[@id='step-class']//*[@class='how-sure'])")
    assert "about 98 of 100 clients with these readings would be on this side of the lines" in said
    assert "it does not say that the choice suits them" in said
    assert "assumed: no published source" in said
    assert "If the recorded value stayed the same, about 99 of 100" in said
    assert (
        "What would have changed it: Knee-to-wall dorsiflexion: 35° instead of 32°. That would lead to: Free"
        in said
    )
    certain = page.xpath("string(//*[@id='step-screen']//*[@class='how-sure'])")
    assert "No reading error counts here." in certain
    assert "of 100" not in certain


def test_a_caution_comes_before_doubt(ankle_site: Path) -> None:
    page = dict(pages(ankle_site))["clients/rail-06.html"]
    [caution] = page.xpath("//*[@id='step-screen']//*[contains(@class, 'caution')]")
    assert caution.xpath("following::*[@class='how-sure']")
    assert not caution.xpath("preceding::*[@class='how-sure']")


def test_a_doubtful_key_is_told_at_once(ankle_site: Path) -> None:
    found = dict(pages(ankle_site))
    path = "//*[@id='step-class']//*[@class='how-sure']/details"
    assert [e.get("open") is not None for e in found["clients/crake-07.html"].xpath(path)] == [True]
    assert [e.get("open") is not None for e in found["clients/tern-03.html"].xpath(path)] == [False]


def test_a_retest_is_told_behind_its_own_door(ankle_site: Path) -> None:
    found = dict(pages(ankle_site))
    assert not found["clients/plover-04.html"].xpath("//*[@class='later']")
    [later] = found["clients/tern-03.html"].xpath("//details[@class='later']")
    assert later.get("open") is None
    said = " ".join(later.text_content().split())
    assert "7° more: more than measurement error." in said
    # error 2, three trials each: 1.96 * 2 * sqrt(2/3) = 3.2 (Weir 2005)
    row = later.xpath(".//table[@class='compared']/tbody/tr/td/text()")
    assert row == ["+7°", "1.63°", "3.2°"]
    assert "32° (31, 33, 32), then 39° (38, 39, 40)" in said
    assert "Ankle class: Stiff at first, now Free." in said
    assert "Screen: Coach, as before." in said
    assert "Journal of Strength and Conditioning Research 2005;19(1):231-240" in said
    assert later.xpath(".//*[contains(@class, 'again')]//*[@class='doubt']")


def test_a_client_page_names_no_caution_outside_the_answers(ankle_site: Path) -> None:
    for uri, page in pages(ankle_site):
        if uri.startswith("clients/"):
            for caution in page.xpath("//main//*[contains(@class, 'caution')]"):
                assert caution.xpath("ancestor::details"), uri


def test_an_unreviewed_caution_says_so(ankle_site: Path) -> None:
    text = dict(pages(ankle_site))["cautions/heel_pain_loading.html"].xpath("string(//main)")
    assert "No clinician has reviewed this caution." in text
    assert "For training only." in text
    assert "Refer to: Physiotherapist" in text


def test_the_home_page_opens_with_the_educators_words(ankle_site: Path) -> None:
    main = dict(pages(ankle_site))["index.html"].xpath("//main")[0]
    assert main.xpath("string(.//h1)") == "Welcome"
    text = main.text_content()
    assert text.index("about ankles and squats") < text.index("Meet your first client")


def test_pages_say_what_is_proved_and_no_more(ankle_site: Path) -> None:
    found = dict(pages(ankle_site))
    screen, plan = (
        found[f"tables/{name}.html"].xpath("string(//*[@class='proved'])") for name in ("screen", "plan")
    )
    assert "fits exactly one rule" in screen
    assert "fits at least one rule" in plan
    assert "comes to no other outcome" in found["cautions/heel_pain_loading.html"].xpath(
        "string(//*[@class='proved'])"
    )


def test_the_way_around_shows_where_one_is(ankle_site: Path) -> None:
    here = "//nav[@aria-label='Site']//a[@aria-current]"
    found = dict(pages(ankle_site))
    for uri, current, label in [
        ("clients/index.html", "page", "Clients"),
        ("clients/tern-03.html", "true", "Clients"),
        ("tables/plan.html", "true", "Decision tables"),
        ("knee-to-wall.html", "true", "Learn"),
    ]:
        assert [(a.get("aria-current"), a.text) for a in found[uri].xpath(here)] == [(current, label)]


def test_only_a_caution_that_stops_sends_anyone_on(
    small_course: Path, tmp_path: Path, build: Callable[[Path, Path], Result]
) -> None:
    file = small_course / "cautions" / "heel_pain_loading.yml"
    file.write_text(file.read_text("utf-8").replace("level: refer", "level: adapt"), "utf-8")
    done = build(small_course, tmp_path / "site")
    assert done.exit_code == 0, done.output
    found = dict(pages(tmp_path / "site"))
    for uri in ("cautions/heel_pain_loading.html", "cautions/index.html", "clients/tern-03.html"):
        text = found[uri].xpath("string(//main)")
        assert "Ask first: Physiotherapist" in text, uri
        assert "Send on to" not in text, uri
    assert found["cautions/heel_pain_loading.html"].xpath("string(//*[@id='send'])") == "Whom to ask"
