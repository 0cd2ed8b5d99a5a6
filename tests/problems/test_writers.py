"""All writers on the same problems."""

from __future__ import annotations

import io
import json
import re
from dataclasses import replace
from pathlib import Path

import jsonschema
import pytest
from rich.console import Console

from builder.problems import CODES, Problem, severity
from builder.problems.json import write_json
from builder.problems.sarif import write_sarif
from builder.problems.text import write_text
from builder.problems.workflow import write_workflow

GAP = Problem(
    "table-gap",
    "error",
    "table:plan",
    "tables/plan.yml",
    3,
    1,
    "No rule of plan matches some of the clients who reach it.",
    "Widen a rule, or add one for them.",
    {"ankle": 35, "tape": 2.5, "pain": False, "stance": "hip"},
    "ankle 35°",
)
HARD = Problem(
    "missing-reference",
    "error",
    "rule:plan/low",
    "tables/100%, odd: name.yml",
    1,
    5,
    "`wid` is no outcome: of 100% [bold]plan[/bold].\r\nSecond line, with a comma.",
    "Did you mean `wide`?",
)
MISSING = Problem(
    "review-missing", "warning", "caution:c", "cautions/c.yml", 9, 11, "No clinician yet.", "Ask."
)
PROBLEMS = [HARD, GAP, MISSING]
TEXTS = {"tables/plan.yml": "table: plan\nquestion: What?\nrules:\n", "cautions/c.yml": "one line\n"}


def as_text(width: int = 100, colour: bool = False, problems: list[Problem] = PROBLEMS, texts=TEXTS) -> str:
    stream = io.StringIO()
    console = Console(
        file=stream,
        width=width,
        force_terminal=colour,
        color_system="standard" if colour else None,
        highlight=False,
        markup=False,
        emoji=False,
    )
    write_text(problems, texts, console)
    return stream.getvalue()


def test_text_shows_the_line_a_caret_and_the_cure():
    assert as_text(problems=[GAP, MISSING]) == (
        "warning review-missing  No clinician yet.\n"
        "  cautions/c.yml, line 9, column 11\n"
        "  What to do: Ask.\n"
        "\n"
        "error table-gap  No rule of plan matches some of the clients who reach it.\n"
        "  tables/plan.yml, line 3, column 1\n"
        "  3 │ rules:\n"
        "    │ ^\n"
        "  What to do: Widen a rule, or add one for them.\n"
        "  Who: ankle 35°\n"
        "  One such client: ankle 35, tape 2.5, pain false, stance hip\n"
        "\n"
        "1 error and 1 warning. More may show once the error is mended.\n"
    )


def test_errors_stand_last_in_text():
    late = replace(MISSING, file="z.yml")
    heads = [line for line in as_text(problems=[GAP, late, HARD, MISSING]).splitlines() if "-" in line[:25]]
    assert [head.split()[1] for head in heads] == ["review-missing"] * 2 + ["missing-reference", "table-gap"]


def test_text_takes_everything_as_it_is_written():
    text = as_text()
    assert "[bold]plan[/bold]" in text
    assert "100%" in text


def test_text_says_the_same_without_colour():
    coloured = as_text(colour=True)
    assert "\x1b[" in coloured
    assert re.sub(r"\x1b\[[0-9;]*m", "", coloured) == as_text()


@pytest.mark.parametrize("width", [20, 40, 79, 200])
def test_no_line_is_wider_than_the_console(width: int):
    long_line = {"tables/plan.yml": "a\nb\n" + "x" * 500 + "\n"}
    far = Problem("yaml", "error", "s:s", "tables/plan.yml", 3, 400, "A sentence " * 20 + ".", "Hint " * 30)
    lines = as_text(width, problems=[far], texts=long_line).splitlines()
    assert max(map(len, lines)) <= width
    caret = next(at for at, line in enumerate(lines) if line.endswith("^"))
    assert lines[caret - 1][lines[caret].index("^")] == "x"


def test_the_caret_stands_below_its_character():
    wide = Problem("yaml", "error", "s:s", "f.yml", 1, 4, "Message.", "Hint.")
    text = as_text(problems=[wide], texts={"f.yml": "日本: x\n"}).splitlines()
    assert text[2] == "  1 │ 日本: x"
    assert text[3] == "    │      ^"


def test_control_characters_of_the_source_are_not_printed():
    odd = Problem("yaml", "error", "s:s", "f.yml", 1, 1, "Message.", "Hint.")
    assert "\x1b" not in as_text(problems=[odd], texts={"f.yml": "a\x1b[31mred\tx\n"})


ODD = Problem(
    "yaml",
    "error",
    "s:s",
    "cases/\x1b]0;own\x07\x9b31m\u202egnp.yml",
    1,
    3,
    "No `\x1b[2Ja\r\u2066b\x7f`.",
    "Hint \x1b[1A\ud800.",
    region="a\x1b[31m",
    example={"b\x1b": "c\u202e"},
)
"""As a writer would meet it if whoever made the problem had not looked."""
ORDERS = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ud800-\udfff]")
"""ECMA-48 control functions, and the changes of direction of Unicode Standard Annex 9."""


