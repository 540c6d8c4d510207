"""Cutting items off at an upright rectangle, for sheets that show a part of the roof."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import pairwise

from lapwright.packet.drawing import Fill, Item, Points, Pt, Ring, Stroke

Box = tuple[float, float, float, float]


def clipped(items: Iterable[Item], box: Box) -> list[Item]:
    """The items, or what of them lies in the box: least x, least y, greatest x, greatest y."""
    found: list[Item] = []
    for item in items:
        if isinstance(item, Stroke):
            found += clip_stroke(item, box)
        elif isinstance(item, Fill):
            rings = tuple(ring for ring in (clip_ring(ring, box) for ring in item.rings) if len(ring) > 2)
            if rings:
                found.append(replace(item, rings=rings))
        elif is_in(item.at, box, item.radius if isinstance(item, Ring) else 0.0):
            found.append(item)
    return found


def bounds(points: Points) -> Box:
    """The upright bounds of points."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs), min(ys), max(xs), max(ys))


def is_in(point: Pt, box: Box, inset: float = 0.0) -> bool:
    """The point lies in the box, `inset` away from its sides."""
    return box[0] + inset <= point[0] <= box[2] - inset and box[1] + inset <= point[1] <= box[3] - inset


def clip_stroke(stroke: Stroke, box: Box) -> list[Stroke]:
    """The parts of a line inside the box, each a line of its own."""
    points = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
    if all(is_in(point, box) for point in points):
        return [stroke]
    lines: list[list[Pt]] = []
    for a, b in pairwise(points):
        part = clip_segment(a, b, box)
        if part is None:
            continue
        if lines and lines[-1][-1] == part[0]:
            lines[-1].append(part[1])
        else:
            lines.append(list(part))
    return [replace(stroke, points=tuple(line), closed=False) for line in lines]


def clip_segment(a: Pt, b: Pt, box: Box) -> tuple[Pt, Pt] | None:
    """The part of a segment inside the box (Liang and Barsky's way); None where it misses the box or only touches."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    enter, leave = 0.0, 1.0
    for step, room in ((-dx, a[0] - box[0]), (dx, box[2] - a[0]), (-dy, a[1] - box[1]), (dy, box[3] - a[1])):
        if step == 0:
            if room < 0:
                return None
            continue
        share = room / step
        if step < 0:
            enter = max(enter, share)
        else:
            leave = min(leave, share)
    if enter >= leave:
        return None
    start = a if enter == 0 else (a[0] + dx * enter, a[1] + dy * enter)
    end = b if leave == 1 else (a[0] + dx * leave, a[1] + dy * leave)
    return (start, end)


def clip_ring(ring: Points, box: Box) -> Points:
    """The part of a polygon inside the box (Sutherland and Hodgman's way); empty where they don't meet."""
    points = list(ring)
    for axis, limit, sign in ((0, box[0], 1.0), (0, box[2], -1.0), (1, box[1], 1.0), (1, box[3], -1.0)):
        kept: list[Pt] = []
        for a, b in zip(points, [*points[1:], *points[:1]], strict=True):
            inside_a, inside_b = (a[axis] - limit) * sign >= 0, (b[axis] - limit) * sign >= 0
            if inside_a:
                kept.append(a)
            if inside_a != inside_b:
                share = (limit - a[axis]) / (b[axis] - a[axis])
                kept.append((a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share))
        points = kept
    return tuple(points)


def ring_area(ring: Points) -> float:
    """Area of a polygon, without sign."""
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, (*ring[1:], *ring[:1]), strict=True))) / 2
