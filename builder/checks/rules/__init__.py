"""One rule a file: its code, a generator of faults, and the educator's help for it as docstring."""
