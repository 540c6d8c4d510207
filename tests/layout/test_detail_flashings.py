"""Base flashings: girth, pieces, joints off the field's laps, rolls."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from roofs import BASE, BRIEF, CAP, FOOT, GRID, INCH, TWO_PLIES, flat, inches, make_area, rectangle, rules

from lapwright.assembly.values import Ply, Sheet
from lapwright.layout.abreast import set_abreast
from lapwright.layout.cutting import Cut, cut_rolls
from lapwright.layout.details.fieldlaps import FieldLaps
from lapwright.layout.details.flashings import (
    farthest,
    fixings,
    flash_stand,
    flashed_height,
    girth_parts,
    nearest,
    place_joints,
    walk_joints,
)
from lapwright.layout.details.make import make_details
from lapwright.layout.details.stands import Stand, stands_of
from lapwright.layout.place import make_layout
from lapwright.layout.values import Detail, Frame
from lapwright.roof.values import Area, Opening

IN = 0.0254


def stand(length_in: float, *, kind: str = "parapet", height_in: float | None = 14.0) -> Stand:
    """A level face so long, facing south."""
    long = inches(length_in)
    height = None if height_in is None else height_in * IN
    return Stand("side 3", kind, (0, 0), (long, 0), (0.0, -1.0), height, float(long), ((0.0, float(long)),))


def joints_in(length_in: float, meets_in: list[float], under_in: list[float] | None = None) -> list[float]:
    """Joints along a face [in] with field laps and joints underneath [in]."""
    meets, under = ([float(inches(x)) for x in xs] for xs in (meets_in, under_in or []))
    found = place_joints((0.0, float(inches(length_in))), CAP, inches(12), meets, under)
    return [round(place / INCH, 4) for place in found.places]


def wall_of_120_feet(cap: Sheet) -> list[Detail]:
    """Cap flashings of 20" girth along 120': 14" of wall without a cant, and 6" on the field."""
    plies = (TWO_PLIES.plies[0], Ply("cap", cap, "self_adhered"))
    return flash_stand("Main", stand(1440), plies, ((), ()), rules(cant='0"'))[1].pieces


@pytest.mark.parametrize(("roll", "rolls"), [("33' 6\"", 2), ("32' 10\"", 3)])
def test_rolls_of_120_feet_of_wall(roll: str, rolls: int) -> None:
    """Common practice: 40 pieces of 20", 20 to a roll of 33.5' (402" / 20"), 19 to one of 32' 10" (394" / 20")."""
    ticks = {"33' 6\"": 402 * INCH, "32' 10\"": 394 * INCH}[roll]
    pieces = wall_of_120_feet(Sheet("cap-sa", CAP.width_ticks, ticks, 3 * INCH, 6 * INCH))
    assert (len(pieces), {piece.takes_ticks for piece in pieces}) == (40, {20 * INCH})
    cuts = [Cut(one.id, one.takes_ticks, k) for k, one in enumerate(set_abreast(pieces, {"cap-sa": CAP}))]
    assert len(cut_rolls("cap-sa", ticks, [], cuts)[0]) == rolls


def test_girth_is_wall_cant_and_leg() -> None:
    """14" high over a cant of 4": 10" of wall, 4√2" of cant, 6" on the field."""
    assert girth_parts(14 * IN, inches(6), rules()) == pytest.approx(
        {"wall": 10 * IN, "cant": 4 * math.sqrt(2) * IN, "field": 6 * IN}
    )


@pytest.mark.parametrize(
    ("kind", "height", "flashed"),
    [
        ("parapet", 14, 14),
        ("parapet", 30, 30),  # over 24": whole, held part-way
        ("curb", 6, 6),  # under the rule: as high as there is, and the check of heights fails
        ("wall", 24, 24),
        ("wall", 120, 8),  # behind its own finish
        ("step", 30, 8),
        ("parapet", None, 8),
        ("shaft", 900, 8),  # taller than any piece
    ],
)
def test_how_high_a_flashing_stands(kind: str, height: float | None, flashed: float) -> None:
    """Up the whole face, but for tall walls, unknown heights and faces taller than a piece: the least, 8"."""
    found = flashed_height(stand(100, kind=kind, height_in=height), 33 * FOOT, rules())
    assert found == pytest.approx(flashed * IN)


