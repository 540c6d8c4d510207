"""Rules about side laps: as wide as the sheet asks, and clear of those of the ply under them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from lapwright.rulecheck.beside import is_beside_another
from lapwright.rulecheck.lie import Lying, PlyLie
from lapwright.rulecheck.values import Violation


@dataclass(frozen=True, slots=True)
class LapLine:
    """The exposed edges of one side-lap line: the course above it, its place up the fall, is it at a rip."""

    course: int
    v: float
    is_rip: bool


def side_lap_violations(lie: PlyLie) -> Iterator[Violation]:
    """Neighbouring courses that lie on one another too little; one violation for each pair of courses.

    Source: docs/method/rulecheck.md
    """
    for one, two in pairwise(sorted(lie.rows)):
        if two != one + 1:
            continue
        short = [
            (low, high)
            for low in _reaching(lie, one, to_high=True)
            for high in _reaching(lie, two, to_high=False)
            if _share(low, high) > lie.limits.gap and low.v1 - high.v0 < lie.side_lap - lie.limits.close
        ]
        if short:
            low, high = min(short, key=lambda pair: pair[0].v1 - pair[1].v0)
            ids = dict.fromkeys(piece.id for pair in short for piece in pair)
            text = (
                f"The {lie.name}: course {two} lies {{read}} on course {one}, needs {{needs}}; "
                f"lower course {two} or rip it wider."
            )
            where = (max(low.u0, high.u0) + _share(low, high) / 2, high.v0)
            yield lie.found("side_lap", list(ids), where, text, read=max(0.0, low.v1 - high.v0), needs=lie.side_lap)


def wide_lap_violations(lie: PlyLie) -> Iterator[Violation]:
    """Courses of the cap that lie on one another by more than the side lap: there are granules in the lap.

    A cap of another surfacing may lap wider, as the plies under it may.
    Source: docs/method/rulecheck.md
    """
    for one, two in pairwise(lie.courses) if lie.is_cap and lie.sheet.is_granular else ():
        wide = min(one.high, one.low + lie.width) - two.low
        if wide > lie.side_lap + lie.limits.gap:
            row = lie.rows.get(two.index, ())
            text = (
                f"The {lie.name}: course {two.index} lies {{read}} on course {one.index}, on its granules, and laps "
                f"{{needs}}; raise it, or rip course {one.index} at its low edge."
            )
            where = (row[0].u0, two.low) if row else None
            yield lie.found("side_lap", [piece.id for piece in row], where, text, read=wide, needs=lie.side_lap)


def ply_offset_violations(lie: PlyLie, under: PlyLie) -> Iterator[Violation]:
    """Side laps that come too close to one of the ply under them, at any course.

    Beside a ripped top course `ply_offset_at_rip` holds: for its low edge against every line of the other ply, and for
    the line of the other ply that lies next to it; two as near as each other both lie next to it.
    Source: docs/method/rulecheck.md
    """
    limits = lie.limits
    over_lines, under_lines = lap_lines(lie), lap_lines(under)
    at_rip_over = _beside(over_lines, under_lines, limits.close)
    at_rip_under = _beside(under_lines, over_lines, limits.close)
    for line in over_lines:
        for other in under_lines:
            apart = abs(line.v - other.v)
            is_at_rip = line in at_rip_over or other in at_rip_under
            needs = limits.ply_offset_at_rip if is_at_rip else limits.ply_offset
            if apart < needs - limits.close:
                rule = "ply_offset_at_rip" if is_at_rip else "ply_offset"
                text = (
                    f"The {lie.name}: side lap {line.course} is {{read}} from side lap {other.course} "
                    f"of the {under.ply.ply}, needs {{needs}}; begin the {under.ply.ply} with another width."
                )
                row = lie.rows.get(line.course, ())
                where = (row[0].u0, line.v) if row else None
                yield lie.found(rule, [piece.id for piece in row], where, text, read=apart, needs=needs)


def lap_lines(lie: PlyLie) -> tuple[LapLine, ...]:
    """The side-lap lines of a ply, from the low edge.

    Source: docs/method/rulecheck.md
    """
    lines = []
    for below, course in pairwise(lie.courses):
        is_top = course is lie.courses[-1]
        is_ripped = below.high - below.low < lie.width - lie.limits.close
        lines.append(LapLine(course.index, course.low, is_top and is_ripped and below is not lie.courses[0]))
    return tuple(lines)


def _beside(lines: Sequence[LapLine], others: Sequence[LapLine], close: float) -> tuple[LapLine, ...]:
    """Lines at a rip: those that are one, and of each rip in the other ply the line next to it, both where two are."""
    found = [line for line in lines if line.is_rip]
    for rip in others:
        if rip.is_rip and lines:
            nearest = min(abs(line.v - rip.v) for line in lines)
            found += [line for line in lines if abs(line.v - rip.v) <= nearest + close]
    return tuple(found)


def _reaching(lie: PlyLie, course: int, *, to_high: bool) -> list[Lying]:
    """The pieces of a course but for those that another piece of it lies above, or below.

    Where two lie over the same stretch, one above the other, only the one at the edge meets the next course.
    """
    row, close = lie.rows[course], lie.limits.close
    if to_high:
        edge = max(one.v1 for one in row)
        return [one for one in row if one.v1 >= edge - close or not is_beside_another(lie, one, above=True)]
    edge = min(one.v0 for one in row)
    return [one for one in row if one.v0 <= edge + close or not is_beside_another(lie, one, above=False)]


def _share(one: Lying, two: Lying) -> float:
    """How far two pieces lie side by side across the fall."""
    return min(one.u1, two.u1) - max(one.u0, two.u0)
