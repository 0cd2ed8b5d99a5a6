"""Twelve coaches of known skill hand over what a real browser saved; every figure is counted again."""

from __future__ import annotations

import json
import re
import shutil
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from lxml import html

from builder.answers import Answers
from builder.cli.main import casetrue
from builder.source import load
from builder.statistics import clustered, wilson
from builder.words import words_for

from ..once import once
from ..records import recount
from .coaches import SKILLS, Going, hand_over, sit
from .conftest import Desk
from .practice import build

DEMO = Path(__file__).parents[2] / "course_src"
UNTIL, TODAY = "2030-06-30", "2030-01-01"
TASK = Going("whole-course", 7, UNTIL)
DOOR = Going("at-the-door", 1)


LATER = ("right", "known", "mode", "answer", "stopped", "unit", "client", "breaks", "ms", "key", "task")
"""What the first format did not know."""


@dataclass(frozen=True)
class Team:
    course: Path
    site: Path
    folder: Path
    files: dict[str, list[Path]]
    """Coach to their files."""
    lies: list[dict[str, Any]]
    """Attempts that somebody has made up."""

    @cached_property
    def answers(self) -> Answers:
        return answers_of(self.course)

    def attempts(self, name: str) -> list[dict[str, Any]]:
        return recount.raw_attempts(self.files[name], self.lies)

    def run(self, *more: str) -> Any:
        every = sorted(map(str, self.folder.glob("*.json")))
        given = ["records", *every, "--course", str(self.course), "--today", TODAY, *more]
        return CliRunner().invoke(casetrue, given)


def answers_of(course: Path) -> Answers:
    loaded = load(course).course
    return Answers(loaded, words_for(loaded.about.language))


@pytest.fixture(scope="module")
def team(desks, tmp_path_factory: pytest.TempPathFactory) -> Team:
    """Records exported by Chromium; in Firefox, saving a copy is tried by the tests of the record."""
    return once(tmp_path_factory, "team", lambda root: _sat(root, desks["chromium"]))


def _sat(root: Path, desk: Desk) -> Team:
    course = Path(shutil.copytree(DEMO, root / "course"))
    quiz = course / "quizzes" / "whole-course.yml"
    quiz.write_text(quiz.read_text("utf-8") + "marking: certainty\n", "utf-8")
    site = build(course, root / "site")
    answers = answers_of(course)
    folder = root / "handed-over"
    folder.mkdir()
    files: dict[str, list[Path]] = {}
    shared = None
    for number, (name, skill) in enumerate(SKILLS.items()):
        if name == "Ivy":  # she takes over Hazel's tablet
            page = shared
        else:
            page = shared = desk.page()
        assert page is not None
        sit(page, site, answers, TASK, skill, number)
        sit(page, site, answers, DOOR, skill, 100 + number)
        if number % 3 == 0:
            sit(page, site, answers, DOOR, min(1.0, skill + 0.2), 200 + number)
        if number % 4 == 1:
            sit(page, site, answers, Going("first-check", 11 + number), skill, 300 + number)
        files[name] = [hand_over(page, site, name, folder / f"{number:02}-1.json")]
        if name == "Gorse":  # a later copy, under a name that is written differently
            sit(page, site, answers, Going("whole-course", 8), skill, 400)
            files[name].append(hand_over(page, site, " gorse ", folder / "06-2.json"))
        if name not in ("Hazel", "Ivy"):
            page.close()
    return Team(course, site, folder, files, _oddities(folder, files))


def _oddities(folder: Path, files: dict[str, list[Path]]) -> list[dict[str, Any]]:
    """Makes one record tampered with, one doubled, one of the first format, and one that is none."""
    (tampered,) = files["Juniper"]
    record = json.loads(tampered.read_text("utf-8"))
    lie = next(one for one in record["attempts"] if one["kind"] == "question" and one["mark"] == 0)
    lie |= {"mark": 1, "right": True, "harm": "none"}
    tampered.write_text(json.dumps(record), "utf-8")
    files["Cedar"].append(Path(shutil.copy(files["Cedar"][0], folder / "02-2.json")))
    (old,) = files["Elm"]
    record = json.loads(old.read_text("utf-8"))
    record["format"] = 1
    for one in record["attempts"]:
        for name in LATER:
            one.pop(name, None)
        for new, name in (("draw", "seed"), ("sure", "certainty"), ("passed", "held")):
            if new in one:
                one[name] = one.pop(new)
    record.pop("stopped", None)
    old.write_text(json.dumps(record), "utf-8")
    (folder / "zz-foreign.json").write_text('{"format": 2, "course": "other", "attempts": []}', "utf-8")
    return [lie]


@pytest.fixture(scope="module")
def told(team: Team) -> dict[str, Any]:
    result = team.run("--format", "json")
    assert result.exit_code == 1, "some of it is no record, or cannot be true"
    document: dict[str, Any] = json.loads(result.stdout)
    return document


