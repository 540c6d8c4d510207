"""Areas that meet in a ridge or a valley."""

from __future__ import annotations

from lapwright.roof.build import EdgeRow, make_area
from lapwright.roof.joins import join_areas
from lapwright.roof.values import Area, Drain, Opening

FOOT = 24_384


def strip(name: str, low: int, wide: int, side: int, kind: str | None) -> Area:
    """A strip of roof 20' deep with one side's kind, a curb and a drain [ft]."""
    outline = [(0, low * FOOT), (wide * FOOT, low * FOOT), (wide * FOOT, (low + 20) * FOOT), (0, (low + 20) * FOOT)]
    rows = [EdgeRow((side,), kind)] if kind else []
    curb = Opening(f"curb of {name}", "curb", (5 * FOOT, 5 * FOOT), (3 * FOOT, 3 * FOOT))
    drain = Drain(f"drain of {name}", "drain", at=(9 * FOOT, 9 * FOOT))
    return make_area(name, outline, falls=(0.0, 1.0), slope=0.02, edges=rows, openings=[curb], drains=[drain])


def test_a_valley_shared_from_end_to_end_is_known_to_both() -> None:
    """One gives the kind; both then have it, and each knows what stands in the other."""
    one, two = join_areas([strip("A", 0, 60, 3, "valley"), strip("B", 20, 60, 1, None)])
    assert (one.edges[2].kind, one.edges[2].meets) == ("valley", "B")
    assert (two.edges[0].kind, two.edges[0].meets) == ("valley", "A")
    assert [each.name for each in one.beside] == ["curb of B"]
    assert [each.name for each in two.near] == ["drain of A"]


def test_a_side_shared_in_part_and_other_kinds_stay_as_they_are() -> None:
    """A ridge 60' long against 40', and a step."""
    areas = (strip("A", 0, 60, 3, "ridge"), strip("B", 20, 40, 1, "ridge"))
    assert join_areas(areas) == areas
    stepped = (strip("A", 0, 60, 3, "step"), strip("B", 20, 60, 1, "step"))
    assert join_areas(stepped) == stepped
