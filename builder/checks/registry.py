"""All checks, and the one place where they are run."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.answers import Answers
from builder.problems import Problem, severity
from builder.source import Loaded

from .rules import (
    active_content,
    address_taken,
    age_outside,
    case_disagrees,
    caution_breach,
    caution_hard_to_read,
    caution_near,
    caution_unreachable,
    confusion_broken,
    contact_missing,
    cycle,
    date_invalid,
    drawn_broken,
    drill_broken,
    duplicate_name,
    exercise_broken,
    foreign_image,
    hours_claimed,
    input_unused,
    item_absolute_word,
    item_alike_options,
    item_all_of_these,
    item_double_negative,
    item_filler,
    item_gives_away,
    item_grammar,
    item_key_place,
    item_letter,
    item_long_key,
    item_long_option,
    item_long_stem,
    item_negative_stem,
    item_no_question,
    item_no_reason,
    item_none_of_these,
    item_number_order,
    item_odd_option,
    item_opinion,
    item_option_count,
    item_overlap,
    item_repeated_word,
    item_unfocused,
    item_vague_word,
    item_without_client,
    look_same,
    look_unseen,
    markup_ignored,
    means_without_client,
    measure_range,
    missing_reference,
    name_unfit,
    near_cut,
    objective_unasked,
    objective_unused,
    outcome_unused,
    pathway_incomplete,
    practice_excluded,
    practice_names,
    proof_unfinished,
    question_broken,
    quiz_broken,
    quiz_guessable,
    reading_invalid,
    reading_missing,
    referral_leak,
    referral_unproved,
    review_due,
    review_missing,
    review_stale,
    rule_unreachable,
    source_missing,
    step_unreachable,
    table_gap,
    table_overlap,
    wording,
    wording_broken,
    words_missing,
    words_without_reading,
    wrong_kind,
)
from .scope import Check, Fault, Scope

_MODULES = (
    wrong_kind,
    measure_range,
    duplicate_name,
    missing_reference,
    cycle,
    pathway_incomplete,
    practice_excluded,
    practice_names,
    reading_invalid,
    reading_missing,
    words_without_reading,
    age_outside,
    case_disagrees,
    table_gap,
    table_overlap,
    caution_breach,
    referral_leak,
    proof_unfinished,
    exercise_broken,
    quiz_broken,
    quiz_guessable,
    confusion_broken,
    means_without_client,
    question_broken,
    drawn_broken,
    drill_broken,
    date_invalid,
    name_unfit,
    address_taken,
    active_content,
    source_missing,
    contact_missing,
    review_missing,
    review_stale,
    review_due,
    outcome_unused,
    input_unused,
    objective_unused,
    look_same,
    look_unseen,
    step_unreachable,
    rule_unreachable,
    caution_unreachable,
    referral_unproved,
    near_cut,
    caution_near,
    caution_hard_to_read,
    hours_claimed,
    markup_ignored,
    foreign_image,
    item_negative_stem,
    item_all_of_these,
    item_none_of_these,
    item_long_key,
    item_absolute_word,
    item_vague_word,
    item_grammar,
    item_repeated_word,
    item_overlap,
    item_number_order,
    item_odd_option,
    item_key_place,
    item_double_negative,
    item_long_stem,
    item_opinion,
    item_letter,
    item_no_question,
    item_unfocused,
    item_long_option,
    item_option_count,
    item_no_reason,
    item_gives_away,
    item_filler,
    item_without_client,
    objective_unasked,
    item_alike_options,
    wording,
    wording_broken,
    words_missing,
)

CHECKS: Mapping[str, Check] = {module.CODE: module.check for module in _MODULES}
"""Code to the check that finds it."""


def check(loaded: Loaded, today: str | None = None, answers: Answers | None = None) -> tuple[Problem, ...]:
    """Every problem of a course, those found while loading included, in file order.

    `today` is YYYY-MM-DD; without it nothing is said about reviews that have come due. `answers` are those of
    the course, where they are at hand.
    """
    scope = Scope.of(loaded, today, answers)
    found = {problem.order: problem for problem in (*loaded.problems, *problems_of(scope))}
    return tuple(found[order] for order in sorted(found))


def problems_of(scope: Scope) -> Iterator[Problem]:
    """Every problem that the checks find, in the order of the checks."""
    for code, run in CHECKS.items():
        for fault in run(scope):
            yield _problem(code, fault)


def _problem(code: str, fault: Fault) -> Problem:
    return Problem(
        code,
        severity(code),
        fault.subject,
        fault.place.file,
        fault.place.line,
        fault.place.column,
        fault.message,
        fault.hint,
        fault.example,
        fault.region,
    )
