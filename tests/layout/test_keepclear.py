"""Where no end lap may lie: spans counted with a pencil, in inches."""

from __future__ import annotations

from dataclasses import replace

from roofs import BRIEF, FOOT, GRID, INCH, TWO_PLIES, flat, inches, make_area, rectangle, rules

from lapwright.layout.frame import make_frame
from lapwright.layout.keepclear import barred, corner_spans
from lapwright.layout.place import make_layout
from lapwright.roof.values import Area, Drain

CAP = TWO_PLIES.plies[1]
LAP = 6 * INCH


def spans_of(area: Area, low: float, high: float) -> list[tuple[int, int]]:
    """What is barred to the cap between two levels [inches], in whole inches."""
    frame = make_frame(area, rules())
    spans = barred(area, frame, CAP, inches(low), inches(high), LAP, rules())
    return [(round(a / INCH), round(b / INCH)) for a, b in spans]


def drained(*drains: Drain) -> Area:
    """A flat rectangle of 40' by 20' with drains."""
    return replace(flat(rectangle(40 * FOOT, 20 * FOOT, ["ridge"] * 4)), drains=drains)


def shared(area: Area) -> Area:
    """The same with every side one edge with another area's."""
    return replace(area, edges=tuple(replace(edge, meets="Other") for edge in area.edges))


def test_a_drain_under_the_sheet_bars_18_inches_and_the_end_lap() -> None:
    """A drain 240" along, in the course: joints from 240 - 18 - 6 to 240 + 18 are barred."""
    area = drained(Drain("D", "drain", at=(240 * INCH, 20 * INCH), diameter=0.1))
    assert spans_of(area, 0, 39.375) == [(216, 258)]


def test_a_drain_beside_the_sheet_bars_a_chord() -> None:
    """10.8" below the course: half the chord of an 18" circle is 14.4" (3-4-5), so 240 - 20.4 to 240 + 14.4."""
    area = drained(Drain("D", "overflow_drain", at=(240 * INCH, 20 * INCH), diameter=0.1))
    assert spans_of(area, 30.8, 60) == [(220, 254)]


def test_drains_farther_off_and_scuppers_bar_nothing() -> None:
    """18" or more from the course, or in a wall, a drain is in nobody's way."""
    area = drained(Drain("D", "drain", at=(240 * INCH, 20 * INCH)), Drain("S", "scupper", side=1, from_start=3.0))
    assert spans_of(area, 38, 70) == []


def test_a_valley_across_the_courses_bars_its_sheet() -> None:
    """A valley along the rectangle's east side, square to the courses: half of 39.375" and the end lap."""
    area = shared(flat(rectangle(40 * FOOT, 20 * FOOT, ["ridge", "valley", "ridge", "ridge"])))
    assert spans_of(area, 36, 76) == [(round(480 - 19.6875 - 6), round(480 + 19.6875))]


def test_a_valley_along_the_courses_bars_nothing() -> None:
    """A valley at the low side lies under the whole first course."""
    area = shared(flat(rectangle(40 * FOOT, 20 * FOOT, ["valley", "ridge", "ridge", "ridge"])))
    assert spans_of(area, 0, 39.375) == []


def test_a_valley_at_45_degrees_bars_what_its_sheet_takes_of_the_course() -> None:
    """Along the line y = x from the origin, course from 40" to 70": the band reaches 27.84" either side along u."""
    corners = [(0, 0), (40 * FOOT, 0), (40 * FOOT, 20 * FOOT), (20 * FOOT, 20 * FOOT)]
    area = shared(flat(make_area(corners, ["ridge", "ridge", "ridge", "valley"])))
    assert spans_of(area, 40, 70) == [(round(40 - 27.84 - 6), round(70 + 27.84))]


def test_corners_keep_an_inch_and_a_half() -> None:
    """A corner at 100": joints from 100 - 6 - 1.5 to 100 + 1.5 are barred."""
    assert corner_spans([100 * INCH], LAP) == [(inches(92.5), inches(101.5))]


def test_the_layout_keeps_its_end_laps_off_a_drain() -> None:
    """40' needs one joint a course, at 7' 2" to 32' 4"; with a drain at 32' the first course's joint moves off it."""
    area = drained(Drain("D", "drain", at=(32 * FOOT, 20 * INCH), diameter=0.1))
    layout = make_layout([area], TWO_PLIES, rules(), grid=GRID, patience=BRIEF)
    cap = next(ply for ply in layout.plies if ply.ply == "cap")
    joints = [piece.u0 for piece in cap.pieces if piece.course == 1 and piece.u0]
    assert len(joints) == 1
    assert not 32 * FOOT - 24 * INCH < joints[0] < 32 * FOOT + 18 * INCH
