"""Rules about the laying order: every lap sheds water, and nothing is laid on a ply that is not there yet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from shapely import STRtree
from shapely import box as boxes_of

from lapwright.rulecheck.lie import Lying, PlyLie, middle
from lapwright.rulecheck.values import Violation


def order_violations(lies: Sequence[PlyLie]) -> Iterator[Violation]:
    """Two pieces with one number in the laying order, over the whole job.

    Source: docs/method/rulecheck.md
    """
    first: dict[int, str] = {}
    for lie in lies:
        for lying in lie.lying:
            number = lying.given.sequence
            if number in first and first[number] != lying.id:
                text = (
                    f"Pieces {first[number]} and {lying.id} have the same place in the laying order; number them apart."
                )
                read = f"{number} twice"
                ids = [first[number], lying.id]
                yield lie.found("laying_order", ids, middle(lying.box), text, read=read, needs="a number for each")
            first.setdefault(number, lying.id)


def weather_lap_violations(lie: PlyLie) -> Iterator[Violation]:
    """Pieces laid before one of the course below that they lie on: water would run into the lap.

    On a steep area, whose courses run up the fall, likewise those laid before the one below them in their course.
    Source: docs/method/rulecheck.md
    """
    for course, row in lie.rows.items():
        for low in lie.rows.get(course - 1, ()):
            for high in row:
                is_over = min(low.u1, high.u1) - max(low.u0, high.u0) > lie.limits.gap and low.v1 > high.v0
                if is_over and high.given.sequence < low.given.sequence:
                    text = f"Piece {high.id} is laid before {low.id}, which it has to lie on; lay {low.id} first."
                    yield _too_early(lie, low, high, text)
    for lap in lie.end_laps if lie.slope.is_strapped else ():
        if lap.over is lap.left:
            text = f"Piece {lap.right.id} is laid before {lap.left.id} below it on the fall; lay {lap.left.id} first."
            yield _too_early(lie, lap.left, lap.right, text)


def ply_order_violations(lie: PlyLie, under: PlyLie) -> Iterator[Violation]:
    """Pieces laid before one of the ply under them.

    Source: docs/method/rulecheck.md
    """
    if not lie.lying or not under.lying:
        return
    boxes = [boxes_of(*lying.box) for lying in under.lying]
    over, below = STRtree(boxes).query([boxes_of(*lying.box) for lying in lie.lying])
    for i, j in sorted(zip(over.tolist(), below.tolist(), strict=True)):
        high, low = lie.lying[i], under.lying[j]
        if high.given.sequence < low.given.sequence and _share(high, low, lie.limits.gap):
            text = f"Piece {high.id} is laid before {low.id} of the {under.ply.ply} under it; lay {low.id} first."
            yield _too_early(lie, low, high, text)


def _too_early(lie: PlyLie, low: Lying, high: Lying, text: str) -> Violation:
    where = ((max(low.u0, high.u0) + min(low.u1, high.u1)) / 2, max(low.v0, high.v0))
    read, needs = f"number {high.given.sequence}", f"a number after {low.given.sequence}"
    return lie.found("laying_order", [high.id, low.id], where, text, read=read, needs=needs)


def _share(one: Lying, two: Lying, least: float) -> bool:
    across = min(one.u1, two.u1) - max(one.u0, two.u0)
    return across > least and min(one.v1, two.v1) - max(one.v0, two.v0) > least
