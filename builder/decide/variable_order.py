"""In what order diagrams ask the measures. The order changes nothing but how large the diagrams grow."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from builder.course import Caution, Course, Table

from .well_formed import has_domain

_WORK = 400_000
"""How often a table is looked at for a guess, all in all, before the best order so far is taken."""

_GROWTH = 2.5
"""By what a diagram grows, roughly, with each input that a table has been asked while it waits for the
others."""


def ordered_measures(
    course: Course, tables: Mapping[str, Table], cautions: Mapping[str, Caution]
) -> tuple[str, ...]:
    """Every measure that has a domain: first table after table as they feed each other, then each measure is
    moved to where it makes the diagrams smallest, as far as that can be guessed from who reads it.

    Between two measures a diagram must remember what it has been told for every table that has been asked in
    part, or what it still will be told, whichever is less. The guess multiplies that over the tables and adds
    it up over the places between measures.
    """
    names = [name for table in tables.values() for name in table.inputs]
    names += [name for caution in cautions.values() for when in caution.when for name in when]
    names += sorted(course.measures)
    order = [
        name for name in dict.fromkeys(names) if name in course.measures and has_domain(course.measures[name])
    ]
    readers = [
        {name for rule in table.rules for name in rule.when if name in order} for table in tables.values()
    ]
    read = [name for name in order if any(name in one for one in readers)]
    moved = _moved(read, [one for one in readers if len(one) > 1])
    return (*moved, *(name for name in order if name not in read))


def _moved(order: list[str], readers: Sequence[set[str]]) -> list[str]:
    best = _size(order, readers)
    tries = _WORK // max(1, len(order) * len(readers))
    improved = True
    while improved and readers:
        improved = False
        for name in list(order):
            for place in range(len(order)):
                other = [one for one in order if one != name]
                other.insert(place, name)
                tries -= 1
                if tries < 0:
                    return order
                size = _size(other, readers)
                if size < best:
                    order, best, improved = other, size, True
    return order


def _size(order: Sequence[str], readers: Sequence[set[str]]) -> float:
    asked = [0] * len(readers)
    size = 0.0
    for name in order:
        waiting = 0.0
        for number, reader in enumerate(readers):
            if name in reader:
                asked[number] += 1
            waiting += min(asked[number], (len(reader) - asked[number]) * 1.5)
        size += _GROWTH**waiting
    return size
