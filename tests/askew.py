"""Roofs at random with openings that stand askew: long thin curbs, curbs near one another, courtyards, by a seed.

Long curbs 2" to 12" wide stand at 10 to 45 degrees to the courses; two small ones stand behind one another within a
course, two of any size 10" to 30" apart; boxes stand against an edge; courtyards have slanted sides.  Outlines are
those of strategies.py, of one area or of planes.
"""

from __future__ import annotations

import math
import random
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from shapely import Point as Spot
from shapely import Polygon

from lapwright.assembly.values import Assembly
from lapwright.defaults.values import Rules
from lapwright.roof.build import EdgeRow, make_area
from lapwright.roof.planes import PlaneRow, split_area
from lapwright.roof.values import Area, Drain, Opening

strategies: Any = sys.modules["strategies"]  # whoever loads this has loaded that before

Ring = list[tuple[float, float]]
Source = Callable[[int, int], int]

NEAR = 0.75  # openings keep this from one another [ft]
DRAIN = 0.5  # drains keep this from openings and edges [ft]
TRIES = 6  # places tried for an opening


def askew_roof(seed: int) -> Any:
    """The roof of a seed."""
    return make_askew_roof(random.Random(seed).randint, seed)


def make_askew_roof(pick: Source, seed: int) -> Any:
    """A job of one area, or of planes, up to 60' long with up to four sorts of openings."""
    tape = strategies.METRIC if pick(0, 3) == 3 else strategies.US
    assembly, rules = strategies._metric_job(pick) if tape is strategies.METRIC else strategies._us_job(pick)
    if pick(0, 2) < 2:
        area, rows = _plain(pick, tape, assembly, rules), []
    else:
        area, rows = _planed(pick, tape)
    openings = _openings(Yard(pick, tape, area))
    area = replace(area, openings=openings, drains=_clear(area, openings, tape))
    areas = split_area(area, rows) if len(rows) > 1 else (area,)
    return strategies.Roof(seed, areas, assembly, rules, tape.grid)


def _plain(pick: Source, tape: Any, assembly: Assembly, rules: Rules) -> Area:
    area: Area = strategies._area(pick, tape, assembly, rules, number=0, most_feet=60)
    return replace(area, openings=())


