"""Every hostile text in every field that takes text, read back from every page: it stays text."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.answers import Answers
from builder.checks import check
from builder.cli.main import casetrue
from builder.records import Facts, HandedOver, read
from builder.records.summary import by_learner
from builder.site import Page, Site
from builder.site.owner import Report, report_page, wall_page
from builder.site.pages import pages
from builder.source import load

from ..records.answered import answered
from .course import Seed, fields
from .reading import data_faults, faults, manifest_faults
from .values import REFUSED, VALUES

BLOCK = 25


def made(folder: Path) -> dict[str, tuple[bool, str, str]]:
    loaded = load(folder)
    assert [one for one in loaded.problems if one.severity == "error"] == []
    answers = Answers(loaded.course)
    found = pages(Site(answers, loaded.texts))
    return {
        one.uri: (True, one.body, one.title) if isinstance(one, Page) else (False, one.text, "")
        for one in found
    } | {f"owner/{name}": (True, text, "") for name, text in owners(answers).items()}


def owners(answers: Answers) -> dict[str, str]:
    """The owner's pages for two coaches who have answered everything, one all wrong."""
    records = [
        (str(right), read(answered(answers, f"Coach {right}", right), answers.course.about.name))
        for right in (True, False)
    ]
    facts = Facts(answers)
    learners = by_learner(records, facts.now)
    handed = HandedOver(learners, tuple(records), (), (), (), ())
    report = Report(answers, facts, handed, ["B10", "C20"], "https://x.example", "2026-06-30", False)
    return {"index.html": report_page(report), "wall.html": wall_page(report)}


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[bool, str, str]]:
    return made(Seed().write(tmp_path_factory.mktemp("plain"), lambda field, number: None))


def test_every_text_is_reached(tmp_path: Path) -> None:
    """A field that is new in a schema, in a part that the seed lacks, is missing here: add that part."""
    seed = Seed()
    seed.write(tmp_path, lambda field, number: None)
    assert seed.reached == fields()


def test_there_are_two_hundred_texts() -> None:
    assert len(set(VALUES)) >= 200


@pytest.mark.parametrize("first", range(0, len(VALUES), BLOCK))
def test_every_text_in_every_field_stays_text(
    tmp_path: Path, plain: dict[str, tuple[bool, str, str]], first: int
) -> None:
    """In round r the n-th text of the course is number n + r: over all rounds each field meets each text."""
    seed, found = Seed(), []
    for turn in range(first, min(first + BLOCK, len(VALUES))):
        seed.write(tmp_path, lambda field, number, turn=turn: VALUES[(number + turn) % len(VALUES)])
        hostile = made(tmp_path)
        assert hostile.keys() == plain.keys()
        for uri, (is_page, text, _) in hostile.items():
            if not is_page and text == plain[uri][1]:
                continue
            judge = faults if is_page else manifest_faults if uri.endswith(".webmanifest") else data_faults
            found += [f"round {turn}, {uri}: {fault}" for fault in judge(text, plain[uri][1])]
    assert found == []


def test_a_fault_would_be_seen() -> None:
    sound = '<h1>A</h1><p>b</p><script type="application/json">{}</script>'
    for bad, told in {
        "<h1><script>1</script></h1><p></p><script type='application/json'>{}</script>": "elements script",
        "<h1 onclick=x>A</h1><p>b</p><script type='application/json'>{}</script>": "attribute onclick",
        "<h1>A</h1><p><a href='java\nscript:'></a></p><script type='application/json'>{}</script>": "address",
        "<h1>A</h1><p><img src=x></p><script type='application/json'>{}</script>": "picture",
        "<h1>A</h1><p style=x><!-- --></p><script type='application/json'>{}</script>": "attribute style",
    }.items():
        assert any(told in fault for fault in faults(bad, sound)), bad
    assert list(faults(sound, sound)) == []


@pytest.mark.parametrize("turn", range(0, len(VALUES), 41))
def test_the_theme_keeps_texts_as_texts(tmp_path: Path, turn: int) -> None:
    """Whole pages, with titles and the site's name in the theme's own places, and the site map."""

    def build(name: str, seed: Seed, turn: int | None) -> Path:
        course = seed.write(
            tmp_path / name,
            lambda field, number: None if turn is None else VALUES[(number + turn) % len(VALUES)],
        )
        (course / "mkdocs.yml").write_text(
            "site_name: "
            + json.dumps("Plain" if turn is None else VALUES[turn])
            + "\nsite_url: https://a.invalid/\ndocs_dir: lessons\ntheme: casetrue\nplugins: [casetrue]\n",
            "utf-8",
        )
        out = tmp_path / f"{name}-site"
        done = CliRunner().invoke(casetrue, ["build", "--course", str(course), "--out", str(out)])
        assert done.exit_code == 0, (done.output, done.exception)
        return out

    plain, hostile = build("plain", Seed(), None), build("hostile", Seed(), turn)
    found = []
    for path in sorted(hostile.rglob("*")):
        name = path.relative_to(hostile)
        if path.suffix == ".html":
            told = faults(path.read_text("utf-8"), (plain / name).read_text("utf-8"))
            found += [f"{name}: {fault}" for fault in told]
        if path.suffix == ".js" and name.name.startswith(("search-index", "record-index", "plan-index")):
            told = data_faults(path.read_text("utf-8"), (plain / name).read_text("utf-8"))
            found += [f"{name}: {fault}" for fault in told]
    assert found == []
    assert (hostile / "sitemap.xml").read_bytes() == (plain / "sitemap.xml").read_bytes()


@pytest.mark.parametrize("sign", REFUSED)
def test_control_characters_are_refused(small_course: Path, sign: str) -> None:
    """Written raw and with a backslash: no page, terminal or log meets one."""
    for text in (f"Ankles{sign} and squats", f"Ankles\\x{ord(sign[0]):02x} and squats"):
        if text.startswith("Ankles\\x") and ord(sign[0]) > 0xFF:
            continue
        file = small_course / "course.yml"
        file.write_text(f'course: ankle-squat\ntitle: "{text}"\n', "utf-8")
        told = [problem for problem in check(load(small_course)) if problem.file == "course.yml"]
        assert [problem.code for problem in told] == ["yaml"]
        assert not any(sign in problem.message + problem.hint for problem in told)
