"""A plain roof counted wholly by pencil: 60' by 110, metal on the south, parapets 12 high on the other three sides.

All in inches, level.  Sheets are 39 3/8 wide with side laps of 3 and end laps of 6; base rolls are 787 long, of which
a crew handles 396, cap rolls 394; default rules.

Cap.  It begins 1/2 back from the metal and runs 4 x 0.414 = 1.66 up the cant: low edges at 1/2, 36 7/8, 73 1/4, three
courses (to 112 5/8; 111.66 are needed).  A course is 720 + 2 x 1.66 = 723.3 long: two pieces of 394 less a lap reach
782, with 58.7 of play, more than the 36 that joints of neighbours keep apart: one end lap each, 3.  The two pieces of
a course add up to 729.3, so both are over 335 and no roll of 394 gives two: 6 rolls.

Base.  It runs 2 past the metal, and 2 more up the wall: 3.66.  Its side laps keep 18 from the cap's: the first at 18
1/2 to 18 7/8, then 36 3/8 apart: at about 18.7, 55.1, 91.4, the last under 113.66 by more than a foot: four courses.
A course is 727.3 long, two pieces of 396 less a lap reach 786: one end lap would do, with 58.7 of play in the middle.
But the second course lies under the cap's first and second, whose joints are within the same 58.7 and at least 36
apart: no place there is 36 from both.  The third lies under the second and third likewise.  The first and the fourth
lie under one cap course alone.  So 1 + 2 + 2 + 1 end laps.  A course takes 733.3 or 739.3 of a roll of 787: 4 rolls.

T-joints: an end lap in the first or the last course meets one side lap, elsewhere two: cap 1 + 2 + 1, base 1 + 4 + 4
+ 1.

T-joints of details, all of feet: a strip's foot lies 4 1/2 within the metal, where the end lap of the base's first
course crosses it: 1 on the base.  The feet of flashings lie 4 and 6 off the walls.  Those of the east and west run up
the fall over the laps at 36 7/8 and 73 1/4: 2 walls x 2 plies x 2.  Those of the north lie at 106 and 104 along the
third course, whose end lap crosses both: 2.  In all 10 on the cap.

Flashing pieces of one ply: the north side, (720 - 3) / 36 3/8 = 19.7: 20.  East and west, up the fall from the metal:
joints keep 12 off the laps at 36 7/8 and 73 1/4, so the first goes back to 24 7/8, the next to 61 1/4, and of the 48
3/4 left a sheet takes all but a foot: a third joint, 4 pieces.  28 of either ply; laps 19 + 3 + 3.  Inside corners:
two, with 4 gussets each.  Metal: 720 in lengths of 120, 6, with 6 of cleat and 5 covers; side 1 meets parapets, so no
corner.  Strips: 396 and 330.

Rolls with the details in them.  Cap: the two rolls of a course have 788 - 729 1/2 = 58 1/2 left in all, room for two
flashing pieces of 20 and no third: 6 of 28 in all.  The other 22 take 440, more than one roll: 8.  7 would be 2758,
which 3 x 729 1/2 + 28 x 20 = 2748 1/2 and one more end lap's 6 would leave 9 1/2 or 3 1/2 of: but two courses or
three have the 18 1/2 left that no piece fits, 37 or more.  Base: the field takes 733 1/2, 739 1/2, 739 1/2 and
733 1/2, 2946; with 28 x 18 = 504 of backer that is 3450, more than four rolls have: 5.  Enough: each of the four has
room for two pieces, 8; the other 20 take 360, a strip of 396 with the other beside it 396: 756 of 787.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from roofs import GRID, INCH, TWO_PLIES, flat, rectangle, rules

from lapwright.layout.place import make_layout

AREA = flat(rectangle(720 * INCH, 110 * INCH, ["metal_edge", "parapet", "parapet", "parapet"]))
EDGES = tuple(replace(edge, height=12 * 0.0254 if edge.kind == "parapet" else None) for edge in AREA.edges)
LAYOUT = make_layout([replace(AREA, edges=EDGES)], TWO_PLIES, rules(), grid=GRID, aim="fewest_rolls")
PLIES = {ply.ply: ply for ply in LAYOUT.plies}


def test_courses_rolls_and_end_laps() -> None:
    """Cap 3, 6 and 3; base 4, 4 and 6."""
    assert {name: (len(ply.courses), ply.rolls, ply.end_laps) for name, ply in PLIES.items()} == {
        "base": (4, 4, 6),
        "cap": (3, 6, 3),
    }


def test_rolls_with_the_details() -> None:
    """Cap 8, base 5."""
    assert Counter(roll.sheet for roll in LAYOUT.rolls) == {"base-sa": 5, "cap-sa": 8}


def test_tjoints() -> None:
    """Of the field cap 4, base 10; of details cap 10, base 1."""
    assert Counter((joint.kind, joint.ply) for joint in LAYOUT.tjoints) == {
        ("field", "base"): 10,
        ("field", "cap"): 4,
        ("detail", "base"): 1,
        ("detail", "cap"): 10,
    }


def test_flashing_pieces() -> None:
    """20 on the north side, 4 on the east and west, in either ply."""
    found = Counter((one.of, one.ply) for one in LAYOUT.details if one.kind == "flashing")
    counts = {"side 2": 4, "side 3": 20, "side 4": 4}
    assert found == {(of, ply): count for of, count in counts.items() for ply in ("base", "cap")}


def test_laps_of_flashings() -> None:
    """In either ply 25, two for each of the two upright gussets, and a foot for each of the 28 pieces."""
    assert Counter(lap.ply for lap in LAYOUT.laps if lap.kind == "flashing") == {"base": 29 + 28, "cap": 29 + 28}


def test_metal_strips_and_gussets() -> None:
    """6 lengths, 6 cleats, 5 covers, 2 strips with one lap and a foot each, 8 gussets."""
    kinds = Counter(one.kind for one in LAYOUT.details)
    named = ("metal", "cleat", "joint_cover", "metal_corner", "strip", "gusset")
    assert {name: kinds[name] for name in named} == {
        "metal": 6,
        "cleat": 6,
        "joint_cover": 5,
        "metal_corner": 0,
        "strip": 2,
        "gusset": 8,
    }
    assert sum(1 for lap in LAYOUT.laps if lap.kind == "strip") == 1 + 2
