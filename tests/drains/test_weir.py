"""Scuppers and gutters against the field's own physics; beside another library in tests/published/live_weir.py."""

from __future__ import annotations

import math

import pytest

from lapwright.drains.gutter import gutter_flow_m3_s
from lapwright.drains.weir import scupper_flow_m3_s, scupper_head_m
from lapwright.units.read import quantity_si


@pytest.mark.parametrize("flow", [0.0, 0.0005, 0.004, 0.012, 0.03])
def test_head_and_flow_are_each_others_way_back(flow: float) -> None:
    """The head found for a flow passes just that flow, covered or not."""
    width, height = quantity_si("8 in"), quantity_si("4 in")
    head = scupper_head_m(flow, width=width, height=height)
    assert scupper_flow_m3_s(head, width=width, height=height) == pytest.approx(flow, rel=1e-6, abs=1e-12)


def test_a_covered_opening_passes_less_than_an_open_channel() -> None:
    """From the head at which the top is covered on, the closed scupper falls behind."""
    width, height = quantity_si("6 in"), quantity_si("4 in")
    heads = [quantity_si(f"{inches} in") for inches in (3, 4, 5, 8)]
    closed = [scupper_flow_m3_s(head, width=width, height=height) for head in heads]
    opened = [scupper_flow_m3_s(head, width=width) for head in heads]
    assert closed[:2] == opened[:2]
    assert all(less < more for less, more in zip(closed[2:], opened[2:], strict=True))
    assert closed == sorted(closed)


def test_a_gutters_flow_keeps_its_momentum() -> None:
    """Before the margin: momentum of still water at one end is that of the critical flow at the other."""
    width, depth, gravity = 0.3, 0.2, 9.80665
    flow = gutter_flow_m3_s(width, depth) / 0.9
    critical = math.pow((flow / width) ** 2 / gravity, 1 / 3)
    still_end = gravity * width * depth**2 / 2
    drop_end = flow**2 / (width * critical) + gravity * width * critical**2 / 2
    assert drop_end == pytest.approx(still_end, rel=1e-9)


@pytest.mark.parametrize(("narrow", "wide"), [((0.1, 0.1), (0.2, 0.1)), ((0.2, 0.05), (0.2, 0.1))])
def test_a_larger_gutter_carries_more(narrow: tuple[float, float], wide: tuple[float, float]) -> None:
    """Wider or deeper never carries less."""
    assert gutter_flow_m3_s(*wide) > gutter_flow_m3_s(*narrow)
