"""Cords: more of it never leaves more; the drop is that of a circuit solved by its currents."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.power.cord import cord, longest_m, wire_ohm_m
from lapwright.power.values import GAUGES, CordAsk

HAND = CordAsk(load_w=1600, volts=120, length=30.48, gauge="14")
asks = st.builds(
    CordAsk,
    load_w=st.floats(50, 30_000),
    volts=st.floats(12, 600),
    length=st.floats(0.3, 600),
    gauge=st.sampled_from(GAUGES),
    wire_c=st.floats(-40, 120),
)


@given(ask=asks)
def test_the_circuit_closes(ask: CordAsk) -> None:
    """The volts of cord and tool add up to the supply's, with one current through both."""
    found = cord(ask)
    current = (ask.volts - found.drop_v) / (ask.volts**2 / ask.load_w)
    loop = 2 * ask.length * wire_ohm_m(ask.gauge, ask.wire_c)
    assert current * loop == pytest.approx(found.drop_v, rel=1e-9)
    heat = (ask.volts - found.drop_v) * current
    assert 1 - heat / ask.load_w == pytest.approx(found.heat_lost_share, abs=1e-9)


@given(ask=asks, more=st.floats(1, 5))
def test_a_longer_cord_never_leaves_more(ask: CordAsk, more: float) -> None:
    """More length, more lost; never more than all."""
    one, other = cord(ask), cord(replace(ask, length=ask.length * more))
    assert 0 < one.drop_share <= other.drop_share < 1
    assert one.heat_lost_share <= other.heat_lost_share < 1


@given(ask=asks)
def test_a_heavier_cord_never_takes_more(ask: CordAsk) -> None:
    """From #16 to #6 less is lost."""
    shares = [cord(replace(ask, gauge=gauge)).drop_share for gauge in GAUGES]
    assert shares == sorted(shares, reverse=True)


@given(ask=asks, limit=st.floats(0.005, 0.2))
def test_the_longest_cord_loses_the_limit(ask: CordAsk, limit: float) -> None:
    """What is lost on the longest cord is the limit."""
    longest = longest_m(ask, limit)
    assert cord(replace(ask, length=longest)).drop_share == pytest.approx(limit, rel=1e-9)


@given(ask=asks)
def test_the_code_books_say_more(ask: CordAsk) -> None:
    """The current on the plate is never less than what flows, so its drop is the greater."""
    found = cord(ask)
    assert found.plate_drop_v >= found.drop_v


def test_too_thin_for_the_current() -> None:
    """14.8 A are too much for a #16 cord, however short, and fine for a #14."""
    tool = replace(HAND, load_w=3400, volts=230, length=1)
    assert cord(replace(tool, gauge="16")).is_overloaded
    assert not cord(replace(tool, gauge="14")).is_overloaded
    assert any("too much, however short" in step.text for step in cord(replace(tool, gauge="16")).steps)