@pytest.fixture(scope="module")
def monday(team: Team) -> Path:
    out = team.folder.parent / "monday"
    result = team.run("--out", str(out), "--names", "--site", "https://x.example/c/")
    assert result.exit_code == 1, result.output
    return out


@pytest.fixture(scope="module")
def page(monday: Path) -> html.HtmlElement:
    return html.parse(monday / "index.html").getroot()


def words(element: html.HtmlElement) -> str:
    return " ".join(element.text_content().split())


def test_everybody_is_there_once(team: Team, told: dict[str, Any]) -> None:
    assert [one["learner"] for one in told["learners"]] == list(SKILLS)
    assert {one["learner"]: sorted(map(Path, one["files"])) for one in told["learners"]} == {
        name: sorted(files) for name, files in team.files.items()
    }
    assert len({one["label"] for one in told["learners"]}) == len(SKILLS)


def test_every_figure_of_a_coach_is_what_a_second_count_gives(team: Team, told: dict[str, Any]) -> None:
    for one in told["learners"]:
        name = one["learner"]
        attempts = team.attempts(name)
        did = recount.stopped(team.files[name], attempts)
        assert (one["stopped"]["stopped"], one["stopped"]["of"]) == (sum(did.values()), len(did)), name
        assert one["stopped"]["not"] == sorted(client for client, ok in did.items() if not ok)
        unsafe = {a["id"] for a in attempts if recount.is_answer(a) and a.get("harm") == "serious"}
        assert {a["item"] for a in one["serious"]} == unsafe
        sure = {a["id"]: a for a in attempts if a.get("sure") == 3 and not a["right"]}
        assert {a["item"] for a in one["very_sure_and_wrong"]} == set(sure)
        for objective, counts in one["objectives"].items():
            firsts = [a for a in attempts if a["is_first"] and a["objective"] == objective]
            assert (counts["right"], counts["of"]) == (sum(a["right"] for a in firsts), len(firsts))
            interval = clustered([(a["right"], a.get("client")) for a in firsts])
            assert (counts["low"], counts["high"]) == interval
        about = {a["objective"] for a in attempts if a["is_first"] and a["objective"]}
        assert set(one["objectives"]) == about
        for level, counts in one["calibration"].items():
            said = [a["right"] for a in attempts if a["is_first"] and a.get("sure") == int(level)]
            assert (counts["right"], counts["of"]) == (sum(said), len(said))
        found = [(h["thing"], h["why"], h["wrong"], h["since"]) for h in one["helps"]]
        assert found == recount.helps(attempts), name
        _check_quizzes(one, attempts)


def _check_quizzes(one: dict[str, Any], attempts: list[dict[str, Any]]) -> None:
    for quiz, score in one["quizzes"].items():
        ends = [a for a in attempts if a["kind"] == "quiz" and a["id"] == quiz]
        counting = [a for place, a in enumerate(ends) if a["draw"] not in [b["draw"] for b in ends[:place]]]
        assert score["first"] == counting[0]["mark"]
        assert score["passed"] == counting[0]["passed"]
        later = [place for place, a in enumerate(counting, 1) if a["passed"] and place > 1]
        assert score["passed_later"] == (later[0] if later else None)
        assert (score["sittings"], score["seen_before"]) == (len(counting), len(ends) - len(counting))


def test_every_figure_of_the_team_is_what_a_second_count_gives(team: Team, told: dict[str, Any]) -> None:
    labels = {one["learner"]: one["label"] for one in told["learners"]}
    chosen = {name: recount.outcomes(team.answers, team.attempts(name)) for name in SKILLS}
    expected: dict[tuple[str, str], dict[str, list[str]]] = {}
    for name in SKILLS:
        for place, outcome in chosen[name].items():
            expected.setdefault(place, {}).setdefault(outcome, []).append(labels[name])
    assert len(expected) > 10
    decisions = {(one["table"], one["client"]): one["chosen"] for one in told["team"]["decisions"]}
    assert decisions == expected
    for one in told["team"]["decisions"]:
        client = team.answers.client(one["client"])
        assert client is not None
        assert one["right"] == client.decisions[one["table"]].outcome
    (task,) = told["team"]["tasks"]
    assert (task["quiz"], task["draw"], task["until"]) == (TASK.quiz, TASK.draw, UNTIL)
    assert [one["label"] for one in task["done"]] == [labels[name] for name in SKILLS if name != "Elm"], (
        "the first format knew no tasks"
    )
    unsafe: dict[str, list[str]] = {}
    for name in SKILLS:
        earliest: dict[str, dict[str, Any]] = {}
        for attempt in team.attempts(name):
            if recount.is_answer(attempt) and attempt.get("harm") == "serious":
                earliest.setdefault(attempt["id"], attempt)
        for attempt in earliest.values():
            for caution in attempt.get("breaks") or [""]:
                unsafe.setdefault(caution, []).append(labels[name])
    found = {name: [one["label"] for one in some] for name, some in told["team"]["unsafe"].items()}
    assert {name: sorted(some) for name, some in found.items()} == {
        name: sorted(some) for name, some in unsafe.items()
    }
    for one in told["team"]["to_teach"]:
        wrong = [
            name
            for name in SKILLS
            if any(
                recount.is_answer(a) and a["is_first"] and one["thing"] in recount.things(a)
                for a in team.attempts(name)
            )
        ]
        assert one["wrong"] == len(wrong)
        unsafely = {
            name
            for name in SKILLS
            if any(
                recount.is_answer(a) and a.get("harm") == "serious" and one["thing"] in recount.things(a)
                for a in team.attempts(name)
            )
        }
        assert len({*wrong, *unsafely}) > 1


