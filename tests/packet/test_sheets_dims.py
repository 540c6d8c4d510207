"""Words of dimension lines keep clear of the leaders of names."""

from __future__ import annotations

from shapely import LineString, Polygon

from lapwright.packet.drawing import Text
from lapwright.packet.sheets.dims import clear_of
from lapwright.packet.sheets.labels import label_box

UPRIGHT = Text((50.0, 30.0), "152 mm", 2.1, "DETAIL", 90.0, "middle", "base", backed=True)
ENDS = ((51.0, 10.0), (51.0, 50.0))


def crosses(text: Text, leader: tuple[tuple[float, float], ...]) -> bool:
    """A leader runs through the ground of a text."""
    return bool(LineString(leader).intersects(Polygon(label_box(text))))


def test_words_stay_in_the_middle_where_nothing_runs_through_them() -> None:
    """A leader well above them moves nothing."""
    assert clear_of([((80.0, 45.0), (77.0, 45.0), (20.0, 45.0))], UPRIGHT, ENDS) == UPRIGHT


def test_words_move_along_their_line_until_the_leader_is_clear_of_them() -> None:
    """A leader through the middle: the words move along the line, within its ends, and not across it."""
    leader = ((80.0, 30.0), (77.0, 30.0), (20.0, 30.0))
    moved = clear_of([leader], UPRIGHT, ENDS)
    assert crosses(UPRIGHT, leader)
    assert not crosses(moved, leader)
    assert moved.at[0] == UPRIGHT.at[0]
    assert 10.0 < moved.at[1] < 50.0


def test_words_stay_where_leaders_leave_no_room() -> None:
    """A leader at every millimetre of the line."""
    leaders = [((80.0, float(y)), (77.0, float(y)), (20.0, float(y))) for y in range(5, 56)]
    assert clear_of(leaders, UPRIGHT, ENDS) == UPRIGHT