def _planed(pick: Source, tape: Any) -> tuple[Area, list[PlaneRow]]:
    """A rectangle with the planes of an odd roof."""
    wide, deep = (max(strategies._length(pick, tape, 60), 12 * tape.foot) * tape.step for _ in "wd")
    corners = ((0, 0), (wide, 0), (wide, deep), (0, deep))
    kinds = ("metal_edge", "parapet", "wall", "tie_in")
    edges = [EdgeRow((side,), kinds[pick(0, 3)], 0.3) for side in (1, 2, 3, 4)]
    slope = (1 / 48, 1 / 48, 1 / 24, 2 / 12, 4 / 12)[pick(0, 4)]
    foot = 4 * tape.foot
    middle = (
        pick(foot, wide // tape.step - foot) * tape.step,
        pick(foot, deep // tape.step - foot) * tape.step,
    )
    rows = strategies._plane_rows(pick, corners, middle, slope)
    drains = strategies._drains(pick, tape, (wide, deep), middle)
    return make_area("Main", corners, falls=rows[0].falls, slope=slope, edges=edges, drains=drains), rows


def _clear(area: Area, openings: Sequence[Opening], tape: Any) -> tuple[Drain, ...]:
    """The drains that stand clear of openings and edges."""
    off = DRAIN * tape.foot * tape.step
    taken = [Polygon(one.outline) for one in openings]
    room = Polygon(area.outline).buffer(-off)
    found = []
    for drain in area.drains:
        spot = Spot(drain.at or (0, 0))
        if room.contains(spot) and all(one.distance(spot) > off for one in taken):
            found.append(drain)
    return tuple(found)


@dataclass(slots=True)
class Yard:
    """An area with the rings of the openings that have found a place in it [ticks]."""

    pick: Source
    tape: Any
    area: Area
    rings: list[Ring] = field(default_factory=list)

    @property
    def foot(self) -> int:
        """A foot, or 30 cm."""
        return int(self.tape.foot * self.tape.step)

    @property
    def inch(self) -> int:
        """A twelfth of that."""
        return self.foot // 12

    @property
    def along(self) -> float:
        """The way of the courses [degrees]."""
        return math.degrees(math.atan2(self.area.falls[1], self.area.falls[0])) + 90

    def size(self, low: int, high: int) -> int:
        """So many inches at random."""
        return self.pick(low, high) * self.inch

    def put(self, ring: Ring, *, against: bool = False) -> bool:
        """Takes an opening up where it has room: a foot from every edge, unless it may stand against one."""
        shape, whole = Polygon([(round(x), round(y)) for x, y in ring]), Polygon(self.area.outline)
        is_off = against or whole.exterior.distance(shape) >= self.foot
        is_apart = all(shape.distance(Polygon(one)) >= NEAR * self.foot for one in self.rings)
        has_room = bool(whole.buffer(1).contains(shape) and is_off and is_apart)
        if has_room:
            self.rings.append(ring)
        return has_room


def _openings(yard: Yard) -> tuple[Opening, ...]:
    """Up to four sorts, each at one of some places, where it has room."""
    left, low, right, high = Polygon(yard.area.outline).bounds
    for _ in range(yard.pick(1, 4)):
        make = (_long, _behind, _two, _against, _courtyard, _turned)[yard.pick(0, 5)]
        for _ in range(TRIES):
            spot = (
                left + (right - left) * yard.pick(0, 1000) / 1000,
                low + (high - low) * yard.pick(0, 1000) / 1000,
            )
            askew = yard.along + (1 if yard.pick(0, 1) else -1) * yard.pick(10, 45)
            if make(yard, spot, askew):
                break
    return tuple(_opening(f"O-{k}", ring, yard.foot) for k, ring in enumerate(yard.rings, start=1))


def _opening(name: str, ring: Ring, foot: int) -> Opening:
    """An opening of a ring; a shaft where it is larger than 8' by 8'."""
    points = [(round(x), round(y)) for x, y in ring]
    left, low = min(x for x, _ in points), min(y for _, y in points)
    wide, deep = max(x for x, _ in points) - left, max(y for _, y in points) - low
    own = tuple((x - left, y - low) for x, y in points)
    is_upright = len(own) == 4 and set(own) == {(0, 0), (wide, 0), (wide, deep), (0, deep)}
    kind = "shaft" if Polygon(ring).area > (8 * foot) ** 2 else "curb"
    return Opening(name, kind, (left, low), (wide, deep), 0.3, () if is_upright else own)


def _box(long: float, deep: float, degrees: float, middle: tuple[float, float]) -> Ring:
    """A rectangle turned, with its middle at a place."""
    cosine, sine = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    ring = [(x * cosine - y * sine, x * sine + y * cosine) for x, y in ((0, 0), (long, 0), (long, deep), (0, deep))]
    return _moved(ring, middle)


def _moved(ring: Ring, middle: tuple[float, float]) -> Ring:
    """A ring with the mean of its corners at a place."""
    x, y = (sum(at[k] for at in ring) / len(ring) for k in (0, 1))
    return [(a - x + middle[0], b - y + middle[1]) for a, b in ring]


def _long(yard: Yard, spot: tuple[float, float], askew: float) -> bool:
    """A long thin curb askew."""
    long = yard.pick(4 * yard.tape.foot, 20 * yard.tape.foot) * yard.tape.step
    return yard.put(_box(long, yard.size(2, 12), askew, spot))


def _behind(yard: Yard, spot: tuple[float, float], askew: float) -> bool:
    """Two small curbs behind one another, so near that one course may hold both."""
    (long, deep), (other_long, other_deep) = ((yard.size(6, 40), yard.size(4, 14)) for _ in "ab")
    gap = yard.size(9, 20)
    if not yard.put(_box(long, deep, yard.along, spot)):
        return False
    down = math.radians(yard.along - 90)
    far, aside = (deep + other_deep) / 2 + gap, yard.size(-20, 20)
    x = spot[0] - far * math.cos(down) + aside * math.sin(down)
    y = spot[1] - far * math.sin(down) - aside * math.cos(down)
    yard.put(_box(other_long, other_deep, yard.along, (x, y)))
    return True


def _two(yard: Yard, spot: tuple[float, float], askew: float) -> bool:
    """Two curbs 10" to 30" apart, the second pushed away from the first until it is."""
    deep, long, other_deep, other_long = (yard.size(*span) for span in ((2, 30), (6, 60), (2, 30), (6, 60)))
    turn = askew if yard.pick(0, 1) else yard.along
    first = _box(long, deep, turn, spot)
    if not yard.put(first):
        return False
    way, gap = math.radians(yard.pick(0, 359)), yard.size(10, 30)
    turn = turn if yard.pick(0, 1) else yard.along + yard.pick(-45, 45)
    near, far = 0.0, 30.0 * yard.foot
    for _ in range(30):
        off = (near + far) / 2
        other = _box(other_long, other_deep, turn, (spot[0] + off * math.cos(way), spot[1] + off * math.sin(way)))
        near, far = (off, far) if Polygon(other).distance(Polygon(first)) < gap else (near, off)
    yard.put(_box(other_long, other_deep, turn, (spot[0] + far * math.cos(way), spot[1] + far * math.sin(way))))
    return True


def _against(yard: Yard, spot: tuple[float, float], askew: float) -> bool:
    """A box against an edge that runs east or north."""
    ring = yard.area.outline
    side = yard.pick(0, len(ring) - 1)
    (ax, ay), (bx, by) = ring[side], ring[(side + 1) % len(ring)]
    long, wide, deep = math.dist((ax, ay), (bx, by)), yard.size(6, 60), yard.size(6, 60)
    if long < wide + 24 * yard.inch:
        return False
    at = yard.pick(0, int((long - wide) // yard.tape.step)) * yard.tape.step if yard.pick(0, 3) else 0
    x, y = (bx - ax) / long, (by - ay) / long
    if abs(x * y) > 1e-9:
        return False
    corners = ((at, 0), (at + wide, 0), (at + wide, deep), (at, deep))
    return yard.put([(ax + x * p - y * q, ay + y * p + x * q) for p, q in corners], against=True)


def _courtyard(yard: Yard, spot: tuple[float, float], askew: float) -> bool:
    """A large opening with slanted sides, one in two with a corner turned in."""
    wide, deep = yard.pick(6, 16) * yard.foot, yard.pick(6, 16) * yard.foot
    a, b, c, d, e, f, g, h = (yard.size(0, 36) for _ in range(8))
    ring: Ring = [(a, -b), (wide + c, d), (wide - e, deep + f), (-g, deep - h)]
    if yard.pick(0, 1):
        ring.insert(2, (wide * 0.6, deep * 0.4))
    return bool(Polygon(ring).is_valid) and yard.put(_moved(ring, spot))


def _turned(yard: Yard, spot: tuple[float, float], askew: float) -> bool:
    """A curb turned by any angle."""
    return yard.put(_box(yard.size(6, 60), yard.size(6, 60), yard.along + yard.pick(0, 89), spot))
