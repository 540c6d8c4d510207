"""T-joints of details, counted with a pencil, and against a plain count that holds every lap against every other.

All in inches, level, default rules: cap flashings have a leg of 6 on the field, backers one of 4, and the cap runs
4 x 0.414 = 1.66 up the cant.  What lies on the cap is crossed by the cap's laps alone.

The roof: 300 by 172, metal on the south, tie-ins on the other sides; sheets of 39 3/8 that begin 1/2 back from the
metal: the cap's side laps lie at 36 7/8, 73 1/4, 109 5/8 and 146.  No course is longer than a sheet of 394: no end
lap in the cap; and one strip along each side, lapped with none.

Curb A is 60 by 34 with its south-west corner at (40, 78): its south face is at 78, its legs reach down to 72 and 74,
so the cap's go over the lap at 73 1/4 and the backers' do not; 78 + 34 = 112, so its north face has no lap before it,
and none at 109 5/8 on the cant, which is followed from 112 down to 110.34. On the south face a sheet of 39 3/8 covers
60 in two pieces, one lap: of the cap's it crosses 73 1/4: 1. The upright gussets, 6 on either face of each of the two
south corners, have their edges 6 from the corner: those of the cap cross 73 1/4 too: 2. The edges on the east and
west faces run along the courses. In all 3.

Curb B is 60 by 36 with its south-west corner at (160, 77): its south legs reach down to 71 and 73, both over 73 1/4,
its north face is at 113.  So both plies have the lap of two pieces and two gussets: 6.

Drain D is at (250, 60); the cap's target is 48 by 48, panels of 39 and 12 that lap 3, the second from 262 on: its edge,
from 36 to 84, crosses 36 7/8 and 73 1/4: 2.  The target of the base is one piece.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace

import pytest
from roofs import GRID, INCH, TWO_PLIES, flat, rectangle, rules

from lapwright.layout.detailjoints import meeting_share
from lapwright.layout.place import make_layout
from lapwright.layout.values import Layout, TJoint
from lapwright.roof.values import Drain, Opening

IN = 0.0254


def curb(name: str, x: float, y: float, wide: float, deep: float) -> Opening:
    """A curb 8 high by its south-west corner."""
    corner, size = (round(x * INCH), round(y * INCH)), (round(wide * INCH), round(deep * INCH))
    return Opening(name, "curb", corner, size, 8 * IN)


def laid(*openings: Opening, drains: tuple[Drain, ...] = ()) -> Layout:
    """The layout of the roof with its openings and drains."""
    area = flat(rectangle(300 * INCH, 172 * INCH, ["metal_edge", "tie_in", "tie_in", "tie_in"], openings))
    return make_layout([replace(area, drains=drains)], TWO_PLIES, rules(), grid=GRID)


A, B = curb("A", 40, 78, 60, 34), curb("B", 160, 77, 60, 36)
LAYOUT = laid(A, B, drains=(Drain("D", "drain", at=(250 * INCH, 60 * INCH)),))


def of_details(layout: Layout) -> list[TJoint]:
    """T-joints of laps between details; those of feet are counted in test_feet.py."""
    details = {one.id for one in layout.details}
    between = {lap.id for lap in layout.laps if details.issuperset(lap.pieces)}
    return [joint for joint in layout.tjoints if joint.laps[0] in between]


def test_counted_by_pencil() -> None:
    """3 at curb A, 6 at curb B, 2 at the drain."""
    found = Counter(joint.id.split("/")[1].split()[0] for joint in of_details(LAYOUT))
    assert found == {"A": 3, "B": 6, "D": 2}


def test_places_at_the_drain() -> None:
    """At (262, 36 7/8) and (262, 73 1/4)."""
    places = [joint.at for joint in of_details(LAYOUT) if joint.id.startswith("Main/D/")]
    assert sorted((x / IN, y / IN) for x, y in places) == [
        pytest.approx((262, 36.875), abs=1e-3),
        pytest.approx((262, 73.25), abs=1e-3),
    ]


def test_all_lie_on_the_cap_and_name_a_lap_of_it() -> None:
    """Both laps that a T-joint names are listed, the second one of the cap's field."""
    laps = {lap.id: lap for lap in LAYOUT.laps}
    assert {joint.ply for joint in of_details(LAYOUT)} == {"cap"}
    assert {(laps[joint.laps[0]].kind, laps[joint.laps[1]].kind) for joint in of_details(LAYOUT)} == {
        ("flashing", "side")
    }
    assert {laps[joint.laps[1]].ply for joint in of_details(LAYOUT)} == {"cap"}


