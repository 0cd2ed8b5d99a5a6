"""What can be wrong with a course, and how it is told."""

from .problem import Problem, Scalar, Severity

__all__ = ["Problem", "Scalar", "Severity"]
