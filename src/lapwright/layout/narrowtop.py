"""A top course that would be too narrow: courses below it are ripped so that it gets wide enough.

Every offset is kept, lines going down from the top only as far as they have play.  docs/method/layout.md shows how
little a line can move before it breaks `ply_offset`; where the play does not suffice, see `atrip`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from lapwright.layout.laplines import Lines, Stack, least_offset


def is_narrow(one: Lines, stack: Stack) -> bool:
    """The top course is too narrow and a course below it can be ripped."""
    return bool(one.lines) and one.top_exposed < stack.rip and len(one.lines) >= lowest_movable(one)


def least_rips(planned: Sequence[Lines], stack: Stack) -> int:
    """Ripped courses that a narrow top takes at least where lines must alternate and pitches are equal; else 0.

    Each course gives up the pitch less twice the offset at most, so a lowering of D takes D over that, rounded up; the
    lines of the next ply go with it, all but for the play of one course and for what its starter can take.
    Source: docs/method/layout.md
    """
    pitch = planned[-1].band.pitch
    is_forced = stack.rip + 2 * stack.offset > pitch and all(one.band.pitch == pitch for one in planned)
    play = (pitch - 2 * stack.offset) // stack.grid * stack.grid
    cap = planned[-1]
    if not is_forced or play <= 0 or not is_narrow(cap, stack):
        return 0
    lowering = cap.lines[-1] - (cap.band.ends - stack.rip)
    courses = -(-lowering // play)
    return courses + (courses - 1 if len(planned) > 1 else 0)


def even_tops(lines: Sequence[Lines], stack: Stack) -> list[int]:
    """Exposed widths of the narrowest top course at which the courses of some ply that are ripped for it give up all
    their play, so that they share one width, rising; of plies that give up evenly already, none.

    What one ply's top gains, those of the others gain with it.  None where pitches differ.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_rips.py
    """
    pitch = lines[0].band.pitch
    play = (pitch - 2 * stack.offset) // stack.grid * stack.grid
    given = [[pitch - (high - low) for low, high in pairwise(own.lines) if pitch - (high - low) > 0] for own in lines]
    if any(own.band.pitch != pitch for own in lines) or any(max(each) > play for each in given if each):
        return []
    narrowest = min(own.top_exposed for own in lines)
    return sorted({narrowest + sum(play - one for one in each) for each in given if len(set(each)) > 1})


def lowest_movable(one: Lines) -> int:
    """How many lap lines a ply needs before its top one can move: the first cap course stays full."""
    return 2 if one.band.ply == "cap" else 1


def note_narrow(one: Lines, stack: Stack) -> Lines:
    """Say so where the top course stays narrow because only the full first course lies below it."""
    if not one.lines or one.top_exposed >= stack.rip:
        return one
    return replace(one, exceptions=(*one.exceptions, "narrow_top"))


def with_play(planned: Sequence[Lines], stack: Stack, most: Sequence[tuple[int, int, int]] = ()) -> list[Lines] | None:
    """Move lines down from the top within their play, every offset kept; None where that fails.

    The constraints are differences of lines, so the highest solution of each line is found by relaxing
    upper bounds until nothing moves; it rips the fewest courses, those nearest the top.
    most: ply, line and level that the line may not lie above, on the grid that rips are read to.
    """
    highest = [list(one.lines) for one in planned]
    for lines, one in zip(highest, planned, strict=True):
        if lines and is_narrow(one, stack):
            lines[-1] = min(lines[-1], down_to_grid(one, one.band.ends - stack.rip, stack))
    for p, k, level in most:
        below = planned[p].lines[k - 1] if k else planned[p].band.begins
        highest[p][k] = min(highest[p][k], below + (level - below) // stack.grid * stack.grid)
    order = neighbours(planned)
    for _ in range(4 * sum(len(lines) for lines in highest) + 4):
        is_raised = relax(highest, order, stack)
        if not (reach_down(highest, planned) or is_raised):
            break
    moved = [replace(one, lines=tuple(lines)) for one, lines in zip(planned, highest, strict=True)]
    centred = centre(moved, planned, stack)
    for found in (centred, moved):
        is_low = all(found[p].lines[k] <= level for p, k, level in most)
        if is_low and is_sound(found, planned, stack, stack.offset):
            return found
    return None


def reach_down(highest: list[list[int]], planned: Sequence[Lines]) -> bool:
    """Lower each line that a full sheet at the line below it does not reach; true if one moved."""
    moved = False
    for lines, one in zip(highest, planned, strict=True):
        for k in range(1, len(lines)):
            if lines[k] > lines[k - 1] + one.band.pitch:
                lines[k] = lines[k - 1] + one.band.pitch
                moved = True
    return moved


def down_to_grid(one: Lines, line: int, stack: Stack) -> int:
    """The line at or under `line` that leaves the ripped course below a width on the grid."""
    below = one.lines[-2] if len(one.lines) > 1 else one.band.begins
    width = (line - below + one.band.lap) // stack.grid * stack.grid
    return below + width - one.band.lap


def neighbours(planned: Sequence[Lines]) -> list[tuple[tuple[int, int], tuple[int, int]]]:
    """Pairs (lower line, next line up) of neighbouring plies, each as (ply, index), in their present order."""
    pairs: list[tuple[tuple[int, int], tuple[int, int]]] = []
    for p in range(len(planned) - 1):
        merged = sorted(
            [(line, p, k) for k, line in enumerate(planned[p].lines)]
            + [(line, p + 1, k) for k, line in enumerate(planned[p + 1].lines)]
        )
        for (_, p0, k0), (_, p1, k1) in pairwise(merged):
            if p0 != p1:
                pairs.append(((p0, k0), (p1, k1)))
    return pairs


def relax(highest: list[list[int]], order: list[tuple[tuple[int, int], tuple[int, int]]], stack: Stack) -> bool:
    """Lower each line as its upper neighbours ask; true if one moved."""
    moved = False
    for (p0, k0), (p1, k1) in reversed(order):  # from the top down, so that a line moves once
        bound = highest[p1][k1] - stack.offset
        if highest[p0][k0] > bound:
            highest[p0][k0] = bound
            moved = True
    return moved


def centre(moved: Sequence[Lines], nominal: Sequence[Lines], stack: Stack) -> list[Lines]:
    """Put each moved line of the lower plies half-way between the lines of the ply over it."""
    result = list(moved)
    for p in range(len(result) - 2, -1, -1):
        over = result[p + 1].lines
        lines = []
        for line, was in zip(result[p].lines, nominal[p].lines, strict=True):
            lines.append(line if line == was else half_way(line, over))
        result[p] = replace(result[p], lines=tuple(lines))
    return result


def half_way(line: int, over: Sequence[int]) -> int:
    """Half-way between the neighbouring lines over a line, or the line where it has one neighbour only."""
    below = [other for other in over if other <= line]
    above = [other for other in over if other > line]
    return (below[-1] + above[0]) // 2 if below and above else line


def is_sound(planned: Sequence[Lines], nominal: Sequence[Lines], stack: Stack, offset: int) -> bool:
    """Every line in reach of its neighbours, wide enough, and at `offset` from the next ply's lines."""
    for one, was in zip(planned, nominal, strict=True):
        band, lines = one.band, one.lines
        if not lines:
            continue
        if band.ply == "cap" and lines[0] != was.lines[0]:
            return False
        gaps = [high - low for low, high in zip((band.begins, *lines), lines, strict=False)]
        if any(gap > band.pitch or gap < stack.rip for gap in gaps):
            return False
        if not stack.rip <= one.top_exposed <= band.width:
            return False
    for low, high in pairwise(planned):
        gap = least_offset(low.lines, high.lines)
        if gap is not None and gap < offset:
            return False
    return True
