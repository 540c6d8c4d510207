"""The surface through the hours: against a plain version, and what must not happen.

A textbook, a year as measured, the wet bulb of another library: tests/published/live_surface.py.
"""

import importlib.util
import math
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.assembly.values import Assembly, Board, Deck, Ply, Sheet
from lapwright.heat import stretches
from lapwright.heat.buildup import build_up, resistance_m2k_w
from lapwright.heat.contact import material
from lapwright.heat.surface import Conditions, default_setting, forcing_by_model, surface_temperature
from lapwright.heat.year import SurfaceYear, Water, surface_year
from lapwright.intake.weather_source import read_bundled
from lapwright.job.assembly_models import COVER_BOARD_KINDS, INSULATION_KINDS
from lapwright.weather.sun import sun_heights, sun_on_roof
from lapwright.weather.values import Array

_SLOW = Path(__file__).parents[1] / "reference" / "surface_slow.py"
_spec = importlib.util.spec_from_file_location("surface_slow", _SLOW)
slow = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(slow)

SHEET = Ply("base", Sheet("b", 1, 1, 1, 1, 0.003))
ROOF = Assembly((SHEET,), Deck("steel"), Board("polyiso", 0.0762), Board("gypsum", 0.0127))
SLAB = Assembly((SHEET,), Deck("concrete"))


def conditions(hours: int, **changed: object) -> Conditions:
    """Hours at 0 °C, dew point -15 °C, 2 m/s, clear, no sun; each change is a value or one for each hour."""
    plain = {"air_c": 0.0, "dew_point_c": -15.0, "wind_m_s": 2.0, "cloud": 0.0, "sun": 0.0}
    arrays = {name: np.broadcast_to(value, (hours,)).astype(float) for name, value in (plain | changed).items()}
    sun = arrays.pop("sun")
    return Conditions(**arrays, sun_clearest_w_m2=sun, sun_darkest_w_m2=arrays.get("darkest", sun))


def dry(hours: int, rain_mm: object = 0.0, covered: object = False) -> Water:
    """Water of hours, dry and bare unless told."""
    return Water(np.broadcast_to(rain_mm, (hours,)).astype(float), np.broadcast_to(covered, (hours,)).copy())


def run(found: Conditions, water: Water | None = None, roof: Assembly = ROOF) -> SurfaceYear:
    """The surface of a roof with default sheets."""
    return surface_year(found, water or dry(len(found.air_c)), default_setting(), build_up(roof))


def greensboro(first: int, last: int) -> tuple[Conditions, Water]:
    """Some hours of that year."""
    return bundled("greensboro", first, last)


def bundled(name: str, first: int, last: int) -> tuple[Conditions, Water]:
    """Some hours of a bundled year, at the station's wind."""
    year, _ = read_bundled(name)
    heights = sun_heights(year.start, offset_h=-5, latitude=year.latitude, longitude=year.longitude)
    sun = sun_on_roof(year.ghi_w_m2, year.cloud, heights.middle_deg)
    part = slice(first, last)
    readings = (
        year.air_c, year.dew_point_c, year.wind_m_s, year.cloud, sun.clearest_w_m2, sun.darkest_w_m2,
    )  # fmt: skip
    return Conditions(*(one[part] for one in readings)), dry(last - first, np.nan_to_num(year.rain_mm[part]))


def test_steady_weather_ends_in_the_steady_balance() -> None:
    """After ten days of the same hour all models stand where heat in and heat out are equal (another solver)."""
    found = conditions(240, sun=300.0)
    built = build_up(ROOF)
    steady = surface_temperature(found, default_setting(u_w_m2k=1 / resistance_m2k_w(built)))
    ours = run(found).surface
    assert ours.middle_c[-1] == pytest.approx(steady.middle_c[-1], abs=0.01)
    assert ours.low_c[-1] == pytest.approx(steady.low_c[-1], abs=0.01)
    assert ours.high_c[-1] == pytest.approx(steady.high_c[-1], abs=0.01)


