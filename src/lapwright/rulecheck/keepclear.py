"""Rules about places where no end lap may lie: near a drain, in a valley that the courses meet.

An end lap that an opening holds is let be: it has to lie where the opening stands.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from shapely import LineString, Point, box
from shapely.geometry.base import BaseGeometry as Shape

from lapwright.defaults.si import default_number
from lapwright.rulecheck.lie import EndLap, PlyLie
from lapwright.rulecheck.limits import metres
from lapwright.rulecheck.values import Violation

DRAINS = ("drain", "overflow_drain")


def end_lap_drain_violations(lie: PlyLie) -> Iterator[Violation]:
    """End laps whose strip comes nearer to a drain's middle than allowed.

    Source: docs/method/rulecheck.md
    """
    least = lie.limits.end_lap_drain
    for drain in (*lie.area.drains, *lie.area.near):
        if drain.kind not in DRAINS or drain.at is None:
            continue
        spot = Point(lie.slope.uv((metres(drain.at[0]), metres(drain.at[1]))))
        for lap in _free(lie):
            apart = _strip(lap).distance(spot)
            if apart < least - lie.limits.close:
                text = (
                    f"The {lie.name}: the end lap of {lap.left.id} and {lap.right.id} is {{read}} from drain "
                    f"{drain.name}, needs {{needs}}; move it."
                )
                yield lie.found("end_lap_drain", lap.ids, (spot.x, spot.y), text, read=float(apart), needs=least)


def end_lap_valley_violations(lie: PlyLie) -> Iterator[Violation]:
    """End laps that lie on the valley sheet, where courses meet the valley rather than run along it.

    Source: docs/method/rulecheck.md
    """
    for side in lie.ground.sides:
        rise, run = abs(side.end[1] - side.start[1]), abs(side.end[0] - side.start[0])
        steepness = math.degrees(math.atan2(rise, run))
        if side.kind != "valley" or not side.is_joined or steepness < default_number("roof", "valley_along"):
            continue
        sheet = LineString([side.start, side.end]).buffer(lie.width / 2, cap_style="flat")
        for lap in _free(lie):
            common = _strip(lap).intersection(sheet)
            if common.is_empty or _narrower(common) <= lie.limits.gap:
                continue
            text = (
                f"The {lie.name}: the end lap of {lap.left.id} and {lap.right.id} lies in the valley at side "
                f"{side.number}; move it off the valley sheet."
            )
            spot = common.representative_point()
            yield lie.found("end_lap_valley", lap.ids, (spot.x, spot.y), text, read="in the valley", needs="off it")


def _free(lie: PlyLie) -> Iterator[EndLap]:
    return (lap for lap in lie.end_laps if lap.holder is None)


def _strip(lap: EndLap) -> Shape:
    """Where both pieces of an end lap lie."""
    return box(min(lap.u0, lap.u1), lap.low, max(lap.u0, lap.u1), lap.high)


def _narrower(shape: Shape) -> float:
    u0, v0, u1, v1 = shape.bounds
    return float(min(u1 - u0, v1 - v0))
