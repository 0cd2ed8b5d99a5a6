"""Item-writing checks: each on a question that it is for, and on the same question mended."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from random import Random
from typing import Any

import pytest

from builder.answers import Answers
from builder.checks.items import content, stemmed
from builder.checks.registry import CHECKS
from builder.checks.scope import Scope
from builder.course import About, Course, Family, Objective, Option, Question, Quiz
from builder.questions.options import shown
from builder.source import load

ITEM_CHECKS = [code for code in CHECKS if code.startswith("item-")]
SOUND = Question(
    "q-sound",
    "one",
    "o",
    "A client's heels lift early in a squat. What do you try first?",
    options=(
        Option("A wedge below the foot", True, "It asks less of the ankle."),
        Option("A wider stance", False, "That is for the hip."),
        Option("A lighter load", False, "The heels lift without any load."),
    ),
    why="It asks less of the ankle.",
)


def told(*questions: Question | Family, language: str = "en", **parts: Any) -> set[str]:
    """The codes of item-writing checks on a course of these questions."""
    about = About("c", "C", language=language)
    course = Course(
        about, objectives={"o": Objective("o", "O")}, questions={one.id: one for one in questions}, **parts
    )
    scope = Scope(Answers(course))
    return {code for code in ITEM_CHECKS for _ in CHECKS[code](scope)}


def question(stem: str = SOUND.stem, options: Sequence[str] = (), key: int = 0, **more: Any) -> Question:
    """The sound question with another stem, or with these options of which one is the key."""
    made = (
        tuple(Option(text, place == key, "Because of the time.") for place, text in enumerate(options))
        or SOUND.options
    )
    return replace(SOUND, stem=stem, options=made, **more)


def test_a_sound_question_is_left_in_peace() -> None:
    assert told(SOUND) == set()
    assert told(replace(SOUND, kind="several")) == set()


BAD_AND_GOOD: list[tuple[str, Question, Question]] = [
    (
        "item-negative-stem",
        question("Which of these do you not try when the heels lift?"),
        question("Which of these do you NOT try when the heels lift?"),
    ),
    (
        "item-negative-stem",
        question("All of these help a stiff ankle except which one?"),
        question("What do you try if the client cannot keep the heels down?"),
    ),
    (
        "item-all-of-these",
        question(options=("A wedge below the foot", "A wider stance", "All of the above")),
        question(options=("A wedge below the foot", "A wider stance", "All ten toes turned out")),
    ),
    (
        "item-all-of-these",
        question(options=("A wedge below the foot", "A wider stance", "Both A and B")),
        question(options=("A wedge below the foot", "A wider stance", "Both feet turned out")),
    ),
    (
        "item-none-of-these",
        question(options=("A wedge below the foot", "A wider stance", "None of these")),
        question(options=("A wedge below the foot", "A wider stance", "No load at all")),
    ),
    (
        "item-long-key",
        question(options=("A wedge below the foot, and the squat again", "A wider stance", "Less load")),
        question(
            options=(
                "A wedge below the foot, and the squat again",
                "A wider stance, and less load",
                "Less load",
            )
        ),
    ),
    (
        "item-absolute-word",
        question(options=("A wedge that never slips", "A wider stance", "A lighter load")),
        question(options=("A wedge below the foot", "A wider stance", "A load that goes up")),
    ),
    (
        "item-vague-word",
        question(
            options=("A wedge, which usually helps", "A wider stance at once", "A lighter load at once")
        ),
        question(options=("A wedge at once", "A wider stance at once", "A lighter load at once")),
    ),
    (
        "item-grammar",
        question("The heels lift early, so you first try an", ("incline", "wider stance", "lighter load")),
        question("The heels lift early, so you first try a", ("wedge", "wider stance", "lighter load")),
    ),
    (
        "item-grammar",
        question("Which parts are short of movement?", ("Both ankles", "The hip", "The back")),
        question("Which parts are short of movement?", ("The ankles", "The hips", "The knees")),
    ),
    (
        "item-repeated-word",
        question(
            "Which sign of dizziness ends a drill?", ("Dizziness that stays", "A warm face", "A long yawn")
        ),
        question(
            "Which sign of dizziness ends a drill?", ("Swaying that stays", "A warm face", "A long yawn")
        ),
    ),
    (
        "item-overlap",
        question("How many degrees count as stiff?", ("10 to 20", "20 to 30", "30 to 40")),
        question("How many degrees count as stiff?", ("10 to 19", "20 to 29", "30 to 39")),
    ),
    (
        "item-overlap",
        question("How many degrees count as stiff?", ("Less than 35", "More than 30", "Exactly 60")),
        question("How many degrees count as stiff?", ("Less than 30", "30 to 40", "More than 40")),
    ),
    (
        "item-number-order",
        question("After how long do you measure again?", ("2 weeks", "10 days", "1 month")),
        question("After how long do you measure again?", ("4 weeks", "2 weeks", "8 weeks")),
    ),
    (
        "item-odd-option",
        question("How many trials do you take?", ("As many as it takes", "3 trials", "5 trials")),
        question("How many trials do you take?", ("2 trials", "3 trials", "5 trials")),
    ),
    (
        "item-odd-option",
        question(
            options=("A wedge", "Less load", "Ask them to come back once the ankle has been seen by someone")
        ),
        question(options=("A wedge", "Less load", "A wider stance")),
    ),
    ("item-no-question", question("Knee to wall"), question("What does knee to wall measure?")),
    (
        "item-no-question",
        question("The heels lift early in a squat."),
        question("Say what to try when heels lift."),
    ),
    (
        "item-unfocused",
        question("Which of the following statements is true?"),
        question("Which statement about heels that lift do you give a beginner?"),
    ),
    ("item-unfocused", question("Tick the correct answer."), question("Tick what you would try first.")),
    (
        "item-long-option",
        question(options=("You should then raise it", "You should then widen it", "You should then stop")),
        question(options=("Raise the heel", "Widen the stance", "Lighten the load")),
    ),
    (
        "item-long-option",
        question(options=(" ".join(["wedge"] * 31), " ".join(["stance"] * 30), " ".join(["load"] * 30))),
        question(options=(" ".join(["wedge"] * 30), " ".join(["stance"] * 30), " ".join(["load"] * 30))),
    ),
    (
        "item-option-count",
        question(options=("A wedge", "A wider stance")),
        question(options=("Yes, with a wedge", "No, not today")),
    ),
    (
        "item-option-count",
        question(options=("A wedge", "A stance", "A load", "A band", "A rope", "A mat")),
        question(options=("A wedge", "A stance", "A load", "A band", "A rope")),
    ),
    (
        "item-no-reason",
        replace(SOUND, options=(*SOUND.options[:2], Option("A lighter load"))),
        SOUND,
    ),
    (
        "item-no-reason",
        replace(SOUND, why="", options=(Option("A wedge below the foot", True), *SOUND.options[1:])),
        replace(SOUND, why=""),
    ),
    (
        "item-filler",
        question(options=("A wedge below the foot", "A wider stance", "A magic wand")),
        question(options=("A wedge below the foot", "A wider stance", "A longer rest")),
    ),
    (
        "item-alike-options",
        question(
            options=("Raise the heel on wedges", "On a wedge, raise the heels", "Widen the stance a bit")
        ),
        question(
            options=("Raise the heel on wedges", "On a wedge, raise the toes", "Widen the stance a bit")
        ),
    ),
    (
        "item-double-negative",
        question(
            "Which of these is NOT true of such heels?",
            ("They do not hurt", "They lift early", "They wobble"),
        ),
        question(
            "Which of these is NOT true of such heels?", ("They hurt badly", "They lift early", "They wobble")
        ),
    ),
    (
        "item-long-stem",
        question(" ".join(["Measure"] * 53) + ". What do you try when the heels lift?"),
        question(" ".join(["Measure"] * 52) + ". What do you try when the heels lift?"),
    ),
    (
        "item-opinion",
        question("Which of these do you like best when the heels lift?"),
        question("Which of these asks least of the ankle when the heels lift?"),
    ),
    (
        "item-letter",
        replace(SOUND, why="It asks less than B and C."),
        replace(SOUND, why="It asks less than a wider stance."),
    ),
    (
        "item-letter",
        question("The heels lift. Is the first option enough, or what do you try?"),
        question("The heels lift. Is the first try enough, or what do you try?"),
    ),
    (
        "item-no-reason",
        replace(SOUND, options=(*SOUND.options[:2], Option("A lighter load", False, "This is wrong."))),
        replace(SOUND, options=(*SOUND.options[:2], Option("A lighter load", False, "It is 2 kg of 40."))),
    ),
]


@pytest.mark.parametrize(
    ("code", "bad", "good"), BAD_AND_GOOD, ids=lambda one: one if isinstance(one, str) else ""
)
def test_a_check_tells_of_the_flaw_and_not_of_the_cure(code: str, bad: Question, good: Question) -> None:
    assert code in told(bad)
    assert told(good) == set()
    assert told(bad, language="de") == set(), "they know English alone"


def test_questions_that_give_each_other_away_are_told_unless_every_quiz_keeps_them_apart() -> None:
    other = replace(
        SOUND,
        id="q-other",
        stem="A client's heels lift in a squat. A wedge below the foot has been tried. What comes next?",
        options=(Option("A longer pause", True, "Feet need time."), *SOUND.options[1:]),
    )
    assert told(SOUND, other) == {"item-gives-away"}
    assert told(SOUND, replace(other, stem="A client's heels lift in a squat. What comes next?")) == set()
    assert told(SOUND, replace(other, stem="Someone trips on a wedge below the foot. What now?")) == set()
    quiz = Quiz("z", "Z", questions=("q-sound", "q-other"))
    assert told(SOUND, other, quizzes={"z": quiz}) == {"item-gives-away"}
    apart = replace(quiz, never_with=(("q-sound", "q-other"),))
    assert told(SOUND, other, quizzes={"z": apart}) == set()
    assert told(SOUND, other, quizzes={"z": apart, "y": replace(quiz, name="y")}) == {"item-gives-away"}


def test_right_options_in_one_place_are_told_only_where_chance_would_hardly_do_so() -> None:
    """1 in 3 to the power of 8 or 9, three places: 3 / 3^9 is less than a thousandth, 3 / 3^7 is not."""
    made = []
    for number in range(400):
        one = replace(SOUND, id=f"q{number}")
        if shown(one.id, [option.text for option in one.options])[0] == SOUND.options[0].text:
            made.append(one)
    assert told(*made[:7]) == set()
    assert told(*made[:9]) == {"item-key-place"}


def test_a_question_about_a_client_speaks_of_the_client() -> None:
    ankle = load(Path(__file__).parents[1] / "courses" / "ankle").course
    stem, options = (
        "Who leads a session?",
        ("The one who planned it", "The one who pays", "The one who shouts"),
    )
    general = replace(question(stem, options), case="tern-03", objective="measure-ankle")
    general = replace(general, why="They know what was planned.")
    check = CHECKS["item-without-client"]

    def codes(*questions: Question | Family) -> list[str]:
        made = replace(ankle, questions={one.id: one for one in questions}, quizzes={})
        return [fault.subject for fault in check(Scope(Answers(made)))]

    assert codes(general) == ["question:q-sound"]
    assert codes(replace(general, case=None)) == []
    assert codes(replace(general, stem="Tern: what do you try?")) == []
    assert codes(replace(general, stem="What does a stance tell you?")) == []
    family = Family("g", "decision", "ankle_class", "all", "measure-ankle")
    assert codes(family) == []
    stiff = tuple(name for name in ankle.cases if name.startswith(("tern", "rail")))
    assert codes(replace(family, cases=stiff)) == [], "too few clients to tell"


def test_the_order_in_which_options_are_written_changes_nothing() -> None:
    random = Random(4)
    for _, bad, good in BAD_AND_GOOD:
        for one in (bad, good):
            options = list(one.options)
            random.shuffle(options)
            assert told(replace(one, options=tuple(options))) == told(one)


@pytest.mark.parametrize(
    ("words", "stem"),
    [
        ("lift lifts lifted lifting", "lift"),
        ("stop stopped stopping", "stop"),
        ("measure measures measured", "measur"),
    ],
)
def test_words_of_one_stem_are_one(words: str, stem: str) -> None:
    assert {stemmed(word) for word in words.split()} == {stem}


def test_words_that_say_nothing_count_for_nothing() -> None:
    assert content("What would you do next, and why?") == set()


def test_every_check_is_tried_here() -> None:
    tried = {code for code, _, _ in BAD_AND_GOOD}
    assert tried | {"item-gives-away", "item-key-place", "item-without-client"} == set(ITEM_CHECKS)