@pytest.mark.parametrize(("height", "rows"), [(24, []), (30, [15.0]), (48, [24.0]), (60, [20.0, 40.0])])
def test_tall_flashings_are_held_part_way(height: float, rows: list[float]) -> None:
    """Up to 24" none; 30" once at half; 48" once; 60" twice, at thirds."""
    one = flash_stand("Main", stand(100, height_in=height), TWO_PLIES.plies, ((), ()), rules())[1]
    assert [row.parts["height"] / IN for row in fixings("Main", one)] == pytest.approx(rows)


def test_joints_go_as_far_as_the_sheet_reaches() -> None:
    """Without laps in the field: 36 3/8" apart; the last piece of 10' is 14 7/8" wide."""
    assert joints_in(120, []) == [36.375, 72.75, 109.125 - 1.125]  # the last one leaves a foot
    assert joints_in(39.375, []) == []


def test_joints_keep_twelve_inches_off_laps_of_the_field() -> None:
    """Laps at 36 7/8" and 73 1/4" push the joints to 24 7/8" and 61 1/4"; from there 33 3/4" are left of 95"."""
    assert joints_in(95, [36.875, 73.25]) == [24.875, 61.25]


def test_a_joint_that_can_not_keep_off_goes_to_the_farthest_place() -> None:
    """Laps every 10" leave no place; between 9" and 36 3/8" the middles lie 5" off: the last of them is taken."""
    meets = [float(inches(x)) for x in range(0, 80, 10)]
    found = place_joints((0.0, float(inches(70))), CAP, inches(12), meets, ())
    assert (round(found.places[0] / INCH, 4), found.near) == (35.0, 1)
    assert farthest(0.0, 10.0, ()) == 10.0


def test_the_cap_flashing_breaks_joints_with_the_backer_where_that_costs_nothing() -> None:
    """120' has 18" to spare over 40 pieces: 12" off; 18' has 5 1/4" over 6 pieces: 3" off; 18' 5" has 1/4": none."""
    assert joints_in(1440, [], joints_in(1440, []))[0] == 24.375
    assert joints_in(216, [], joints_in(216, []))[0] == 33.375
    assert joints_in(221, [], joints_in(221, [])) == joints_in(221, [])


def test_the_greedy_walk_takes_the_fewest_joints() -> None:
    """Against every choice of joints on a grid of an inch, for faces with laps of the field here and there."""
    for length, meets in ((80, [20, 50]), (100, [37, 61]), (130, [30, 66, 102]), (75, [30])):
        best = fewest(length, meets)
        off = sorted(((x - 12.0) * INCH, (x + 12.0) * INCH) for x in meets)
        found = walk_joints((0.0, float(inches(length))), SHEET_40, off, ())
        assert (len(found.places), found.near) == (best, 0)


SHEET_40 = Sheet("s", 40 * INCH, 400 * INCH, 3 * INCH, 6 * INCH)


def fewest(length: int, meets: list[int]) -> int:
    """Fewest joints on whole inches: 9" to 37" apart, a foot or more and at most 40" left, 12" off every lap."""
    reach = {0: 0}
    for at in range(length):
        for place in range(at + 9, at + 38):
            if at in reach and place <= length - 12 and all(abs(place - meet) >= 12 for meet in meets):
                reach[place] = min(reach.get(place, 99), reach[at] + 1)
    return min(count for at, count in reach.items() if length - at <= 40)


