"""The demo course and the page that invites educators to extend it hold to what they say of themselves."""

from __future__ import annotations

import re
import shutil
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from builder.answers import Answers
from builder.checks import check
from builder.course import RESERVED_SOURCES, AskStep, Case, Course, DecideStep, Family, Reading
from builder.decide.evaluate import decide
from builder.decide.found import find
from builder.decide.pathway import order
from builder.questions.corrections import asked
from builder.questions.draw import draw_quiz
from builder.questions.families import DRILL_FAMILIES, FAMILIES
from builder.source import load

from .decide.test_harm import brute

ROOT = Path(__file__).resolve().parents[1]
DEMO = ROOT / "course_src"
ALIKE = {"breath_in", "own_hands"}
"""What a first session asks of everyone who starts."""


@pytest.fixture(scope="module")
def demo() -> Course:
    return load(DEMO).course


def test_is_clean_but_for_the_reviews_that_nobody_has_made() -> None:
    assert {problem.code for problem in check(load(DEMO), "2030-01-01")} == {"review-missing"}


def sent_on(demo: Course, case: Case) -> bool:
    """Whether some decision about the client ends the visit."""
    return any(
        decision.outcome is not None and demo.tables[name].outcomes[decision.outcome].ends
        for name, decision in decide(demo, find(demo, case.readings)).items()
    )


def test_is_as_large_as_it_says(demo: Course) -> None:
    cases = demo.cases.values()
    written = [one for one in demo.questions.values() if not isinstance(one, Family)]
    counts = {
        "measures": (len(demo.measures), 9),
        "tables": (len(demo.tables), 7),
        "cautions": (len(demo.cautions), 14),
        "clients": (len(cases), 50),
        "clients with a re-test": (sum(case.retest is not None for case in cases), 6),
        "clients sent on": (sum(sent_on(demo, case) for case in cases), 5),
        "clients near a line": (sum(bool(case.near_cut) for case in cases), 9),
        "lessons": (len(list((DEMO / "lessons").glob("*.md"))), 5),
        "written questions": (len(written), 50),
        "quizzes": (len(demo.quizzes), 3),
        "exercises": (len(demo.exercises), 3),
        "objectives": (len(demo.objectives), 12),
        "drills": (len(demo.drills), 4),
        "positions": (len(demo.positions), 6),
        "terms": (len(demo.terms), 10),
    }
    assert {name: count for name, count in counts.items() if count[0] < count[1]} == {}


def test_leaves_nothing_untouched_by_its_clients(demo: Course) -> None:
    found = Answers(demo).coverage
    assert (found.rules, found.outcomes, found.cautions) == ((), (), ())
    assert [line for line in found.lines if not line.reached] == []


def test_coaches_a_whole_first_session(demo: Course) -> None:
    """From the screening through the readings, the phases and their faults to the plan."""
    session = demo.exercises["first-session"]
    decided = {step.table for step in session.steps.values() if isinstance(step, DecideStep)}
    assert decided == set(demo.tables)
    coached = " ".join(session.steps)
    for phase in ("tilt_", "out_", "breath_in", "pause", "plan_"):
        assert phase in coached


def test_asks_what_a_first_session_comes_to(demo: Course) -> None:
    """Of the questions on the way to the plan, few are word for word alike for every client."""
    answers = Answers(demo)
    for client in answers.clients.values():
        walk = client.walks["first-session"]
        steps = {name for name in walk.best_path if walk.steps[name].kind == "ask"}
        if "own_hands" in steps:
            assert len(steps) <= 7, client.case.name
            assert steps >= ALIKE
            assert len(steps - ALIKE) == 5, client.case.name


def test_gives_no_answer_away_by_what_is_missing(demo: Course) -> None:
    """Who must be stopped has the same readings on the page as who may start."""
    assert all(set(case.readings) == set(demo.measures) for case in demo.cases.values())


@pytest.mark.parametrize(
    "name", ["infrasternal_angle", "straight_leg_raise", "hip_inward_rotation", "systolic"]
)
def test_spreads_readings_over_the_scale(demo: Course, name: str) -> None:
    """No tenth of the way from the lowest to the highest holds more than a third of the clients."""
    means = sorted(
        sum(case.readings[name].trials) / len(case.readings[name].trials) for case in demo.cases.values()
    )
    width = (means[-1] - means[0]) / 10
    for low in means:
        assert 3 * sum(low <= mean < low + width for mean in means) <= len(means), float(low)


def longest_is_right(options: list[tuple[str, bool]]) -> bool:
    longest = max(len(text) for text, _ in options)
    return any(right for text, right in options if len(text) == longest)


