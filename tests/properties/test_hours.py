"""Hours under any weather: never open against a limit, never opened by worse weather, the same as the plain version."""

import importlib.util
from dataclasses import fields, replace
from pathlib import Path
from typing import Any

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.defaults.rules import make_rules
from lapwright.defaults.values import Rules
from lapwright.hours.decide import Decision, decide
from lapwright.hours.readings import Readings
from lapwright.hours.values import OPERATIONS, SHUT, STATE_WORDS, Limits
from lapwright.units.write import Units

_SLOW = Path(__file__).parents[1] / "reference" / "hours_slow.py"
_spec = importlib.util.spec_from_file_location("hours_slow", _SLOW)
slow = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(slow)

HOURS = 6
FLAGS = ("absent", "falling", "rain_unknown", "snow_lying", "snow_cleared", "daylight", "thunder")
DEGREES = st.one_of(st.sampled_from([-20 / 3, 4.0, 10.0]), st.floats(-40, 40))
temperature = st.one_of(st.just(float("nan")), DEGREES)
speed = st.one_of(st.just(float("nan")), st.floats(0, 20))
limit = st.one_of(st.none(), DEGREES)


def rows_of(each: st.SearchStrategy[Any], kind: type) -> st.SearchStrategy[Any]:
    """One value for each hour, as an array."""
    return st.lists(each, min_size=HOURS, max_size=HOURS).map(lambda values: np.array(values, dtype=kind))


@st.composite
def readings(draw: st.DrawFn) -> Readings:
    """Any readings; the spread of the surface in order."""
    found = {name: draw(rows_of(st.booleans(), bool)) for name in FLAGS}
    found |= {name: draw(rows_of(temperature, float)) for name in ("air_c", "surface_c", "wetting_c")}
    found |= {name: draw(rows_of(speed, float)) for name in ("wind_m_s", "gust_m_s")}
    since = st.sampled_from([0.0, 1.0, 23.0, 24.0, 25.0, np.inf])
    found |= {name: draw(rows_of(since, float)) for name in ("since_wet_h", "since_unknown_h")}
    spread = draw(st.floats(0, 10))
    found |= {name: draw(rows_of(temperature, float)) for name in ("air_then_c", "surface_then_c", "chill_c")}
    film = st.sampled_from([0.0, 0.005, 0.006, 0.2])
    found |= {name: draw(rows_of(film, float)) for name in ("film_mm", "film_low_mm", "film_high_mm")}
    ahead = st.sampled_from([0.0, 0.4, 0.5, 1.0, 1.5, np.inf])
    found |= {name: draw(rows_of(ahead, float)) for name in ("since_thunder_h", "until_falling_h")}
    found |= {"work_min": draw(rows_of(st.sampled_from([0.0, 30.0, 120.0, np.inf]), float))}
    found |= {"surface_low_c": found["surface_c"] - spread, "surface_high_c": found["surface_c"] + spread}
    return Readings(**found)


@st.composite
def limits(draw: st.DrawFn) -> dict[str, Limits]:
    """Any limits of some of the operations."""
    operations = draw(st.lists(st.sampled_from(OPERATIONS), min_size=1, unique=True))
    return {operation: Limits(draw(limit), draw(limit), draw(limit)) for operation in operations}


def rules_of(draw_rule: str) -> Rules:
    """The default rules with one way to hold limits."""
    return replace(make_rules({}), limits_hold_for=draw_rule)


rule = st.sampled_from(["air", "surface", "air_and_surface"]).map(rules_of)


def decided(given_readings: Readings, given_limits: dict[str, Limits], given_rules: Rules) -> Decision:
    """The decision in US units."""
    return decide(given_readings, given_limits, given_rules, Units("us"))


def opens_more(after: Decision, before: Decision) -> list[str]:
    """Operations with an hour that is not shut after and was shut before."""
    return [name for name in before.states if np.any((after.states[name] < SHUT) & (before.states[name] == SHUT))]


@settings(deadline=None)
@given(readings(), limits(), rule)
def test_the_fast_version_agrees_with_the_plain_one(found: Readings, limited: dict[str, Limits], held: Rules) -> None:
    """Every hour and operation has the state that one question after another gives."""
    plain_rules = {field.name: getattr(held, field.name) for field in fields(held)}
    decision = decided(found, limited, held)
    for operation, its in limited.items():
        for hour in range(HOURS):
            plain = {field.name: getattr(found, field.name)[hour].item() for field in fields(found)}
            expected = slow.state_of(operation, plain, (its.apply_c, its.warm_c, its.heat_c), plain_rules)
            assert STATE_WORDS[decision.states[operation][hour]] == expected


SHEET_GOODS = ("base", "interply", "cap", "flashing", "edge_metal")
SHEET_LIMITS = ("base", "interply", "cap", "side_lap", "end_lap", "flashing")


