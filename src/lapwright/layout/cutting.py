"""Which roll each length is cut from: numbered rolls, none overdrawn.

Best fit, longest first, which is known to need at most 11/9 of the fewest rolls and one more; rolls are then
numbered in the order in which the crew opens them.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from lapwright.layout.values import Roll


@dataclass(frozen=True, slots=True)
class Cut:
    """One length to be cut: id of the piece or detail, ticks of roll length, place in the order of laying."""

    id: str
    takes: int
    order: int


def cut_rolls(
    sheet: str, length: int, field: Sequence[Cut], rest: Sequence[Cut]
) -> tuple[tuple[Roll, ...], Mapping[str, str]]:
    """The field's pieces from as few rolls as can be found, then the rest from what is left of them and from more.

    field: in the order of laying, which is the order in which the search drew on offcuts; it is tried beside longest
    first, and the fewer rolls win.
    Raises: ValueError where a cut is longer than the roll.
    Source: D. S. Johnson, Near-optimal bin packing algorithms, 1973 (bound of best fit decreasing) [from memory]
    Checked: tests/layout/test_place.py
    """
    longest_first = sorted(field, key=lambda cut: (-cut.takes, cut.order))
    bins = min((fill(length, order, []) for order in (longest_first, field)), key=len)
    bins = fill(length, sorted(rest, key=lambda cut: (-cut.takes, cut.order)), bins)
    return number_rolls(sheet, length, bins)


def fill(length: int, cuts: Sequence[Cut], bins: list[list[Cut]]) -> list[list[Cut]]:
    """Each cut in turn from the roll that it fits best, or from a new one.  bins: rolls opened before; changed."""
    free = sorted((length - sum(cut.takes for cut in inside), number) for number, inside in enumerate(bins))
    for cut in cuts:
        if cut.takes > length:
            raise ValueError(f"{cut.id} takes {cut.takes} of a roll of {length}")
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
