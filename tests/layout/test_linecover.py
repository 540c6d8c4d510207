"""Least of side laps and of what is trimmed off: by hand, and odd grounds against lines drawn by lot."""

from __future__ import annotations

import math
import random

import pytest
from roofs import FOOT, inches
from shapely import LineString
from shapely.affinity import rotate
from shapely.geometry import Polygon
from test_sections import region

from lapwright.assembly.values import Sheet
from lapwright.layout.linecover import cover_least
from lapwright.layout.region import Region
from lapwright.layout.sections import Ground, edges_of

SHEET = Sheet("cap", inches(39.375), 32 * FOOT + inches(10), inches(3), inches(6))
COLUMNS, DRAWS = 160, 60
Corners = list[tuple[float, float]]
OBLONG, NOTCHED = [(0, 0), (40, 0), (40, 22), (0, 22)], [(0, 0), (40, 0), (40, 9), (18, 9), (18, 25), (0, 25)]
HATCH = [(12, 6), (19, 6), (19, 12), (12, 12)]


def least(ground: Region, *, is_exact: bool = True) -> tuple[float, float]:
    """What we state: what laps go through in feet, and sheet beyond the ground in square feet."""
    through, beyond = cover_least(Ground(edges_of(ground)), ground, SHEET, is_exact=is_exact)
    return through / FOOT, beyond / FOOT**2


def test_a_rectangle_by_hand() -> None:
    """97' by 12': 144" take four sheets, 39 3/8", 75 3/4", 112 1/8" and 148 1/2", so three laps of 97'."""
    ground = region([(0, 0), (97, 0), (97, 12), (0, 12)])
    assert least(ground) == pytest.approx((3 * 97, 3 * 97 / 4))
    assert least(ground, is_exact=False) == pytest.approx((3 * 97, 3 * 97 / 4))


def test_an_l_by_hand() -> None:
    """60' by 10' under 30' by 10': lines 39 3/8", 75 3/4", 112 1/8" up lie in the wide part, three more in the other.

    No fewer are in the wide part: the fourth is 148 1/2" up at most; the sixth, 221 1/4", is short of 240" by 18 3/4".
    """
    ground = region([(0, 0), (60, 0), (60, 10), (30, 10), (30, 20), (0, 20)])
    assert least(ground)[0] == pytest.approx(3 * 60 + 3 * 30)


def test_a_slanted_end_by_hand() -> None:
    """30' by 36 3/8" under a roof edge that rises by 3" to the right: one sheet, trimmed off over the low part.

    The sheet ends where the ground does, 39 3/8" up: 3" by 30', halved, are trimmed off; less the 1.2 mm that may lack.
    """
    low, high = inches(36.375) / FOOT, inches(39.375) / FOOT
    through, beyond = least(region([(0, 0), (30, 0), (30, high), (0, low)]))
    assert through == 0.0
    assert beyond == pytest.approx(30 * 0.25 / 2, rel=0.05)


def test_ground_in_two_parts_tells_nothing() -> None:
    """12' of ground, 4' of none and 12' of ground: the sheet beyond may begin anywhere."""
    lower = [(0, 0), (30, 0), (30, 12), (0, 12)]
    ground = region([(0, 0), (30, 0), (30, 28), (0, 28)], [(0, 12), (30, 12), (30, 16), (0, 16)])
    assert least(region(lower))[0] == pytest.approx(3 * 30)
    assert least(ground) == (0.0, 0.0)


def turned(corners: Corners, degrees: float, hole: Corners | None = None) -> Region:
    """Ground turned about its middle and set down at 0, 0."""
    shape = rotate(Polygon(corners, [hole] if hole else []), degrees, origin="centroid")
    left, low, _, _ = shape.bounds
    rings = [[(x - left, y - low) for x, y in ring.coords[:-1]] for ring in (shape.exterior, *shape.interiors)]
    return region(rings[0], *rings[1:])


def columns(ground: Region) -> list[list[tuple[float, float]]]:
    """Stretches of ground up the fall at evenly spread places across it [ticks], by another library."""
    low, high = ground.begins - 10, ground.ends + 10
    found = []
    for k in range(COLUMNS):
        u = ground.left + (ground.right - ground.left) * (k + 0.5) / COLUMNS
        cut = ground.shape.intersection(LineString([(u, low), (u, high)]))
        parts = [part for part in getattr(cut, "geoms", [cut]) if part.length > 1.0]
        found.append(sorted((part.bounds[1], part.bounds[3]) for part in parts))
    return found


def drawn_lines(ground: Region, draw: random.Random, *, is_exact: bool) -> list[tuple[float, float]]:
    """Sheets from their low to their high edges, drawn by lot: ripped now and then, lapping more where they may."""
    wide, lap, foot = SHEET.width_ticks, SHEET.side_lap_ticks, FOOT
    tops = draw.uniform(foot, wide) if draw.random() < 0.7 else float(wide)
    sheets = [(float(ground.begins), ground.begins + tops)]
    while sheets[-1][1] < ground.ends:
        more = 0.0 if is_exact or draw.random() < 0.6 else draw.uniform(0.0, wide / 2)
        high = wide if draw.random() < 0.85 else draw.uniform(foot, wide)
        below, top = sheets[-1]
        low = max(top - lap - more, below + 1.0)
        if low + high > top + 1.0:
            sheets.append((low, low + high))
    return sheets


def lying(stretches: list[tuple[float, float]], sheets: list[tuple[float, float]]) -> set[int]:
    """Sheets that show somewhere on a column, each up to where the next begins or the ground ends under its own."""
    found = set()
    for a, b in stretches:
        for k, (low, _) in enumerate(sheets):
            ends = sheets[k + 1][0] if k + 1 < len(sheets) else math.inf
            is_needed = k == 0 or sheets[k - 1][1] < b or low <= a
            if is_needed and low < b and ends > a:
                found.add(k)
    return found


@pytest.mark.parametrize("is_exact", [True, False], ids=["as asked", "or wider"])
@pytest.mark.parametrize(
    ("corners", "degrees", "hole"),
    [
        (OBLONG, 10, None),
        (OBLONG, 35, None),
        (OBLONG, 3, HATCH),
        (NOTCHED, 0, None),
        (NOTCHED, 8, None),
        (NOTCHED, 200, None),
        ([(0, 0), (30, 0), (15, 24)], 0, None),
    ],
    ids=["10", "35", "3 with a hatch", "L", "L 8", "L 200", "triangle"],
)
def test_no_lines_drawn_by_lot_take_less(
    corners: Corners, degrees: float, hole: Corners | None, is_exact: bool
) -> None:
    """Length and area that any lines take, counted column by column, are no less than the ground's and what we state.

    A sheet that ends past the high edge is ripped there.
    """
    ground = turned(corners, degrees, hole)
    each = (ground.right - ground.left) / FOOT / COLUMNS
    counted, draw = columns(ground), random.Random(17)
    lengths, sizes = [], []
    for _ in range(DRAWS):
        sheets = drawn_lines(ground, draw, is_exact=is_exact)
        on = [lying(one, sheets) for one in counted]
        high = [min(top, ground.ends) - low for low, top in sheets]
        lengths.append(sum(map(len, on)) * each)
        sizes.append(sum(high[k] for found in on for k in found) / FOOT * each)
    through, beyond = least(ground, is_exact=is_exact)
    length, size = COLUMNS * each + through, ground.shape.area / FOOT**2 + beyond
    assert 0.8 * min(lengths) <= length <= min(lengths) + 2 * len(counted) / COLUMNS
    assert 0.8 * min(sizes) <= size <= min(sizes) * 1.004  # columns stand for strips of ground
