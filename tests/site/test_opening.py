"""Long cautions are told in two parts: what to do now, and the rest one tap away."""

from __future__ import annotations

import pytest

from builder.site.excerpts import Lead, opening

SEE, DO, SAY, WHY = "You see this.", "Do that now.", "Say this.", "It comes from there."


def test_what_comes_after_the_second_block_waits() -> None:
    assert opening(f"{SEE}\n\n{DO}\n \n{SAY}\n\n{WHY}\n") == Lead(f"{SEE}\n\n{DO}", f"{SAY}\n\n{WHY}")


@pytest.mark.parametrize("text", [SEE, f"{SEE}\n\n{DO}", f"{SEE}\n\n{DO}\n\n{SAY}", ""])
def test_a_short_text_stays_whole(text: str) -> None:
    assert opening(text) == Lead(text, "")


def test_a_list_is_never_cut() -> None:
    steps = "1. Stop.\n\n2. Call.\n\n3. Stay."
    assert opening(f"{steps}\n\n{SAY}\n\n{WHY}") == Lead(steps, f"{SAY}\n\n{WHY}")
    runs_on = f"{SEE}\n\n- Stop.\n\n  Then call.\n\n{SAY}\n\n{WHY}"
    assert opening(runs_on).rest == f"{SAY}\n\n{WHY}"


def test_code_is_never_cut() -> None:
    text = f"{SEE}\n\n```\nfirst\n\nsecond\n\nthird\n```\n\n{SAY}\n\n{WHY}"
    assert opening(text) == Lead(text, "")
