"""What can be wrong with a course, and how it is told."""

from .codes import CODES, Code, severity
from .problem import Problem, Scalar, Severity

__all__ = ["CODES", "Code", "Problem", "Scalar", "Severity", "severity"]
