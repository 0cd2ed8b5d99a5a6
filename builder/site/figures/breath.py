"""The breath: how long out, pause and in last, on one line of time."""

from __future__ import annotations

from markupsafe import Markup

from builder.course import Breath
from builder.words import Words
from builder.words.numbers import quantity

from .svg import drawing, path, text

WIDTH = 320
_INSET, _TOP, _LOW = 14, 40, 92


def draw_breath(words: Words, lengths: Breath) -> Markup:
    """One breath from the second on: the line sinks as the air goes out, waits, and rises again.

    Lengths on the page are in proportion to the seconds. The pause is dashed, for it is a most, not an aim.
    """
    total = lengths.out + lengths.pause + lengths.into
    scale = (WIDTH - 2 * _INSET) / float(total)
    emptied = _INSET + float(lengths.out) * scale
    filling = emptied + float(lengths.pause) * scale
    end = WIDTH - _INSET
    out, into = quantity(words, lengths.out, "s"), quantity(words, lengths.into, "s")
    parts = [
        path("time", "M", _INSET, _LOW + 34, "H", end),
        path("out", "M", _INSET, _TOP, "L", emptied, _LOW),
        path("in", "M", filling, _LOW, "L", end, _TOP),
        path("cut", "M", emptied, _LOW + 30, "V", _LOW + 38, "M", filling, _LOW + 30, "V", _LOW + 38),
        text("start", words.say("out {seconds}", seconds=out), _INSET, _TOP - 14),
        text("end", words.say("in {seconds}", seconds=into), end, _TOP - 14),
    ]
    said = [
        words.say("Breath out: {seconds}.", seconds=out),
        words.say("Breath in: {seconds}.", seconds=into),
    ]
    if lengths.pause:
        longest = quantity(words, lengths.pause, "s")
        parts.insert(2, path("pause", "M", emptied, _LOW, "H", filling))
        middle = min(max((emptied + filling) / 2, 76), WIDTH - 76)
        parts.append(text("middle", words.say("pause up to {seconds}", seconds=longest), middle, _LOW + 22))
        said.insert(1, words.say("Pause: at most {seconds}.", seconds=longest))
    return drawing("breath", WIDTH, _LOW + 44, " ".join(said), parts)
