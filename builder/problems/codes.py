"""Every code that a problem can bear, with its severity and a title. Codes are never reused."""

from __future__ import annotations

from dataclasses import dataclass

from .problem import Severity


@dataclass(frozen=True, slots=True)
class Code:
    name: str
    severity: Severity
    title: str


_ERRORS = {
    "yaml": "The file cannot be read as plain YAML.",
    "schema": "A key is missing, unknown, or holds the wrong kind of value.",
    "file-refused": "Something lies in the course that can be no part of it.",
    "lesson-bound": "A lesson is longer, or nests deeper, than anybody can read.",
    "duplicate-name": "Two things have the same name.",
    "missing-reference": "A name is used that nothing in the course has.",
    "wrong-kind": "A condition does not fit the kind of finding that it is about.",
    "measure-range": "A measure's numbers do not make a grid.",
    "cycle": "Tables need each other in a circle.",
    "pathway-incomplete": "The pathway leaves out a table, or lists one before its inputs.",
    "reading-missing": "A client lacks a reading that a table or a caution needs.",
    "reading-invalid": "A reading cannot occur on its measure.",
    "words-without-reading": "A client's words, or a story, stand for a reading that is not there.",
    "age-outside": "A client is younger or older than the course is for.",
    "case-disagrees": "The rules decide something else than the author meant.",
    "table-gap": "Someone reaches a table and no rule matches.",
    "table-overlap": "Two rules of a unique table match the same client.",
    "caution-breach": "Someone meets a caution and ends in an outcome that it forbids.",
    "referral-leak": "Someone who must be sent on can end an exercise without it.",
    "proof-unfinished": "A proof was given up because the table is too large.",
    "exercise-broken": "A learner can get stuck in an exercise.",
    "quiz-broken": "A quiz cannot be drawn.",
    "confusion-broken": "A table explains a confusion that is none, or one of them twice.",
    "means-without-client": "An option says what it would come to, and there is no client to judge it by.",
    "question-broken": "A question cannot be marked.",
    "drawn-broken": "A measure cannot be drawn as it says.",
    "drill-broken": "A drill says one thing twice, or gives its answers away.",
    "date-invalid": "A date is not on the calendar, or two dates are in the wrong order.",
    "name-unfit": "A name cannot be held by every machine, or cannot be read.",
    "address-taken": "A file in lessons/ has an address that something else has.",
    "active-content": "A lesson, or a file beside it, brings something that acts by itself.",
}

_WARNINGS = {
    "file-ignored": "A file lies in the course that is not read.",
    "source-missing": "A rule, fact or caution names no source.",
    "contact-missing": "The course does not say how to reach someone whom a caution calls for.",
    "review-missing": "No clinician has reviewed a caution or a drill.",
    "review-stale": "Something has changed since it was reviewed.",
    "review-due": "A review is past its date.",
    "outcome-unused": "No rule leads to an outcome.",
    "input-unused": "No rule reads an input.",
    "quiz-guessable": "Someone who knows nothing passes a quiz too often.",
    "objective-unused": "Nothing in the course trains an objective.",
    "look-same": "A fault shows nothing by which it could be told.",
    "look-unseen": "Something is to be seen of which nothing is drawn.",
    "step-unreachable": "No walk through an exercise comes to a step.",
    "caution-unreachable": "No client can meet a caution.",
    "rule-unreachable": "No client is decided by a rule.",
    "near-cut": "A client's reading lies too near a line for the key to be sure.",
    "caution-near": "A client may well meet a caution that the recorded readings miss.",
    "hours-claimed": "The course claims more hours than it comes to.",
    "caution-hard-to-read": "A caution is hard to read.",
    "referral-unproved": "A caution sends people on, and nothing proves that the tables do.",
    "markup-ignored": "Markup in a text will be shown as plain text.",
    "foreign-image": "A picture from another place will not be shown.",
    "practice-names": "There are not enough names for the clients whom the builder makes up.",
    "practice-excluded": "What the course calls implausible leaves nobody for a rule.",
    "item-negative-stem": "A question asks for what is not so, and does not say it loudly.",
    "item-all-of-these": "An option stands for all of the others.",
    "item-none-of-these": "An option stands for none of the others.",
    "item-long-key": "The right option is much longer than the others.",
    "item-absolute-word": "An option is given away by a word such as always or never.",
    "item-vague-word": "An option says how often in a word that everybody reads differently.",
    "item-grammar": "The grammar of the question fits some options and not others.",
    "item-repeated-word": "A word of the question comes again in the right option alone.",
    "item-overlap": "Ranges of numbers overlap.",
    "item-number-order": "Options with numbers cannot be shown in order.",
    "item-odd-option": "One option has another form than the rest.",
    "item-key-place": "The right option stands in one place too often.",
    "item-double-negative": "A question asks for what is not so, and an option denies as well.",
    "item-long-stem": "A question tells much more than it asks about.",
    "item-opinion": "A question asks for taste.",
    "item-letter": "A text speaks of an option by its letter or place.",
    "item-no-question": "A question asks nothing.",
    "item-unfocused": "A question asks only which option is true.",
    "item-long-option": "An option is too long, or options begin alike.",
    "item-option-count": "A question has too few options, or more than anybody weighs.",
    "item-no-reason": "A question does not say why an option is right or wrong.",
    "item-gives-away": "One question gives away the answer to another.",
    "item-filler": "An option is no answer that anybody would choose.",
    "item-without-client": "A question about a client can be answered without the client.",
    "objective-unasked": "No question asks for an objective.",
    "wording-broken": "A text of the course's wording cannot be used.",
    "wording": "A word claims an accreditation that the course does not name.",
    "words-missing": "The interface has no words in the course's language.",
}

_HINTS = {
    "item-alike-options": "Two options may mean the same.",
}

CODES: dict[str, Code] = {
    **{name: Code(name, "error", title) for name, title in _ERRORS.items()},
    **{name: Code(name, "warning", title) for name, title in _WARNINGS.items()},
    **{name: Code(name, "hint", title) for name, title in _HINTS.items()},
}


def severity(code: str) -> Severity:
    """The severity of a code. Raises KeyError for an unknown one."""
    return CODES[code].severity
