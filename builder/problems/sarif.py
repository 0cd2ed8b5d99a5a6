"""Problems as SARIF 2.1.0 (OASIS, with errata 01): the exchange format of code scanners."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from urllib.parse import quote

from .codes import CODES
from .problem import Problem, Severity

_LEVELS: dict[Severity, str] = {"error": "error", "warning": "warning", "hint": "note"}
_SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"


def write_sarif(problems: Iterable[Problem], version: str) -> str:
    """One run, with one rule a code that occurs. Files are given below the base `COURSE`."""
    ordered = sorted(problems, key=lambda problem: problem.order)
    codes = sorted({problem.code for problem in ordered})
    rules = [
        {
            "id": code,
            "shortDescription": {"text": CODES[code].title},
            "defaultConfiguration": {"level": _LEVELS[CODES[code].severity]},
        }
        for code in codes
    ]
    document = {
        "$schema": _SCHEMA,
        "version": "2.1.0",
        "runs": [
            {
                "tool": {"driver": {"name": "casetrue", "version": version, "rules": rules}},
                "columnKind": "unicodeCodePoints",
                "originalUriBaseIds": {"COURSE": {"description": {"text": "The course folder."}}},
                "results": [_result(problem, codes.index(problem.code)) for problem in ordered],
            }
        ],
    }
    return json.dumps(document, ensure_ascii=False, indent=2) + "\n"


def _result(problem: Problem, rule: int) -> dict[str, object]:
    digest = hashlib.sha256("\n".join((problem.code, problem.subject, problem.message)).encode()).hexdigest()
    return {
        "ruleId": problem.code,
        "ruleIndex": rule,
        "level": _LEVELS[problem.severity],
        "message": {"text": f"{problem.message} {problem.hint}".strip()},
        "locations": [
            {
                "physicalLocation": {
                    "artifactLocation": {"uri": quote(problem.file), "uriBaseId": "COURSE"},
                    "region": {"startLine": problem.line, "startColumn": problem.column},
                },
                "logicalLocations": [{"fullyQualifiedName": problem.subject}],
            }
        ],
        "partialFingerprints": {"subjectAndMessage/v1": digest},
    }
