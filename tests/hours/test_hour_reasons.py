"""Every reason that shuts an hour: when it is told, which operations it shuts, and that it is documented."""

from pathlib import Path

import numpy as np
import pytest
from hours_sample import CAP, LIMITS, fit, rules

from lapwright.hours.decide import ON_THE_BASE, decide
from lapwright.hours.values import HEAT, OPEN, SHUT, WARM, Limits
from lapwright.units.write import Units

US = Units("us")
ALL = tuple(LIMITS)
METHOD = Path(__file__).parents[2] / "docs" / "method" / "hours.md"
LAID = ("base", "cap", "side_lap", "end_lap", "flashing")
# the limits of primer, mastic and metal lie higher, and would speak first
NO_MATERIAL = {operation: LIMITS[operation] for operation in LAID}
COLD = {"air_c": -10.0, "surface_c": -10.0, "wetting_c": -20.0}

# reason, readings, operations that it shuts; the other operations stay as they were
CASES = {
    "no reading": ({"absent": True}, ALL),
    "air temperature not reported": ({"air_c": np.nan}, ALL),
    "dew point not reported": ({"wetting_c": np.nan}, ALL),
    "wind not reported": ({"wind_m_s": np.nan}, ALL),
    "surface temperature not known": ({"surface_c": np.nan}, ALL),
    "dark": ({"daylight": False}, ALL),
    "rain or snow falling": ({"falling": True}, ALL),
    "rain not reported": ({"rain_unknown": True}, ALL),
    "snow lying": ({"snow_lying": True}, ALL),
    "frost on the surface": ({"surface_c": -1.0, "wetting_c": -1.0}, ALL),
    "dew on the surface": ({"surface_c": 12.0, "wetting_c": 12.0}, ALL),
    "surface within 5 °F of dew or frost": ({"surface_c": 12.0, "wetting_c": 9.3}, ALL),
    "gusts over 30 mph": ({"gust_m_s": 13.5}, ALL),
    "wind over 30 mph": ({"wind_m_s": 13.5}, ALL),
    "wind over 20 mph for sheets": ({"wind_m_s": 9.0}, ("base", "cap", "flashing", "edge_metal")),
    "air and surface below 20 °F": (COLD, LAID),
    "air below 20 °F": ({"air_c": -10.0, "surface_c": 5.0}, LAID),
    "surface below 20 °F": ({"air_c": 12.0, "surface_c": -10.0, "wetting_c": -20.0}, LAID),
    "thunder or lightning": ({"thunder": True}, ALL),
    "thunder within 30 min": ({"since_thunder_h": 0.4}, ALL),
    "frost or ice not yet gone": ({"surface_c": -1.0, "wetting_c": -9.0, "film_mm": 0.1}, ALL),
    "surface not yet dry": ({"film_mm": 0.1}, ALL),
    "wind chill below -25 °F": ({"chill_c": -32.0}, ALL),
    "cold and wind: no work by the warm-up schedule": ({"work_min": 0.0}, ALL),
    "rain or snow due within 60 min": ({"until_falling_h": 0.0}, ("primer", "base", "cap")),
    "air falls below 20 °F within 30 min": ({"air_c": -6.0, "air_then_c": -7.0}, LAID),
    "surface falls below 20 °F within 30 min": (
        {"surface_c": -6.0, "surface_then_c": -7.0, "wetting_c": -20.0},
        LAID,
    ),
    "base wet within 24 h": ({"since_wet_h": 23.0}, ON_THE_BASE),
    "base may be wet, no reading within 24 h": ({"since_unknown_h": 23.0}, ON_THE_BASE),
}


def told(decision: object, operation: str) -> str:
    """The reason of the first hour."""
    return decision.reasons[int(decision.reason[operation][0])]


@pytest.mark.parametrize("reason", CASES)
def test_each_reason_shuts_what_it_must(reason: str) -> None:
    """The operations named are shut by it, and no other operation is told that reason."""
    readings, operations = CASES[reason]
    decision = decide(fit(**readings), NO_MATERIAL if "falls below" in reason else LIMITS, rules(), US)
    assert {operation for operation in decision.states if told(decision, operation) == reason} == set(operations)
    assert all(decision.states[operation][0] == SHUT for operation in operations)


@pytest.mark.parametrize("reason", [*CASES, "limit not given"])
def test_each_reason_is_documented(reason: str) -> None:
    """docs/method/hours.md tells what each reason means."""
    assert f"`{reason}`" in METHOD.read_text(encoding="utf-8")


def test_a_fit_hour_is_open_for_all() -> None:
    """Nothing shuts a dry, light, mild hour."""
    decision = decide(fit(), LIMITS, rules(), US)
    assert {int(states[0]) for states in decision.states.values()} == {OPEN}
    assert {told(decision, operation) for operation in ALL} == {""}
    assert not decision.measure[0]


def test_a_missing_limit_shuts_the_operation() -> None:
    """However mild the hour, and though lower limits are given."""
    decision = decide(fit(), LIMITS | {"mastic": Limits(None, None, -5.0)}, rules(), US)
    assert (told(decision, "mastic"), decision.states["mastic"][0]) == ("limit not given", SHUT)
    assert decision.states["cap"][0] == OPEN


def test_in_the_cold_the_base_goes_warm_and_the_cap_is_welded() -> None:
    """At 30 °F the base needs warm rolls, cap and laps heat, and mastic at 4 °C waits."""
    decision = decide(fit(air_c=-1.0, surface_c=-1.0, wetting_c=-8.0), LIMITS, rules(), US)
    states = {operation: int(found[0]) for operation, found in decision.states.items()}
    assert states["base"] == WARM
    assert {states[operation] for operation in ("cap", "side_lap", "end_lap", "flashing")} == {HEAT}
    assert told(decision, "mastic") == "air and surface below 39.2 °F"