def test_does_not_betray_an_answer_by_its_length(demo: Course) -> None:
    """Of three options the longest is right in at most a third, as it would be by chance."""
    written = [one for one in demo.questions.values() if not isinstance(one, Family) and one.kind == "one"]
    groups = {"questions": [[(option.text, option.key) for option in one.options] for one in written]}
    for exercise in demo.exercises.values():
        asks = [step for step in exercise.steps.values() if isinstance(step, AskStep)]
        groups[exercise.name] = [[(choice.say, choice.best) for choice in ask.choices] for ask in asks]
    for name, group in groups.items():
        assert 3 * sum(map(longest_is_right, group)) <= len(group), name


def test_no_correction_stands_as_right_and_nearly_as_wrong(demo: Course) -> None:
    """No wrong answer to a sign has all the words of a right one, nor a right one all of its words."""
    for drill in demo.drills.values():
        for one in asked(demo, drill):
            for right in one.fault.corrections:
                for wrong, _ in one.wrong:
                    first, second = (set(re.findall(r"\w+", text.say.lower())) for text in (right, wrong))
                    assert first & second not in (first, second), (drill.name, right.say, wrong.say)


def test_asks_enough_where_nothing_is_computed(demo: Course) -> None:
    computed = {one.objective for one in demo.questions.values() if isinstance(one, Family)}
    for name in demo.objectives.keys() - computed:
        written = [one for one in demo.questions.values() if one.objective == name]
        assert len(written) >= 8, name
    for one in demo.questions.values():
        if not isinstance(one, Family):
            assert one.why, one.id
            assert all(option.why for option in one.options), one.id


def test_ends_with_two_to_stop_and_one_to_refer(demo: Course) -> None:
    bank = Answers(demo).bank
    for seed in range(50):
        drawn = [item.sends for item in draw_quiz(demo.quizzes["whole-course"], bank, seed)]
        assert drawn.count("stopped") >= 2
        assert drawn.count("referred") >= 1


def test_asks_with_every_kind_of_family(demo: Course) -> None:
    asked = {one.family for one in demo.questions.values() if isinstance(one, Family)}
    assert asked == {*FAMILIES, *DRILL_FAMILIES}
    families = {one.id for one in demo.questions.values() if isinstance(one, Family)}
    assert families == {item.family for item in Answers(demo).bank} - {None}, "a family comes to no question"


def test_claims_no_review(demo: Course) -> None:
    assert all(caution.reviewed is None for caution in demo.cautions.values())
    assert all(drill.reviewed is None for drill in demo.drills.values())


def test_marks_the_pregnancy_stop_list_as_not_confirmed(demo: Course) -> None:
    """The older list (ACOG, as quoted in two patient pages) is the one source; the rest is our addition."""
    caution = demo.cautions["pregnancy"]
    assert caution.source == "acog-older-list"
    for words in ("Not confirmed", "as quoted in", "prudent addition", "Follow your client's maternity team"):
        assert words in " ".join(caution.text.split())


def test_asks_about_the_signs_before_form_and_cuff(demo: Course) -> None:
    """Nobody fills in a form, or sits five minutes for a cuff, with a sign that cannot wait."""
    for name in ("first-decision", "first-session"):
        exercise = demo.exercises[name]
        assert getattr(exercise.steps[exercise.start], "table", None) == "signs"
    lesson = (DEMO / "lessons" / "1-whom-to-refer.md").read_text("utf-8")
    places = [
        lesson.index(f"## {words}") for words in ("First: ask aloud", "Then: the form", "Blood pressure")
    ]
    assert places == sorted(places)


def test_leads_from_one_sign_to_one_step(demo: Course) -> None:
    """Every sign has a caution, which demands the step of its level; to call is never unsafe."""
    signs = {value for value in demo.measures["warning_sign"].scale.values if value != "none"}
    steps = {"urgent": ("call_now",), "refer": ("refer", "call_now")}
    covered = set()
    for caution in demo.cautions.values():
        for name, condition in ((name, one) for when in caution.when for name, one in when.items()):
            if name == "warning_sign" and caution.demands:
                assert caution.demands["signs"] == steps[caution.level], caution.name
                covered |= set(condition.names)
    assert covered == signs


@pytest.mark.parametrize(
    ("systolic", "diastolic", "outcome"),
    [
        (139, 89, "go_on"),
        (140, 70, "stop"),
        (118, 90, "stop"),
        (90, 50, "go_on"),
        (89, 60, "stop"),
        (100, 49, "stop"),
    ],
)
def test_stops_a_pregnant_client_from_140_or_90_and_anyone_who_is_low(
    demo: Course, systolic: int, diastolic: int, outcome: str
) -> None:
    """140/90: guideline NG133 of 2019, as quoted in a summary page; the low lines are the course's own."""
    now = {"systolic": Reading((Fraction(systolic),)), "diastolic": Reading((Fraction(diastolic),))}
    decisions = decide(demo, find(demo, {**demo.cases["yusra-01"].readings, **now}))
    assert decisions["screen"].outcome == outcome


