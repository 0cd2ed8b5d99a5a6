"""Prints how often intervals for shares hold the true share, where answers about one client hang together.

    python -m tests.bench.bench_intervals [LEARNERS] [SEED]        (10000 and 1 without)

A row tells of clients and answers about each, the true share, and the correlation within clients (answers
follow a beta-binomial distribution); then how many of 100 intervals hold the true share and how wide they
are on the mean, for answers that hang together and for Wilson's interval alone. Both are made to hold 95.
"""

from __future__ import annotations

import sys

import numpy as np

from builder.statistics import wilson
from builder.statistics.interval import counting_as

SIZES = {
    "5 x 8": [8] * 5,
    "10 x 4": [4] * 10,
    "20 x 2": [2] * 20,
    "10 x 10": [10] * 10,
    "uneven": [1] * 10 + [6] * 5,
}


def main(learners: int, seed: int) -> None:
    random = np.random.default_rng(seed)
    print("clients   share  correlation  together  width   alone  width")
    for name, sizes in SIZES.items():
        for share in (0.6, 0.8, 0.9):
            for correlation in (0.0, 0.2, 0.4):
                one, width, other, plain = covered(np.array(sizes), share, correlation, learners, random)
                what = f"{name:<9} {share:>5} {correlation:>12}"
                print(f"{what} {one:>9.1%} {width:>6.2f} {other:>7.1%} {plain:>6.2f}")


def covered(
    sizes: np.ndarray, share: float, correlation: float, learners: int, random: np.random.Generator
) -> tuple[float, float, float, float]:
    skills = np.full((learners, len(sizes)), share)
    if correlation:
        worth = 1 / correlation - 1
        skills = random.beta(share * worth, (1 - share) * worth, skills.shape)
    told = []
    for held in random.binomial(sizes, skills):
        of = int(sizes.sum())
        worth = counting_as([(int(one), int(n)) for one, n in zip(held, sizes, strict=True)])
        ends = wilson(held.sum() / of * worth, worth), wilson(int(held.sum()), of)
        told.append([part for low, high in ends for part in (low <= share <= high, high - low)])
    one, width, other, plain = np.mean(told, axis=0)
    return float(one), float(width), float(other), float(plain)


if __name__ == "__main__":
    given = [int(one) for one in sys.argv[1:]]
    main(*given, *(10_000, 1)[len(given) :])