@pytest.mark.parametrize("roof", [ROOF, SLAB])
def test_two_january_days_agree_with_a_solver_of_differential_equations(roof: Assembly) -> None:
    """Quarter-hour steps and few slices stay within 0.5 K of it in most hours, 3 K in all; wet hours are the same."""
    found, water = greensboro(24 * 13, 24 * 15)
    built = build_up(roof)
    names = ("air", "dew", "wind", "cloud", "sun")
    columns = (found.air_c, found.dew_point_c, found.wind_m_s, found.cloud, found.sun_clearest_w_m2)
    hours = [
        dict(zip((*names, "rain"), map(float, values), strict=True))
        for values in zip(*columns, water.rain_mm, strict=True)
    ]
    layers = [
        (layer.thickness, layer.made_of.conductivity, layer.made_of.density * layer.made_of.specific_heat)
        for layer in built.layers
    ]
    film = math.inf if built.inside_film is None else built.inside_film
    expected_c, expected_mm = slow.surface_c(hours, layers, inside_c=20.0, inside_film=film)
    ours = surface_year(found, water, default_setting(), built)
    apart = np.abs(ours.surface.middle_c - expected_c)
    assert np.percentile(apart, 75) < 0.5
    assert apart.max() < 3.0
    assert np.mean((ours.film_mm > 0.005) == (np.array(expected_mm) > 0.005)) > 0.95


def test_what_comes_later_changes_nothing_before() -> None:
    """The first week of a month is that of the month, though a year is stepped in stretches side by side."""
    week, month = (run(*greensboro(0, hours)) for hours in (24 * 7, 24 * 30))
    assert np.allclose(week.surface.middle_c, month.surface.middle_c[: 24 * 7], atol=0.01)
    assert np.allclose(week.film_mm, month.film_mm[: 24 * 7], atol=0.001)


def test_where_a_stretch_begins_tells_nothing() -> None:
    """Begun a day later, so that every stretch begins elsewhere, the second week is the same."""
    early, late = run(*greensboro(24 * 150, 24 * 165)), run(*greensboro(24 * 151, 24 * 165))
    week = slice(-24 * 7, None)
    assert np.abs(early.surface.middle_c[week] - late.surface.middle_c[week]).max() < 0.01
    assert np.abs(early.film_mm[week] - late.film_mm[week]).max() < 0.001


