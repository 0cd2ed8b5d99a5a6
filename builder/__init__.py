"""Casetrue: from measures, rules and invented clients to a training site whose answer keys are computed."""

__version__ = "0.1.0"
