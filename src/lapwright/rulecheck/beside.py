"""Pieces of one course above one another: past an opening askew, or where a bite leaves strips on either side."""

from __future__ import annotations

from shapely import MultiPolygon, box
from shapely.geometry.base import BaseGeometry as Shape

from lapwright.rulecheck.lie import Lying, PlyLie
from lapwright.rulecheck.wide import swept_up


def is_beside_another(lie: PlyLie, lying: Lying, *, above: bool) -> bool:
    """Over a stretch of the piece's run another piece of its course lies, wholly above the blank or wholly below it.

    So too, apart from the piece, where an opening askew parts the two and that one lies higher there at both its edges,
    or lower.  By all of that one, or by its broadest part alone.  Of its run count the pieces that end on that side as
    it does.
    Source: docs/method/rulecheck.md
    """
    close = lie.limits.close
    alike = [one for one in run_of(lie, lying) if abs((one.v1 - lying.v1) if above else (one.v0 - lying.v0)) <= close]
    return any(_lies_beside(lie, one, other, above=above) for one in alike for other in lie.rows[lying.given.course])


def run_of(lie: PlyLie, lying: Lying) -> tuple[Lying, ...]:
    """A piece and those of its course that hang together with it by end laps.

    Source: docs/method/rulecheck.md
    """
    found = {lying.id: lying}
    laps = [lap for lap in lie.end_laps if lap.course == lying.given.course]
    count = 0
    while count < len(found):
        count = len(found)
        for lap in laps:
            if lap.left.id in found or lap.right.id in found:
                found |= {lap.left.id: lap.left, lap.right.id: lap.right}
    return tuple(found.values())


def _lies_beside(lie: PlyLie, lying: Lying, other: Lying, *, above: bool) -> bool:
    """Another piece lies over a stretch of a piece, all of it above or below."""
    left, right, gap = max(lying.u0, other.u0), min(lying.u1, other.u1), lie.limits.gap
    if other is lying or right - left <= gap:
        return False
    blank = box(left, other.v0, right, other.v1)
    for shape in (lie.main[other.id], _broad(lie, other)):
        there = shape.intersection(blank)
        if not there.is_empty:
            _, low, _, high = there.bounds
            if low >= lying.v1 - gap if above else high <= lying.v0 + gap:
                return True
            if _is_parted(lie.main[lying.id].intersection(box(left, lying.v0, right, lying.v1)), there, above=above):
                return True
    return False


def _is_parted(shape: Shape, other: Shape, *, above: bool) -> bool:
    """Two shapes lie apart, and the other one higher at both edges, or lower."""
    if shape.is_empty or shape.intersection(other).area > 0.0:
        return False
    (_, low, _, high), (_, its_low, _, its_high) = shape.bounds, other.bounds
    return bool(its_low > low and its_high > high) if above else bool(its_low < low and its_high < high)


def _broad(lie: PlyLie, lying: Lying) -> Shape:
    """The broadest part of a piece, with its topmost strip."""
    parts = lie.wide[lying.id]
    return swept_up(parts[0], lie.side_lap + lie.limits.gap) if parts else MultiPolygon()
