"""The ground of a ply at openings, in inches."""

from __future__ import annotations

from roofs import FOOT, INCH, flat, rectangle, rules

from lapwright.layout.frame import make_frame
from lapwright.layout.region import make_region
from lapwright.roof.values import Opening

UP = 3367  # 4" · (√2 - 1) in ticks: from the foot of the cant to its top, laid flat


def opening(x: int, y: int, width: int, height: int) -> Opening:
    """A curb by its corner and size [in]."""
    return Opening(f"O-{x}", "curb", (x * INCH, y * INCH), (width * INCH, height * INCH))


def boxes(*openings: Opening, under_cap: bool = False, kinds: tuple[str, ...] = ("ridge",) * 4) -> list[list[int]]:
    """Left, low, right, high of each hole on a flat 40' by 20'."""
    area = flat(rectangle(40 * FOOT, 20 * FOOT, list(kinds), openings))
    region = make_region(area, make_frame(area, rules()), rules(), under_cap=under_cap)
    return [
        [min(u for u, _ in ring), min(v for _, v in ring), max(u for u, _ in ring), max(v for _, v in ring)]
        for ring in region.openings
    ]


def test_a_ply_turns_up_at_a_curb_as_at_a_wall() -> None:
    """The cap's hole is the cant's 1.657" smaller on each side, the base's 2" more."""
    curb = opening(100, 50, 36, 24)
    left, low, right, high = 100 * INCH, 50 * INCH, 136 * INCH, 74 * INCH
    assert boxes(curb) == [[left + UP, low + UP, right - UP, high - UP]]
    more = UP + 2 * INCH
    assert boxes(curb, under_cap=True) == [[left + more, low + more, right - more, high - more]]


def test_a_hole_no_deeper_than_4_inches_is_slit() -> None:
    """A 7" opening leaves the cap a hole of 3.7", the base none; a 8" one leaves the cap 4.7"."""
    assert boxes(opening(100, 50, 36, 7)) == []
    assert boxes(opening(100, 50, 36, 7), under_cap=True) == []
    assert len(boxes(opening(100, 50, 36, 8))) == 1


def test_openings_that_touch_make_one_hole() -> None:
    """Two curbs side by side leave nothing to turn up between them."""
    left, right = 100 * INCH, 160 * INCH
    assert boxes(opening(100, 50, 36, 24), opening(136, 50, 24, 24)) == [
        [left + UP, 50 * INCH + UP, right - UP, 74 * INCH - UP]
    ]


def test_what_lies_behind_a_curb_at_the_edge_goes_with_it() -> None:
    """A curb against the metal at the low side: the base does not run past the edge behind it."""
    kinds = ("metal_edge", "ridge", "ridge", "ridge")
    area = flat(rectangle(40 * FOOT, 20 * FOOT, list(kinds), (opening(100, 0, 36, 24),)))
    region = make_region(area, make_frame(area, rules()), rules(), under_cap=True)
    more = UP + 2 * INCH
    whole = 480 * 242 * INCH * INCH
    gone = (36 * INCH - 2 * more) * (24 * INCH + 2 * INCH - more)
    assert region.shape.area == whole - gone
