"""The interface's own words: one catalogue, and the sentences and numbers made with it."""

from .catalogue import ENGLISH, Words, nearest, phrase, words_for

__all__ = ["ENGLISH", "Words", "nearest", "phrase", "words_for"]
