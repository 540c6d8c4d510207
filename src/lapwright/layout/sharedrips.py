"""Course lines on which courses of a ply share the width they are ripped to, so that fewer widths have to be set.

*Different widths*: those of a ply's courses, the full sheet not counted.  A top course is as wide as what is left, so a
course below it that is ripped to that width too needs no setting of its own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import accumulate, combinations, pairwise

from lapwright.layout.laplines import Band, Lines, Stack, least_offset

AT_RIP = "offset_at_rip"

MOST_COURSES = 13  # courses of a ply up to which shared widths are looked for
SHARED = 2  # courses below the top one that take its width, at most
BRANCHES = 12  # ways of a ply that are gone on with
FOUND = 3  # choices of lines told


def sharing(own: Sequence[Lines], stack: Stack) -> list[tuple[Lines, ...]]:
    """Lines with fewer different widths than an area's own, every offset and width kept; the fewest first, a few.

    Plies come closer beside a ripped top course only where the area's own lines have to.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_sharedrips.py, tests/reference
    """
    if any(len(one.lines) >= MOST_COURSES for one in own):
        return []
    is_eased = any(AT_RIP in one.exceptions for one in own)
    bare = [without(one) for one in own]
    eased = stack if is_eased else replace(stack, offset_at_rip=stack.offset)
    found = list(downwards(bare, eased, len(own) - 1, (), sum(map(widths, own)) - 1))
    found.sort(key=lambda lines: sum(map(widths, lines)))
    return [noted(lines, stack) for k, lines in enumerate(found) if lines not in found[:k]][:FOUND]


def without(one: Lines) -> Lines:
    """Lines of which it is not told that they come closer."""
    return replace(one, exceptions=tuple(word for word in one.exceptions if word != AT_RIP))


def noted(lines: tuple[Lines, ...], stack: Stack) -> tuple[Lines, ...]:
    """Lines of which it is told where two plies come closer."""
    near = set()
    for p, (low, high) in enumerate(pairwise(lines)):
        gap = least_offset(low.lines, high.lines)
        near |= {p, p + 1} if gap is not None and gap < stack.offset else set()
    return tuple(
        replace(one, exceptions=(*one.exceptions, AT_RIP)) if p in near else one for p, one in enumerate(lines)
    )


def widths(one: Lines) -> int:
    """Different widths of a ply's courses, the full sheet not counted.  Source: arithmetic"""
    return len({course.high - course.low for course in one.courses()} - {one.band.width})


def downwards(
    own: Sequence[Lines], stack: Stack, p: int, over: tuple[Lines, ...], most: int
) -> Iterator[tuple[Lines, ...]]:
    """Lines of a ply and those below it, under those of the plies over it, with so many different widths at most."""
    if p < 0:
        yield over
        return
    ways = [one for one in ways_of(own[p], stack, most - p, is_cap=p == len(own) - 1) if clears(one, over, stack)]
    for one in sorted(ways, key=lambda one: (widths(one), -nearest(one, over)))[:BRANCHES]:
        yield from downwards(own, stack, p - 1, (one, *over), most - widths(one))


def ways_of(own: Lines, stack: Stack, most: int, *, is_cap: bool) -> Iterator[Lines]:
    """A ply's own lines and others of few different widths; the cap's first course is a full sheet."""
    if widths(own) <= most:
        yield own
    band, depth = own.band, own.band.ends - own.band.begins
    fewest = max(1, -(-(depth - band.lap) // band.pitch))
    for count in {fewest, len(own.lines) + 1}:
        first = 1 if is_cap else 0
        below = range(first, count - 1)
        sets = [ripped for many in range(SHARED + 1) for ripped in combinations(below, many)]
        for ripped in sets:
            yield from as_the_top(band, stack, count, ripped)
            yield from under_a_full_top(band, stack, count, ripped)
        for ripped in sets if most > 1 and not is_cap else ():
            if len(ripped) == 1 or (len(ripped) == SHARED and ripped[0] == 0):
                yield from to_one_width(band, stack, count, ripped)


def as_the_top(band: Band, stack: Stack, count: int, ripped: Sequence[int]) -> Iterator[Lines]:
    """Lines of so many courses, some below ripped to the width of the top one."""
    many = len(ripped) + 1
    width, rest = divmod(band.ends - band.begins - (count - many) * band.pitch + (many - 1) * band.lap, many)
    on_grid = not rest and (not ripped or width % stack.grid == 0)
    if on_grid and stack.rip + (band.lap if ripped else 0) <= width <= band.width:
        yield as_lines(band, count, ripped, width)


def under_a_full_top(band: Band, stack: Stack, count: int, ripped: Sequence[int]) -> Iterator[Lines]:
    """Lines of so many courses, the top one a full sheet, some below ripped to one width."""
    left = band.ends - band.begins - band.width - (count - 1 - len(ripped)) * band.pitch
    shown, rest = divmod(left, len(ripped)) if ripped else (0, 1)
    if not rest and stack.rip <= shown < band.pitch and (shown + band.lap) % stack.grid == 0:
        yield as_lines(band, count, ripped, shown + band.lap)


def to_one_width(band: Band, stack: Stack, count: int, ripped: Sequence[int]) -> Iterator[Lines]:
    """Lines of so many courses, some below the top one ripped to one width, whichever leaves the top wide enough."""
    least = -(-(stack.rip + band.lap) // stack.grid) * stack.grid
    left = band.ends - band.begins - (count - 1 - len(ripped)) * band.pitch
    for width in range(least, band.width, stack.grid):
        if stack.rip <= left - len(ripped) * (width - band.lap) <= band.width:
            yield as_lines(band, count, ripped, width)


def as_lines(band: Band, count: int, ripped: Sequence[int], width: int) -> Lines:
    """The lines of courses that are full but for some of one width and the top one."""
    shown = [width - band.lap if k in ripped else band.pitch for k in range(count - 1)]
    lines = tuple(accumulate(shown, initial=band.begins))[1:]
    starter = band.ends - band.begins if not lines else shown[0] + band.lap
    return Lines(band, starter, lines)


def clears(one: Lines, over: Sequence[Lines], stack: Stack) -> bool:
    """A ply's lines keep the offset to those of the ply over it, the lesser one beside a ripped top course."""
    if not over or not one.lines or not over[0].lines:
        return True
    lines, others = one.lines, over[0].lines
    mine, its = [*rip_of(one), *next_to(lines, rip_of(over[0]))], [*rip_of(over[0]), *next_to(others, rip_of(one))]
    for line in lines:
        for other in others:
            gap = abs(line - other)
            if gap < stack.offset_at_rip or (gap < stack.offset and line not in mine and other not in its):
                return False
    return True


def rip_of(one: Lines) -> list[int]:
    """The line of a top course over one that is ripped and not the first."""
    lines = one.lines
    return [lines[-1]] if len(lines) > 1 and lines[-1] - lines[-2] < one.band.pitch else []


def next_to(lines: Sequence[int], rips: Sequence[int]) -> list[int]:
    """The line that lies next to a rip of the other ply; none where two are as near as one another."""
    found = []
    for rip in rips:
        near = sorted(lines, key=lambda line: abs(line - rip))
        if len(near) == 1 or abs(near[0] - rip) < abs(near[1] - rip):
            found.append(near[0])
    return found


def nearest(one: Lines, over: Sequence[Lines]) -> int:
    """Least distance of a ply's lines to those of the ply over it; the pitch where there are none.

    Source: arithmetic
    """
    gap = least_offset(one.lines, over[0].lines) if over else None
    return one.band.pitch if gap is None else gap
