"""All files that were handed over, read as one; and what is said of what is odd about them."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.answers import Answers
from builder.records import Facts, HandedOver, read_all
from builder.records.told import told
from builder.source import load
from builder.words import ENGLISH

from ..conftest import ANKLE
from .make import attempt, attempt_of, quiz, raw, step


@pytest.fixture(scope="module")
def facts() -> Facts:
    return Facts(Answers(load(ANKLE).course))


@pytest.fixture
def files(tmp_path: Path) -> Path:
    return tmp_path


def read_folder(folder: Path, facts: Facts) -> HandedOver:
    return read_all([str(file) for file in folder.iterdir()], facts, "2026-06-30")


def sentences(found: HandedOver) -> list[str]:
    return list(told(ENGLISH, found, lambda file: Path(file).name, lambda one: one.name or "nobody"))


def test_what_is_no_record_is_named_and_the_rest_is_read(files: Path, facts: Facts) -> None:
    (files / "a.json").write_bytes(raw(attempt("q-made", 1), learner="Wren"))
    (files / "b.json").write_text("{", "utf-8")
    (files / "c.json").mkdir()
    (files / "d.json").symlink_to("nowhere")
    found = read_folder(files, facts)
    assert [one.name for one in found.learners] == ["Wren"]
    assert [(Path(one.file).name, one.reason) for one in found.bad] == [
        ("b.json", "json"),
        ("c.json", "folder"),
        ("d.json", "file"),
    ]
    assert sentences(found) == [
        "b.json: the file cannot be read as a record. It may be cut off, or be the copy for spreadsheets.",
        f"c.json: that is a folder; name the files in it, as {files / 'c.json' / '*.json'}.",
        "d.json: the file cannot be opened.",
    ]


def test_a_file_named_twice_is_read_once(files: Path, facts: Facts) -> None:
    (files / "a.json").write_bytes(raw(attempt("q-made", 1), learner="Wren"))
    found = read_all([str(files / "a.json")] * 2, facts, "2026-06-30")
    assert len(found.records) == 1


def test_what_cannot_be_true_counts_for_nothing_and_is_named_five_at_most(files: Path, facts: Facts) -> None:
    future = [attempt(f"q-{n}", n, at=f"2030-01-01T00:00:0{n}.000Z") for n in range(7)]
    gone = attempt("q-made", 1, quiz="gone", draw=1, mode="quiz")
    (files / "a.json").write_bytes(raw(attempt("q-made", 2), *future, gone, learner="Wren"))
    (files / "b.json").write_bytes(raw(quiz(1, True, 2, id="gone"), learner="Dee"))
    found = read_folder(files, facts)
    (dee, wren) = found.learners
    assert [one.id for one in wren.attempts] == ["q-made"]
    assert dee.attempts == ()
    assert len(found.doubted) == 9
    assert len(found.records[0][1].attempts) == 1
    first, second = sentences(found)
    assert first.startswith("a.json: attempts that cannot be true and do not count: 8 (")
    assert first.endswith("q-4 on 2030-01-01: its day has not come yet; ...).")
    assert second == (
        "b.json: attempts that cannot be true and do not count: 1 "
        "(gone on 2026-06-01: this course has no such quiz)."
    )


def test_a_mark_that_its_answers_do_not_give_is_named(files: Path, facts: Facts) -> None:
    key = facts.keys["ankle_class"]["stiff"]
    lie = step("first-visit/tern-03/class", 1, answer="free", mark=1, key=key, client="tern-03")
    (files / "a.json").write_bytes(raw(lie, learner="Wren"))
    assert sentences(read_folder(files, facts)) == [
        "a.json: attempts that cannot be true and do not count: 1 "
        "(first-visit/tern-03/class on 2026-06-01: its mark is not what its answers give)."
    ]


def test_what_cannot_be_read_is_counted_with_its_places(files: Path, facts: Facts) -> None:
    (files / "a.json").write_bytes(raw({}, attempt("q-made", 1), {}, learner="Wren"))
    (files / "b.json").write_bytes(raw(*[{}] * 7, learner="Wren"))
    assert sentences(read_folder(files, facts)) == [
        "a.json: attempts that cannot be read and are left out: 2 (number 1, 3). The rest counts.",
        "b.json: attempts that cannot be read and are left out: 7 (number 1, 2, 3, 4, 5, ...). "
        "The rest counts.",
    ]


def test_answers_whose_right_answer_has_changed_are_counted(files: Path, facts: Facts) -> None:
    old = [attempt("g-plan.tern-03", n, key="0" * 8, client="tern-03") for n in (1, 2)]
    sound = attempt("g-plan.knot-05", 3, key=facts.items["g-plan.knot-05"].key_digest)
    (files / "a.json").write_bytes(raw(*old, sound, learner="Wren"))
    found = read_folder(files, facts)
    assert [(Path(file).name, number) for file, number in found.changed] == [("a.json", 2)]
    (wren,) = found.learners
    assert [(one.id, one.at[17:19]) for one in wren.changed] == [("g-plan.tern-03", "02")], "the last alone"
    assert [one.id for one in wren.attempts] == ["g-plan.knot-05"]
    assert sentences(found) == [
        "a.json: answers that count for nothing, since the right answer has changed: 2."
    ]


def test_answered_again_since_it_changed_needs_no_other_look(files: Path, facts: Facts) -> None:
    old = attempt("g-plan.tern-03", 1, key="0" * 8)
    again = attempt("g-plan.tern-03", 2, key=facts.items["g-plan.tern-03"].key_digest)
    (files / "a.json").write_bytes(raw(old, again, learner="Wren"))
    (wren,) = read_folder(files, facts).learners
    assert wren.changed == ()


def test_one_device_under_two_names_and_two_devices_under_one(files: Path, facts: Facts) -> None:
    both = {"device": "0a1b2c3d4e5f6071"}
    (files / "a.json").write_bytes(raw(attempt("q-made", 1), learner="Wren", **both))
    (files / "b.json").write_bytes(raw(attempt("q-made", 2), learner="Dee", **both))
    (files / "c.json").write_bytes(raw(attempt("q-made", 3), learner="WREN", device="f" * 16))
    found = read_folder(files, facts)
    assert {device: [one.name for one in some] for device, some in found.shared.items()} == {
        "0a1b2c3d4e5f6071": ["Dee", "Wren"]
    }
    assert sentences(found) == [
        "Wren: records with names that are written differently count as one.",
        "Wren: records of 2 devices count as one.",
        "One device, 0a1b2c3d, handed over under several names: Dee, Wren.",
    ]


def test_what_stands_whole_in_another_file_of_the_device_is_told(files: Path, facts: Facts) -> None:
    one, two = attempt("q-made", 1), attempt("q-else", 2)
    both = {"device": "0a1b2c3d4e5f6071"}
    (files / "a.json").write_bytes(raw(one, learner="Wren", **both))
    (files / "b.json").write_bytes(raw(one, two, learner=" wren", **both))
    (files / "c.json").write_bytes(raw(two, learner="Dee", **both))
    (files / "d.json").write_bytes(raw(one, learner="Kim", device="f" * 16))
    (files / "e.json").write_bytes(raw(learner="Wren", **both))
    found = read_folder(files, facts)
    assert [(Path(it.file).name, Path(it.other).name, it.is_same) for it in found.doubled] == [
        ("a.json", "b.json", True),
        ("c.json", "b.json", False),
    ]
    assert sentences(found)[:2] == [
        "a.json: all of it stands in b.json too, and counts once.",
        "c.json: all of it stands in b.json too, under another name. Whose is it?",
    ]


def test_what_was_chosen(facts: Facts) -> None:
    asked = facts.items["g-plan.tern-03"]
    key = {"answer": asked.key, "client": "tern-03"}
    assert facts.choice(attempt_of(attempt("g-plan.tern-03", **key))) == ("plan", "tern-03", asked.right)
    assert facts.choice(attempt_of(attempt("g-plan.tern-03", answer="z"))) is None
    assert facts.choice(attempt_of(attempt("g-plan.tern-03"))) is None
    assert facts.choice(attempt_of(attempt("g-plan.tern-03", answer=["a", "b"]))) is None
    assert facts.choice(attempt_of(attempt("q-one", answer="c"))) is None
    decided = step("first-visit/tern-03/class", answer="free", mark=0)
    assert facts.choice(attempt_of(decided)) == ("ankle_class", "tern-03", "free")
    for id, answer in (
        ("first-visit/tern-03/class", "gone"),
        ("first-visit/nobody/class", "free"),
        ("first-visit/tern-03/warm_up", "a"),
        ("gone/tern-03/class", "free"),
    ):
        assert facts.choice(attempt_of(step(id, answer=answer))) is None, id


def test_who_carries_what_is_learnt(facts: Facts) -> None:
    answers = Answers(load(ANKLE).course)
    for name, client in answers.clients.items():
        for decision in client.decisions.values():
            assert decision.rule is None or name in facts.clients_of(f"{decision.table}/{decision.rule.id}")
        for caution in answers.course.cautions:
            met = caution in [one.name for one in client.met]
            assert (name in facts.clients_of(f"caution:{caution}")) == met
    assert facts.clients_of("step:first-visit/warm_up") == tuple(answers.following["first-visit"])
    assert facts.clients_of("question:g-plan.tern-03") == ("tern-03",)
    assert facts.clients_of("question:q-one") == facts.clients_of("question:gone") == ()
    assert facts.clients_of("plan/gone") == facts.clients_of("fault:x/y") == ()
