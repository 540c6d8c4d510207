"""Which roll each length is cut from: numbered rolls, none overdrawn, in the order in which the crew opens them."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Mapping, Sequence

from lapwright.layout.packing import pack
from lapwright.layout.plain import plain
from lapwright.layout.values import Roll


@plain
class Cut:
    """One length to be cut: id of the piece or detail, ticks of roll length, place in the order of laying."""

    id: str
    takes: int
    order: int


def cut_rolls(
    sheet: str, length: int, field: Sequence[Cut], rest: Sequence[Cut]
) -> tuple[tuple[Roll, ...], Mapping[str, str]]:
    """The field's pieces from as few rolls as can be found, then the rest from what is left of them and from more.

    field: in the order of laying.  Where fewer rolls do with field and rest packed together, that is done.
    Raises: ValueError where a cut is longer than the roll.
    Source: packing.py
    Checked: tests/layout/test_place.py
    """
    for cut in (*field, *rest):
        if cut.takes > length:
            raise ValueError(f"{cut.id} takes {cut.takes} of a roll of {length}")
    longest_first = sorted(rest, key=lambda cut: (-cut.takes, cut.order))
    apart = fill(length, longest_first, packed(length, field))
    together = packed(length, (*field, *rest)) if rest else apart
    return number_rolls(sheet, length, min(apart, together, key=len))


def packed(length: int, cuts: Sequence[Cut]) -> list[list[Cut]]:
    """Cuts roll by roll; of equal ones those laid first come first."""
    waiting: dict[int, list[Cut]] = {}
    for cut in sorted(cuts, key=lambda cut: cut.order, reverse=True):
        waiting.setdefault(cut.takes, []).append(cut)
    fills = pack({takes: len(some) for takes, some in waiting.items()}, length)
    return [[waiting[takes].pop() for takes in inside] for inside, times in fills for _ in range(times)]


def fill(length: int, cuts: Sequence[Cut], bins: list[list[Cut]]) -> list[list[Cut]]:
    """Each cut in turn from the roll that it fits best, or from a new one.  bins: rolls opened before; changed."""
    free = sorted((length - sum(cut.takes for cut in inside), number) for number, inside in enumerate(bins))
    for cut in cuts:
        at = bisect_left(free, (cut.takes, -1))
        if at == len(free):
            bins.append([cut])
            insort(free, (length - cut.takes, len(bins) - 1))
            continue
        left, number = free.pop(at)
        bins[number].append(cut)
        insort(free, (left - cut.takes, number))
    return bins


def number_rolls(sheet: str, length: int, bins: Sequence[Sequence[Cut]]) -> tuple[tuple[Roll, ...], Mapping[str, str]]:
    """Rolls numbered by the first length laid from each."""
    rolls, roll_of = [], {}
    for number, cuts in enumerate(sorted(bins, key=lambda cuts: min(cut.order for cut in cuts)), start=1):
        inside = sorted(cuts, key=lambda cut: cut.order)
        used = sum(cut.takes for cut in inside)
        roll = Roll(f"{sheet} {number}", sheet, tuple(cut.id for cut in inside), used, length - used)
        rolls.append(roll)
        roll_of.update({cut.id: roll.id for cut in inside})
    return tuple(rolls), roll_of