def test_the_page_shows_those_figures(team: Team, told: dict[str, Any], page: html.HtmlElement) -> None:
    rows = {words(row[0]): row for row in page.xpath("//h2[@id='stopped']/..//tbody/tr")}
    grid = {words(row[0]): row for row in page.xpath("//h2[@id='objectives']/..//tbody/tr")}
    heads = [words(head) for head in page.xpath("//h2[@id='objectives']/..//thead//th")][1:]
    names = {objective.label: name for name, objective in team.answers.course.objectives.items()}
    for one in told["learners"]:
        name = one["learner"]
        label = f"{name} (also {', '.join(one['also'])})" if one["also"] else name
        row = next(row for shown, row in rows.items() if shown == label)
        did, of = one["stopped"]["stopped"], one["stopped"]["of"]
        low, high = wilson(did, of) if of else (0, 0)
        assert words(row[1]) == (_share(did, of, low, high) if of else "none met")
        clients = [team.answers.course.cases[client].client.name for client in one["stopped"]["not"]]
        assert words(row[2]) == ", ".join(clients)
        assert words(row[3]) == str(len(one["serious"]))
        for head, cell in zip(heads, grid[label][1:], strict=True):
            counts = one["objectives"].get(names[head])
            assert words(cell) == (_share(**counts) if counts else "none tried")


def _share(right: int, of: int, low: float, high: float) -> str:
    return f"{right} of {of} {100 * low:.0f} to {100 * high:.0f}%"


def test_the_page_tells_how_far_they_decide_alike(team: Team, page: html.HtmlElement) -> None:
    chosen = [recount.outcomes(team.answers, team.attempts(name)) for name in SKILLS]
    sections = page.xpath("//section[@class='alike']")
    assert len(sections) > 3
    tables = {table.title or name: name for name, table in team.answers.course.tables.items()}
    for section in sections:
        table = tables[words(section.xpath("h3")[0])]
        same, pairs, beyond = recount.alike(chosen, table)
        told = words(section)
        if not pairs:
            assert "No client was met by two coaches." in told
            continue
        assert f"Of {pairs} pairs of coaches who decided about the same client, {same} chose alike." in told
        if "Beyond chance" in told:
            assert f"Beyond chance (Fleiss 1971): {beyond:.2f}," in told
        else:
            assert "That is few" in told or "nothing can be told apart from chance" in told


def test_what_is_odd_is_named(team: Team, page: html.HtmlElement) -> None:
    odd = words(page.xpath("//h2[@id='odd']/..")[0])
    for told in (
        "09-1.json: attempts that cannot be true and do not count: 1",
        "02-2.json: all of it stands in 02-1.json too, and counts once.",
        "Gorse (also gorse): records with names that are written differently count as one.",
        "handed over under several names: Hazel, Ivy.",
        "zz-foreign.json: the record belongs to another course, other.",
    ):
        assert told in odd, odd


def test_no_name_stands_on_a_page_unless_it_was_asked_for(team: Team) -> None:
    out = team.folder.parent / "unnamed"
    result = team.run("--out", str(out))
    for name in SKILLS:
        assert f": {name}" in result.stdout, "who is who is told to whoever runs the command"
        for file in sorted(out.iterdir()):
            assert not re.search(rf"\b{name}\b", file.read_text("utf-8"), re.IGNORECASE), (name, file.name)
    wall = html.parse(out / "wall.html").getroot()
    labels = [line.partition(":")[0] for line in result.stdout.splitlines()]
    assert len(labels) == len(SKILLS)
    assert not any(label in words(wall) for label in labels)
    assert "What we work on this week" in words(wall)


def test_the_pages_stand_alone_and_are_easy_to_use(desks, monday: Path, axe) -> None:
    for width, scheme in ((390, "light"), (1280, "dark")):
        for name in ("index.html", "wall.html"):
            tab = desks["chromium"].page(width=width, scheme=scheme)
            tab.open(monday / name)
            assert tab.too_wide == []
            assert tab.trouble == []
            assert tab.foreign == []
            assert axe(tab) == []
            tab.close()
