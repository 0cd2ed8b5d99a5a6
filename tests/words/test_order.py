"""Lists are sorted by the language's alphabet."""

from __future__ import annotations

import json
import random
import subprocess

import pytest

from builder.words import ENGLISH, words_for
from builder.words.order import sorting_key

SPANISH = [
    "ala", "Ana", "año", "campo", "canto", "caña", "cañón", "cao", "Ébano", "éter", "nube", "ñandú", "té",
]  # fmt: skip
"""In the order of the Unicode CLDR for `es`, `&N<ñ<<<Ñ`: ñ after all of n; accents count last."""


@pytest.mark.parametrize("seed", range(5))
def test_spanish_words(seed: int) -> None:
    mixed = random.Random(seed).sample(SPANISH, len(SPANISH))
    words = words_for("es-MX")
    assert sorted(mixed, key=lambda text: sorting_key(words, text)) == SPANISH


@pytest.mark.parametrize("tag", ["es", "en"])
def test_as_an_outside_collator_does(tag: str) -> None:
    """Node's `Intl.Collator` (ECMA-402) carries the tables of the Unicode CLDR by ICU."""
    script = f"console.log(JSON.stringify({json.dumps(SPANISH)}.sort(new Intl.Collator('{tag}').compare)))"
    done = subprocess.run(["node", "-e", script], capture_output=True, text=True, check=True)
    words = words_for(tag)
    assert json.loads(done.stdout) == sorted(SPANISH, key=lambda text: sorting_key(words, text))


def test_accents_and_capitals_tell_apart_what_is_else_alike() -> None:
    words = words_for("es")
    mixed = ["Té", "te", "té", "Te", "tea"]
    assert sorted(mixed, key=lambda text: sorting_key(words, text)) == ["Te", "te", "Té", "té", "tea"]


def test_english_knows_no_letter_beyond_z() -> None:
    assert sorted(["oso", "ñu", "nube", "zeta"], key=lambda text: sorting_key(ENGLISH, text)) == [
        "ñu", "nube", "oso", "zeta",
    ]  # fmt: skip


def test_however_an_accent_is_written() -> None:
    words = words_for("es")
    assert sorting_key(words, "n\u0303u")[:2] == sorting_key(words, "ñu")[:2]
