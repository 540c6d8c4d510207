"""Which laps there are: worked out from how the pieces lie, to hold a list of laps against.

A side lap's exposed edge is the low edge of the upper course.  At every place it belongs to the piece of the upper
course and the piece of the lower course that are seen there: where two of a course lie on one another, the one laid
later.  It stops at openings and where the ply ends.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from shapely import LineString
from shapely.geometry.base import BaseGeometry as Shape

from lapwright.rulecheck.lie import EndLap, Lying, PlyLie

Span = tuple[float, float]
Seen = tuple[str, Span]
WITHIN = 1e-6  # the edge itself is the outline of the sheets above it; they are looked at this far up [m]


@dataclass(frozen=True, slots=True)
class SideLap:
    """Pieces that meet in a side lap, low and high, and the stretches of its exposed edge across the fall.

    choices: the stretches right at the edge, a hair below and a hair above it, where an opening may begin or end; and
    the same with strips no wider than a side lap given to either of the pieces that they join.
    """

    low: Lying
    high: Lying
    v: float
    choices: tuple[tuple[Span, ...], ...]

    @property
    def ids(self) -> tuple[str, str]:
        """Ids of both pieces, the lower first."""
        return (self.low.id, self.high.id)


def side_laps_of(lie: PlyLie) -> Mapping[frozenset[str], SideLap]:
    """Every side lap of a ply by its two pieces.

    Source: docs/method/rulecheck.md
    """
    found: dict[frozenset[str], SideLap] = {}
    for one, two in pairwise(sorted(lie.rows)):
        if two == one + 1:
            for lap in _between(lie, lie.rows[one], lie.rows[two]):
                found[frozenset(lap.ids)] = lap
    return found


def end_laps_of(lie: PlyLie) -> Mapping[frozenset[str], EndLap]:
    """Every end lap of a ply by its two pieces, but for pieces that only touch.

    Source: docs/method/rulecheck.md
    """
    return {frozenset(lap.ids): lap for lap in lie.end_laps if lap.u1 - lap.u0 > lie.limits.gap}


def _between(lie: PlyLie, below: Sequence[Lying], above: Sequence[Lying]) -> Iterator[SideLap]:
    """The side laps between two courses."""
    v = min(piece.v0 for piece in above)
    shapes = [lie.seen] if all(lie.seen[one.id] is lie.own[one.id] for one in (*below, *above)) else [lie.seen, lie.own]
    hairs = (0.0, -lie.limits.close, lie.limits.close)
    levels = [(v + hair, v + max(hair, WITHIN)) for hair in hairs]
    choices = [
        _seen_pairs(lie, _seen(shape, below, low), _seen(shape, above, high))
        for shape in shapes
        for low, high in levels
    ]
    pairs = dict.fromkeys(pair for choice in choices for pair in choice)
    by_id = {piece.id: piece for piece in (*below, *above)}
    for low, high in pairs:
        spans = tuple(tuple(choice.get((low, high), ())) for choice in choices)
        yield SideLap(by_id[low], by_id[high], v, spans)


def _seen_pairs(lie: PlyLie, lower: Sequence[Seen], upper: Sequence[Seen]) -> dict[tuple[str, str], list[Span]]:
    """Stretches of the edge by the pieces seen below and above it."""
    found: dict[tuple[str, str], list[Span]] = {}
    for low, (a, b) in lower:
        for high, (c, d) in upper:
            start, end = max(a, c), min(b, d)
            if end - start > lie.limits.close:
                found.setdefault((low, high), []).append((start, end))
    return {pair: _joined(spans, lie.limits.close) for pair, spans in found.items()}


def _seen(shapes: Mapping[str, Shape], row: Sequence[Lying], v: float) -> list[Seen]:
    """The piece that lies on top at each place of a level, from the left."""
    spans = [(piece, span) for piece in row for span in spans_at(shapes[piece.id], v)]
    stops = sorted({stop for _, span in spans for stop in span})
    seen: list[Seen] = []
    for start, end in pairwise(stops):
        here = [piece for piece, (a, b) in spans if a <= start and end <= b]
        if not here:
            continue
        top = max(here, key=lambda piece: piece.given.sequence).id
        if seen and seen[-1][0] == top and seen[-1][1][1] == start:
            seen[-1] = (top, (seen[-1][1][0], end))
        else:
            seen.append((top, (start, end)))
    return seen


def spans_at(shape: Shape, v: float) -> list[Span]:
    """Stretches of a level line that lie in a shape.

    Source: geometry
    """
    if shape.is_empty:
        return []
    left, low, right, high = shape.bounds
    if not low <= v <= high:
        return []
    cut = LineString([(left - 1.0, v), (right + 1.0, v)]).intersection(shape)
    parts = getattr(cut, "geoms", [cut])
    return [(part.bounds[0], part.bounds[2]) for part in parts if part.geom_type == "LineString" and part.length > 0]


def _joined(spans: Sequence[Span], close: float) -> list[Span]:
    """Stretches with those joined that touch."""
    found: list[Span] = []
    for start, end in sorted(spans):
        if found and start - found[-1][1] <= close:
            found[-1] = (found[-1][0], max(end, found[-1][1]))
        else:
            found.append((start, end))
    return found