def test_field_laps_meet_a_wall_where_they_cross_it() -> None:
    """A wall up the fall from 10" to 100": side laps at 37" and 73" meet it; one whose stretch ends 20' short not."""
    frame = Frame((0.0, 0.0), (1.0, 0.0), (0.0, 1.0), 1.0)
    far = (-float(20 * FOOT), 0.0)
    sides = {inches(37): [far], inches(73): [far], inches(90): [(-40.0 * FOOT, -20.0 * FOOT)]}
    laps = FieldLaps(frame, sides, sorted(sides), [(float(inches(-50)), 0.0, float(inches(40)))])
    wall = Stand("side 2", "wall", (0, inches(10)), (0, inches(100)), (-1.0, 0.0), 0.3, inches(90.0), ())
    assert [place / INCH for place in laps.meet(wall)] == pytest.approx([27, 63])
    eave = Stand("side 1", "wall", (-inches(100), 0), (0, 0), (0.0, 1.0), 0.3, inches(100.0), ())
    assert [place / INCH for place in laps.meet_ends(eave)] == pytest.approx([50])
    assert (laps.meet(eave), laps.meet_ends(wall)) == ([], [])


def test_a_lap_that_ends_within_an_inch_of_a_face_runs_into_it_also_where_courses_run_with_the_fall() -> None:
    """On a slope of 3 in 4 an inch in plan is 1 1/4" along the lap: one that ends 1.2" off meets it, at 1.3" not."""
    for is_strapped, off, met in ((True, 1.2, [27]), (True, 1.3, []), (False, 0.95, [27]), (False, 1.2, [])):
        frame = Frame((0.0, 0.0), (1.0, 0.0), (0.0, 1.0), 1.25, is_strapped=is_strapped)
        level = inches(37 if is_strapped else 46.25)
        laps = FieldLaps(frame, {level: [(-20.0 * FOOT, -off * INCH)]}, [level], [])
        wall = Stand("side 2", "wall", (0, inches(10)), (0, inches(100)), (-1.0, 0.0), 0.3, inches(90.0), ())
        assert [place / INCH for place in laps.meet(wall)] == pytest.approx(met)


def test_flashing_laps_of_a_whole_roof_stay_off_the_fields() -> None:
    """On a roof of 97' by 40' every flashing joint is 12" off every side lap of the cap that runs into its wall."""
    area = flat(rectangle(97 * FOOT, 40 * FOOT, ["metal_edge", "parapet", "parapet", "parapet"]))
    layout = make_layout([area], TWO_PLIES, rules(), grid=GRID, patience=BRIEF)
    joints = [
        lap.line[0] for lap in layout.laps if lap.kind == "flashing" and "side 2/" in lap.id and "gusset" not in lap.id
    ]
    laps = [lap.line[0][1] for lap in layout.laps if lap.kind == "side" and lap.ply == "cap"]
    assert len(joints) >= 24
    assert min(abs(y - lap) for _, y in joints for lap in laps) >= 12 * IN - 1e-9


def test_what_can_not_keep_off_is_counted() -> None:
    """With a stagger of 20" there is no place between laps 36 3/8" apart: all joints but the first are counted.

    Laps at 36 3/8", 72 3/4", …: the first joint goes to 16 3/8", 20" below the first lap; the others follow a pitch
    apart, 16 3/8" above one lap and 20" below the next, where they are farthest from both within their reach: 16 3/8",
    52 3/4", … 343 3/4", ten on 360" in each ply.
    """
    area = flat(rectangle(20 * FOOT, 30 * FOOT, ["ridge", "parapet", "ridge", "ridge"]))
    layout = make_layout([area], TWO_PLIES, rules(flashing_lap_stagger='20"'), grid=GRID, patience=BRIEF)
    told = [text for id, text in layout.warnings if id == "layout.flashing-laps-Main"]
    joints = [lap for lap in layout.laps if lap.kind == "flashing" and not lap.id.endswith("/foot")]
    assert len(joints) == 20
    assert told[0].startswith("Main: 18 of 20 laps")


def test_pieces_up_the_fall_are_lapped_from_below() -> None:
    """A wall walked downhill is flashed from its low end, so that the later piece lies up the fall."""
    area = flat(rectangle(20 * FOOT, 30 * FOOT, ["ridge", "ridge", "ridge", "parapet"]))
    pieces = [one for one in make_details(area, TWO_PLIES, rules()).details if one.kind == "flashing"]
    assert [one.line[0][1] for one in pieces if one.line and one.ply == "cap"] == sorted(
        one.line[0][1] for one in pieces if one.line and one.ply == "cap"
    )