@settings(deadline=None, max_examples=300)
@given(readings(), limits(), rule)
def test_no_hour_is_open_while_one_of_its_limits_is_broken(
    found: Readings, limited: dict[str, Limits], held: Rules
) -> None:
    """Each limit asked of each hour that is not shut; what is not known keeps none."""
    decision = decided(found, limited, held)
    for operation, states in decision.states.items():
        its = limited[operation]
        by_state = {"open": its.apply_c, "warm": its.warm_c, "heat": its.heat_c}
        for hour in np.flatnonzero(states < SHUT):
            now = {field.name: getattr(found, field.name)[hour].item() for field in fields(found)}
            least = by_state[STATE_WORDS[states[hour]]]
            assert least is not None
            which = held.limits_hold_for if operation in SHEET_LIMITS else "air_and_surface"
            assert which == "surface" or now["air_c"] >= least
            assert which == "air" or now["surface_c"] >= least
            assert now["surface_c"] - now["wetting_c"] >= held.dew_point_margin_k - 1e-9
            assert now["daylight"]
            assert not any(now[name] for name in ("absent", "falling", "rain_unknown", "snow_lying", "thunder"))
            assert now["wind_m_s"] <= (held.wind_sheets_m_s if operation in SHEET_GOODS else held.gust_stop_m_s)
            assert not now["gust_m_s"] > held.gust_stop_m_s
            assert now["film_mm"] <= 0.005


@settings(deadline=None)
@given(readings(), limits(), rule)
def test_shut_hours_and_no_others_have_a_reason(found: Readings, limited: dict[str, Limits], held: Rules) -> None:
    """A state and its reason never part."""
    decision = decided(found, limited, held)
    for operation, states in decision.states.items():
        assert np.array_equal(states == SHUT, decision.reason[operation] > 0)
        assert all(decision.reasons[index] for index in decision.reason[operation][states == SHUT])


@settings(deadline=None)
@given(
    readings(),
    limits(),
    rule,
    st.sampled_from(["air_c", "surface_c", "air_then_c", "surface_then_c", "chill_c"]),
    st.floats(0.01, 20),
)
def test_colder_never_opens_more(
    found: Readings, limited: dict[str, Limits], held: Rules, which: str, by: float
) -> None:
    """A colder air or surface opens no hour that was shut."""
    colder = replace(found, **{which: getattr(found, which) - by})
    assert opens_more(decided(colder, limited, held), decided(found, limited, held)) == []


@settings(deadline=None)
@given(readings(), limits(), rule, st.sampled_from(["wind_m_s", "gust_m_s"]), st.floats(0.01, 20))
def test_windier_never_opens_more(
    found: Readings, limited: dict[str, Limits], held: Rules, which: str, by: float
) -> None:
    """With the surface as it is, more wind opens no hour that was shut."""
    windier = replace(found, **{which: getattr(found, which) + by})
    assert opens_more(decided(windier, limited, held), decided(found, limited, held)) == []


@settings(deadline=None)
@given(readings(), limits(), rule, st.sampled_from(["falling", "rain_unknown", "snow_lying", "absent", "thunder"]))
def test_wetter_never_opens_more(found: Readings, limited: dict[str, Limits], held: Rules, which: str) -> None:
    """Rain, snow, a higher dew point or a missing reading opens no hour that was shut."""
    before = decided(found, limited, held)
    everywhere = replace(found, **{which: np.ones(HOURS, dtype=bool)})
    damper = replace(found, wetting_c=found.wetting_c + 2)
    wetter = replace(found, film_mm=found.film_mm + 0.01, until_falling_h=found.until_falling_h / 2)
    assert opens_more(decided(everywhere, limited, held), before) == []
    assert opens_more(decided(wetter, limited, held), before) == []
    assert opens_more(decided(damper, limited, held), before) == []


@settings(deadline=None)
@given(readings(), limits(), rule, st.floats(0.01, 20))
def test_lower_limits_never_open_fewer(found: Readings, limited: dict[str, Limits], held: Rules, by: float) -> None:
    """A sheet that bears more cold shuts no hour that was not shut."""

    def lowered(value: float | None) -> float | None:
        return None if value is None else value - by

    lower = {
        name: Limits(lowered(its.apply_c), lowered(its.warm_c), lowered(its.heat_c)) for name, its in limited.items()
    }
    assert opens_more(decided(found, limited, held), decided(found, lower, held)) == []


@settings(deadline=None)
@given(readings(), limits(), rule)
def test_a_fresh_base_opens_no_fewer(found: Readings, limited: dict[str, Limits], held: Rules) -> None:
    """Over a base laid the same day the cap has every hour that it has over an old one; dried, all of those."""
    decision = decided(found, limited, held)
    for operation, fresh in decision.fresh_base.items():
        is_fit = decision.states[operation] < SHUT
        assert np.array_equal(fresh[is_fit], decision.states[operation][is_fit])
    for operation, dried in decision.dried.items():
        before = decision.fresh_base.get(operation, decision.states[operation])
        assert np.array_equal(dried[before < SHUT], before[before < SHUT])
