"""Proofs against trying every client, on thousands of small random courses."""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from random import Random

from builder.course import AnyOf, Caution, Course, DecideStep, EndStep, Exercise, Is, Step
from builder.decide.proofs import Finding, prove
from builder.decide.regions import Region
from builder.decide.space import Space

from .courses import choice, course, table, yes_no
from .referee import for_random_seeds, random_course, size, try_everyone


@for_random_seeds(800)
def test_proofs_find_what_trying_everyone_finds(seed: int) -> None:
    agrees(random_course(Random(seed)))


@for_random_seeds(200)
def test_proofs_range_over_ages_as_trying_everyone_does(seed: int) -> None:
    agrees(random_course(Random(seed), aged=True))


def agrees(made: Course) -> None:
    truth = try_everyone(made)
    findings = prove(Space(made))

    by_code: dict[str, list[Finding]] = {}
    for finding in findings:
        by_code.setdefault(finding.code, []).append(finding)

    def clients(finding: Finding) -> set[tuple[int, ...]]:
        match finding.code:
            case "table-gap":
                return truth.gaps[finding.table]
            case "table-overlap":
                return truth.overlaps[finding.table, *finding.rules]
            case "caution-breach":
                return truth.breaches[finding.caution, finding.table]
            case _:
                return truth.leaks[finding.exercise, finding.caution]

    assert {f.table for f in by_code.get("table-gap", ())} == set(truth.gaps)
    assert {(f.table, *f.rules) for f in by_code.get("table-overlap", ())} == set(truth.overlaps)
    every_rule = {(name, n) for name, table in made.tables.items() for n in range(len(table.rules))}
    assert {(f.table, *f.rules) for f in by_code.get("rule-unreachable", ())} == every_rule - truth.live
    breaches = by_code.get("caution-breach", ())
    assert {(f.caution, f.table): set(f.outcomes) for f in breaches} == truth.breach_outcomes
    assert {(f.exercise, f.caution) for f in by_code.get("referral-leak", ())} == set(truth.leaks)
    assert "proof-unfinished" not in by_code
    for code in ("table-gap", "table-overlap", "caution-breach", "referral-leak"):
        assert len(by_code.get(code, ())) == len(
            {(f.table, f.rules, f.caution, f.exercise) for f in by_code.get(code, ())}
        )
        for finding in by_code.get(code, ()):
            assert tuple(finding.client[name] for name in made.measures) in clients(finding)
            assert finding.region is not None
            covered = {
                client
                for box in finding.region.boxes
                for client in product(
                    *(
                        [i for run in box[name] for i in run] if name in box else range(size(measure))
                        for name, measure in made.measures.items()
                    )
                )
            }
            assert covered == clients(finding) or (finding.region.more and covered < clients(finding))
    unproved = {
        c.name
        for c in made.cautions.values()
        if c.level in ("refer", "urgent") and not any(c.demands.values())
    }
    assert {f.caution for f in by_code.get("referral-unproved", ())} == unproved


def test_runs_of_a_region_are_joined_in_order_though_one_cell_lies_on_both_sides_of_others() -> None:
    asks = table(
        "t", "first", "c",
        ("w", {"c": AnyOf(("w",))}, "x"), ("x", {"c": AnyOf(("x",))}, "y"), ("rest", {}, "x"),
    )  # fmt: skip
    caution = Caution("k", "K", "adapt", ({"ill": Is(True)},), "", {"t": ("y",)})
    (found,) = prove(Space(course(choice("c", *"vwxz"), yes_no("ill"), asks, caution)))
    boxes = ({"c": (range(2), range(3, 4)), "ill": (range(1, 2),)},)
    assert (found.code, found.region) == ("caution-breach", Region(boxes, False))


def test_who_else_leaks_is_told_where_finding_out_takes_an_eighth_of_the_work_for_a_proof_at_most() -> None:
    """One way leaks, and many others lead on safely: to follow them all is dear, to tell who leaks is not."""
    names, tables = "abcd", range(4)
    asks = [
        table(f"t{n}", "unique", f"m{n}", *((one, {f"m{n}": AnyOf((one,))}, one) for one in names))
        for n in tables
    ]
    caution = Caution("k", "K", "refer", ({"ill": Is(True)},), "")
    made = course(*(choice(f"m{n}", *names) for n in tables), yes_no("ill"), *asks, caution)
    steps: dict[str, Step] = {
        f"s{n}": DecideStep(f"t{n}", dict.fromkeys(names, f"s{n + 1}") | ({"a": "done"} if n == 0 else {}))
        for n in tables
    }
    steps |= {"s4": EndStep("Sent on", sends_on=True), "done": EndStep("Done")}
    made = replace(made, exercises={"e": Exercise("e", "E", "all", "s0", steps)})
    for allowed, region in (
        (2**15, Region(({"m0": (range(1),), "ill": (range(1, 2),)},), False)),
        (2**14, None),
    ):
        (leak,) = [one for one in prove(Space(made, allowed)) if one.exercise == "e"]
        assert (leak.code, leak.step, leak.region) == ("referral-leak", "done", region)
