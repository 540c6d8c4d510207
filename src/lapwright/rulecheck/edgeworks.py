"""Rules about what goes with edge metal and flashings: corner pieces, covers over joints, strips over corners, cant,
and side laps of flashings clear of the field's.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from lapwright.assembly.values import Ply
from lapwright.defaults.si import default_si
from lapwright.roof.values import Area, Edge
from lapwright.rulecheck.details import Placed, Row
from lapwright.rulecheck.faces import METAL, Face
from lapwright.rulecheck.limits import Limits, metres
from lapwright.rulecheck.planelaps import plane_lap_ids
from lapwright.rulecheck.read import GivenPlan
from lapwright.rulecheck.readdetail import GivenDetail
from lapwright.rulecheck.values import XY, Violation

STRAIGHT = 1e-9
RUNS_IN = 0.025  # a lap of the field that ends this near to a face, in plan, runs into it: it is trimmed there [m]
LEAST = 0.31  # a little over a foot: no flashing piece is narrower, where it may be moved [m]


def joint_violations(
    plan: GivenPlan, areas: Sequence[Area], plies: Sequence[Ply], limits: Limits
) -> Iterator[Violation]:
    """Joints of metal without a cover, corners without their piece, its two covers and, in two plies, a strip over it.

    Source: docs/method/rulecheck.md
    """
    for area in areas:
        own = [one for one in plan.details if one.area == area.name and one.at is not None]
        metal = [one for one in plan.details if one.area == area.name and one.kind == "metal" and one.line]
        for edge in area.edges:
            if edge.kind == METAL:
                for at in _joints(edge, metal):
                    yield from _wants(area, f"side {edge.side}", at, own, {"joint_cover": 1}, limits)
        for one, two in zip(area.edges, (*area.edges[1:], area.edges[0]), strict=True):
            if one.kind == two.kind == METAL:
                is_straight = abs(_turn(one, two)) < STRAIGHT
                asked = {"joint_cover": 1} if is_straight else {"joint_cover": 2, "metal_corner": 1}
                asked |= {"strip_corner": 1} if len(plies) == 2 else {}
                at = (metres(two.start[0]), metres(two.start[1]))
                yield from _wants(area, f"corner of sides {one.side} and {two.side}", at, own, asked, limits)


def _joints(edge: Edge, metal: Sequence[GivenDetail]) -> Iterator[XY]:
    """Where one length of metal follows another along a side, in plan."""
    (x0, y0), (x1, y1) = ((metres(x), metres(y)) for x, y in (edge.start, edge.end))
    dx, dy = x1 - x0, y1 - y0
    lines = [one.line for one in metal if one.of == f"side {edge.side}" and one.line]
    shares = sorted(min(((x - x0) * dx + (y - y0) * dy) / (dx * dx + dy * dy) for x, y in line) for line in lines)
    for share in shares[1:]:
        yield (x0 + dx * share, y0 + dy * share)


def _turn(one: Edge, two: Edge) -> float:
    """Sine of the turn from one side to the next."""
    (ax, ay), (bx, by) = ((e.end[0] - e.start[0], e.end[1] - e.start[1]) for e in (one, two))
    return (ax * by - ay * bx) / (math.hypot(ax, ay) * math.hypot(bx, by))


def _wants(
    area: Area, where: str, at: XY, own: Sequence[GivenDetail], asked: dict[str, int], limits: Limits
) -> Iterator[Violation]:
    """What is missing at one place."""
    near = default_si("details", "metal_gap") + 5 * limits.gap
    for kind, count in asked.items():
        here = sum(1 for one in own if one.kind == kind and one.at and math.dist(one.at, at) <= near)
        if here < count:
            words = kind.replace("_", " ")
            text = f"{area.name}, {where}: {here} of {count} {words}; add what is missing there."
            yield Violation("edge_joints", (f"{area.name}/{where}",), at, f"{here} {words}", f"{count}", text)


def stagger_violations(
    plan: GivenPlan, rows: Sequence[Row], plies: Sequence[Ply], stagger: float
) -> Iterator[Violation]:
    """Joints of flashing pieces near a side lap of the field that runs in, where they could keep clear of all.

    A joint could be elsewhere if it can be moved alone: no piece wider than its sheet nor narrower than a foot.
    stagger: how far they keep off [m].
    Source: docs/method/rulecheck.md
    """
    sheets = {ply.ply: ply.sheet for ply in plies}
    top = plies[-1].ply
    across = plane_lap_ids(plan)
    sides: dict[str, list[tuple[XY, XY]]] = {}
    for lap in plan.laps:
        if lap.kind == "side" and lap.ply == top and lap.id not in across:
            sides.setdefault(lap.area, []).append(lap.line)
    drawn = {frozenset(lap.pieces): lap.line[0] for lap in plan.laps if lap.kind == "flashing"}
    for row in rows:
        if row.kind != "flashing" or row.ply not in sheets or len(row.placed) < 2:
            continue
        places = sorted(place for line in sides.get(row.area, ()) if (place := _meets(row.face, line)) is not None)
        sheet = sheets[row.ply]
        width, by = metres(sheet.width_ticks), metres(sheet.side_lap_ticks)
        for one, two in pairwise(row.placed):
            edge = drawn.get(frozenset((one.detail.id, two.detail.id)))
            if edge is not None:
                yield from _joint(row, (one, two, row.face.place(edge)[0]), (places, width, by, stagger))


def _meets(face: Face, line: tuple[XY, XY]) -> float | None:
    """Where a side lap of the field meets a face, from its start along the slope; None where it does not."""
    (along_a, off_a), (along_b, off_b) = (face.place(point) for point in line)
    if abs(off_a - off_b) < STRAIGHT:
        return None
    share = off_a / (off_a - off_b)
    slack = RUNS_IN / math.dist(*line)
    along = along_a + share * (along_b - along_a)
    return along * face.stretch if -slack <= share <= 1 + slack and 0.0 < along < face.length else None


def _joint(
    row: Row, lapped: tuple[Placed, Placed, float], given: tuple[Sequence[float], float, float, float]
) -> Iterator[Violation]:
    """Whether one joint keeps clear, or has to be where it is.

    lapped: the two pieces and the exposed edge, that of whichever was laid later, along the face.
    given: places of the field's laps, width and lap of the sheet, the stagger.
    """
    (one, two, edge), (places, width, lap, stagger) = lapped, given
    stretch, close = row.face.stretch, 1e-3
    joint, low, high = edge * stretch, one.low * stretch, two.high * stretch
    near = min((abs(joint - place) for place in places), default=stagger)
    if near >= stagger - close:
        return
    over = 0.0 if abs(edge - two.low) < abs(edge - one.high) else lap  # where the first lies on the second
    least, most = max(high - width + over, low + LEAST), min(low + width - lap + over, high - LEAST)
    spots = [least, most, *(place + way * stagger for place in places for way in (-1, 1))]
    for spot in spots:
        if least - close <= spot <= most + close and all(abs(spot - place) >= stagger - close for place in places):
            text = (
                f"Flashing {two.detail.id} laps {{read}} from a side lap of the field, needs {{needs}}; move the lap."
            )
            ids = (one.detail.id, two.detail.id)
            yield Violation("flashing_lap_stagger", ids, row.face.at(edge), near, stagger, text)
            return
