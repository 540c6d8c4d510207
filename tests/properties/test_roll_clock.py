"""Colder, windier, thinner: never lasts longer; stacked tighter: never warms sooner."""

import math
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from lapwright.heat.rollclock import RollAsk, roll_clock
from lapwright.heat.store import StoreAsk, store_clock
from lapwright.heat.trip import TripAsk, plan_trip
from lapwright.heat.unrolled import SUBSTRATES, SheetAsk, sheet_clock

EASE = 1 + 1e-6  # roots are found to a millionth


def lasts(seconds: float | None) -> float:
    """Never is longest."""
    return math.inf if seconds is None else seconds


airs_c = st.floats(-35, 25)
winds_m_s = st.floats(0, 20)
more = st.floats(0.05, 15)
rolls = st.builds(
    RollAsk,
    stored_c=st.floats(12, 35),
    air_c=airs_c,
    wind_m_s=winds_m_s,
    until_c=st.floats(-10, 20),
    thickness=st.floats(0.0015, 0.006),
    length=st.floats(4, 25),
    core=st.sampled_from([0.0, 0.05, 0.1]),
    covered_u_w_m2k=st.none() | st.floats(0.5, 10),
)
sheets = st.builds(
    SheetAsk,
    laid_at_c=st.floats(12, 35),
    air_c=airs_c,
    wind_m_s=winds_m_s,
    substrate=st.sampled_from(sorted(SUBSTRATES)),
    substrate_c=st.floats(-30, 20),
    sun_w_m2=st.floats(0, 600),
    until_c=st.floats(-10, 20),
    thickness=st.floats(0.0015, 0.006),
)
TIMES = ("surface_s", "outer_wrap_s", "outer_two_wraps_s", "core_s")


def no_longer(worse: RollAsk, better: RollAsk) -> list[str]:
    """Which times of the worse roll are longer than the better one's."""
    one, other = roll_clock(worse), roll_clock(better)
    return [name for name in TIMES if lasts(getattr(one, name)) > lasts(getattr(other, name)) * EASE + 1e-3]


@given(rolls, more)
def test_in_colder_air_no_roll_lasts_longer(ask: RollAsk, by: float) -> None:
    """Air colder by some kelvins."""
    assert no_longer(replace(ask, air_c=ask.air_c - by), ask) == []


@given(rolls, more)
def test_in_more_wind_no_roll_lasts_longer(ask: RollAsk, by: float) -> None:
    """Wind stronger by some m/s."""
    assert no_longer(replace(ask, wind_m_s=ask.wind_m_s + by), ask) == []


@given(rolls, st.floats(0.5, 0.98))
def test_a_roll_of_thinner_sheet_lasts_no_longer(ask: RollAsk, part: float) -> None:
    """A sheet of part of the thickness, as long."""
    assert no_longer(replace(ask, thickness=ask.thickness * part), ask) == []


@given(rolls, more)
def test_a_warmer_store_never_shortens_the_clock(ask: RollAsk, by: float) -> None:
    """Stored warmer by some kelvins, in the same film."""
    covered = replace(ask, covered_u_w_m2k=0.5)
    assert no_longer(covered, replace(covered, stored_c=ask.stored_c + by)) == []


@given(sheets, more)
def test_on_a_colder_roof_no_sheet_lasts_longer(ask: SheetAsk, by: float) -> None:
    """Air and substrate colder by some kelvins."""
    colder = replace(ask, air_c=ask.air_c - by, substrate_c=ask.substrate_c - by)
    assert lasts(sheet_clock(colder).until_s) <= lasts(sheet_clock(ask).until_s) * EASE


@given(sheets, more)
def test_without_sun_no_sheet_lasts_longer(ask: SheetAsk, by: float) -> None:
    """Less sun."""
    assert lasts(sheet_clock(replace(ask, sun_w_m2=0.0)).until_s) <= lasts(sheet_clock(ask).until_s) * EASE


@given(sheets, st.floats(0.5, 0.98))
def test_a_thinner_sheet_lasts_no_longer_in_the_shade(ask: SheetAsk, part: float) -> None:
    """A sheet of part of the thickness, in air and on a roof no warmer than the limit."""
    shaded = replace(
        ask, sun_w_m2=0.0, air_c=min(ask.air_c, ask.until_c - 1), substrate_c=min(ask.substrate_c, ask.until_c - 1)
    )
    thinner = replace(shaded, thickness=ask.thickness * part)
    assert lasts(sheet_clock(thinner).until_s) <= lasts(sheet_clock(shaded).until_s) * EASE


@given(st.floats(-25, 5), st.floats(12, 30), st.floats(0.5, 16), st.integers(2, 6), st.booleans())
def test_a_wrapped_pallet_never_warms_before_its_rolls_alone(
    cold_c: float, store_c: float, rise_k: float, count: int, fans: bool
) -> None:
    """Wrapped, opened, spaced: in that order."""
    ask = StoreAsk(cold_c, store_c, cold_c + rise_k, 0.004, 10.0, "pallet", count, count, "wrapped", fans)
    wrapped, opened, spaced = (
        lasts(store_clock(replace(ask, wrapping=how)).core_s) for how in ("wrapped", "opened", "spaced")
    )
    assert spaced <= opened * EASE
    assert opened <= wrapped * EASE


@given(st.floats(0, 7200), st.floats(30, 3000), st.floats(0, 300), st.floats(0, 300))
def test_farther_off_no_more_rolls_are_carried(lasts_s: float, pace_s: float, distance: float, farther: float) -> None:
    """A longer way never allows more rolls a trip."""
    near = plan_trip(TripAsk(lasts_s, pace_s, distance))
    far = plan_trip(TripAsk(lasts_s, pace_s, distance + farther))
    assert far.rolls <= near.rolls
