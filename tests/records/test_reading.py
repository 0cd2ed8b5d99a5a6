"""Files that learners hand over, sound, broken, foreign and hostile."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from builder.answers import Answers
from builder.exercises import fault_walk
from builder.exercises.page_data import key_digest
from builder.questions.page_data import key_data
from builder.records import LARGEST, Refused, merge, read
from builder.records.reading import MOST
from builder.records.record import Record
from builder.site import Site
from builder.site.walks import walk_block
from builder.source import load
from builder.source.schemas import schema_files

from .make import attempt, attempt_of, quiz, raw, record

HERE = Path(__file__).parent
FILES = json.loads((HERE / "files.json").read_text("utf-8"))
MERGES = json.loads((HERE / "merges.json").read_text("utf-8"))


def outcome(file: bytes) -> tuple[str | None, list[int] | None]:
    """Why a file is refused, or the attempts in it that cannot be read."""
    try:
        return None, list(read(file, "ankle-squat").unread)
    except Refused as refused:
        return refused.reason, None


def reason(file: bytes) -> str | None:
    return outcome(file)[0]


@pytest.mark.parametrize("case", FILES, ids=[case["name"] for case in FILES])
def test_a_file_is_taken_or_refused(case: dict[str, Any]) -> None:
    found = outcome(case["text"].encode("utf-8", "surrogatepass"))
    assert found == (case["refused"], case.get("unread"))


@pytest.mark.parametrize(
    ("file", "why"),
    [
        (b"\xff\xfe{}", "json"),
        (b"[" * 200_000, "json"),
        (b'{"format":1,"attempts":[],"course":' + b"9" * 5000 + b"}", "json"),
        (b" " * (LARGEST + 1), "size"),
        (raw(*[attempt(second=n) for n in range(MOST + 1)]), "many"),
        (raw(*[{}] * MOST), None),
        (raw() + b" " * (LARGEST - len(raw())), None),
        (b"\xef\xbb\xbf" + raw(attempt()), None),
    ],
    ids=[
        "no UTF-8",
        "deep",
        "a long number",
        "large",
        "long",
        "just not too long",
        "just not too large",
        "a mark",
    ],
)
def test_what_no_table_can_hold(file: bytes, why: str | None) -> None:
    assert reason(file) == why


def test_what_is_read() -> None:
    found = read(
        raw(attempt("b", 5), attempt("a", 1, first=False), learner=" Wren ", version="1.0"), "ankle-squat"
    )
    assert (found.learner, found.version, found.build) == ("Wren", "1.0", "")
    assert [(one.id, one.first) for one in found.attempts] == [("b", True), ("a", False)], (
        "as the device says"
    )
    assert [(one.id, one.first) for one in merge([found])] == [("a", False), ("b", True)], "by time"


def test_sound_attempts_are_kept_whatever_stands_beside_them() -> None:
    found = read(raw(attempt("a", 1), attempt("b", 2, mark=7), attempt("a", 3), "x"), "ankle-squat")  # type: ignore[arg-type]
    assert [(one.id, one.at[17:19]) for one in found.attempts] == [("a", "01"), ("a", "03")]
    assert [one.first for one in merge([found])] == [True, False]
    assert found.unread == (2, 4)


def test_a_refusal_names_the_place() -> None:
    with pytest.raises(Refused, match="another course, tallow-yard"):
        read(json.dumps({**record(), "course": "tallow-yard"}).encode(), "ankle-squat")
    with pytest.raises(Refused, match="a part that this program does not know: __proto__"):
        read(json.dumps({**record(), "__proto__": 1}).encode(), "ankle-squat")
    with pytest.raises(Refused, match="its part learner cannot be read"):
        read(json.dumps({**record(), "learner": 7}).encode(), "ankle-squat")
    with pytest.raises(Refused, match="its part course is missing"):
        read(json.dumps({key: one for key, one in record().items() if key != "course"}).encode(), "c")


@pytest.mark.parametrize(
    ("file", "sentence"),
    [
        (b" " * (LARGEST + 1), "the file is too large to be a record."),
        (b"[]", "the file is no learner's record."),
        (b'{"format": "1", "attempts": []}', "the file is no learner's record."),
        (b"{", "the file cannot be read as a record. It may be cut off, or be the copy for spreadsheets."),
        (
            b'{"format": 3, "attempts": []}',
            "the record was written by a newer edition of Casetrue than this one.",
        ),
        (
            raw().replace(b"ankle-squat", b"tallow-yard"),
            "the record belongs to another course, tallow-yard.",
        ),
        (raw(*[{}] * (MOST + 1)), "the file holds more than 20000 attempts; no record is so long."),
        (
            raw(learner=7),
            "the file is not as the site writes records: its part learner cannot be read.",
        ),
        (
            b'{"format": 1, "attempts": []}',
            "the file is not as the site writes records: its part course is missing.",
        ),
        (raw(b=1, a=2), "the file has a part that this program does not know: a."),
        (
            raw(**{"\x1b\u00e9" + "x" * 99: 1}),
            "the file has a part that this program does not know: \\x1b\\xe9" + "x" * 52 + ".",
        ),
    ],
)
def test_a_refusal_is_one_plain_sentence(file: bytes, sentence: str) -> None:
    with pytest.raises(Refused) as refused:
        read(file, "ankle-squat")
    assert str(refused.value) == sentence


@pytest.mark.parametrize("case", MERGES, ids=[case["name"] for case in MERGES])
def test_records_become_one(case: dict[str, Any]) -> None:
    records = [Record("c", tuple(map(attempt_of, attempts))) for attempts in case["records"]]
    merged = tuple(map(attempt_of, case["merged"]))
    assert merge(records) == merge(reversed(records)) == merged
    assert merge([Record("c", merged), *records]) == merged


CONVERSIONS = json.loads((HERE / "conversions.json").read_text("utf-8"))


@pytest.mark.parametrize("case", CONVERSIONS, ids=[case["name"] for case in CONVERSIONS])
def test_format_1_is_read_as_format_2_would_have_written_it(case: dict[str, Any]) -> None:
    old = json.dumps({**record(case["old"]), "format": 1}).encode()
    (found,) = read(old, "ankle-squat").attempts
    assert found == attempt_of(case["new"])
    assert read(raw(case["new"]), "ankle-squat").attempts == (found,)


def test_what_a_device_says_is_no_first_stays_none() -> None:
    """A copy for the owner leaves out the practice that came before."""
    said = Record("c", (attempt_of(attempt("a", 5, first=False)), attempt_of(quiz(1, True, 6, counts=False))))
    knows = Record("c", (attempt_of(attempt("a", 5)), attempt_of(quiz(1, True, 6))))
    for records in ([said], [said, knows], [knows, said]):
        assert [(one.first, one.counts) for one in merge(records)] == [(False, True), (True, False)]
    halves = [quiz(1, True, 6, first=False), quiz(1, True, 6, counts=False)]
    for some in (halves, halves[::-1]):
        (one,) = merge(Record("c", (attempt_of(half),)) for half in some)
        assert (one.first, one.counts) == (False, False), "each says one half"


def test_the_schema_tells_of_every_part() -> None:
    schema = schema_files()["record.schema.json"]
    parts = [*schema["properties"].values(), *schema["$defs"]["attempt"]["properties"].values()]
    assert len(parts) == 37
    for part in parts:
        assert part["title"]
        assert part["description"].endswith(".")
        assert part["examples"]


def test_whatever_a_course_asks_can_be_recorded(drill_course: Path) -> None:
    course = load(drill_course).course
    site = Site(Answers(course), {})
    walks = [client.walks[name] for client in site.answers.clients.values() for name in client.exercises]
    walks += [walk for drill in course.drills.values() if (walk := fault_walk(course, drill))]
    asked = [
        attempt(
            item.id,
            digest=item.digest,
            unit=item.learnt,
            key=item.key_digest,
            answer=key if isinstance(key := key_data(item), str) or item.kind != "number" else "1",
        )
        for item in site.answers.bank
    ]
    for walk in walks:
        name = "/".join(part for part in (walk.exercise, walk.case) if part)
        digest = walk_block(site.answers, walk)["digest"]
        asked += [
            attempt(f"{name}/{at}", digest=digest, kind="step", unit=step.learnt, key=key_digest(step))
            for at, step in walk.steps.items()
            if step.options
        ]
    asked += [attempt(name, digest=site.answers.edition(quiz)) for name, quiz in course.quizzes.items()]
    assert len(walks) > len(course.cases)
    assert len(read(raw(*asked), course.about.name).attempts) == len(asked)


@pytest.mark.parametrize(
    ("module", "limit"), [("exchange.js", f"LARGEST = {LARGEST:_};"), ("record.js", f"MOST = {MOST};")]
)
def test_both_readers_have_the_same_limits(module: str, limit: str) -> None:
    assert limit in (HERE.parents[1] / "builder" / "site" / "web" / module).read_text("utf-8")