@pytest.mark.parametrize("name", ["chicago-2015", "northway-2018"])
def test_stretches_agree_with_a_winter_stepped_through_at_once(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Frost and snow of a hard winter, handed on from stretch to stretch, are those of one stretch without an end."""
    found, water = bundled(name, 0, 24 * 90)
    cut = run(found, water)
    monkeypatch.setattr(stretches, "STRETCH_H", 24 * 90)
    whole = run(found, water)
    assert np.nanmax(np.abs(cut.surface.middle_c - whole.surface.middle_c)) < 0.02
    for ours, theirs in ((cut.film_mm, whole.film_mm), (cut.film_low_mm, whole.film_low_mm)):
        assert np.nanmax(np.abs(ours - theirs)) < 0.001
    assert 0.1 < np.mean(whole.film_mm > 0.005)


def test_frost_that_lasts_for_weeks_is_handed_on() -> None:
    """Snow of the first day, then forty days at -35 °C in still damp air: what is left goes down as hour by hour."""
    hours = 24 * 40
    rain = np.where(np.arange(hours) < 6, 0.3, 0.0)
    found = conditions(hours, air_c=-35.0, dew_point_c=-38.0, wind_m_s=1.0, cloud=0.9)
    ours = run(found, dry(hours, rain))
    steps = -np.diff(ours.film_mm[24:])
    left = ours.film_mm[24:-1] > 0.001
    assert ours.film_mm[24 * 6] > 0.01
    assert np.allclose(steps[left & (ours.film_mm[25:] > 0)], steps[0], rtol=0.05)


def test_a_bare_slab_lags_behind_a_board() -> None:
    """By night the slab is the warmer, at noon the colder, and its day swings less."""
    hours = np.arange(24 * 6)
    found = conditions(len(hours), sun=np.maximum(0.0, 600 * np.sin((hours % 24 - 6) * np.pi / 12)))
    board, slab = (run(found, roof=roof).surface.middle_c[-24:] for roof in (ROOF, SLAB))
    assert slab[5] > board[5] + 1
    assert slab[12] < board[12] - 5
    assert np.ptp(slab) < 0.8 * np.ptp(board)


def test_rain_leaves_a_film_that_dries() -> None:
    """Wet through the hours of rain, then less each hour, then dry; sooner in the sun."""
    rain = np.where(np.arange(30) < 3, 1.0, 0.0)
    dull, bright = (run(conditions(30, air_c=10.0, dew_point_c=2.0, sun=sun), dry(30, rain)) for sun in (50.0, 400.0))
    assert dull.film_mm[:3].min() > 0.1
    assert np.all(np.diff(dull.film_mm[2:]) <= 0)
    assert dull.film_mm[-1] == 0.0
    assert (bright.film_mm > 0.005).sum() < (dull.film_mm > 0.005).sum()
    assert np.all(dull.film_low_mm <= dull.film_mm)
    assert np.all(dull.film_mm <= dull.film_high_mm)


def test_frost_grows_in_a_clear_damp_night_and_goes_in_the_sun() -> None:
    """0.1 to 0.4 mm in a night are the most that is measured (Monteith 1957 [from memory]); three hours of winter sun
    take them away.
    """
    sun = np.where(np.arange(18) < 14, 0.0, 350.0)
    found = run(conditions(18, air_c=1.0, dew_point_c=-0.5, wind_m_s=1.0, sun=sun))
    assert 0.05 < found.film_mm[10] < 0.4
    assert np.all(np.diff(found.film_mm[:14]) >= 0)
    assert found.film_mm[17] == 0.0


def test_snow_holds_the_surface_at_or_below_freezing_and_wets_it() -> None:
    """Under snow the sun at 5 °C does not warm the roof; when it is cleared the film is full."""
    covered = np.arange(12) < 8
    found = run(conditions(12, air_c=5.0, dew_point_c=-2.0, sun=500.0), dry(12, 0.0, covered))
    assert found.surface.high_c[:8].max() <= 0.0
    assert found.film_low_mm[7] == pytest.approx(0.2)
    assert found.surface.middle_c[-1] > 5.0
    assert found.film_mm[-1] == 0.0


def test_a_missing_hour_spoils_only_itself() -> None:
    """The hours after a gap have a temperature."""
    air = np.where(np.arange(48) == 20, np.nan, 0.0)
    found = run(conditions(48, air_c=air))
    assert np.flatnonzero(np.isnan(found.surface.middle_c)).tolist() == [20]
    assert np.flatnonzero(np.isnan(found.film_mm)).tolist() == [20]


def test_no_reading_at_all_gives_no_temperature() -> None:
    """Nothing is made up."""
    assert np.isnan(run(conditions(48, wind_m_s=np.nan)).surface.high_c).all()


def test_an_unknown_cloud_spans_clear_and_overcast() -> None:
    """Low is at most the clear night's, high at least the overcast one's."""
    clear, overcast, unknown = (run(conditions(48, cloud=cloud)).surface for cloud in (0.0, 1.0, np.nan))
    assert unknown.low_c[-1] == pytest.approx(clear.low_c[-1], abs=0.01)
    assert unknown.high_c[-1] == pytest.approx(overcast.high_c[-1], abs=0.01)
    assert unknown.middle_c[-1] == pytest.approx((clear.middle_c[-1] + overcast.middle_c[-1]) / 2, abs=0.01)


def test_the_models_stand_film_by_film() -> None:
    """Three films by two skies; twice as many where a cloud is unknown; only the last adds wind and free convection."""
    known = forcing_by_model(conditions(3), default_setting())
    unknown = forcing_by_model(conditions(3, cloud=[0.0, np.nan, 1.0]), default_setting())
    assert (known.forced.shape, unknown.forced.shape) == ((6, 3), (12, 3))
    assert (known.cases, unknown.cases) == (1, 2)
    assert known.is_sum.tolist() == [False] * 4 + [True] * 2


def test_the_build_up_is_what_the_job_says() -> None:
    """Sheet, cover board, insulation, deck; without insulation nothing passes to the inside."""
    built = build_up(ROOF)
    assert [layer.made_of.name for layer in built.layers] == ["sheet", "gypsum", "polyiso", "steel"]
    assert resistance_m2k_w(built) == pytest.approx(0.003 / 0.19 + 0.0127 / 0.16 + 0.0762 / 0.0288 + 0.107, abs=1e-4)
    no_kind = Assembly((SHEET,), Deck("steel"), Board(None, 0.0762), Board("gypsum", 0.0127))
    assert [layer.made_of.name for layer in build_up(no_kind).layers] == ["sheet", "gypsum"]
    assert math.isinf(resistance_m2k_w(build_up(no_kind)))
    assert [layer.made_of.name for layer in build_up(SLAB).layers] == ["sheet", "concrete"]


@pytest.mark.parametrize("kind", [kind for kind in (*INSULATION_KINDS, *COVER_BOARD_KINDS) if kind != "other"])
def test_every_kind_of_board_is_known(kind: str) -> None:
    """Each kind that the job file takes has its values, lighter than concrete and a better keeper of warmth."""
    found = material(kind)
    assert found is not None
    assert 0.02 < found.conductivity < 0.3
    assert 15 <= found.density <= 1300


def test_a_year_in_the_sun_and_under_the_sky_is_as_hot_and_cold_as_was_measured() -> None:
    """National Bureau of Standards, TN 231: up to 80 °F over the air in sun, up to 20 °F under it by night.

    By day the middle models, where the wind is over the 2 m/s at which cup anemometers begin to tell it; by night the
    measured extreme lies between the middle and the low.
    """
    year, _ = read_bundled("greensboro")
    found, water = greensboro(0, len(year.start))
    surface = run(found, water).surface
    middle_f, low_f = ((one - found.air_c) * 9 / 5 for one in (surface.middle_c, surface.low_c))
    assert np.nanmax(middle_f[found.wind_m_s >= 2]) == pytest.approx(80, rel=0.1)
    assert np.nanmin(low_f) < -20 < np.nanmin(middle_f)


HOURS = 30
weather_hours = st.lists(
    st.tuples(st.floats(-30, 30), st.floats(0, 12), st.floats(0, 1), st.floats(0, 900)), min_size=HOURS, max_size=HOURS
)


def made(values: list[tuple[float, float, float, float]], warmer: float = 0.0, brighter: float = 0.0) -> Array:
    """Middle, low and high of dry hours."""
    air, wind, cloud, sun = np.array(values).T
    found = run(
        conditions(HOURS, air_c=air + warmer, dew_point_c=-60.0, wind_m_s=wind, cloud=cloud, sun=sun + brighter)
    ).surface
    return np.stack([found.middle_c, found.low_c, found.high_c])


@settings(deadline=None, max_examples=60)
@given(weather_hours, st.floats(0.5, 10))
def test_warmer_air_never_leaves_a_colder_surface(values: list[tuple[float, float, float, float]], by: float) -> None:
    """In dry air, whatever the wind, the cloud and the sun."""
    assert np.all(made(values, warmer=by) >= made(values) - 1e-6)


@settings(deadline=None, max_examples=60)
@given(weather_hours, st.floats(1, 300))
def test_more_sun_never_leaves_a_colder_surface(values: list[tuple[float, float, float, float]], by: float) -> None:
    """In dry air, whatever else."""
    assert np.all(made(values, brighter=by) >= made(values) - 1e-6)