def test_limits_at_the_very_value_hold() -> None:
    """Wind at the limit is not over it; a surface at the margin is not within it; the limit itself is reached."""
    readings = fit(
        wind_m_s=rules().wind_sheets_m_s, surface_c=10.0, air_c=10.0, wetting_c=10.0 - rules().dew_point_margin_k
    )
    decision = decide(readings, {"cap": CAP}, rules(), US)
    assert decision.states["cap"][0] == OPEN


def test_dry_after_wet_is_over_after_its_hours() -> None:
    """24 whole hours after the last wet one the cap may go on; a base laid the same day need not wait."""
    decision = decide(fit(2, since_wet_h=[23.0, 24.0]), LIMITS, rules(), US)
    assert decision.states["cap"].tolist() == [SHUT, OPEN]
    assert decision.fresh_base["cap"].tolist() == [OPEN, OPEN]
    assert set(decision.fresh_base) == set(ON_THE_BASE)


def test_what_ends_before_it_is_due_goes_on() -> None:
    """Rain an hour after the hour's end leaves time to close; where 90 minutes are asked, it does not."""
    readings = fit(until_falling_h=1.0)
    assert decide(readings, LIMITS, rules(), US).states["base"][0] == OPEN
    assert decide(readings, LIMITS, rules(close_within_s=5400.0), US).states["base"][0] == SHUT
    assert decide(fit(until_falling_h=0.0), LIMITS, rules(close_within_s=0.0), US).states["base"][0] == OPEN


def test_laps_are_rolled_in_the_state_that_comes() -> None:
    """A lap laid at 51 °F and rolled at 49 °F is a lap that needs heat, or a warm roll."""
    readings = fit(air_c=10.5, air_then_c=9.5)
    states = decide(readings, LIMITS, rules(), US).states
    assert (states["base"][0], states["cap"][0], states["primer"][0]) == (WARM, HEAT, OPEN)


def test_what_follows_the_record_is_not_held_against_it() -> None:
    """Where nothing is known of the next half hour, the hour itself decides."""
    assert decide(fit(air_then_c=np.nan, surface_then_c=np.nan), LIMITS, rules(), US).states["cap"][0] == OPEN


def test_a_crew_that_dries_the_roof_need_not_wait_for_the_sun() -> None:
    """What is left of the night's frost, and a wetted base, are dried; frost that settles, and what falls, are not."""
    wet = fit(film_mm=0.1, since_wet_h=0.0)
    decision = decide(wet, LIMITS, rules(), US)
    assert {int(states[0]) for states in decision.states.values()} == {SHUT}
    assert {int(states[0]) for states in decision.fresh_base.values()} == {SHUT}
    assert {int(states[0]) for states in decision.dried.values()} == {OPEN}
    for worse in ({"falling": True}, {"wetting_c": 15.0}, {"snow_lying": True}):
        again = decide(fit(film_mm=0.1, **worse), LIMITS, rules(), US)
        assert {int(states[0]) for states in again.dried.values()} == {SHUT}


def test_a_film_too_thin_to_feel_is_dry() -> None:
    """Five thousandths of a millimetre count as dry; whether they are left is to be measured."""
    decision = decide(fit(film_mm=0.005, film_high_mm=0.05), LIMITS, rules(), US)
    assert decision.states["cap"][0] == OPEN
    assert bool(decision.measure[0])


def test_a_roof_taken_to_be_cleared_is_looked_at() -> None:
    """Where snow would lie still, had the crew not cleared it, the hour is to be measured."""
    assert bool(decide(fit(snow_cleared=True), LIMITS, rules(), US).measure[0])


def test_metric_words_for_a_metric_job() -> None:
    """Reasons speak the job's units."""
    decision = decide(fit(**COLD), {"cap": CAP}, rules(), Units("metric"))
    assert told(decision, "cap") == "air and surface below -6.7 °C"


def test_air_alone_may_govern() -> None:
    """Where a maker writes air, a colder surface does not shut; it still must be dry."""
    readings = fit(air_c=12.0, surface_c=-10.0, wetting_c=-20.0)
    assert decide(readings, {"cap": CAP}, rules(limits_hold_for="air"), US).states["cap"][0] == OPEN
    assert decide(readings, {"cap": CAP}, rules(limits_hold_for="surface"), US).states["cap"][0] == SHUT


@pytest.mark.parametrize(
    ("low", "high", "air", "measured"),
    [
        (8.0, 12.0, 15.0, True),
        (11.0, 12.0, 15.0, False),
        (8.0, 12.0, 5.0, False),
        (-8.0, -6.0, 15.0, True),
        (np.nan, np.nan, 15.0, False),
    ],
)
def test_measure_where_the_spread_straddles_a_limit(low: float, high: float, air: float, measured: bool) -> None:
    """Limits at 10 °C and 20 °F; where the colder air decides, the surface need not be measured for them."""
    readings = fit(surface_low_c=low, surface_c=10.0, surface_high_c=high, air_c=air, wetting_c=-20.0)
    assert bool(decide(readings, {"cap": CAP}, rules(), US).measure[0]) is measured


def test_measure_where_the_spread_straddles_the_dew() -> None:
    """Whether the surface keeps 5 °F over the dew point must be measured."""
    readings = fit(surface_low_c=11.0, surface_c=13.0, surface_high_c=14.0, wetting_c=10.0)
    assert bool(decide(readings, {"cap": CAP}, rules(), US).measure[0])


def test_an_absent_hour_is_not_measured() -> None:
    """There is nobody to ask."""
    readings = fit(absent=True, surface_low_c=8.0, surface_high_c=12.0)
    assert not decide(readings, {"cap": CAP}, rules(), US).measure[0]
