"""Course lines of the plies of one area: where each course begins and ends up the fall.

*Lap line*: the exposed edge of a side lap, that is the low edge of the second course and of each after it.
The cap's first course is a full sheet, so its lap lines follow from where it begins.  Each ply below gets
the starter whose lap lines stay farthest from those of the ply over it, at every course.  Where the top
course would be narrower than `narrowest_rip`, courses below are ripped too; docs/method/layout.md shows
how little a line can move before it breaks `ply_offset`, and what is done then.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from lapwright.layout.values import Course


@dataclass(frozen=True, slots=True)
class Stack:
    """What the course lines of an area answer to [ticks].

    grid: step that a rip is read to.  offset: least distance between lap lines of neighbouring plies;
    offset_at_rip: the same beside a ripped top course; rip: least exposed width of a ripped course.
    """

    offset: int
    offset_at_rip: int
    rip: int
    grid: int


@dataclass(frozen=True, slots=True)
class Band:
    """One ply of the stack: sheet width and side lap, where it begins and ends up the fall [ticks]."""

    ply: str
    width: int
    lap: int
    begins: int
    ends: int

    @property
    def pitch(self) -> int:
        """Exposed width of a full course."""
        return self.width - self.lap


@dataclass(frozen=True, slots=True)
class Lines:
    """The lap lines of one ply, rising; the starter's width; what had to give, in words."""

    band: Band
    starter: int
    lines: tuple[int, ...]
    exceptions: tuple[str, ...] = ()

    @property
    def top_exposed(self) -> int:
        """Exposed width of the last course."""
        below = self.lines[-1] if self.lines else self.band.begins
        return self.band.ends - below

    def courses(self) -> tuple[Course, ...]:
        """The courses as laid: each from its low edge to the top of its sheet."""
        band = self.band
        lows = (band.begins, *self.lines)
        highs = [line + band.lap for line in self.lines]
        return tuple(
            Course(i + 1, low, high) for i, (low, high) in enumerate(zip(lows, [*highs, band.ends], strict=True))
        )


class Conflict(Exception):  # noqa: N818  # a finding about the rules, told to the user
    """Rules that can't be met together: which one, for which plies, and the greatest value [ticks] that can be met."""

    def __init__(self, rule: str, plies: tuple[str, str], greatest: int, why: str) -> None:
        self.rule, self.plies, self.greatest, self.why = rule, plies, greatest, why
        super().__init__(f"{rule} of {plies[0]} and {plies[1]}: at most {greatest} ticks; {why}")


def lap_lines(band: Band, starter: int) -> tuple[int, ...]:
    """Lap lines of a ply whose first course is `starter` wide and whose others are full.

    A course is added as long as a full sheet laid at the last line does not reach the top.
    Source: arithmetic
    """
    lines: list[int] = []
    if band.ends - band.begins <= starter:
        return ()
    line = band.begins + starter - band.lap
    lines.append(line)
    while line + band.width < band.ends:
        line += band.pitch
        lines.append(line)
    return tuple(lines)


def least_offset(one: Sequence[int], other: Sequence[int]) -> int | None:
    """Least distance between two sets of rising lines; None where either is empty.  Source: arithmetic"""
    best: int | None = None
    k = 0
    for line in one:
        while k < len(other) and other[k] < line:
            k += 1
        for near in other[max(0, k - 1) : k + 1]:
            gap = abs(line - near)
            best = gap if best is None or gap < best else best
    return best


def plan_lines(bands: Sequence[Band], stack: Stack) -> tuple[Lines, ...]:
    """Lap lines of every ply of an area, bottom first.

    Raises: Conflict where `ply_offset` can't be kept, with the greatest offset that can.
    Source: common practice, no source (full first cap course; offset at every course); method of our own.
    Checked: tests/layout/test_courses.py
    """
    top = bands[-1]
    planned = [Lines(top, min(top.width, top.ends - top.begins), lap_lines(top, top.width))]
    thirds = len(bands) > 2 and 3 * stack.offset <= min(band.pitch for band in bands)
    for band in reversed(bands[:-1]):
        planned.insert(0, choose_starter(band, [line.lines for line in planned], stack, thirds=thirds))
    return tuple(widen_top(planned, stack))


