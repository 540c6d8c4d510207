"""The order in which laps are closed, on a roof so small that it is told by heart."""

from __future__ import annotations

from itertools import groupby

from roofs import FOOT, GRID, TWO_PLIES, flat, rectangle, rules

from lapwright.layout.place import make_layout

# 80' by 8': metal on the south, parapets on the other sides
LAYOUT = make_layout(
    [flat(rectangle(80 * FOOT, 8 * FOOT, ["metal_edge", "parapet", "parapet", "parapet"]))],
    TWO_PLIES,
    rules(),
    grid=GRID,
)
SEQUENCE = {piece.id: piece.sequence for piece in LAYOUT.pieces}


def test_field_laps_are_closed_with_the_later_of_their_pieces() -> None:
    """The later piece's number never falls along the list."""
    later = [max(SEQUENCE[id] for id in lap.pieces) for lap in LAYOUT.laps if lap.kind in ("side", "end")]
    assert later == sorted(later)
    assert len(set(later)) > 5


def test_strips_come_between_the_plies_and_flashings_last() -> None:
    """All of the base, the strips under metal, all of the cap, then the flashings."""
    kinds = [lap.ply if lap.kind in ("side", "end") else lap.kind for lap in LAYOUT.laps]
    assert [kind for kind, _ in groupby(kinds)] == ["base", "strip", "cap", "flashing"]


def test_a_tjoint_is_closed_with_the_later_of_its_laps() -> None:
    """The later lap's place never falls along the list."""
    place = {lap.id: k for k, lap in enumerate(LAYOUT.laps)}
    later = [max(place[id] for id in joint.laps) for joint in LAYOUT.tjoints]
    assert later == sorted(later)
    assert len(later) > 2
