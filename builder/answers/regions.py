"""A set of clients in words: `knee flexion 118 to 119°, no pain at rest`. English, for educators."""

from __future__ import annotations

from builder.course import ChoiceScale, Course, Measure, NumberScale
from builder.decide.regions import Ranges, Region
from builder.words import ENGLISH
from builder.words.numbers import span


def region_in_words(course: Course, region: Region) -> str:
    """A region box by box."""
    said = [_box(course, box) for box in region.boxes]
    if region.more:
        said.append("more besides")
    return "; or ".join(said)


def _box(course: Course, box: Ranges) -> str:
    said = [_part(course.measures[name], runs) for name, runs in box.items()]
    return ", ".join(said) or "everyone"


def _part(measure: Measure, runs: tuple[range, ...]) -> str:
    label = _lowered(measure.label)
    match measure.scale:
        case NumberScale(unit=unit, start=start, step=step):
            spans = [span(ENGLISH, start + step * run[0], start + step * run[-1], unit) for run in runs]
            return f"{label} {' or '.join(spans)}"
        case ChoiceScale(values=values):
            names = list(values.values())
            return f"{label} {' or '.join(_lowered(names[i]) for run in runs for i in run)}"
        case _:
            return label if runs[0][0] else f"no {label}"


def _lowered(label: str) -> str:
    """A label inside a sentence; abbreviations keep their capitals."""
    return label if label[1:2].isupper() else label[:1].lower() + label[1:]
