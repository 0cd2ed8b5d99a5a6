"""The interface's own words: one catalogue, and the sentences and numbers made with it."""

from .catalogue import ENGLISH, Words

__all__ = ["ENGLISH", "Words"]
