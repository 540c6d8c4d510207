"""Small pieces of one sheet cut side by side from one length of roll.

A *set* is what lies abreast: it takes the length of its longest piece, the others come from beside it and take none.
Pieces are taken longest first; each goes into the set with the least width left that still holds it.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from lapwright.assembly.values import Sheet
from lapwright.layout.copies import changed
from lapwright.layout.plain import plain
from lapwright.layout.values import Detail
from lapwright.units.factors import TICKS_PER_METRE


@plain
class Small:
    """A piece to be cut: its id, its length along the roll and its width across it [ticks]."""

    id: str
    along: int
    across: int


def abreast(pieces: Iterable[Small], width: int) -> list[list[Small]]:
    """Sets of pieces side by side within the width of a sheet, the longest of each first.

    Source: E. G. Coffman et al., Performance bounds for level-oriented two-dimensional packing, 1980 (first fit by
        decreasing length; ours takes the best fit) [from memory]
    Checked: tests/layout/test_abreast.py
    """
    sets: list[list[Small]] = []
    free: list[tuple[int, int]] = []
    for piece in sorted(pieces, key=lambda piece: -piece.along):
        at = bisect_left(free, (piece.across, -1))
        if at == len(free):
            sets.append([piece])
            insort(free, (width - piece.across, len(sets) - 1))
            continue
        left, number = free.pop(at)
        sets[number].append(piece)
        insort(free, (left - piece.across, number))
    return sets


def set_abreast(details: Sequence[Detail], sheets: Mapping[str, Sheet]) -> list[Detail]:
    """Details with the roll length that each takes: the first of a set its length, those beside it none.

    Those already set beside a piece stay there.

    Source: arithmetic
    Checked: tests/layout/test_abreast.py
    """
    beside = firsts_of(details, sheets)
    return [set_beside(one, beside.get(one.id, "")) if one.sheet and not one.beside else one for one in details]


def lengths_abreast(details: Sequence[Detail], sheets: Mapping[str, Sheet]) -> tuple[Counter[int], ...]:
    """Lengths that details take of each sheet once they are cut side by side, with how many [ticks].

    Source: arithmetic
    Checked: tests/layout/test_abreast.py
    """
    beside = firsts_of(details, sheets)
    takers = [one for one in details if one.takes_ticks and one.id not in beside]
    return tuple(Counter(one.takes_ticks for one in takers if one.sheet == name) for name in sheets)


def firsts_of(details: Sequence[Detail], sheets: Mapping[str, Sheet]) -> dict[str, str]:
    """Of each detail that is cut beside another, by its id, the id of the first of its set."""
    beside: dict[str, str] = {}
    for name, sheet in sheets.items():
        small = [
            Small(one.id, one.takes_ticks, round(one.width * TICKS_PER_METRE))
            for one in details
            if one.sheet == name and not one.beside
        ]
        for first, *others in abreast(small, sheet.width_ticks):
            beside.update((other.id, first.id) for other in others)
    return beside


def set_beside(detail: Detail, first: str) -> Detail:
    """A detail cut beside another, or from its own length of roll where `first` is empty."""
    return changed(detail, takes_ticks=0 if first else detail.takes_ticks, beside=first, cut_ticks=detail.takes_ticks)


def beside_of(details: Iterable[Detail]) -> dict[str, list[str]]:
    """Ids of what is cut beside each detail that takes roll length.  Source: arithmetic"""
    found: dict[str, list[str]] = {}
    for one in details:
        if one.beside:
            found.setdefault(one.beside, []).append(one.id)
    return found