def starters(band: Band, stack: Stack) -> list[int]:
    """Widths a first course may be ripped to, the full sheet first.  Source: arithmetic"""
    least = stack.rip + band.lap
    grid = stack.grid
    return [band.width, *range(-(-least // grid) * grid, band.width, grid)]


def choose_starter(band: Band, over: Sequence[tuple[int, ...]], stack: Stack, *, thirds: bool) -> Lines:
    """The starter whose lap lines stay farthest from those of the ply over it.

    over: lap lines of the plies above, the next one first.  Among starters that keep the offset those with a wide
    enough top course come first, then fewer courses, then the greater distance.  thirds: three plies have room
    for a third of the pitch between each pair, so the middle ply leaves a third to the lowest one.
    Raises: Conflict where no starter keeps the offset.
    """
    if band.ends - band.begins <= band.width:
        return Lines(band, band.ends - band.begins, ())
    found = [Lines(band, width, lap_lines(band, width)) for width in starters(band, stack)]
    nearest = [distance(one, over[0]) for one in found]
    if max(nearest) < stack.offset:
        why = "the side laps of the two plies drift together on the way up, or the starter has no room"
        raise Conflict("ply_offset", (band.ply, "the ply over it"), max(nearest), why)

    def rank(one: Lines) -> tuple[bool, bool, int, int]:
        near = distance(one, over[0])
        narrow = bool(one.lines) and one.top_exposed < stack.rip
        if thirds and len(over) == 1:
            aim = -abs(near - band.pitch // 3)
        else:
            aim = min(near, distance(one, over[1])) if thirds else near
        return (near < stack.offset, narrow, len(one.lines), -aim)

    return min(found, key=rank)


def distance(one: Lines, over: Sequence[int]) -> int:
    """Least distance of a ply's lap lines from others, no more than its pitch.  Source: arithmetic"""
    gap = least_offset(one.lines, over)
    return one.band.pitch if gap is None else min(gap, one.band.pitch)


def widen_top(planned: Sequence[Lines], stack: Stack) -> list[Lines]:
    """Rip courses below a top course that would be too narrow.

    First every offset is kept, moving lines down from the top only as far as they have play; where the
    play does not suffice, the lines beside the ripped top course come closer, never under `offset_at_rip`.
    """
    narrow = [
        one for one in planned if one.lines and one.top_exposed < stack.rip and len(one.lines) >= lowest_movable(one)
    ]
    if not narrow:
        return [note_narrow(one, stack) for one in planned]
    kept = with_play(planned, stack)
    if kept is not None:
        return kept
    return beside_rip(planned, stack)


def lowest_movable(one: Lines) -> int:
    """How many lap lines a ply needs before its top one can move: the first cap course stays full."""
    return 2 if one.band.ply == "cap" else 1


def note_narrow(one: Lines, stack: Stack) -> Lines:
    """Say so where the top course stays narrow because only the full first course lies below it."""
    if not one.lines or one.top_exposed >= stack.rip:
        return one
    return replace(one, exceptions=(*one.exceptions, "narrow_top"))


def with_play(planned: Sequence[Lines], stack: Stack) -> list[Lines] | None:
    """Move lines down from the top within their play, every offset kept; None where that fails.

    The constraints are differences of lines, so the highest solution of each line is found by relaxing
    upper bounds until nothing moves; it rips the fewest courses, those nearest the top.
    """
    highest = [list(one.lines) for one in planned]
    for lines, one in zip(highest, planned, strict=True):
        if lines:
            lines[-1] = min(lines[-1], down_to_grid(one, one.band.ends - stack.rip, stack))
    order = neighbours(planned)
    for _ in range(4 * sum(len(lines) for lines in highest) + 4):
        if not relax(highest, order, stack):
            break
    moved = [replace(one, lines=tuple(lines)) for one, lines in zip(planned, highest, strict=True)]
    centred = centre(moved, planned, stack)
    return centred if is_sound(centred, planned, stack, stack.offset) else None


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
    for (p0, k0), (p1, k1) in order:
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


def beside_rip(planned: Sequence[Lines], stack: Stack) -> list[Lines]:
    """Rip the course below a narrow top course; the next ply's line goes half-way.

    Raises: Conflict where even `offset_at_rip` can't be kept.
    """
    result = list(planned)
    touched: set[int] = set()
    for p, one in enumerate(planned):
        if one.lines and one.top_exposed < stack.rip and len(one.lines) >= lowest_movable(one):
            lowered = down_to_grid(one, one.band.ends - stack.rip, stack)
            result[p] = replace(one, lines=(*one.lines[:-1], lowered), exceptions=("offset_at_rip",))
            touched.add(p)
    for p in sorted(touched):
        for q in (p - 1, p + 1):
            if 0 <= q < len(result) and q not in touched:
                result[q] = make_room(result[q], result[p], stack)
    result = [note_narrow(one, stack) for one in result]
    for low, high in pairwise(result):
        gap = least_offset(low.lines, high.lines)
        if gap is not None and gap < stack.offset_at_rip:
            raise Conflict("ply_offset_at_rip", (low.band.ply, high.band.ply), gap, "the top course is ripped")
    return result


def make_room(one: Lines, ripped: Lines, stack: Stack) -> Lines:
    """Move the line next under a lowered top line half-way between that line and the one below it."""
    if len(ripped.lines) < 2 or not one.lines:
        return one
    low, high = ripped.lines[-2], ripped.lines[-1]
    k = next((k for k, line in enumerate(one.lines) if low < line), None)
    if k is None or (one.band.ply == "cap" and k == 0):
        return one
    aim = (low + high) // 2
    below = one.lines[k - 1] if k else one.band.begins
    width = (aim - below + one.band.lap) // stack.grid * stack.grid
    line = below + width - one.band.lap
    if line >= one.lines[k] or (one.band.ends - line > one.band.width and k == len(one.lines) - 1):
        return one
    return replace(one, lines=(*one.lines[:k], line, *one.lines[k + 1 :]), exceptions=("offset_at_rip",))
