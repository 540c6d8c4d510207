"""Course lines of the plies of one area: where each course begins and ends up the fall.

*Lap line*: the exposed edge of a side lap, that is the low edge of the second course and of each after it.
The cap's first course is a full sheet, so its lap lines follow from where it begins.  Each ply below gets
the starter whose lap lines stay farthest from those of the ply over it, at every course.  Where no starters
keep the offset, as with sheets of different pitch, courses are ripped, as few as can be (`restore`); where the
top course would be narrower than `narrowest_rip`, courses below it are (`narrowtop`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from lapwright.layout.laplines import Band, Conflict, Lines, Stack, lap_lines, least_offset, margin
from lapwright.layout.narrowtop import beside_rip, is_narrow, least_rips, note_narrow, with_play
from lapwright.layout.restore import Restored, drifting, greatest_offset, greatest_rip, restore
from lapwright.layout.starters import choose_starter, rank_starters

__all__ = ["Band", "Conflict", "Lines", "Stack", "lap_lines", "least_offset", "line_options", "plan_lines"]


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
    best: Sequence[Lines] | None = with_play(planned, stack)
    least = least_rips(planned, stack)
    for other in _other_starters(planned, stack):
        if best is not None and _rips(best) <= least:
            return best
        tried = _widened(other, stack)
        if tried is not None and not any(one.exceptions for one in tried):
            best = tried if best is None or _rips(tried) < _rips(best) else best
    restored = restore([one.band for one in planned], stack, most=None if best is None else _rips(best) - 1)
    if restored is not None:
        return [note_narrow(one, stack) for one in restored.lines]
    return best if best is not None else _beside(planned, stack)


def _beside(planned: Sequence[Lines], stack: Stack) -> Sequence[Lines]:
    """Closer beside the ripped top course.

    Raises: Conflict where even `offset_at_rip` can't be kept, with what would need no exception.
    """
    bands = [one.band for one in planned]
    try:
        laid = beside_rip(planned, stack)
    except Conflict as found:
        others = (("ply_offset", greatest_offset(bands, stack)), ("narrowest_rip", greatest_rip(bands, stack)))
        kept = tuple((rule, value) for rule, value in others if value)
        raise Conflict(found.rule, found.plies, found.greatest, found.why, kept) from None
    shown = [high - low for one in laid for low, high in pairwise((one.band.begins, *one.lines))]
    if any(each < stack.rip for each in shown):
        raise _no_way(bands, stack)
    return laid


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
    if loose is not None:
        return _beside(loose.lines, stack)
    raise _no_way(bands, stack)


def _no_way(bands: Sequence[Band], stack: Stack) -> Conflict:
    """What can't be met, and how far each rule would have to give way."""
    greatest = greatest_offset(bands, stack)
    rip = greatest_rip(bands, stack)
    plies = tuple(band.ply for band in bands)
    why = "with whatever starters and ripped courses, their side laps come closer somewhere on the way up"
    if greatest == 0:
        return Conflict("narrowest_rip", plies, rip, "whatever the starters, a course gets narrower")
    return Conflict("ply_offset", plies, greatest, why, (("narrowest_rip", rip),) if rip else ())
