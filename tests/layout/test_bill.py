"""What a finished layout counts and costs, by pencil."""

from __future__ import annotations

from lapwright.layout.bill import Bill, aimed, make_bill, money
from lapwright.layout.cost import Costs
from lapwright.layout.values import Course, Piece, PlyLayout, Roll, TJoint

COURSES = (Course(1, 0, 100), Course(2, 90, 190), Course(3, 180, 240), Course(4, 230, 290))


def piece(course: int, place: int, length: int, roll: str) -> Piece:
    """A piece of a ply of four courses."""
    name = f"A/cap/{course}/{place}"
    return Piece(name, "A", "cap", course, place, 0, length, 0, 100, length, "cap", roll)


PIECES = (piece(1, 1, 500, "cap 1"), piece(2, 1, 300, "cap 2"), piece(2, 2, 200, "cap 2"), piece(3, 1, 300, "cap 3"))
PLY = PlyLayout("A", "cap", 1, "cap", COURSES, PIECES, 0, 100, None, None, end_laps=1)
ROLLS = (
    Roll("cap 1", "cap", ("x",), 500, 0),
    Roll("cap 2", "cap", ("y",), 500, 0),
    Roll("cap 3", "cap", ("z",), 300, 0),
)
TJOINTS = (TJoint("t", "A", "cap", (0.0, 0.0), ("a", "b")),)


def test_what_a_layout_counts() -> None:
    """Of 500, 300, 200, 300 from rolls of 500 three are cut, of two lengths; two courses are 60 wide: one rip."""
    found = make_bill((PLY,), ROLLS, TJOINTS, {"cap": (100, 500)})
    assert found == Bill({"cap": 3}, end_laps=1, t_joints=1, cuts=3, lengths=2, rips=1)


def test_what_a_bill_comes_to() -> None:
    """3 rolls of 120, a lap of 4, a T-joint of 2, 3 cuts of 1, 2 lengths of 3, a rip of 10: 385."""
    assert money(Bill({"cap": 3}, 1, 1, 3, 2, 1), Costs()) == 385


def test_what_an_aim_spares_weighs_a_thousand_times_its_cost() -> None:
    """385 and 999 more for each of 3 rolls of 120, or for a lap with both its T-joints, 4 + 2 x 2."""
    bill = Bill({"cap": 3}, 1, 1, 3, 2, 1)
    found = [aimed(bill, aim, Costs()) for aim in ("least_cost", "fewest_rolls", "fewest_laps")]
    assert found == [385, 385 + 999 * 360, 385 + 999 * 8]
