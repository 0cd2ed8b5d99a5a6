"""What a course comes to, worked out once: the one place that checks, pages and commands read it from."""

from .answers import Answers
from .client import ClientAnswers

__all__ = ["Answers", "ClientAnswers"]