def test_lengths_up_the_slope_are_longer_than_in_plan() -> None:
    """At 12 in 12 a wall of 10' in plan is 14.142' long up the fall and 10' across it."""
    from dataclasses import replace

    area = replace(rectangle(10 * FOOT, 10 * FOOT, ["parapet"] * 4), slope=1.0)
    assert [one.length / FOOT for one in stands_of(area)] == pytest.approx([10, 14.1421, 10, 14.1421], abs=1e-4)


def roof_with(*openings: Opening) -> Area:
    """20' by 20' within parapets, with openings."""
    return flat(rectangle(20 * FOOT, 20 * FOOT, ["parapet"] * 4, openings))


def test_a_curb_against_a_wall_is_flashed_where_there_is_roof() -> None:
    """A shaft of 4' in the south-west: its S and W faces have no roof, nor the first 4' of sides 1 and 4."""
    shaft = Opening("S", "shaft", (0, 0), (4 * FOOT, 4 * FOOT), 0.3)
    found = {one.of: [(a / FOOT, b / FOOT) for a, b in one.stretches] for one in stands_of(roof_with(shaft))}
    assert found == {
        "side 1": [(4, 20)],
        "side 2": [(0, 20)],
        "side 3": [(0, 20)],
        "side 4": [(4, 20)],
        "S E": [(0, 4)],
        "S N": [(0, 4)],
    }


def test_an_opening_against_the_middle_of_a_wall_parts_its_flashing() -> None:
    """A shaft from 8' to 12' along side 1: two stretches, whose pieces do not lap one another."""
    shaft = Opening("S", "shaft", (8 * FOOT, 0), (4 * FOOT, 4 * FOOT), 0.3)
    wall = next(one for one in stands_of(roof_with(shaft)) if one.of == "side 1")
    assert [(a / FOOT, b / FOOT) for a, b in wall.stretches] == [(0, 8), (12, 20)]
    both = flash_stand("Main", wall, TWO_PLIES.plies, ((), ()), rules())
    assert [[len(row) for row in one.rows] for one in both] == [[3, 3], [3, 3]]
    assert [one.id for one in both[0].pieces][-1] == "Main/side 1/base flashing 6"


def test_an_area_walked_the_other_way_round_is_flashed_alike() -> None:
    """Clockwise: the legs still lie on the field's side of the wall."""
    ring = [(0, 0), (0, 20 * FOOT), (20 * FOOT, 20 * FOOT), (20 * FOOT, 0)]
    area = flat(make_area(ring, ["parapet"] * 4))
    assert [one.field for one in stands_of(area)] == [(1.0, 0.0), (0.0, -1.0), (-1.0, 0.0), (0.0, 1.0)]


def test_base_and_cap_come_from_their_own_sheets() -> None:
    """The backer is of the base's sheet with a leg of 4", the cap flashing of the cap's with one of 6"."""
    both = flash_stand("Main", stand(30), TWO_PLIES.plies, ((), ()), rules())
    assert [(one.pieces[0].sheet, round(one.pieces[0].parts["field"] / IN, 6)) for one in both] == [
        (BASE.name, 4.0),
        (CAP.name, 6.0),
    ]


def test_faces_flashed_below_their_top_are_told() -> None:
    """A wall of 48" is flashed to 8", which is told; a parapet of 48" is flashed to its top."""
    low = flat(rectangle(inches(240), inches(120), ["ridge", "wall", "ridge", "parapet"]))
    edges = tuple(replace(edge, height=48 * 0.0254) for edge in low.edges)
    warnings = dict(make_layout([replace(low, edges=edges)], TWO_PLIES, rules(), grid=GRID, patience=BRIEF).warnings)
    assert warnings["layout.flashing-height-Main"] == (
        "Main: flashed to flashing_height, not to the top: side 2; above that the wall's own finish has to cover it "
        "and close over the flashing's top edge"
    )


@given(st.floats(-5, 45), st.lists(st.floats(0, 40), max_size=6).map(sorted))
def test_the_nearest_lap_is_that_of_a_look_at_all(place: float, laps: list[float]) -> None:
    """Of no laps the nearest is without end far."""
    assert nearest(place, laps) == min((abs(lap - place) for lap in laps), default=math.inf)
