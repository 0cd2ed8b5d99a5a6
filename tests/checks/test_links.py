"""Links and pictures of lessons: what leads to nothing is told, what leads somewhere never is."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.answers import Answers
from builder.checks import Scope, check
from builder.checks.links import there
from builder.problems import Problem
from builder.site import Page, Site
from builder.site.navigation import markdown
from builder.site.pages import pages
from builder.source import load

DEMO = Path(__file__).parents[2] / "course_src"


def told(course: Path) -> list[Problem]:
    return [problem for problem in check(load(course)) if problem.code == "missing-reference"]


@pytest.mark.parametrize("part", ["small", "drills", "demo"])
def test_it_knows_just_the_pages_that_are_built(part: str, request: pytest.FixtureRequest):
    course = DEMO if part == "demo" else request.getfixturevalue(f"{part.removesuffix('s')}_course")
    loaded = load(course)
    made = {
        page.uri if page.grows else markdown(page.uri)
        for page in pages(Site(Answers(loaded.course), loaded.texts))
        if isinstance(page, Page)
    }
    lessons = {lesson.file.removeprefix("lessons/") for lesson in loaded.course.lessons}
    assert there(Scope.of(loaded, None)) == made | lessons


@pytest.mark.parametrize(
    ("written", "hint"),
    [
        ("[x](clients/turn-03.html)", "Did you mean `clients/tern-03.html`?"),
        ("[x](clients/tern-03.md)", "Did you mean `clients/tern-03.html`?"),
        ("[x](table/plan.md)", "Did you mean `tables/plan.md`?"),
        ("[x](tables/plam.md#rules)", "Did you mean `tables/plan.md`?"),
        ("[x](tables/)", "Did you mean `tables/index.md`?"),
        ("[x](tables/plan)", "Did you mean `tables/plan.md`?"),
        ("[x](knee-to-wal.md)", "Did you mean `knee-to-wall.md`?"),
        ("[x](lessons/knee-to-wall.md)", "Did you mean `knee-to-wall.md`?"),
        ("[x](cautions/nowhere.md)", "Correct it, or write what it leads to."),
        ("[x](drills/index.md)", "Correct it, or write what it leads to."),
        ("![x](foto.png)", "Did you mean `foot.png`?"),
        ("<img alt='' src='foto.png'>", "Did you mean `foot.png`?"),
        ("<div>\n<img src='foot.png'><img src='foto.png'>\n</div>", "Did you mean `foot.png`?"),
        ("[x][there]\n\n[there]: tables/plam.md", "Did you mean `tables/plan.md`?"),
    ],
)
def test_a_dead_link_is_told(small_course: Path, course_folder, written: str, hint: str):
    course_folder({"lessons/foot.png": b"\x89PNG"}, small_course)
    (small_course / "lessons" / "more.md").write_text(f"# More\n\nWords, words.\nAnd {written}\n", "utf-8")
    (problem,) = told(small_course)
    assert (problem.severity, problem.subject) == ("error", "lesson:lessons/more.md")
    assert problem.hint == hint
    line = (small_course / problem.file).read_text("utf-8").splitlines()[problem.line - 1]
    assert line[problem.column - 1 :].startswith(problem.message.split("`")[1])


@pytest.mark.parametrize(
    "written",
    [
        "[x](clients/tern-03.html) [y](clients/tern-03.html?again#first)",
        "[x](tables/plan.md) [y](tables/plan.html) [z](tables/plan.md#rules)",
        "[x](clients/index.html?objective=choose-ankle-plan) [y](quizzes/index.md)",
        "[x](index.md) [y](lessons.md) [z](record.md) [a](measures.md#stance) [b](sources.md)",
        "[x](knee-to-wall.md) [y](./knee-to-wall.html) [z](inner/deep.md)",
        "![x](foot.png) [y](foot.png) ![z](<a foot.png>) ![a](a%20foot.png)",
        "[x](#part) [y](https://a.example/nowhere.md) [z](mailto:a@a.example) [a](//a.example/a)",
        "[x](/nowhere.md) [y](./) [z](inner/index.html) [a](inner/index.md) [b](inner/README.md)",
        "<!-- <img src='old.png'> -->",
        "<img data-src='gone.png' src='foot.png'> and <img src='a&amp;b.png'>",
        "<div>\n<!-- <img src='old.png'> --><img data-src='gone.png' src='foot.png'>\n</div>",
        "`[x](nowhere.md)`\n\n```\n[x](nowhere.md)\n```\n\n    [x](nowhere.md)\n\n<!-- [x](nowhere.md) -->",
    ],
)  # fmt: skip
def test_what_leads_somewhere_is_not(small_course: Path, course_folder, written: str):
    pictures = dict.fromkeys(("lessons/foot.png", "lessons/a foot.png", "lessons/a&b.png"), b"\x89PNG")
    files = {**pictures, "lessons/inner/README.md": "# Inner\n"}
    deep = "[x](../tables/plan.md) ![y](../foot.png) [z](../knee-to-wall.md)\n"
    course_folder({**files, "lessons/inner/deep.md": deep}, small_course)
    (small_course / "lessons" / "more.md").write_text(f"# More\n\n{written}\n", "utf-8")
    assert told(small_course) == []


@pytest.mark.parametrize("broken", ["table: plan\npolcy: first\n", "table: plan\n\tpolicy: first\n"])
def test_a_page_of_what_cannot_be_read_is_not_called_missing(small_course: Path, broken: str):
    (small_course / "lessons" / "more.md").write_text("[x](tables/plan.md)\n", "utf-8")
    (small_course / "tables" / "plan.yml").write_text(broken, "utf-8")
    assert told(small_course) == []
