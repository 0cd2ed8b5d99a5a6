"""The words of a learner's record that the browser fills in.

They stand in that page alone, by short keys, so that no other page carries them.
"""

from __future__ import annotations

from builder.words import Words


def record_words(words: Words) -> dict[str, str]:
    """Key to words with `{name}` fields, as `web/record-views.js` and `web/record-element.js` say them."""
    return {
        "basis": words.say("At least {needed} of {of} must hold ({pass}%). From {answers} first answers."),
        "begun": words.say("Begun, not ended yet."),
        "chance": words.say("Chance of reaching the pass mark: {share}"),
        "choose": words.say("Choose a day, and the days to review appear here."),
        "day": words.say("Day"),
        "every": words.say(
            "Ready by {day}, in {days} days: review every {gap} days. "
            "The best gap for such a time is about {low} to {high}% of it."
        ),
        "held": words.say("Held"),
        "held_changed": words.say("Held, but the question has changed since."),
        "held_first": words.say("Held at the first attempt"),
        "last": words.say("At the last attempt: {held} of {of}."),
        "later": words.say("Choose a day after today."),
        "little": words.say("So few answers say little."),
        "mark": words.say("Mark"),
        "minor": words.say("Walks with minor harm: {number} of {of}."),
        "missed": words.say("Missed, not held since."),
        "missed_changed": words.say("Missed, and the question has changed since."),
        "more": words.say("{number} more"),
        "newest": words.say("The newest {number}. The copies hold all {of}, each step of a walk among them."),
        "no_attempt": words.say(
            "This file is not as this site writes records: its attempt number {value} cannot be read."
        ),
        "no_course": words.say("This record belongs to another course: {value}."),
        "no_format": words.say("This record was written by a newer edition of this site than the one here."),
        "no_harm": words.say("No harm."),
        "no_json": words.say(
            "This file cannot be read as a record. It may be cut off, or be the copy for "
            "spreadsheets: take the file that ends in .json."
        ),
        "no_learner": words.say(
            "This record carries another name, {value}. Records of two people are not "
            "mixed. If both are yours, change the name on this page first."
        ),
        "no_name": words.say(
            "This record carries the name {value}, and yours here carries none. If both are yours, write "
            "that name on this page first."
        ),
        "no_many": words.say("This file holds more than {value} attempts; no record is so long."),
        "no_part": words.say(
            "This file is not as this site writes records: {value} is missing, cannot be read, or is not "
            "known here."
        ),
        "no_record": words.say("This file is no learner's record."),
        "no_size": words.say("This file is too large to be a record."),
        "not_held": words.say("Not held yet"),
        "not_reached": words.say("Pass mark not reached yet"),
        "nothing": words.say("Nothing: all that you missed has held since."),
        "objective": words.say("Objective"),
        "of": words.say("{held} of {of}"),
        "order": words.say("On each of these days, in this order"),
        "over": words.say("over 99%"),
        "print_plan": words.say("Print the plan"),
        "reached": words.say("Pass mark reached"),
        "score": words.say(
            "First {first}% on {on}, best {best}% on {then}. Finished: {times}. The pass mark is {pass}%."
        ),
        "serious": words.say("Walks with serious harm: {number} of {of}."),
        "sure": words.say("This quiz also counts how sure you are, so no chance is computed."),
        "taken": words.say("New attempts taken in: {fresh}. Here already: {known}."),
        "to_again": words.say("{count} to look at again"),
        "today": words.say("That leaves no day between. Review today."),
        "too_few": words.say("Too few answers to say."),
        "unanswered": words.say("No quiz answer yet on {number} of {of} objectives"),
        "under": words.say("under 1%"),
        "untried": words.say("Not tried yet: {what}."),
        "walked": words.say("First {first}%, best {best}%, last on {on}."),
        "walks": words.say(
            "Walks: {walks}. Those with an answer that could have done serious harm: {serious}; "
            "minor harm: {minor}."
        ),
        "what": words.say("What, and the mark of its edition"),
    }
