"""Where the rolls of a pallet may be spread on the deck: squares of the size that the live load asks for (Q4).

A *spot* is a square on which one pallet, broken down, presses no more than the live load less snow.  Spots keep clear
of edges, openings, drains, pipes and one another.  Which of them lies over beams or bearing walls no roof plan says.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from lapwright.assembly.values import Deck
from lapwright.deck.values import Ring, Spot, StagingMap
from lapwright.defaults.si import default_number, default_si
from lapwright.geometry.overlay import less, united
from lapwright.roof.values import Area, Point
from lapwright.units.factors import GRAVITY, TICKS_PER_METRE

STEPS = 12  # places tried along each way of an area
MOST_SPOTS = 40
HAIR = 1e-9


def needed_area_m2(mass_kg: float, live_load_pa: float, snow_pa: float) -> float | None:
    """Deck that a mass [kg] needs for itself under a live load less snow [m²]; None where snow leaves nothing.

    Source: arithmetic
    Checked: tests/published/deck.csv pallet-share, snow-*
    """
    left = live_load_pa - snow_pa
    return mass_kg * float(GRAVITY) / left if left > 0 else None


def staging_map(areas: Sequence[Area], deck: Deck | None, *, rolls: int) -> StagingMap | None:
    """Spots for the pallets that so many rolls come on; None without the engineer's live load or with none left of it.

    Source: common practice, no source: clear of edges, openings and one another
    Checked: tests/deck/test_staging.py
    """
    if deck is None or deck.live_load_pa is None:
        return None
    mass, snow = default_si("deck", "pallet_weight"), deck.snow_pa or 0.0
    needed = needed_area_m2(mass, deck.live_load_pa, snow)
    if needed is None:
        return None
    wanted = min(MOST_SPOTS, math.ceil(rolls / default_number("deck", "pallet_rolls")))
    step = default_si("deck", "spot_step")
    side = math.ceil(math.sqrt(needed) / step - HAIR) * step
    spots: list[Spot] = []
    for area in areas:
        spots += _spots_in(area, side, wanted - len(spots), len(spots))
    return StagingMap(tuple(spots), wanted - len(spots), deck.live_load_pa, snow, mass)


def free_ground(area: Area) -> BaseGeometry:
    """Where things may stand in an area: clear of its edges, openings, drains and pipes [m].

    Source: common practice, no source
    """
    from_edge, from_opening = default_si("deck", "clear_of_edge"), default_si("deck", "clear_of_opening")
    ground = Polygon(_ring(area.outline)).buffer(-from_edge, join_style="mitre")
    blocks = [Polygon(_ring(one.outline)) for one in (*area.openings, *area.beside)]
    places = [drain.at for drain in (*area.drains, *area.near) if drain.at is not None]
    places += [pipe.at for pipe in area.pipes]
    blocks += [
        shapely.Point(x / TICKS_PER_METRE, y / TICKS_PER_METRE).buffer(from_opening, quad_segs=2) for x, y in places
    ]
    if not blocks:
        return ground
    return less(ground, united(block.buffer(from_opening, join_style="mitre") for block in blocks))


def _spots_in(area: Area, side: float, wanted: int, before: int) -> list[Spot]:
    """As many spots as are wanted and find room, from the area's first corner on."""
    found: list[Spot] = []
    if wanted <= 0:
        return found
    free = free_ground(area)
    for ring in _tried(area, side):
        if len(found) == wanted:
            break
        square = Polygon(ring)
        if free.contains(square) and not any(Polygon(spot.ring).overlaps(square) for spot in found):
            found.append(Spot(before + len(found) + 1, area.name, ring, side))
            free = less(free, square)
    return found


def _tried(area: Area, side: float) -> Iterator[Ring]:
    """Squares along and across the fall, spread over the area."""
    fall_x, fall_y = area.falls
    turned = [
        (x * fall_y - y * fall_x, x * fall_x + y * fall_y)
        for x, y in ((px / TICKS_PER_METRE, py / TICKS_PER_METRE) for px, py in area.outline)
    ]
    across, down = [s for s, _ in turned], [d for _, d in turned]
    inset = default_si("deck", "clear_of_edge")
    for row in _places(min(down) + inset, max(down) - inset - side, side):
        for column in _places(min(across) + inset, max(across) - inset - side, side):
            corners = ((column, row), (column + side, row), (column + side, row + side), (column, row + side))
            yield tuple((s * fall_y + d * fall_x, d * fall_y - s * fall_x) for s, d in corners)


def _places(first: float, last: float, side: float) -> list[float]:
    """Places from the first to the last, no closer than a square's side and its gap, at most so many."""
    if last < first:
        return []
    apart = max(side + default_si("deck", "clear_of_spot"), (last - first) / STEPS)
    return [first + apart * number for number in range(int((last - first) / apart) + 1)]


def _ring(points: Sequence[Point]) -> Ring:
    return tuple((x / TICKS_PER_METRE, y / TICKS_PER_METRE) for x, y in points)
