"""Where a day's work is closed: the high edge of the base laid so far, within the outline and clear of openings.

Water that comes down the fall must pass over this line, so it lies along the last course's high edge; where a long
course is left at an end lap, up that end and along the high edge of the course below for the rest.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from lapwright.layout.frame import to_slope
from lapwright.layout.values import UV, XY, Frame, Piece
from lapwright.roof.values import Area

Segment = tuple[XY, XY]
Span = tuple[int, int]


def level_spans(ring: Sequence[UV], level: int) -> list[Span]:
    """The parts of the line v = level that lie inside a ring [ticks].

    A corner on the line counts with the side above it, so that every line is cut an even number of times.
    Source: geometry
    Checked: tests/crew/test_crew_tieoff.py
    """
    cuts = []
    for (u0, v0), (u1, v1) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if (v0 <= level) != (v1 <= level):
            cuts.append(u0 + (u1 - u0) * (level - v0) / (v1 - v0))
    cuts.sort()
    return [(round(a), round(b)) for a, b in zip(cuts[::2], cuts[1::2], strict=True) if round(b) > round(a)]


def cut_out(spans: Iterable[Span], holes: Iterable[Span]) -> list[Span]:
    """Spans without the holes.  Source: geometry"""
    left = list(spans)
    for low, high in holes:
        left = [part for a, b in left for part in ((a, min(b, low)), (max(a, high), b)) if part[1] > part[0]]
    return left


def within(spans: Iterable[Span], low: int, high: int) -> list[Span]:
    """The parts of spans between two places.  Source: geometry"""
    return [(max(a, low), min(b, high)) for a, b in spans if min(b, high) > max(a, low)]


def turned(ring: Sequence[UV]) -> list[UV]:
    """A ring with u and v changed over."""
    return [(v, u) for u, v in ring]


@dataclass(frozen=True, slots=True)
class Ground:
    """An area's outline and openings in its slope frame, asked for the parts of lines that lie on the roof."""

    frame: Frame
    outline: tuple[UV, ...]
    holes: tuple[tuple[UV, ...], ...]

    def level(self, level: int) -> list[Span]:
        """On the roof along v = level."""
        holes = [span for hole in self.holes for span in level_spans(hole, level)]
        return cut_out(level_spans(self.outline, level), holes)

    def upright(self, place: int, low: int, high: int) -> list[Span]:
        """On the roof along u = place, between low and high."""
        holes = [span for hole in self.holes for span in level_spans(turned(hole), place)]
        return within(cut_out(level_spans(turned(self.outline), place), holes), low, high)


def make_ground(area: Area, frame: Frame) -> Ground:
    """An area's ground.  Source: geometry"""
    return Ground(frame, to_slope(frame, area.outline), tuple(to_slope(frame, one.outline) for one in area.openings))


def tie_off(ground: Ground, pieces: Sequence[Piece], laid: int) -> tuple[Segment, ...]:
    """The line closed at day's end, in plan [m].

    pieces: of the bottom ply in laying order; laid: how many of them are down.  Nothing where none or all are.
    Source: common practice, no source (water must pass over the tie-off)
    Checked: tests/crew/test_crew_tieoff.py
    """
    if not 0 < laid < len(pieces):
        return ()
    last = pieces[laid - 1]
    if pieces[laid].course != last.course:
        return lines_level(ground, last.v1, ground.level(last.v1))
    first = next(k for k in range(laid - 1, -1, -1) if k == 0 or pieces[k - 1].course != last.course)
    done = merged((piece.u0, piece.u1) for piece in pieces[first:laid])
    floor = pieces[first - 1].v1 if first else last.v0
    high = [part for a, b in done for part in within(ground.level(last.v1), a, b)]
    found = list(lines_level(ground, last.v1, high))
    # A tick beyond the sheet's end: there is roof to come only where that is still on the roof.
    for place in [u for a, b in done for u in (a - 1, b + 1)]:
        parts = ground.upright(place, floor, last.v1)
        found += [(ground.frame.plan(place, a), ground.frame.plan(place, b)) for a, b in parts]
    if first:
        found += lines_level(ground, floor, cut_out(ground.level(floor), done))
    return tuple(found)


def merged(spans: Iterable[Span]) -> list[Span]:
    """Sorted spans, joined where they touch or overlap.  Source: geometry"""
    found: list[Span] = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return found


def lines_level(ground: Ground, level: int, spans: Iterable[Span]) -> tuple[Segment, ...]:
    """Spans of a level line as lines in plan [m]."""
    return tuple((ground.frame.plan(a, level), ground.frame.plan(b, level)) for a, b in spans)
