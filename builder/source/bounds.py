"""The bounds on what is read. Messages name them."""

MAX_BYTES = 2_000_000
MAX_VALUES = 200_000
"""How many keys and values a file may hold."""
MAX_DEPTH = 30
"""How deep lists and keys may nest."""
MAX_ALIASED = 10_000
"""How many values the aliases of a file may repeat in all."""
MAX_DIGITS = 15
"""How many digits a number may have before its point, and how many after it."""
MAX_FOLDERS = 8
"""How deep folders may nest."""
MAX_LESSON = 200_000
"""Letters of a lesson: some 30,000 words."""
MAX_BLOCK = 10_000
"""Letters of a lesson between two blank lines."""
MAX_LINES = 500
"""Lines of a lesson between two blank lines."""
MAX_LEAD = 80
"""Columns of a line of a lesson before its words: spaces, and the signs of lists and quotations."""
MAX_RUN = 200
"""How often one letter may follow itself in a lesson."""
MAX_OPEN = 30
"""How many brackets may be open at once between two blank lines of a lesson, or tags of HTML in all of it."""
