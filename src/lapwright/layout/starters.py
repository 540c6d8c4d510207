"""The width of a ply's first course, where all its other courses are full."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from lapwright.layout.laplines import Band, Conflict, Lines, Stack, lap_lines, least_offset


def starters(band: Band, stack: Stack) -> list[int]:
    """Widths a first course may be ripped to, the full sheet first.  Source: arithmetic"""
    least = stack.rip + band.lap
    grid = stack.grid
    return [band.width, *range(-(-least // grid) * grid, band.width, grid)]


def choose_starter(band: Band, over: Sequence[tuple[int, ...]], stack: Stack, *, thirds: bool) -> Lines:
    """The starter whose lap lines stay farthest from those of the ply over it.

    Raises: Conflict where no starter keeps the offset.
    Source: method of our own, docs/method/layout.md
    """
    ranked = rank_starters(band, over, stack, thirds=thirds)
    if not ranked:
        nearest = max(nearest_of(band, starters(band, stack), over[0]))
        why = "the side laps of the two plies drift together on the way up, or the starter has no room"
        raise Conflict("ply_offset", (band.ply, "the ply over it"), nearest, why)
    return ranked[0]


def rank_starters(band: Band, over: Sequence[tuple[int, ...]], stack: Stack, *, thirds: bool) -> list[Lines]:
    """Lines of every starter that keeps the offset, the best first.

    over: lap lines of the plies above, the next one first.  Those with a wide enough top course come first, then fewer
    courses, then the greater distance.  thirds: three plies have room for a third of the pitch between each pair, so
    the middle ply leaves a third to the lowest one.
    Source: method of our own, docs/method/layout.md
    """
    if band.ends - band.begins <= band.width:
        return [Lines(band, band.ends - band.begins, ())]
    widths = starters(band, stack)
    nearest = nearest_of(band, widths, over[0])
    second = nearest_of(band, widths, over[1]) if thirds and len(over) > 1 else nearest
    ranked: list[tuple[tuple[bool, int, int], int]] = []
    for width, near, other in zip(widths, nearest, second, strict=True):
        if near < stack.offset:
            continue
        count, top = shape_of(band, width)
        aim = -abs(near - band.pitch // 3) if thirds and len(over) == 1 else min(near, other)
        ranked.append(((count > 0 and top < stack.rip, count, -aim), width))
    ranked.sort(key=lambda pair: pair[0])
    return [Lines(band, width, lap_lines(band, width)) for _, width in ranked]


def shape_of(band: Band, starter: int) -> tuple[int, int]:
    """How many lap lines follow a starter, and the exposed width of the top course.  Source: arithmetic"""
    lines = lap_lines(band, starter)
    return (len(lines), band.ends - (lines[-1] if lines else band.begins))


def nearest_of(band: Band, widths: Sequence[int], over: Sequence[int]) -> list[int]:
    """Of each starter: least distance of its lap lines from others, no more than the pitch.  Source: arithmetic"""
    if not over:
        return [band.pitch] * len(widths)
    firsts = band.begins + np.asarray(widths, dtype=np.int64) - band.lap
    counts = np.asarray([shape_of(band, width)[0] for width in widths])
    steps = np.arange(max(1, int(counts.max())), dtype=np.int64)
    lines = firsts[:, None] + steps[None, :] * band.pitch
    others = np.asarray(over, dtype=np.int64)
    place = np.searchsorted(others, lines)
    below = np.abs(lines - others[np.maximum(place - 1, 0)])
    above = np.abs(lines - others[np.minimum(place, len(others) - 1)])
    gaps = np.where(steps[None, :] < counts[:, None], np.minimum(below, above), band.pitch)
    return [int(gap) for gap in np.minimum(gaps.min(axis=1), band.pitch)]


def distance(one: Lines, over: Sequence[int]) -> int:
    """Least distance of a ply's lap lines from others, no more than its pitch.  Source: arithmetic"""
    gap = least_offset(one.lines, over)
    return one.band.pitch if gap is None else min(gap, one.band.pitch)
