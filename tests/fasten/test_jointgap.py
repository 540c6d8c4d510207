"""The gap at a joint of edge metal."""

from __future__ import annotations

import pytest

from lapwright.fasten.nails import metal_nails
from lapwright.fasten.thermal import METALS, gap_steps, gap_table, joint_gap_m, movement_m
from lapwright.units.read import quantity_si


@pytest.mark.parametrize("kind", sorted(METALS))
def test_colder_days_leave_wider_gaps(kind: str) -> None:
    """The colder the metal is set, the more room it needs to grow; set at its hottest it needs none."""
    cold, mild, hot = (joint_gap_m(3.0, kind=kind, laid_at_c=t) for t in (-20.0, 10.0, 90.0))
    assert cold > mild > hot == 0


@pytest.mark.parametrize("kind", ["galvanised", "copper"])
def test_gap_and_what_it_shrinks_by_add_up_to_the_whole_movement(kind: str) -> None:
    """From coldest to hottest the joint opens by as much as the length moves, whenever it was set."""
    length, coldest = quantity_si("10 ft"), quantity_si("-20 F")
    whole = movement_m(length, kind=kind, from_c=coldest, to_c=quantity_si("150 F"))
    moves, gaps = gap_steps(kind)
    assert moves.result == pytest.approx(whole)
    assert len(gaps.values) == len(gap_table(kind))
    for (set_c, _), told in zip(gap_table(kind), gaps.values.values(), strict=True):
        assert told + movement_m(length, kind=kind, from_c=coldest, to_c=set_c) == pytest.approx(whole)


def test_a_hair_over_a_whole_number_of_spacings_adds_no_nail() -> None:
    """0.1 x 3 is a hair over 0.3 in binary: still three spacings, four nails in each of two rows."""
    assert metal_nails(0.1 * 3, 0.1) == 8


def test_a_metric_job_lists_whole_degrees_celsius() -> None:
    """Each 10 °C from -30 to 40; the gap at 0 °C lies between those at 20 °F and 40 °F."""
    metric = gap_table("aluminium", metric=True)
    assert [set_c for set_c, _ in metric] == pytest.approx([-30, -20, -10, 0, 10, 20, 30, 40])
    us = dict(gap_table("aluminium"))
    cold, warm = sorted(us, key=abs)[:2]  # the two nearest to the freezing point: 40 °F and 20 °F
    assert min(us[cold], us[warm]) <= metric[3][1] <= max(us[cold], us[warm])