def test_says_on_every_page_to_call_what_to_do_when_nobody_answers(demo: Course) -> None:
    for caution in demo.cautions.values():
        if caution.level == "urgent":
            text = " ".join(caution.text.split())
            for words in ("do not answer", "chest compressions", "defibrillator", "as you were trained"):
                assert words in text, (caution.name, words)


def test_turns_no_illness_like_a_dial(demo: Course) -> None:
    """A question that asks what else would change an outcome stays away from what the form asks."""
    for one in demo.questions.values():
        if isinstance(one, Family) and one.family == "other_finding":
            assert not {"health_matter", "screen"} & set(demo.tables[one.table].inputs)


def test_names_authors_title_and_year_of_every_source(demo: Course) -> None:
    sources = [source.item for source in demo.sources.values()]
    undated = {one["id"] for one in sources if "issued" not in one}
    assert undated == {"motivate-2-move", "acog-older-list"}, "their notes say that no year is printed"
    for one in sources:
        assert one["title"], one["id"]
        assert one["author"], one["id"]
        assert {"DOI", "PMCID", "PMID", "URL", "page", "number", "edition"} & set(one) or "number" in one[
            "note"
        ]


def test_teaches_adults(demo: Course) -> None:
    assert all(case.client.age is not None and case.client.age >= 18 for case in demo.cases.values())


def test_sends_on_everyone_who_meets_a_caution_to_send_on(demo: Course) -> None:
    for caution in demo.cautions.values():
        if caution.level in ("urgent", "refer"):
            assert caution.demands["screen"], caution.name
            assert caution.demands["position"] == ("no_start",), caution.name
            assert caution.demands["pause"] == ("no_pause",), caution.name


@pytest.mark.parametrize("name", ["pressure_and_holding", "eye_pressure", "pregnancy"])
def test_neither_lays_flat_nor_pauses_whom_that_could_harm(demo: Course, name: str) -> None:
    demands = demo.cautions[name].demands
    assert demands["pause"] == ("no_pause",)
    assert not {"back_feet_on_wall", "hook_lying"} & set(demands["position"])


@pytest.mark.parametrize(
    ("caution", "limited"), [("new_hip", "hook_lying"), ("sore_pubis", None), ("pregnancy", "seated")]
)
def test_neither_squeezes_nor_presses_whom_that_could_harm(
    demo: Course, caution: str, limited: str | None
) -> None:
    """Every drill in which these clients may be names them, and what it changes for the legs."""
    assert demo.cautions[caution].demands["legs"] == ("hold_only", "nothing_today")
    for drill in demo.drills.values():
        with_legs = any(phase.id == "legs" for phase in drill.phases)
        if with_legs and (limited is None or limited in drill.leads_here["position"]):
            [change] = [one.change for one in drill.cautions if one.caution == caution]
            assert re.search(r"no squeeze and no press|no squeeze, no press|legs hold", change, re.IGNORECASE)


def test_sends_on_whom_no_position_is_left_for(demo: Course) -> None:
    """Rules of this course that leave no start in common: by its own choice, and no verdict on chairs."""
    for name in ("wendel-01", "ottilie-01"):
        decisions = decide(demo, find(demo, demo.cases[name].readings))
        assert decisions["screen"].outcome == "go_on"
        assert decisions["position"].outcome == "no_start"
        assert sent_on(demo, demo.cases[name])


def test_pauses_in_a_drill_only_for_whom_the_table_lets_pause(demo: Course) -> None:
    allowed = tuple(name for name in demo.tables["pause"].outcomes if name != "no_pause")
    paced = [drill for drill in demo.drills.values() if drill.breath]
    assert len(paced) == len(demo.drills) - 1, "one is watched only, and sets no pace"
    for drill in paced:
        breath = drill.breath
        assert breath is not None
        if breath.pause:
            assert breath.pause <= 5
            assert breath.pause_for == {"pause": allowed}, drill.name
        assert breath.breaths <= 5


def test_has_a_drill_for_every_position_in_which_a_client_may_start(demo: Course) -> None:
    outcomes = demo.tables["position"].outcomes
    starts = {name for name, outcome in outcomes.items() if not outcome.ends}
    drilled = {name for drill in demo.drills.values() for name in drill.leads_here["position"]}
    assert drilled == starts
    for drill in demo.drills.values():
        assert (drill.position,) == drill.leads_here["position"], "the figure shows another position"


