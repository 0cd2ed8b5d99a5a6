"""What files amount to, counted again from their raw JSON: slow, and with nothing of `builder/records`.

What a course says (keys, clients, cautions) comes from its answers; every count and every order is made here.
"""

from __future__ import annotations

import json
from collections import Counter
from itertools import combinations
from pathlib import Path
from typing import Any

from builder.answers import Answers

Raw = dict[str, Any]
GRAVE = ["unsafe", "not_stopped", "sure", "could_harm", "wrong"]


def raw_attempts(files: list[Path], lies: list[Raw]) -> list[Raw]:
    """The attempts of one coach's files by time, each once, without those that cannot be true."""
    found: dict[str, Raw] = {}
    for file in files:
        for one in json.loads(file.read_text("utf-8"))["attempts"]:
            old = {"seed": "draw", "certainty": "sure", "held": "passed"}
            told = {old.get(name, name): value for name, value in one.items()}
            if told["kind"] in ("question", "step") and "right" not in told:
                told["right"] = told["mark"] == 1
            if one not in lies:
                bare = {name: value for name, value in told.items() if name not in ("first", "counts")}
                found.setdefault(json.dumps(bare, sort_keys=True), told)
    inside = sorted(found.values(), key=lambda one: one["at"])
    seen: set[tuple[Any, ...]] = set()
    for one in inside:
        names = {(one["kind"], one["id"])}
        names |= {(one["unit"], one.get("client"))} if one.get("unit") else set()
        one["is_first"] = not names & seen and one.get("first", True)
        seen |= names
    return inside


def is_answer(one: Raw) -> bool:
    return one["kind"] in ("question", "step")


def stopped(files: list[Path], attempts: list[Raw]) -> dict[str, bool]:
    words = [json.loads(file.read_text("utf-8")).get("stopped", {}) for file in files]
    found = [(one["client"], one["stopped"]) for one in attempts if one["is_first"] and "stopped" in one]
    found += [pair for word in words for pair in word.items()]
    return {client: all(did for name, did in found if name == client) for client, _ in found}


def things(one: Raw) -> list[str]:
    if one["right"]:
        return []
    if one.get("harm") in ("serious", "arguable") and one.get("breaks"):
        return [f"caution:{name}" for name in one["breaks"]]
    return [one["unit"]] if one.get("unit") else []


def why(one: Raw) -> str:
    if one.get("harm") == "serious":
        return "unsafe"
    if one.get("stopped") is False:
        return "not_stopped"
    if one.get("sure") == 3:
        return "sure"
    return "could_harm" if one.get("harm") in ("arguable", "minor") else "wrong"


def helps(attempts: list[Raw]) -> list[tuple[str, str, int, int]]:
    """Thing, gravest reason, wrong answers, clients right since; at most three."""
    answers = [one for one in attempts if is_answer(one)]
    rows = []
    for thing in {thing for one in answers for thing in things(one)}:
        wrong = [one for one in answers if thing in things(one)]
        gravest = min((why(one) for one in wrong), key=GRAVE.index)
        since = {
            one.get("client") or one["id"]
            for one in answers
            if one["right"]
            and one.get("unit") in [w.get("unit") for w in wrong if w.get("unit")]
            and one["at"] > wrong[-1]["at"]
        }
        if len(since) < 2 or gravest == "unsafe":
            rows.append((len(since) >= 2, GRAVE.index(gravest), -len(wrong), thing, gravest, len(since)))
    return [(thing, gravest, -wrong, since) for _, _, wrong, thing, gravest, since in sorted(rows)[:3]]


def outcomes(answers: Answers, attempts: list[Raw]) -> dict[tuple[str, str], str]:
    """Table and client to the outcome chosen at first, by the words of the option that was chosen."""
    items = {item.id: item for item in answers.bank}
    found: dict[tuple[str, str], str] = {}
    for one in attempts:
        item = items.get(one["id"]) if one["kind"] == "question" else None
        if item is None or not one["is_first"] or "answer" not in one or item.table is None:
            continue
        asked = answers.course.tables[item.table]
        labels = {outcome.label: name for name, outcome in asked.outcomes.items()}
        text = next((option.text for option in item.options if option.id == one["answer"]), "")
        if item.case and item.asks == asked.question and set(labels) == {o.text for o in item.options}:
            found.setdefault((item.table, item.case), labels[text])
    return found


def alike(chosen: list[dict[tuple[str, str], str]], table: str) -> tuple[int, int, float | None]:
    """Pairs that chose alike, all pairs, and Fleiss' coefficient, each by going through every pair."""
    by_client: dict[str, list[str]] = {}
    for one in chosen:
        for (of, client), outcome in one.items():
            if of == table:
                by_client.setdefault(client, []).append(outcome)
    judged = [some for some in by_client.values() if len(some) > 1]
    same = [[a == b for a, b in combinations(some, 2)] for some in judged]
    shares = [sum(some) / len(some) for some in same]
    spread = Counter[str]()
    for some in judged:
        for outcome in some:
            spread[outcome] += 1 / len(some) / len(judged)  # type: ignore[assignment]
    chance = sum(share * share for share in spread.values())
    mean = sum(shares) / len(shares) if shares else 0
    beyond = (mean - chance) / (1 - chance) if shares and chance < 1 - 1e-9 else None
    return sum(map(sum, same)), sum(map(len, same)), beyond
