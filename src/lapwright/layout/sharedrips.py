"""Course lines on which courses of a ply share the width they are ripped to, so that fewer widths have to be set; and
lines with other numbers of courses, where one more of a cheap sheet spares one of a dear one.

*Different widths*: those of a ply's courses, the full sheet not counted.  A top course is as wide as what is left, so a
course below it that is ripped to that width too needs no setting of its own.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import accumulate, combinations, pairwise, product

from lapwright.layout.laplines import Band, Lines, Stack, least_offset

AT_RIP = "offset_at_rip"

MOST_COURSES = 13  # courses of a ply up to which shared widths are looked for
SHARED = 2  # courses below the top one that take its width, at most
BRANCHES = 12  # ways of a ply that are gone on with
FOUND = 3  # choices of lines told
MOST_OTHER = 5  # courses of a ply up to which other numbers of courses are looked for
OTHERS = 4  # choices of lines told for each of them


def sharing(own: Sequence[Lines], stack: Stack) -> list[tuple[Lines, ...]]:
    """Lines with fewer different widths than an area's own, every offset and width kept; the fewest first, a few.

    Plies come closer beside a ripped top course only where the area's own lines have to.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_sharedrips.py, tests/reference
    """
    if any(len(one.lines) >= MOST_COURSES for one in own):
        return []
    counts = [(fewest_of(one.band), len(one.lines) + 1) for one in own]
    found = list(downwards([without(one) for one in own], eased_by(own, stack), counts, (), sum(map(widths, own)) - 1))
    found.sort(key=lambda lines: sum(map(widths, lines)))
    return [noted(lines, stack) for k, lines in enumerate(found) if lines not in found[:k]][:FOUND]


def other_counts(own: Sequence[Lines], stack: Stack) -> list[tuple[Lines, ...]]:
    """Lines with fewer courses in some ply than an area's own, where that is to be had, for one more in others.

    Of all numbers of courses that go together some lines of fewest different widths, at most one more than the own.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_sharedrips.py, tests/reference
    """
    fewest = [fewest_of(one.band) for one in own]
    have = tuple(len(one.lines) + 1 for one in own)
    if max(have) > MOST_OTHER or not any(n > least for n, least in zip(have, fewest, strict=True)):
        return []
    eased, bare, most = eased_by(own, stack), [without(one) for one in own], sum(map(widths, own)) + 1
    found = []
    for counts in product(*((least, least + 1) for least in fewest)):
        if any(n < h for n, h in zip(counts, have, strict=True)):
            made = sorted(
                downwards(bare, eased, [(n,) for n in counts], (), most), key=lambda each: sum(map(widths, each))
            )
            found += made[:OTHERS]
    return [noted(lines, stack) for lines in found]


def eased_by(own: Sequence[Lines], stack: Stack) -> Stack:
    """The rules, with the whole offset beside a rip too where the area's own lines keep it."""
    is_eased = any(AT_RIP in one.exceptions for one in own)
    return stack if is_eased else replace(stack, offset_at_rip=stack.offset)


def fewest_of(band: Band) -> int:
    """Courses that a ply has at least.  Source: arithmetic"""
    return max(1, -(-(band.ends - band.begins - band.lap) // band.pitch))


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
    own: Sequence[Lines], stack: Stack, counts: Sequence[Sequence[int]], over: tuple[Lines, ...], most: int
) -> Iterator[tuple[Lines, ...]]:
    """Lines of the plies under those given over them, with so many different widths at most.

    counts: numbers of courses looked at, of each ply.
    """
    p = len(own) - len(over) - 1
    if p < 0:
        yield over
        return
    made = ways_of(own[p], stack, counts[p], most - p, is_cap=not over)
    ways = [one for one in made if clears(one, over, stack)]
    ways.sort(key=lambda one: (widths(one), -nearest(one, over)))
    for one in spread(ways, over)[:BRANCHES]:
        yield from downwards(own, stack, counts, (one, *over), most - widths(one))


def spread(ways: Sequence[Lines], over: Sequence[Lines]) -> list[Lines]:
    """Ways of a ply, those first that are the first of an order of both plies' lines."""
    seen: dict[tuple[int, ...], int] = {}
    ranks = []
    for one in ways:
        order = (len(one.lines), *(bisect_left(one.lines, line) for line in (over[0].lines if over else ())))
        seen[order] = rank = seen.get(order, -1) + 1
        ranks.append(rank)
    return [ways[k] for k in sorted(range(len(ways)), key=lambda k: min(ranks[k], 1))]


def ways_of(own: Lines, stack: Stack, counts: Sequence[int], most: int, *, is_cap: bool) -> Iterator[Lines]:
    """A ply's own lines and others of few different widths; the cap's first course is a full sheet."""
    if widths(own) <= most and len(own.lines) + 1 in counts:
        yield own
    for count in dict.fromkeys(counts):
        first = 1 if is_cap else 0
        below = range(first, count - 1)
        sets = [ripped for many in range(SHARED + 1) for ripped in combinations(below, many)]
        for ripped in sets:
            yield from as_the_top(own.band, stack, count, ripped)
            yield from under_a_full_top(own.band, stack, count, ripped)
        if most > 1 and not is_cap:
            for ripped in sets:
                if len(ripped) == 1 or (len(ripped) == SHARED and ripped[0] == 0):
                    yield from to_one_width(own.band, stack, count, ripped)
            for other in range(1, count - 1):
                yield from starter_as_the_top(own.band, stack, count, other)


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


def starter_as_the_top(band: Band, stack: Stack, count: int, other: int) -> Iterator[Lines]:
    """Lines of so many courses, the first and the top one of one width, another one taking the rest."""
    least = -(-(stack.rip + band.lap) // stack.grid) * stack.grid
    left = band.ends - band.begins - (count - 3) * band.pitch
    for width in range(least, band.width, stack.grid):
        shown = left - 2 * width + band.lap
        if stack.rip <= shown < band.pitch and (shown + band.lap) % stack.grid == 0:
            one = as_lines(band, count, (0,), width)
            lines = tuple(line - (band.pitch - shown if k >= other else 0) for k, line in enumerate(one.lines))
            yield replace(one, lines=lines)


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
    is_ripped = len(lines) > 1 and len(lines) not in one.whole
    return [lines[-1]] if is_ripped and lines[-1] - lines[-2] < one.band.pitch else []


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