@pytest.mark.parametrize("write", [lambda problems: as_text(problems=problems, texts={}), write_workflow])
def test_no_terminal_or_log_is_given_orders(write):
    text = write([ODD])
    assert not ORDERS.search(text)
    for spelt in (
        r"cases/\x1b]0;own\x07\x9b31m\u202egnp.yml",
        r"`\x1b[2Ja",
        r"\u2066b\x7f`",
        r"\x1b[1A\ud800",
    ):
        assert spelt.replace(":", "%3A") in text or spelt in text


def test_an_excerpt_keeps_the_column_of_every_letter():
    text = as_text(problems=[ODD], texts={ODD.file: "a\u202eb\x9bc\n"}).splitlines()
    assert text[2:4] == ["  1 │ a b c", "    │   ^"]


def test_a_line_past_the_end_shows_no_excerpt():
    assert "│" not in as_text(problems=[MISSING])


def test_nothing_wrong_is_said():
    assert as_text(problems=[]) == "No problem found.\n"


def test_json_has_the_settled_shape():
    document = json.loads(write_json(PROBLEMS))
    assert list(document) == ["problems", "counts"]
    assert document["counts"] == {"error": 2, "warning": 1}
    keys = ["code", "severity", "subject", "file", "line", "column", "message", "hint"]
    assert [list(entry) for entry in document["problems"]] == [keys, keys, [*keys, "example"]]
    assert document["problems"][2] == {
        "code": "table-gap",
        "severity": "error",
        "subject": "table:plan",
        "file": "tables/plan.yml",
        "line": 3,
        "column": 1,
        "message": GAP.message,
        "hint": GAP.hint,
        "example": {"ankle": 35, "tape": 2.5, "pain": False, "stance": "hip"},
    }


def test_json_of_nothing_is_a_document_too():
    assert json.loads(write_json([])) == {"problems": [], "counts": {"error": 0, "warning": 0}}


def test_workflow_commands_escape_what_would_end_them():
    """Escapes after the code host's documentation of workflow commands: `%`, CR and LF in messages; in
    properties `:` and `,` as well."""
    lines = write_workflow(PROBLEMS, "courses/a").splitlines()
    assert lines == [
        "::error file=courses/a/tables/100%25%2C odd%3A name.yml,line=1,col=5,title=missing-reference::"
        "`wid` is no outcome: of 100%25 [bold]plan[/bold].%0D%0ASecond line, with a comma. "
        "Did you mean `wide`?",
        "::error file=courses/a/tables/plan.yml,line=3,col=1,title=table-gap::"
        "No rule of plan matches some of the clients who reach it. Widen a rule, or add one for them.",
        "::warning file=courses/a/cautions/c.yml,line=9,col=11,title=review-missing::No clinician yet. Ask.",
        "::notice::2 errors and 1 warning. More may show once the errors are mended.",
    ]


def test_errors_come_first_in_workflow_commands():
    assert write_workflow([MISSING, GAP]).startswith("::error file=tables/plan.yml")


@pytest.mark.parametrize("problems", [PROBLEMS, []])
def test_sarif_meets_its_schema(problems: list[Problem]):
    """Against the OASIS schema of SARIF 2.1.0 (see README.md)."""
    schema = json.loads((Path(__file__).parent / "sarif-schema-2.1.0.json").read_text(encoding="utf-8"))
    document = json.loads(write_sarif(problems, "0.1.0"))
    jsonschema.Draft4Validator(schema, format_checker=jsonschema.FormatChecker()).validate(document)


def test_sarif_points_at_rules_and_places():
    (run,) = json.loads(write_sarif(PROBLEMS, "0.1.0"))["runs"]
    rules = [rule["id"] for rule in run["tool"]["driver"]["rules"]]
    assert rules == sorted(rules)
    for result in run["results"]:
        assert rules[result["ruleIndex"]] == result["ruleId"]
        assert result["level"] == CODES[result["ruleId"]].severity
    place = run["results"][1]["locations"][0]["physicalLocation"]
    assert place["artifactLocation"]["uri"] == "tables/100%25%2C%20odd%3A%20name.yml"
    assert place["region"] == {"startLine": 1, "startColumn": 5}


@pytest.mark.parametrize("write", [write_json, write_workflow, lambda problems: write_sarif(problems, "1")])
def test_the_order_given_does_not_matter(write):
    assert write(PROBLEMS) == write(PROBLEMS[::-1])


def test_every_code_has_a_severity_and_a_title():
    for name, code in CODES.items():
        assert code.name == name
        assert code.severity in ("error", "warning", "hint")
        assert code.title.endswith(".")
    with pytest.raises(KeyError):
        severity("no-such-code")
