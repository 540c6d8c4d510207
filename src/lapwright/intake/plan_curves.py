"""One drawn line, arc or curve as corners in plan [units of the drawing], curves cut into straight sides.

A *stroke* is what one entity draws: a run of points, open or closed.  A point is *curved* where it was put on a curve,
so that the sides on either side of it are known to stand for one.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import islice
from typing import Any

from lapwright.intake.plan_blocks import Piece

LINES = ("LINE", "LWPOLYLINE", "POLYLINE", "ARC", "CIRCLE", "ELLIPSE", "SPLINE")
SIDES_MOST = 2_000
SPLINE_MOST = 10_000
SPLINE_FRAME = 16
DEGREE_MOST = 11  # what drawing programs write; the time a spline takes grows with its square
FULL = 2 * math.pi
XY = tuple[float, float]


@dataclass(slots=True)
class Stroke:
    """Points of one entity, whether the last is joined to the first, which points are curved, and how many curves."""

    points: list[XY] = field(default_factory=list)
    is_closed: bool = False
    curved: list[bool] = field(default_factory=list)
    curves: int = 0

    def add(self, points: Sequence[XY], *, curved: bool) -> None:
        """Adds points."""
        self.points += points
        self.curved += [curved] * len(points)


class Unfit(Exception):  # noqa: N818  # it is told as a fault by the caller, who knows layer and file
    """An entity that can't be an outline: what was read, what is needed, what to write."""

    def __init__(self, read: str, needs: str, write: str) -> None:
        super().__init__(read)
        self.told = (read, needs, write)


def stroke(piece: Piece, *, within: float, widest: float) -> Stroke:
    """What an entity draws in plan.

    within: how far a straight side may leave its curve.  widest: how far apart points may be; beyond, a curve is not
        cut at all, since that would take for ever, and its ends tell the size.
    Raises: Unfit
    """
    from ezdxf.lldxf.const import DXFError

    entity, kind = piece.entity, piece.kind
    try:
        if kind in ("ARC", "CIRCLE"):
            made = _arc(entity, kind, within)
        elif kind == "ELLIPSE":
            made = _ellipse(entity, within)
        elif kind == "SPLINE":
            made = _spline(entity, within, widest)
        else:
            made = _straight(entity, kind, within)
    except (DXFError, ArithmeticError, AttributeError, LookupError, RecursionError, TypeError, ValueError):
        raise Unfit("a curve that can't be drawn", "whole numbers of a curve", "the side redrawn") from None
    _finite(made.points)
    return made


def _finite(points: Sequence[Sequence[float]]) -> None:
    if not all(math.isfinite(number) for point in points for number in point):
        raise Unfit("a coordinate that is no number (NaN or infinite)", "finite coordinates", "the side redrawn")


def _straight(entity: Any, kind: str, within: float) -> Stroke:  # noqa: ANN401  # ezdxf has no types here
    """A line or a polyline, its bulges as arcs."""
    corners, is_closed = _corners(entity, kind)
    _finite(corners)
    if kind != "LINE" and not (kind == "POLYLINE" and entity.is_3d_polyline):
        side = _side_seen(entity)
        corners = [(side * x, y, side * bulge) for x, y, bulge in corners]
    made = Stroke(is_closed=is_closed)
    for here, there in zip(corners, corners[1:] + corners[:1], strict=True):
        made.add([here[:2]], curved=False)
        if here[2] and (there is not corners[0] or is_closed):
            made.add(arc_points(here[:2], there[:2], here[2], within=within), curved=True)
            made.curves += 1
    return made


def _corners(entity: Any, kind: str) -> tuple[list[tuple[float, float, float]], bool]:  # noqa: ANN401  # ezdxf has no types here
    """Corners with the bulge of the side that starts there, and whether the line is closed."""
    if kind == "LINE":
        return [(entity.dxf.start.x, entity.dxf.start.y, 0.0), (entity.dxf.end.x, entity.dxf.end.y, 0.0)], False
    if kind == "LWPOLYLINE":
        corners = [(float(x), float(y), float(bulge)) for x, y, bulge in entity.get_points("xyb")]
        return corners, bool(entity.closed)
    if entity.is_2d_polyline or entity.is_3d_polyline:
        vertices = [each for each in entity.vertices if not each.dxf.flags & SPLINE_FRAME]
        corners = [(each.dxf.location.x, each.dxf.location.y, each.dxf.get("bulge", 0.0)) for each in vertices]
        return corners, bool(entity.is_closed)
    raise Unfit("a POLYLINE that is a mesh", "a closed polyline in plan", "the outline as a polyline")


def _side_seen(entity: Any) -> int:  # noqa: ANN401  # ezdxf has no types here
    """1 for what is drawn from above, -1 from below, where the drawing's rule turns x round."""
    up = entity.dxf.extrusion
    if abs(up.x) > 1e-9 or abs(up.y) > 1e-9 or up.z == 0 or not math.isfinite(up.z):
        raise Unfit(
            "a polyline or arc drawn on a tilted plane", "an outline drawn in plan", "the outline drawn from above"
        )
    return 1 if up.z > 0 else -1


