"""Someone who knows nothing passes a quiz too often.

What: more than once in a hundred papers a quiz is passed by picking blindly, by always picking the longest
option, or by always sending the client on.

Why: who passes such a quiz may have learnt nothing. A habit of looking for the longest answer, or of
referring everybody, is no safe coaching.

Example:

    blueprint: [{objective: measure-ankle, count: 2}]   # two questions with two options each
    pass_mark: 0.5                                      # passed by three of four who pick blindly

Cure: ask more questions, raise the pass mark, give each question three options that somebody would choose,
make the options alike in length, and ask about clients with whom coaching goes on as well.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.questions.guessing import HABITS, Habit, at_most, passed_by

from ..scope import Fault, Scope

CODE = "quiz-guessable"

MOST = 0.01
_WHO: dict[Habit, str] = {
    "blind": "picks blindly",
    "longest": "always picks the longest option",
    "refer": "always sends the client on",
}


def check(scope: Scope) -> Iterator[Fault]:
    if "question" in scope.unread:
        return
    answers = scope.answers
    for name, quiz in scope.course.quizzes.items():
        pool, pass_mark = answers.pools[name], answers.pass_mark(quiz)
        if len(answers.first_draws[name]) < (sum(row.count for row in quiz.blueprint) or len(quiz.questions)):
            continue  # it cannot be drawn as it is written, which is told already
        for habit in HABITS:
            # The bound costs little, and most quizzes keep within it.
            if at_most(quiz, pool, pass_mark, habit) <= MOST:
                continue
            share = passed_by(quiz, pool, pass_mark, habit)
            if share > MOST:
                yield Fault(
                    quiz.origin.at("pass_mark"),
                    f"quiz:{name}",
                    f"Someone who {_WHO[habit]} passes {name} {100 * share:.0f} times in 100.",
                    "Ask more, raise the pass mark, or make the options alike.",
                )
                break
