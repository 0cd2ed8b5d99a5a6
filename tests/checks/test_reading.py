"""At what grade texts read: published points of the formula, and syllables against a published dictionary."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.answers import Answers
from builder.checks.reading import FEWEST, Counted, counted, eases, hardest, is_english, sentences, syllables
from builder.checks.registry import CHECKS
from builder.checks.scope import Scope
from builder.course import About, Case, Caution, Client, Course, Option, Question

SYLLABLES = json.loads((Path(__file__).parent / "syllables.json").read_text("utf-8"))["words"]


@pytest.mark.parametrize(
    ("per_sentence", "per_word", "grade"),
    [(15, 1.5, 7.96), (20, 1.6, 11.09), (10, 1.3, 3.65), (6, 1.0, -1.45), (1, 1, -3.4)],
)
def test_the_grade_is_that_of_the_published_formula(per_sentence: int, per_word: float, grade: float) -> None:
    """Kincaid and others 1975: grade = 0.39 asl + 11.8 asw - 15.59, by words a sentence, syllables a word."""
    made = Counted(10, 10 * per_sentence, round(10 * per_sentence * per_word))
    assert made.grade == pytest.approx(grade, abs=1e-6)


def test_the_cat_on_the_mat_reads_as_an_outside_library_says() -> None:
    """textstat 0.7.13 gives -1.45 for this sentence."""
    one = counted(sentences("The cat sat on the mat."))
    assert (one.sentences, one.words, one.syllables) == (1, 6, 6)
    assert one.grade == pytest.approx(-1.45, abs=1e-6)


def test_syllables_are_those_of_the_dictionary_for_nine_words_in_ten() -> None:
    """The CMU Pronouncing Dictionary 0.7b, over words of the demo course; see syllables.json. Together the
    words differ by less than three in a hundred syllables, towards more: texts are told as harder."""
    right = sum(syllables(word) in known for word, known in SYLLABLES.items())
    assert right / len(SYLLABLES) >= 0.9
    ours = sum(map(syllables, SYLLABLES))
    theirs = sum(min(known, key=lambda one: abs(one - syllables(word))) for word, known in SYLLABLES.items())
    assert 0 <= ours / theirs - 1 < 0.03


def test_markup_is_no_text_and_blocks_end_sentences() -> None:
    text = "# Stop now\n\nLook at *the* [client](x.md). Is it so? Yes!\n\n- One thing\n- `code` and more\n\n"
    text += "```\nno text\n```\n"
    assert sentences(text) == [
        "Stop now",
        "Look at the client.",
        "Is it so?",
        "Yes!",
        "One thing",
        "and more",
    ]
    assert sentences("It is 2.5 cm. e.g. a towel.") == ["It is 2.5 cm. e.g. a towel."]
    assert sentences("") == []


@given(st.lists(st.sampled_from(["cat", "ambulance", "physiotherapist", "stop"]), min_size=1, max_size=30))
def test_to_cut_a_sentence_in_two_never_makes_it_harder(words: list[str]) -> None:
    whole = counted([" ".join(words)])
    if len(words) > 1:
        half = counted([" ".join(words[:1]), " ".join(words[1:])])
        assert half.grade < whole.grade
        assert (half.words, half.syllables) == (whole.words, whole.syllables)


HARD = (
    "Immediate discontinuation of all physical intervention is indicated whenever symptomatology suggestive "
    "of cardiovascular decompensation becomes apparent to the supervising practitioner."
)
EASY = "Stop. Call for help. Stay with the client. Say what you saw. Do not drive them yourself."


def told(text: str, **about: object) -> list[str]:
    caution = Caution("c", "C", "urgent", ({},), text)
    made = Course(About("a", "A", **about), cautions={"c": caution})  # type: ignore[arg-type]
    return [fault.hint for fault in CHECKS["caution-hard-to-read"](Scope(Answers(made)))]


def test_a_hard_caution_is_told_with_the_sentence_to_blame() -> None:
    (hint,) = told(f"{EASY} {HARD} {HARD[:-1]} again.")
    assert "“Immediate discontinuation of all physical" in hint
    assert "Stop." not in hint
    assert told(f"{EASY} {EASY}") == []
    assert told(HARD) == [], "too few words to judge"
    assert counted(sentences(HARD)).words < FEWEST
    assert told(f"{HARD} {HARD}", language="es") == [], "the formula is for English"
    assert told(f"{HARD} {HARD}", reading_grade=20) != []


def test_the_hardest_sentences_come_first_and_short_ones_are_not_blamed() -> None:
    assert hardest([EASY, HARD, "Cardiopulmonary resuscitation!"]) == [HARD, EASY]


def test_each_kind_of_text_is_counted_with_its_hardest() -> None:
    question = Question("q", "one", "o", "What do you do?", (Option("Stop", True), Option("Go on")))
    made = Course(
        About("a", "A"),
        cases={
            "k": Case("k", Client("K"), {}, story=f"{EASY} {EASY}"),
            "l": Case("l", Client("L"), {}, story=HARD * 2),
        },
        questions={"q": question},
        cautions={},
    )
    found = {one.kind: one for one in eases(made, [("lessons/a.md", EASY)])}
    assert list(found) == ["lessons", "stories", "questions", "options"]
    assert found["stories"].texts == 2
    assert found["stories"].worst is not None
    assert found["stories"].worst[0] == "l"
    assert found["questions"].worst is None, "few words"
    assert is_english(made)
    assert not is_english(replace(made, about=replace(made.about, language="fr")))