def _steps(angle: float, radius: float, within: float) -> int:
    """Into how many straight sides an arc is cut so that they keep within a distance of it."""
    step = min(math.pi / 2, 2 * math.acos(1 - within / radius)) if within < radius else math.pi / 2
    return min(SIDES_MOST, max(1, math.ceil(abs(angle) / step)))


def arc_points(start: XY, end: XY, bulge: float, *, within: float) -> list[XY]:
    """Points on an arc between its ends, so many that chords stay within a distance of it.

    bulge: tangent of a quarter of the arc's angle, above 0 counter-clockwise.
    Source: DXF reference, LWPOLYLINE group code 42 [from memory]; arithmetic of the circle
    Checked: tests/intake/test_plan_dxf.py
    """
    chord = math.dist(start, end)
    radius = chord * (1 + bulge * bulge) / (4 * abs(bulge))
    if radius == 0 or not math.isfinite(radius):
        return []
    angle = 4 * math.atan(bulge)
    count = _steps(angle, radius, within)
    aside = (1 - bulge * bulge) / (4 * bulge)  # of the centre from the chord's middle, to its left, in chords
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    centre = (middle[0] - (end[1] - start[1]) * aside, middle[1] + (end[0] - start[0]) * aside)
    from_x, from_y = start[0] - centre[0], start[1] - centre[1]
    found = []
    for number in range(1, count):
        cosine, sine = math.cos(angle * number / count), math.sin(angle * number / count)
        found.append((centre[0] + from_x * cosine - from_y * sine, centre[1] + from_x * sine + from_y * cosine))
    return found


def _arc(entity: Any, kind: str, within: float) -> Stroke:  # noqa: ANN401  # ezdxf has no types here
    """An arc from its start to its end, or a whole circle; at least four sides to a circle."""
    side, radius = _side_seen(entity), entity.dxf.radius
    start, span = 0.0, FULL
    if kind == "ARC":
        start = math.radians(entity.dxf.start_angle % 360)
        span = math.radians((entity.dxf.end_angle - entity.dxf.start_angle) % 360) or FULL
    x, y = entity.dxf.center.x, entity.dxf.center.y
    _finite([(x, y, radius, start, span)])
    count = _steps(span, radius, within) if radius > 0 else 1
    if span == FULL:
        count = -(-count // 4) * 4  # with its easternmost, northernmost, westernmost and southernmost point
    angles = [start + span * number / count for number in range(count + 1)]
    points = [(side * (x + radius * math.cos(angle)), y + radius * math.sin(angle)) for angle in angles]
    return _curve(points, is_closed=span == FULL)


def _curve(points: list[XY], *, is_closed: bool) -> Stroke:
    """A stroke that is one curve; a closed one ends where it began and is curved all round."""
    made = Stroke(is_closed=is_closed, curves=1)
    if is_closed:
        made.add(points[:-1], curved=True)
    else:
        made.add(points[:1], curved=False)
        made.add(points[1:-1], curved=True)
        made.add(points[-1:], curved=False)
    return made


def _ellipse(entity: Any, within: float) -> Stroke:  # noqa: ANN401  # ezdxf has no types here
    """An ellipse or part of one: the flattened picture of a circle, so that steps for its longer radius do."""
    _side_seen(entity)
    tool = entity.construction_tool()
    start, span = tool.start_param % FULL, (tool.end_param - tool.start_param) % FULL or FULL
    radius = tool.major_axis.magnitude
    _finite([(start, span, radius, tool.minor_axis.magnitude)])
    count = max(4 if span == FULL else 1, _steps(span, radius, within))
    places = tool.vertices([start + span * number / count for number in range(count + 1)])
    return _curve([(place.x, place.y) for place in places], is_closed=span > FULL - 1e-9)


def _spline(entity: Any, within: float, widest: float) -> Stroke:  # noqa: ANN401  # ezdxf has no types here
    """A spline, cut where ezdxf finds it leaves its chord."""
    control = [*entity.control_points, *entity.fit_points]
    frame = [(float(point[0]), float(point[1])) for point in control]
    _finite(frame)
    if len(frame) > SIDES_MOST or entity.dxf.degree > DEGREE_MOST:
        read = f"a spline of {len(frame):,} points and degree {entity.dxf.degree}"
        raise Unfit(read, f"at most {SIDES_MOST:,} points and degree {DEGREE_MOST}", "the curve as a polyline")
    across = max((max(values) - min(values) for values in zip(*frame, strict=True)), default=0.0)
    if len(frame) < 2 or across > widest:
        return _curve(frame, is_closed=False)
    places = islice(entity.flattening(within), SPLINE_MOST + 1)  # a pole of a rational spline has no end of them
    points = [(place.x, place.y) for place in places]
    if len(points) > SPLINE_MOST:
        raise Unfit(
            f"a spline of over {SPLINE_MOST:,} sides", "a curve that a crew can follow", "the curve as a polyline"
        )
    is_closed = len(points) > 3 and math.dist(points[0], points[-1]) <= within / 1_000
    return _curve(points, is_closed=is_closed)