def test_no_drill_keeps_silent_about_who_may_not_lie_flat(demo: Course) -> None:
    for drill in demo.drills.values():
        if drill.position in ("back_feet_on_wall", "hook_lying"):
            named = {one.caution: one.change for one in drill.cautions}
            for caution in ("pressure_and_holding", "eye_pressure", "pregnancy"):
                assert "nobody lies flat" in named[caution], (drill.name, caution)


def test_says_of_each_fault_when_to_stop(demo: Course) -> None:
    faults = [fault for drill in demo.drills.values() for phase in drill.phases for fault in phase.faults]
    assert faults
    assert all(fault.stop_when for fault in faults)
    assert all(any("Dizzy" in sign for sign in drill.stop) for drill in demo.drills.values())


def test_contacts_are_fictional() -> None:
    """`.example` is reserved by RFC 2606; numbers from 01632 960 on are kept for drama (from memory)."""
    text = "\n".join(
        path.read_text("utf-8") for path in sorted(DEMO.rglob("*")) if path.suffix in (".yml", ".md")
    )
    assert all(host.endswith(".example") for host in re.findall(r"[\w.-]+@([\w.-]+\w)", text))
    assert all(number.startswith("01632 960") for number in re.findall(r"\b0\d{4} ?\d{3,6}\b", text))


def test_says_common_practice_of_the_trade_lines(demo: Course) -> None:
    """No population norm of the infrasternal angle was found; its lines and layers are trade habits."""
    assert all(demo.tables[name].source in RESERVED_SOURCES for name in ("angle_class", "layer", "position"))
    scale = demo.measures["infrasternal_angle"].scale
    assert not getattr(scale, "reference", ()), "a band would look like a norm"


def contributing(tmp_path: Path, *changes: tuple[str, str]) -> Path:
    """A copy of the course with the client of the contributing page, changed where asked."""
    page = (ROOT / "CONTRIBUTING.md").read_text("utf-8")
    written = re.search(r"```yaml\n(.*?)```", page, re.DOTALL)
    assert written is not None
    text = written[1]
    for before, after in changes:
        assert text.count(before) == 1
        text = text.replace(before, after)
    folder = tmp_path / "course"
    shutil.copytree(DEMO, folder)
    (folder / "cases" / "zofia-01.yml").write_text(text, "utf-8")
    return folder


def test_the_client_of_the_contributing_page_passes_and_is_decided(tmp_path: Path) -> None:
    folder = contributing(tmp_path)
    loaded = load(folder)
    assert {problem.code for problem in check(loaded, "2030-01-01")} == {"review-missing"}
    decisions = decide(loaded.course, find(loaded.course, loaded.course.cases["zofia-01"].readings))
    assert [
        f"{name}: {decision.outcome}"
        for name, decision in decisions.items()
        if name in ("angle_class", "position")
    ] == [
        "angle_class: wide",
        "position: side_lying",
    ]


def test_the_contributing_page_says_what_happens_near_a_line(tmp_path: Path) -> None:
    near = ("[121, 120, 122]", "[112, 110, 111]")
    found = check(load(contributing(tmp_path / "near", near)), "2030-01-01")
    said = [problem for problem in found if problem.code == "near-cut"]
    assert {problem.line for problem in said} == {17}
    page = " ".join((ROOT / "CONTRIBUTING.md").read_text("utf-8").split())
    [shown] = [problem for problem in said if "`wide` of angle_class" in problem.message]
    assert shown.message in page
    assert shown.hint is not None
    assert shown.hint in page
    folder = contributing(tmp_path / "named", near)
    file = folder / "cases" / "zofia-01.yml"
    file.write_text(file.read_text("utf-8") + "near_cut: [infrasternal_angle]\n", "utf-8")
    assert {problem.code for problem in check(load(folder), "2030-01-01")} == {"review-missing"}


def test_the_contributing_page_links_to_pages_that_exist(demo: Course) -> None:
    page = (ROOT / "CONTRIBUTING.md").read_text("utf-8")
    kinds = {"clients": demo.cases, "tables": demo.tables, "cautions": demo.cautions, "drills": demo.drills}
    links = re.findall(r"\]\((\w+)/([\w-]+)\.(?:html|md)\)", page)
    assert {kind for kind, _ in links} == set(kinds)
    assert all(name in kinds[kind] for kind, name in links)


def test_every_answer_is_judged_as_the_definition_says(demo: Course) -> None:
    """Unsafe answers of every client against a brute force of the course format's definition."""
    made = replace(demo, tables={name: demo.tables[name] for name in order(demo)})
    for client in Answers(demo).clients.values():
        values = dict(client.found.values)
        for name in demo.tables:
            for answer, one in client.acted_on[name].items():
                harm, breaks, passed, careful = brute(made, values, {name: answer})
                assert (one.harm, list(one.breaks), list(one.passed_on)) == (harm, breaks, passed)
                assert one.overcautious == careful
