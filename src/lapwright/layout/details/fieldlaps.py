"""Where laps of the field run into a wall: flashing joints keep off those places."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from lapwright.layout.details.lengths import TICKS
from lapwright.layout.details.stands import Stand
from lapwright.layout.values import Frame, Lap

NEAR = 2_032.0  # a lap that ends within 1" of a face, in plan, meets it: it is trimmed there

Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class FieldLaps:
    """Laps of the top ply of one area in its slope frame [ticks].

    sides: stretches along the course by level; levels: the same in order.  ends: joint, low and high end, in order.
    """

    frame: Frame | None = None
    sides: Mapping[int, Sequence[Span]] = field(default_factory=dict)
    levels: Sequence[int] = ()
    ends: Sequence[tuple[float, float, float]] = ()

    def meet(self, stand: Stand) -> list[float]:
        """Where side laps meet a face, from its start [ticks], in order.

        Source: geometry
        Checked: tests/layout/test_detail_flashings.py
        """
        if self.frame is None:
            return []
        start, end = (self.frame.slope_uv(*point) for point in (stand.start, stand.end))
        return sorted(share * stand.length for share in self._of_sides(start, end))

    def meet_ends(self, stand: Stand) -> list[float]:
        """Where end laps meet a face, from its start [ticks], in order.

        Source: geometry
        Checked: tests/layout/test_detail_flashings.py
        """
        if self.frame is None:
            return []
        start, end = (self.frame.slope_uv(*point) for point in (stand.start, stand.end))
        return sorted(share * stand.length for share in self._of_ends(start, end))

    def _of_sides(self, start: Span, end: Span) -> Iterator[float]:
        (u0, v0), (u1, v1) = start, end
        low, high = min(v0, v1), max(v0, v1)
        near = NEAR * self.frame.stretch if self.frame and self.frame.is_strapped else NEAR
        for level in self.levels[bisect_left(self.levels, low + 1) : bisect_right(self.levels, high - 1)]:
            share = (level - v0) / (v1 - v0)
            at = u0 + share * (u1 - u0)
            if any(a - near <= at <= b + near for a, b in self.sides[level]):
                yield share

    def _of_ends(self, start: Span, end: Span) -> Iterator[float]:
        (u0, v0), (u1, v1) = start, end
        left, right = min(u0, u1), max(u0, u1)
        first, last = bisect_left(self.ends, (left + 1,)), bisect_right(self.ends, (right - 1,))
        for joint, low, high in self.ends[first:last]:
            share = (joint - u0) / (u1 - u0)
            if low - NEAR <= v0 + share * (v1 - v0) <= high + NEAR:
                yield share


def field_laps(laps: Iterable[Lap], frame: Frame, ply: str) -> FieldLaps:
    """The laps of one ply of an area, ready to be asked.

    Source: geometry
    """
    sides: dict[int, list[Span]] = {}
    ends: list[tuple[float, float, float]] = []
    for lap in laps:
        if lap.ply != ply or lap.kind not in ("side", "end"):
            continue
        (u0, v0), (u1, v1) = (frame.slope_uv(x * TICKS, y * TICKS) for x, y in lap.line)
        if lap.kind == "side":
            sides.setdefault(round(v0), []).append((min(u0, u1), max(u0, u1)))
        else:
            ends.append((u0, min(v0, v1), max(v0, v1)))
    return FieldLaps(frame, sides, sorted(sides), sorted(ends))
