"""Course lines on which the plies under the cap are laid of whole sheets: what a course would be ripped by, the next
one laps it wider, so that no width is set but the top one's.

Side laps under the cap may be wider than asked, since no granules lie in them; a lap as wide as half a sheet takes
no more of the sheet than the strip ripped off would.  What is ripped off can serve details, what is lapped can't.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import combinations, pairwise, product

from lapwright.layout.laplines import Band, Lines, Stack
from lapwright.layout.pieces import overlapping
from lapwright.layout.sharedrips import as_the_top, clears, eased_by, fewest_of, noted, rip_of, widths, without

FOUND = 6  # choices of lines told
MOST_SETS = 120  # sets of cap courses that take the top one's width
CLOSER = (None, 0, 1)  # which line from the top may come closer beside a ripped top course of the ply over it


def whole_sheets(own: Sequence[Lines], others: Iterable[Sequence[Lines]], stack: Stack) -> list[tuple[Lines, ...]]:
    """Lines with whole sheets under the cap, every offset kept; those of the fewest widths, then courses, a few.

    Plies come closer beside a ripped top course only where the area's own lines have to.
    own: the area's own lines.  others: further lines that may be laid so, or whose cap others may lie under.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_wholesheets.py, tests/reference
    """
    eased = eased_by(own, stack)
    known = [tuple(map(without, lines)) for lines in (own, *others)]
    made = [lines for each in known for lines in as_they_lie(each, eased)]
    for cap in dict.fromkeys((*(lines[-1] for lines in known), *caps_of(known[0][-1], stack))):
        for is_full in product((True, False), repeat=len(own) - 1):
            lines = under(cap, [one.band for one in own[:-1]], is_full, eased)
            if lines is not None:
                made.append(lines)
    made.sort(key=lambda lines: (sum(map(widths, lines)), sum(len(one.lines) for one in lines)))
    return [noted(lines, stack) for lines in dict.fromkeys(made)][:FOUND]


def as_they_lie(lines: Sequence[Lines], stack: Stack) -> Iterator[tuple[Lines, ...]]:
    """Lines as they are, plies under the cap of whole sheets; the offset is kept without what is ripped there.

    Of some all sheets but the top one are whole, or all but the two on top, where plies come closer beside a rip.
    """
    ways = [dict.fromkeys((one, all_whole(one), with_whole(one, range(1, len(one.lines))))) for one in lines[:-1]]
    for below in product(*ways):
        laid = (*below, lines[-1])
        if laid != tuple(lines) and all(clears(low, (high,), stack) for low, high in pairwise(laid)):
            yield laid


def all_whole(one: Lines) -> Lines:
    """Lines with every sheet whole but the top one."""
    return with_whole(one, range(1, len(one.lines) + 1))


def with_whole(one: Lines, courses: Iterable[int]) -> Lines:
    """Lines with further courses of whole sheets, given by their indices."""
    whole = one.whole | frozenset(courses)
    return replace(one, whole=whole, starter=one.band.width if 1 in whole else one.starter)


def caps_of(own: Lines, stack: Stack) -> Iterator[Lines]:
    """Lines of the cap on which one or two of its courses, but the first, are as wide as the top one, or none is."""
    count = len(own.lines) + 1
    below = range(1, count - 1)
    sets = [(), *((k,) for k in below), *combinations(reversed(below), 2)]
    for fewer in {fewest_of(own.band), count}:
        for ripped in sets[:MOST_SETS]:
            if not ripped or max(ripped) < fewer - 1:
                yield from as_the_top(own.band, stack, fewer, sorted(ripped))


def under(cap: Lines, below: Sequence[Band], is_full: Sequence[bool], stack: Stack) -> tuple[Lines, ...] | None:
    """The plies under a cap, each with a whole sheet at the top or one that is ripped there; None where one has none.

    below: bands of the plies under the cap, bottom first.
    """
    laid = [cap]
    for band, full in zip(reversed(below), reversed(is_full), strict=True):
        for closer in CLOSER if rip_of(laid[0]) and stack.offset_at_rip < stack.offset else (None,):
            lines = lowest_lines(band, laid[0], stack, full=full, closer=closer)
            if lines is not None:
                break
        else:
            return None
        laid.insert(0, lines)
    return tuple(laid)


def lowest_lines(band: Band, over: Lines, stack: Stack, *, full: bool, closer: int | None = None) -> Lines | None:
    """Lines of whole sheets, each as low as the sheet above it reaches and the offset lets it; None where none do.

    A line lower down lets the one below it lie lower too, so the lowest lines make the fewest courses.
    over: the ply over it.  full: the top sheet is whole as well.  closer: which line from the top lies next to the low
    edge of a ripped top course of the ply over it, if one does.
    """
    top, least = band.ends - band.width, band.begins + stack.rip
    if top <= band.begins:
        return None
    farther = farther_than_next(over, stack) if closer == 1 else top
    found = [top if full else clear_of(over, band, max(top, least, farther), stack, is_closer=closer == 0)]
    while found[0] > band.begins + band.pitch:
        line = max(found[0] - band.pitch, least)
        found.insert(0, clear_of(over, band, line, stack, is_closer=closer == len(found)))
        if found[0] > found[1] - stack.rip:
            return None
    one = all_whole(Lines(band, band.width, tuple(found)))
    is_wide = found[0] >= least and found[-1] <= band.ends - stack.rip
    return one if is_wide and clears(one, (over,), stack) else None


def farther_than_next(over: Lines, stack: Stack) -> int:
    """Where a top line lies at least that leaves the one below it next to a ripped top line of the ply over it.

    That one lies as low as the lesser offset to the line below the rip lets it.
    """
    return 2 * over.lines[-1] - (over.lines[-2] + stack.offset_at_rip) + stack.grid


def clear_of(over: Lines, band: Band, line: int, stack: Stack, *, is_closer: bool) -> int:
    """The lowest place of a line at or above one asked that keeps the offset to those of the ply over it.

    Places are whole steps from the low edge, as a tape reads them.
    """
    rips = rip_of(over)
    while True:
        line += (band.begins - line) % stack.grid
        for other in over.lines[max(0, bisect_right(over.lines, line - stack.offset)) :]:
            offset = stack.offset_at_rip if is_closer or other in rips else stack.offset
            if abs(line - other) < offset:
                line = other + offset
                break
            if other >= line + stack.offset:
                return line
        else:
            return line


def unripped(
    lines: Sequence[Lines], joints: Sequence[Mapping[int, Sequence[int]]], stack: Stack, apart: int
) -> tuple[Lines, ...]:
    """Lines with those courses under the cap whole whose end laps allow it, width by width, where that spares a width.

    joints: by ply and course, where end laps begin.  apart: what end laps of courses that lie on one another keep.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_wholesheets.py
    """
    laid = list(lines)
    eased = eased_by(lines, stack)
    for p, one in enumerate(lines[:-1]):
        for width in sorted({course.high - course.low for course in one.courses()[:-1]} - {one.band.width}):
            same = [course.index for course in laid[p].courses()[:-1] if course.high - course.low == width]
            tried = [*laid[:p], with_whole(laid[p], same), *laid[p + 1 :]]
            is_clear = all(clears(low, (high,), eased) for low, high in pairwise(map(without, tried)))
            if is_clear and widths(tried[p]) < widths(laid[p]) and keeps_joints(tried, p, same, joints, apart):
                laid = tried
    return tuple(laid)


def keeps_joints(
    lines: Sequence[Lines], p: int, whole: Iterable[int], joints: Sequence[Mapping[int, Sequence[int]]], apart: int
) -> bool:
    """End laps of some courses of a ply keep their distance to those of all that lie over or under them."""
    courses = lines[p].courses()
    for near in (p - 1, p + 1):
        if 0 <= near < len(lines):
            others = lines[near].courses()
            for index in whole:
                for other in overlapping(courses[index - 1], others):
                    pairs = product(joints[p].get(index, ()), joints[near].get(other, ()))
                    if any(abs(one - two) < apart for one, two in pairs):
                        return False
    return True
