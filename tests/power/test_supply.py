"""Generators, circuits and the checks of the power: missing inputs leave them unknown, never passed."""

from __future__ import annotations

import math
from dataclasses import fields, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.power.checks import USES, check_power, cord_advice
from lapwright.power.supply import altitude_share, breaker_a, supply
from lapwright.power.values import Power, SupplyAsk

WHOLE = Power(1600, 120, "10", 30.48, "generator", 8000, 1200, 300, 2, 270)
asks = st.builds(
    SupplyAsk,
    tools=st.integers(1, 20),
    tool_w=st.floats(100, 6000),
    volts=st.floats(100, 250),
    motors_w=st.floats(0, 5000),
    others_w=st.floats(0, 5000),
    elevation=st.floats(-400, 4000),
)


@given(ask=asks)
def test_a_size_covers_what_it_is_asked(ask: SupplyAsk) -> None:
    """The size is at least the rating here, that at least the starting watts; never half a step too large."""
    found = supply(ask)
    assert found.running_w <= found.starting_w <= found.rating_w + 1e-9
    assert found.rating_w <= found.here_w <= found.size_w + 1e-6
    assert found.size_w - found.here_w < 500


@given(ask=asks, more=st.floats(0, 1000))
def test_higher_ground_asks_for_more(ask: SupplyAsk, more: float) -> None:
    """An engine keeps less on higher ground."""
    assert supply(replace(ask, elevation=ask.elevation + more)).here_w >= supply(ask).here_w


def test_so_high_that_nothing_is_left() -> None:
    """The rule leaves nothing at 30,000 ft: no size, and words."""
    found = supply(SupplyAsk(1, 1600, 120, elevation=9144))
    assert altitude_share(9144) == 0
    assert math.isinf(found.here_w)
    assert any("ask its maker" in step.text for step in found.steps)


def test_circuits() -> None:
    """16 A all day ask for 20 A, a hair more for 30; 49 A are beyond the table."""
    assert [breaker_a(amps) for amps in (12, 13.3, 16, 16.01, 48, 49)] == [15, 20, 20, 30, 60, None]


def test_both_checks_pass_on_a_heavy_cord_and_a_large_generator() -> None:
    """2.8 % on 100 ft of #10; 6.1 kW of 8."""
    checks = check_power(WHOLE)
    assert [(check.id, check.status) for check in checks] == [("power.cord", "pass"), ("power.supply", "pass")]
    assert all(set(check.uses) <= set(USES[check.id]) for check in checks)


@pytest.mark.parametrize(
    ("change", "statuses"),
    [
        ({"gauge": "14"}, ["pass", "pass"]),
        ({"gauge": "16", "length": 1.0, "load_w": 1700}, ["fail", "pass"]),
        ({"generator_w": 6000}, ["pass", "fail"]),
        ({"supply": "mains"}, ["pass"]),
        ({"tools": 0}, []),
    ],
    ids=["thin", "overloaded", "small", "mains", "nobody welds"],
)
def test_what_fails_and_what_is_not_asked(change: dict[str, object], statuses: list[str]) -> None:
    """7 % on #14 is only told; 14.2 A on #16, 6 kW of 6.1; no generator on mains; no question where nobody welds."""
    assert [check.status for check in check_power(replace(WHOLE, **change))] == statuses


@pytest.mark.parametrize("name", [field.name for field in fields(Power)])
def test_each_missing_input_leaves_a_check_unknown(name: str) -> None:
    """Taking one away, exactly the checks that read it are unknown, and name it."""
    keys = {
        "load_w": "power.load", "volts": "power.volts", "gauge": "power.gauge", "length": "power.length",
        "supply": "power.supply", "generator_w": "power.generator", "motors_w": "power.motors",
        "others_w": "power.others", "tools": "crew.welders", "elevation": "site.elevation",
    }  # fmt: skip
    for check in check_power(replace(WHOLE, **{name: None})):
        reads = keys[name] in USES[check.id]
        assert (check.status == "unknown") is reads
        assert check.supply == ((keys[name],) if reads else ())
        assert check.confirm


def test_a_cord_over_the_advice_is_told_and_fails_nothing() -> None:
    """1.6 kW at 120 V on 100 ft: 7.0 % of the volts by the plate on #14, 12.6 % of the heat; 2.8 % on #10."""
    assert cord_advice(replace(WHOLE, gauge="14")) == (
        "the cord takes 7.0 % of the tool's volts and 12.6 % of its heat; the code books advise 5 % at most, which is "
        "no law: a heavier or shorter one, or the slower weld speeds of the table"
    )
    assert cord_advice(WHOLE) == ""
    assert cord_advice(replace(WHOLE, gauge="14", length=None)) == ""
    assert cord_advice(replace(WHOLE, gauge="14", tools=0)) == ""
