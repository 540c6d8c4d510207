"""Level and upright sections of a ply's ground, for the bounds.

A section is a list of stretches that lie on the ground, rising; a stretch that the ground only grazes counts for what
lies on it at both ends of the strip looked at, so that nothing is ever counted that is not ground.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import pairwise
from typing import Any

import numpy as np

from lapwright.layout.joints import Span
from lapwright.layout.region import Region

Edges = np.ndarray[Any, np.dtype[np.float64]]  # (edges, 4): u0, v0, u1, v1 [ticks]


def edges_of(region: Region) -> Edges:
    """The sides of the ground, openings included, shape (sides, 4): u0, v0, u1, v1 [ticks].

    Source: geometry
    """
    shape: Any = region.shape
    rows: list[Any] = []
    for part in [shape] if shape.geom_type == "Polygon" else [p for p in shape.geoms if p.geom_type == "Polygon"]:
        for ring in (part.exterior, *part.interiors):
            points = np.asarray(ring.coords, dtype=float)
            rows.append(np.hstack([points[:-1], points[1:]]))
    return np.vstack(rows)


def rising(values: Edges) -> list[float]:
    """Values in order, each once.  Source: arithmetic; numpy's own way would load its masked arrays first"""
    return sorted(set(values.ravel().tolist()))


class Ground:
    """Level sections of the same sides, each made once; where no side is slanted, those that are alike too."""

    def __init__(self, edges: Edges) -> None:
        """is_square: no side is slanted; levels between the same corners have the same section then."""
        self.edges = edges
        self.is_square = bool(((edges[:, 0] == edges[:, 2]) | (edges[:, 1] == edges[:, 3])).all())
        self._marks: list[float] | None = rising(edges[:, [1, 3]]) if self.is_square else None
        self._known: dict[tuple[float, float], list[Span]] = {}

    def stretches(self, low: float, high: float) -> list[Span]:
        """As `level_stretches`.

        Checked: tests/layout/test_sections.py
        """
        name = (low, high)
        if self._marks is not None:
            name = (bisect_right(self._marks, low), bisect_left(self._marks, high))
        if name not in self._known:
            self._known[name] = level_stretches(self.edges, low, high)
        return self._known[name]


def level_stretches(edges: Edges, low: float, high: float) -> list[Span]:
    """Stretches across the fall where the ground goes on from level `low` up to `high` without a break [ticks].

    Source: geometry
    Checked: tests/layout/test_sections.py
    """
    v0, v1 = edges[:, 1], edges[:, 3]
    crossing = (np.minimum(v0, v1) <= low) & (np.maximum(v0, v1) > low)
    cut = edges[crossing]
    share = (low - cut[:, 1]) / (cut[:, 3] - cut[:, 1])
    at = np.sort(cut[:, 0] + share * (cut[:, 2] - cut[:, 0]))
    stretches = list(zip(at[0::2].tolist(), at[1::2].tolist(), strict=True))
    inside = edges[(np.minimum(v0, v1) < high) & (np.maximum(v0, v1) > low)]
    return [(round(a), round(b)) for a, b in less(stretches, shadows(inside, low, high)) if b - a > 1]


def shadows(edges: Edges, low: float, high: float) -> list[tuple[float, float]]:
    """Where sides pass through a level band, along it; rising by their beginnings."""
    if not len(edges):
        return []
    u0, v0, u1, v1 = edges.T
    rise = np.where(v1 == v0, 1.0, v1 - v0)
    ends = []
    for bound in (low, high):
        share = np.clip((bound - v0) / rise, 0.0, 1.0)
        ends.append(np.where(v1 == v0, u0 if bound == low else u1, u0 + share * (u1 - u0)))
    left, right = np.minimum(*ends), np.maximum(*ends)
    order = np.argsort(left)
    return list(zip(left[order].tolist(), right[order].tolist(), strict=True))


def less(stretches: Sequence[tuple[float, float]], taken: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Stretches less what is taken; both rise.  Source: arithmetic"""
    found: list[tuple[float, float]] = []
    k = 0
    for left, right in stretches:
        at = left
        while k < len(taken) and taken[k][1] <= left:
            k += 1
        for a, b in taken[k:]:
            if a >= right:
                break
            if a > at:
                found.append((at, a))
            at = max(at, b)
        if at < right:
            found.append((at, right))
    return found


def upright_strips(edges: Edges, most: int) -> list[tuple[float, list[tuple[float, float]]]]:
    """Strips up the fall: the width of each and the stretches that lie on the ground over all of that width.

    most: width of a strip at most where sides are slanted [ticks].
    Source: geometry
    Checked: tests/layout/test_sections.py
    """
    marks = rising(np.round(edges[:, [0, 2]]))
    low_u, high_u = np.minimum(edges[:, 0], edges[:, 2]), np.maximum(edges[:, 0], edges[:, 2])
    found = []
    for left, right in pairwise(marks):
        middle = (left + right) / 2
        over = edges[(low_u < middle) & (high_u > middle)]
        slanted = bool(np.any(over[:, 1] != over[:, 3]))
        parts = max(1, int(-(-(right - left) // most))) if slanted else 1
        for k in range(parts):
            a, b = left + (right - left) * k / parts, left + (right - left) * (k + 1) / parts
            found.append((float(b - a), common_heights(over, a, b)))
    return found


def common_heights(over: Edges, left: float, right: float) -> list[tuple[float, float]]:
    """Stretches up the fall that lie on the ground from `left` to `right`."""
    run = over[:, 2] - over[:, 0]
    ends = [over[:, 1] + (x - over[:, 0]) / run * (over[:, 3] - over[:, 1]) for x in (left, right)]
    order = np.argsort(ends[0] + ends[1])
    low, high = np.minimum(*ends)[order], np.maximum(*ends)[order]
    pairs = zip(high[0::2].tolist(), low[1::2].tolist(), strict=True)
    return [(a, b) for a, b in pairs if b - a > 1]
