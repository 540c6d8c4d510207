"""Course lines of the plies of one area: where each course begins and ends up the fall.

*Lap line*: the exposed edge of a side lap, that is the low edge of the second course and of each after it.
The cap's first course is a full sheet, so its lap lines follow from where it begins.  Each ply below gets
the starter whose lap lines stay farthest from those of the ply over it, at every course.  Where no starters
keep the offset, as with sheets of different pitch, courses are ripped, as few as can be (`restore`); where the
top course would be narrower than `narrowest_rip`, courses below it are (`narrowtop`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from lapwright.layout.atrip import come_closer
from lapwright.layout.laplines import Band, Conflict, Lines, Stack, lap_lines, least_offset, margin
from lapwright.layout.narrowtop import is_narrow, least_rips, note_narrow, with_play
from lapwright.layout.restore import Restored, drifting, greatest_offset, greatest_rip, restore
from lapwright.layout.starters import choose_starter, rank_starters

__all__ = ["Band", "Conflict", "Lines", "Stack", "lap_lines", "least_offset", "line_options", "plan_lines"]

SHORT = 7  # lap lines of all plies on a slope where every way beside a ripped top course is tried
WHY_OFFSET = "with whatever starters and ripped courses, their side laps come closer somewhere on the way up"
WINDOWS = (3, 2)  # lap lines of each ply that are sought again at the top of a longer one


def plan_lines(bands: Sequence[Band], stack: Stack) -> tuple[Lines, ...]:
    """Lap lines of every ply of an area, bottom first: the first of `line_options`.

    Raises: Conflict where the rules can't be met together, with the greatest offset that can.
    Source: common practice, no source (full first cap course; offset at every course); method of our own.
    Checked: tests/layout/test_courses.py, tests/layout/test_rips.py
    """
    return next(_options(bands, stack))


def line_options(bands: Sequence[Band], stack: Stack, most: int = 4) -> list[tuple[Lines, ...]]:
    """Lap lines that keep the rules, each as plan_lines gives them, the greatest margin first; none twice.

    The first is that of plan_lines; others begin the lower plies with another width, spread over all that keep the
    offset, and have neither more exceptions nor more ripped courses than the first.
    Raises: Conflict as plan_lines.
    Source: method of our own, docs/method/layout.md
    """
    found: list[tuple[Lines, ...]] = []
    for lines in _options(bands, stack):
        if all(lines != other for other in found):
            found.append(lines)
        if len(found) == most:
            break
    return [found[0], *sorted(found[1:], key=lambda lines: -margin(lines))]


def _options(bands: Sequence[Band], stack: Stack) -> Iterator[tuple[Lines, ...]]:
    """Choices of lines, the best first."""
    planned = _full_courses(bands, stack)
    if planned is None:
        yield tuple(_ripped(bands, stack))
        return
    best = widen_top(planned, stack)
    yield tuple(best)
    given = _given_up(best)
    for other in _other_starters(planned, stack):
        widened = _widened(other, stack)
        if widened is not None and _given_up(widened) <= given:
            yield tuple(widened)


def _given_up(lines: Sequence[Lines]) -> tuple[int, int]:
    """What a choice costs: exceptions, ripped courses."""
    return (sum(len(one.exceptions) for one in lines), sum(one.ripped for one in lines))


def _thirds(bands: Sequence[Band], stack: Stack) -> bool:
    """Three plies have room for a third of the pitch between each pair."""
    return len(bands) > 2 and 3 * stack.offset <= min(band.pitch for band in bands)


def _full_courses(bands: Sequence[Band], stack: Stack) -> list[Lines] | None:
    """Full courses above a starter in every ply; None where no starters keep the offset."""
    top = bands[-1]
    planned = [Lines(top, min(top.width, top.ends - top.begins), lap_lines(top, top.width))]
    for band in reversed(bands[:-1]):
        try:
            over = [line.lines for line in planned]
            planned.insert(0, choose_starter(band, over, stack, thirds=_thirds(bands, stack)))
        except Conflict:
            return None
    return planned


def _other_starters(planned: Sequence[Lines], stack: Stack) -> Iterator[list[Lines]]:
    """The plan with another starter in one of the lower plies: the ends of its range first, then between them."""
    bands = [one.band for one in planned]
    for p in reversed(range(len(planned) - 1)):
        over = [one.lines for one in planned[p + 1 :]]
        ranked = rank_starters(bands[p], over, stack, thirds=False)
        ranked = [one for one in ranked if not is_narrow(one, stack)] or ranked
        ranked.sort(key=lambda one: one.starter)
        for part in (0, 8, 4, 2, 6, 1, 7, 3, 5):
            chosen = ranked[(len(ranked) - 1) * part // 8]
            below = planned[p - 1] if p else None
            gap = least_offset(below.lines, chosen.lines) if below else None
            if chosen.starter != planned[p].starter and (gap is None or gap >= stack.offset):
                yield [*planned[:p], chosen, *planned[p + 1 :]]


def widen_top(planned: Sequence[Lines], stack: Stack) -> Sequence[Lines]:
    """Rip courses below a top course that would be too narrow, as few as can be.

    Raises: Conflict where even `offset_at_rip` can't be kept.
    """
    if not any(is_narrow(one, stack) for one in planned):
        return [note_narrow(one, stack) for one in planned]
    bands = [one.band for one in planned]
    best: Sequence[Lines] | None = with_play(planned, stack)
    least = least_rips(planned, stack)
    for other in _other_starters(planned, stack):
        if best is not None and _rips(best) <= least:
            return best
        tried = _widened(other, stack)
        if tried is not None and not any(one.exceptions for one in tried):
            best = tried if best is None or _rips(tried) < _rips(best) else best
    restored = restore(bands, stack, most=None if best is None else _rips(best) - 1)
    if restored is not None:
        return [note_narrow(one, stack) for one in restored.lines]
    return best if best is not None else _beside(bands, stack, planned)


def _beside(bands: Sequence[Band], stack: Stack, laid: Sequence[Lines] | None) -> Sequence[Lines]:
    """Closer beside a ripped top course: every way on a short slope, else the courses at the top of `laid`.

    Raises: Conflict where even `offset_at_rip` can't be kept, with what would need no exception.
    """
    tops = list(_tops(bands, laid))
    for given in tops:
        found = come_closer(bands, given, stack)
        if found.lines is not None:
            return [note_narrow(one, stack) for one in found.lines]
        if found.is_whole and not any(given):
            break
    nearest = max((come_closer(bands, given, stack, greatest=True).offset for given in tops[:1]), default=0)
    raise _no_way(bands, stack, nearest)


def _tops(bands: Sequence[Band], laid: Sequence[Lines] | None) -> Iterator[list[tuple[int, ...]]]:
    """Lines to be kept while those above them are sought: none on a short slope, then all but a few."""
    if sum(len(lap_lines(band, band.width)) for band in bands) <= SHORT:
        yield [() for _ in bands]
    for window in WINDOWS if laid is not None else ():
        yield [one.lines[: max(0, len(one.lines) - window)] for one in laid or ()]


def _rips(lines: Sequence[Lines]) -> int:
    return sum(one.ripped for one in lines)


def _widened(planned: Sequence[Lines], stack: Stack) -> Sequence[Lines] | None:
    """The plan with wide enough top courses and every offset kept, or None."""
    if not any(is_narrow(one, stack) for one in planned):
        return [note_narrow(one, stack) for one in planned]
    return with_play(planned, stack)


def _ripped(bands: Sequence[Band], stack: Stack) -> Sequence[Lines]:
    """Courses ripped on the way up, where no starters keep the offset."""
    restored: Restored | None = restore(bands, stack)
    if restored is not None:
        return [note_narrow(one, stack) for one in restored.lines]
    loose = drifting(bands, stack)
    return _beside(bands, stack, None if loose is None else loose.lines)


def _no_way(bands: Sequence[Band], stack: Stack, nearest: int) -> Conflict:
    """What can't be met, and how far each rule would have to give way alone: the one that gives least comes first.

    nearest: the greatest `offset_at_rip` that can be met.
    """
    ways = [
        ("ply_offset", stack.offset, greatest_offset(bands, stack), WHY_OFFSET),
        ("ply_offset_at_rip", stack.offset_at_rip, nearest, "the top course is ripped"),
        ("narrowest_rip", stack.rip, greatest_rip(bands, stack), "whatever the starters, a course gets narrower"),
    ]
    ways = [way for way in ways if way[2]] or ways[-1:]
    rule, _, value, why = max(ways, key=lambda way: Fraction(way[2], way[1]))
    others = tuple((other, most) for other, _, most, _ in ways if other != rule)
    return Conflict(rule, tuple(band.ply for band in bands), value, why, others)
