"""The bounds on one file. Messages name them."""

MAX_BYTES = 2_000_000
MAX_DEPTH = 30
"""How deep lists and keys may nest."""
MAX_ALIASED = 10_000
"""How many values the aliases of a file may repeat in all."""
