"""`casetrue review` notes a review in the file of the part, and a later change is told."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.answers import Answers
from builder.checks import check
from builder.site import Site
from builder.site.page import Page
from builder.site.pages import about, cautions, drills, tables
from builder.source import load

PARTS = {
    "caution:heel_pain_loading": "cautions/heel_pain_loading.yml",
    "drill:wall_side": "drills/wall.yml",
    "table:plan": "tables/plan.yml",
    "exercise:first-visit": "exercises/first-visit.yml",
    "question:q-one": "questions/bank.yml",
}
CHANGED = {
    "caution": "Stop loading",
    "drill": "On the side",
    "table": "What do you do first",
    "exercise": "First visit",
    "question": "Where does the foot stand",
}


def noted(run, course: Path, part: str, *more: object):
    return run("review", part, "--role", "physiotherapist", "--by", "Ada Wagtail", "--course", course, *more)


def codes(course: Path, part: str) -> list[str]:
    return [one.code for one in check(load(course), "2026-06-01") if one.subject == part]


@pytest.mark.parametrize("part", PARTS)
def test_a_review_is_noted_until_the_part_changes(run, drill_course: Path, part: str) -> None:
    file, kind = drill_course / PARTS[part], part.split(":")[0]
    before = file.read_text("utf-8")
    result = noted(run, drill_course, part, "--on", "2026-05-01", "--due", "2027-05-01")
    assert result.exit_code == 0, result.output
    after = file.read_text("utf-8")
    new = [line for line in after.splitlines() if line not in before.splitlines()]
    assert len(new) == 1
    assert 'role: "physiotherapist", by: "Ada Wagtail", on: 2026-05-01, due: 2027-05-01' in new[0]
    assert codes(drill_course, part) == []

    file.write_text(f"# A comment.\n{after}", "utf-8")
    assert codes(drill_course, part) == [], "comments are nobody's to review"
    file.write_text(after.replace(CHANGED[kind], f"{CHANGED[kind]} indeed", 1), "utf-8")
    assert "review-stale" in codes(drill_course, part)


def test_noting_it_again_mends_it(run, small_course: Path) -> None:
    noted(run, small_course, "plan")
    file = small_course / "tables" / "plan.yml"
    file.write_text(file.read_text("utf-8").replace("question: ", "question: So, "), "utf-8")
    assert codes(small_course, "table:plan") == ["review-stale"]
    assert noted(run, small_course, "plan").exit_code == 0
    assert codes(small_course, "table:plan") == []
    assert file.read_text("utf-8").count("reviewed:") == 1


def test_a_review_without_a_digest_is_never_stale(small_course: Path) -> None:
    file = small_course / "tables" / "plan.yml"
    file.write_text(file.read_text("utf-8") + "reviewed: {role: coach, on: 2026-01-01}\n", "utf-8")
    assert codes(small_course, "table:plan") == []


def test_today_is_the_day_where_no_other_is_given(run, small_course: Path) -> None:
    noted(run, small_course, "plan")
    noted(run, small_course, "screen", "--today", "2026-02-03")
    assert "on: 2026-06-01" in (small_course / "tables" / "plan.yml").read_text("utf-8")
    assert "on: 2026-02-03" in (small_course / "tables" / "screen.yml").read_text("utf-8")


def test_pages_tell_of_reviews_and_of_changes_after_them(run, small_course: Path) -> None:
    def shown() -> tuple[str, str]:
        loaded = load(small_course)
        site = Site(Answers(loaded.course), loaded.texts)
        (page,) = about.pages(site)
        plan = next(one for one in tables.pages(site) if one.uri == "tables/plan.html")
        return page.body, plan.body

    assert "Reviewed by" not in shown()[1]
    noted(run, small_course, "plan")
    noted(run, small_course, "exercise:first-visit")
    noted(run, small_course, "question:q-one")
    on_about, on_table = shown()
    assert "Reviewed by: Ada Wagtail, physiotherapist, 2026-06-01." in on_table
    assert on_about.count("Ada Wagtail, physiotherapist, 2026-06-01") == 3
    assert "changed since" not in on_about + on_table
    file = small_course / "tables" / "plan.yml"
    file.write_text(file.read_text("utf-8").replace("question: ", "question: So, "), "utf-8")
    assert all("It has changed since." in body for body in shown())


@pytest.mark.parametrize(
    ("part", "kind"), [("caution:heel_pain_loading", cautions), ("drill:wall_side", drills)]
)
def test_who_is_no_clinician_leaves_it_unreviewed_by_one(run, drill_course: Path, part: str, kind) -> None:
    def said(kind, name: str) -> str:
        loaded = load(drill_course)
        made = kind.pages(Site(Answers(loaded.course), loaded.texts))
        (body,) = (one.body for one in made if isinstance(one, Page) and one.uri.endswith(f"{name}.html"))
        return body

    none, name = "No clinician has reviewed", part.split(":")[1]
    result = noted(run, drill_course, part, "--not-a-clinician")
    assert "still that no clinician has" in result.stdout
    assert codes(drill_course, part) == ["review-missing"]
    page = said(kind, name)
    assert page.index(none) < page.index("Reviewed by: Ada Wagtail, physiotherapist")
    assert "No clinician has reviewed it." in said(about, "about")

    assert noted(run, drill_course, part).exit_code == 0, "a clinician's review takes its place"
    assert codes(drill_course, part) == []
    assert none not in said(kind, name)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["planned", "--role", "r", "--by", "b"], "Did you mean plan?"),
        (["g-plan", "--role", "r", "--by", "b"], "There is no caution, drill, table, exercise or written"),
        (["plan", "--role", " ", "--by", "b"], "Write it in words."),
        (["plan", "--role", "r", "--by", "b\x07"], "Write it in words."),
        (["plan", "--role", "r", "--by", "b", "--on", "June"], "June is no day"),
        (["plan", "--role", "r", "--by", "b", "--due", "2026-06-01"], "must be later"),
    ],
)
def test_wrong_use_is_told(run, small_course: Path, arguments: list[str], said: str) -> None:
    before = (small_course / "tables" / "plan.yml").read_bytes()
    result = run("review", *arguments, "--course", small_course)
    assert result.exit_code == 2
    assert said in " ".join(result.stderr.split())
    assert (small_course / "tables" / "plan.yml").read_bytes() == before


def test_a_name_that_two_parts_have_is_asked_for(run, small_course: Path) -> None:
    file = small_course / "exercises" / "first-visit.yml"
    file.write_text(file.read_text("utf-8").replace("exercise: first-visit", "exercise: plan"), "utf-8")
    result = noted(run, small_course, "plan")
    assert result.exit_code == 2
    assert "Say which: table:plan, exercise:plan." in " ".join(result.stderr.split())


def test_what_cannot_be_written_safely_is_refused_in_a_sentence(run, small_course: Path) -> None:
    file = small_course / "tables" / "plan.yml"
    text = file.read_text("utf-8") + "reviewed:\n  role: coach # or so\n  on: 2026-01-01\n"
    file.write_text(text, "utf-8")
    result = noted(run, small_course, "plan")
    assert result.exit_code == 2
    assert "Write it by hand, in one line of the table plan" in " ".join(result.stderr.split())
    assert "clinician" not in result.stderr
    lay = noted(run, small_course, "plan", "--not-a-clinician")
    assert '", clinician: false}' in " ".join(lay.stderr.split())
    assert file.read_text("utf-8") == text


def test_nothing_is_written_through_a_link_that_leads_out(run, small_course: Path, tmp_path: Path) -> None:
    outside = tmp_path / "outside.yml"
    file = small_course / "tables" / "plan.yml"
    file.rename(outside)
    file.symlink_to(outside)
    before = outside.read_bytes()
    assert noted(run, small_course, "plan").exit_code == 2
    assert outside.read_bytes() == before