def test_closed_after_the_field() -> None:
    """Flashings come last, so their T-joints do."""
    kinds = [joint.kind for joint in LAYOUT.tjoints]
    assert kinds == sorted(kinds, key=("field", "detail").index)


def test_a_moved_curb_leaves_the_others_their_ids() -> None:
    """With curb A 10 to the west the ids at B and at the drain stay."""
    moved = laid(curb("A", 30, 78, 60, 34), B, drains=(Drain("D", "drain", at=(250 * INCH, 60 * INCH)),))
    far = [[one.id for one in of_details(layout) if "/A " not in one.id] for layout in (LAYOUT, moved)]
    assert far[0] == far[1]
    assert len(far[0]) == 8


def test_a_lap_on_the_cant_is_crossed_too() -> None:
    """A curb whose north face is at 147, 1 over the lap at 146, is flashed over it where the cap runs up its cant."""
    layout = laid(curb("C", 40, 100, 60, 47))
    found = Counter(joint.id.split("/")[1] for joint in of_details(layout) if joint.at[1] / IN > 145)
    assert found == {"C N": 2, "C NE": 2, "C NW": 2}


def test_strips_lie_on_the_base() -> None:
    """60' by 57" with metal all round: laps of strips cross those of the base, not of the cap.

    The base's side laps lie at 18 1/2 to 18 7/8 and 36 3/8 above that, at 55 or so, 2 under the north edge; the
    cap's at 36 7/8.  The strip under the north side's metal is lapped once and by both corners' strips, from 4 1/2
    below the edge to as much past it: 3.  On the south side nothing lies so near; laps of the others run along the
    courses.
    """
    area = flat(rectangle(720 * INCH, 57 * INCH, ["metal_edge"] * 4))
    layout = make_layout([area], TWO_PLIES, rules(narrowest_rip='3"'), grid=GRID)
    laps = {lap.id: lap.kind for lap in layout.laps}
    found = of_details(layout)
    assert {(joint.ply, laps[joint.laps[0]]) for joint in found} == {("base", "strip")}
    assert len({joint.at for joint in found}) == 3


@pytest.mark.parametrize(
    ("one", "other", "share"),
    [
        (((0, 0), (100, 0)), ((50, -10), (50, 10)), 0.5),
        (((0, 0), (100, 0)), ((100, 0), (100, 50)), 1.0),
        (((0, 0), (100, 0)), ((50, 5), (50, 10)), None),
        (((0, 0), (100, 0)), ((0, 0), (100, 0)), None),
        (((0, 0), (100, 100)), ((0, 50), (200, 50)), 0.5),
    ],
    ids=["across", "at the end", "short of it", "along it", "slanting"],
)
def test_where_two_edges_cross(one: object, other: object, share: float | None) -> None:
    """The share of the first edge."""
    assert meeting_share(one, other) == share


def test_the_plain_count_agrees() -> None:
    """Every lap of what lies on the cap held against every side lap of the cap: as many crossings."""
    details = {one.id for one in LAYOUT.details}
    legs = [lap for lap in LAYOUT.laps if lap.kind == "flashing" and details.issuperset(lap.pieces)]
    sides = [lap for lap in LAYOUT.laps if lap.kind == "side" and lap.ply == "cap"]
    count = 0
    for leg in legs:
        (x, y0), (_, y1) = leg.line
        is_upright = math.isclose(x, leg.line[1][0], abs_tol=1e-9)
        for side in sides:
            (left, level), (right, _) = side.line
            count += is_upright and min(y0, y1) <= level <= max(y0, y1) and left <= x <= right
    assert len(of_details(LAYOUT)) == count == 11
