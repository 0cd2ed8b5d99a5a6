"""The words that the browser part says. The page hands them over as one inert block, see `web/words.js`."""

from __future__ import annotations

from builder.words import Words

MESSAGES = (
    "95% interval: {low} to {high}%.",
    "An interval (Wilson 1927) shows where the true share may well lie, if these questions stand for all.",
    "Answer",
    "Answer these again",
    "Back",
    "By objective",
    "Choose an answer first.",
    "Choose one for every line first.",
    "Draw new questions",
    "Drawn with number {seed}. The same number draws the same questions on every device.",
    "Everything is forgotten.",
    "Fairly sure",
    "Forget all your answers in this course on this device? They cannot be brought back.",
    "Forget everything on this device",
    "Forget them",
    "Forward",
    "Go on",
    "How sure are you?",
    "Keep them",
    "Look at the readings",
    "Move down",
    "Move up",
    "Not sure",
    "One answer could have done serious harm. That is why the walk does not hold, whatever its mark.",
    "Part of that holds",
    "Question {number} of {of}",
    "Questions",
    "Read again",
    "Say how sure you are first.",
    "See the result",
    "So few answers say little.",
    "Start this walk again",
    "Step {number}",
    "That does not hold",
    "That does not hold, and it could do harm",
    "That does not hold, and it could do serious harm",
    "That does not reach the pass mark yet",
    "That holds",
    "That reaches the pass mark",
    "The best way",
    "The other questions cannot be reached now. Try again when you are online.",
    "The questions have changed since you were here, so the quiz starts afresh.",
    "The walk goes on with what holds.",
    "This browser cannot keep your answers: they go when you leave this page. All else works.",
    "This walk does not hold yet",
    "This walk holds",
    "Very sure",
    "Walk it again",
    "Write a number first.",
    "You were here before. This is where you stopped.",
    "You: {answer}",
    "Your questions, with every reason",
    "Your result",
    "your answer",
    "{answered} answered",
    "{held} of {of} held.",
    "{held} of {of} questions held.",
    "{held} of {of} steps held at the first answer: {share}%. The pass mark is {pass}%.",
    "{sum} of {full} marks: {share}%. The pass mark is {pass}%.",
    "{verdict} (mark {mark})",
    "{what}: now in place {place} of {of}",
)
"""Every message that a module of `web/` says, in order. A test holds this list to the modules."""


def browser_words(words: Words) -> dict[str, str]:
    """Message to translation, for those that differ: a message without one is its own words."""
    told = {message: words.say(message) for message in MESSAGES}
    return {message: text for message, text in told.items() if text != message}
