"""The bounds on one file. Messages name them."""

MAX_BYTES = 2_000_000
MAX_VALUES = 200_000
"""How many keys and values a file may hold."""
MAX_DEPTH = 30
"""How deep lists and keys may nest."""
MAX_ALIASED = 10_000
"""How many values the aliases of a file may repeat in all."""
MAX_DIGITS = 15
"""How many digits a number may have before its point, and how many after it."""
