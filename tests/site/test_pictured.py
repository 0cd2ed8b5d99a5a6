"""Answers as pictures: outcomes that lead to drills in different positions."""

from __future__ import annotations

from pathlib import Path

from lxml import etree, html

from builder.answers import Answers, addresses
from builder.site.figures import draw_picture
from builder.site.pictured import pictures_for, positions_of
from builder.source import load

DEMO = Path(__file__).parents[2] / "course_src"


def test_outcomes_show_the_position_of_their_first_drill() -> None:
    course = load(DEMO).course
    shown = positions_of(course, "position")
    for outcome, position in shown.items():
        first = next(one for one in course.drills.values() if outcome in one.leads_here.get("position", ()))
        assert first.position == position
    assert len(set(shown.values())) > 1
    assert "no_start" not in shown, "nothing starts there"
    assert positions_of(course, "signs") == {}
    assert positions_of(course, None) == {}


def test_a_question_shows_what_its_answers_mean_wherever_they_stand() -> None:
    answers = Answers(load(DEMO).course)
    course = answers.course
    asked = [item for item in answers.bank if item.table == "position" and item.sort == "decision"]
    assert asked
    for item in asked:
        pictures = pictures_for(course, item)
        says = {option.id: option.says for option in item.options}
        assert pictures == {
            id: positions_of(course, "position")[outcome]
            for id, outcome in says.items()
            if outcome in positions_of(course, "position")
        }


def test_pictures_are_files_of_their_own_without_words_or_script() -> None:
    for position in load(DEMO).course.positions.values():
        tree = etree.fromstring(draw_picture(position).encode())
        assert tree.tag == "{http://www.w3.org/2000/svg}svg"
        names = {etree.QName(one).localname for one in tree.iter()}
        assert names <= {"svg", "style", "title", "desc", "g", "path", "circle"}
        assert "http" not in draw_picture(position).replace("http://www.w3.org/2000/svg", "")


def test_a_walk_shows_them_beside_the_words() -> None:
    page = html.fromstring((DEMO.parent / "site_demo" / "clients" / "osei-01.html").read_text("utf-8"))
    pictures = page.xpath("//li[@data-step='position']//label/img")
    assert len(pictures) > 1
    for one in pictures:
        assert one.get("alt") == "", "the words stand beside it"
        assert (DEMO.parent / "site_demo" / "clients" / one.get("src")).resolve().is_file()
    assert addresses.position_picture("seated") in {one.get("src").removeprefix("../") for one in pictures}
