"""Forecasts from saved replies: run-length times, shared amounts, nulls, mixed units, wind in words, time zones."""

import datetime as dt
import json

import numpy as np
import pytest

import forecast_sample as sample
from lapwright.faults import Refused
from lapwright.intake.forecast_intervals import at_ends, duration, hour_grid, on_hours, span_of
from lapwright.intake.forecast_read import Site, read_forecast
from lapwright.intake.forecast_units import temperature_scale, wind_m_s
from lapwright.weather.values import Forecast

SITE = Site(36.1, -79.95, 270.0, "America/New_York", around=0)


def read(content: bytes, site: Site = SITE) -> Forecast:
    """The forecast alone."""
    return read_forecast(content, file="f.json", site=site)[0]


def notes(content: bytes, site: Site = SITE) -> list[str]:
    """What was told, in words."""
    return [note.text() for note in read_forecast(content, file="f.json", site=site)[1]]


def refusal(content: bytes, site: Site = SITE) -> str:
    """The text of the refusal."""
    with pytest.raises(Refused) as refused:
        read_forecast(content, file="f.json", site=site)
    return refused.value.text()


@pytest.mark.parametrize(
    ("text", "hours"),
    [("PT1H", 1), ("P1DT6H", 30), ("P1D", 24), ("PT90M", 1.5), ("P1W", 168), ("PT30M", 0.5), ("PT3600S", 1)],
)
def test_durations_of_the_iso_form_are_read(text: str, hours: float) -> None:
    """ISO 8601: days, hours and minutes of a duration add up."""
    assert duration(text) == dt.timedelta(hours=hours)


@pytest.mark.parametrize("text", ["", "P", "PT", "P1DT", "1H", "PT-1H", "PT0H", "P17D", "PTxH", "P1M", "P1Y"])
def test_what_is_no_duration_is_not_read(text: str) -> None:
    """No length, none at all, over 16 days, and months and years, which have no fixed length."""
    assert duration(text) is None


@pytest.mark.parametrize("text", [None, 3, "2027-01-11T03:00:00/PT1H", "2027-01-11T03:00:00+00:00", "x/PT1H"])
def test_a_span_needs_an_instant_with_its_offset_and_a_length(text: object) -> None:
    """A time without its offset is nobody's."""
    assert span_of(text) is None


def test_amounts_are_shared_out_and_values_repeated() -> None:
    """6 mm over three hours are 2 mm in each; 5 °C over three hours are 5 °C in each."""
    span = span_of("2027-01-11T03:00:00+00:00/PT3H")
    assert span is not None
    hours = hour_grid([span])
    assert hours is not None
    assert on_hours([(span, 6.0)], hours, is_amount=True)[1:].tolist() == [2.0, 2.0, 2.0]
    assert on_hours([(span, 5.0)], hours)[1:].tolist() == [5.0, 5.0, 5.0]


def test_readings_stand_at_the_ends_of_hours() -> None:
    """What holds from 03:00 on is read at 03:00, the end of the hour before; the last value holds to its own end."""
    first = span_of("2027-01-11T03:00:00+00:00/PT2H")
    second = span_of("2027-01-11T05:00:00+00:00/PT1H")
    assert first is not None and second is not None
    hours = hour_grid([first, second])
    assert hours is not None and hours.begin.hour == 2
    assert at_ends([(first, 1.0), (second, 2.0)], hours).tolist() == [1.0, 1.0, 2.0, 2.0]


def test_the_amounts_of_a_reply_add_up_to_what_it_said() -> None:
    """No rain is lost or made in sharing: 3 mm and 1.2 mm of water, 30 and 12 mm of snow."""
    forecast = read(sample.saved())
    assert np.nansum(forecast.hours.rain_mm) == pytest.approx(4.2, abs=1e-9)
    assert np.nansum(forecast.snow_new_m) == pytest.approx(0.042, abs=1e-12)


def test_units_are_brought_to_si() -> None:
    """14.4 km/h are 4 m/s, 25.2 km/h are 7 m/s, 10 % is 0.1."""
    forecast = read(sample.saved())
    assert forecast.hours.wind_m_s[0] == pytest.approx(4.0, abs=1e-12)
    assert forecast.hours.gust_m_s[0] == pytest.approx(7.0, abs=1e-12)
    assert forecast.hours.cloud[0] == pytest.approx(0.1, abs=1e-12)


def test_hours_stand_on_the_site_s_standard_time() -> None:
    """03:00 UTC is 22:00 of the evening before on New York's clock; the calmest layer does not move it."""
    forecast = read(sample.saved())
    assert str(forecast.hours.start[0]) == "2027-01-10T21:00"  # its reading stands at its end, 22:00
    assert forecast.hours.offset_h == -5
    assert len(forecast.hours.start) == 49


def test_in_summer_hours_still_stand_on_standard_time() -> None:
    """July: 12:00 UTC is 08:00 by the clock and 07:00 of standard time, the end of the hour from 06:00."""
    begin = dt.datetime(2027, 7, 5, 12, tzinfo=dt.UTC)
    warm = sample.grid(temperature=sample.layer("degC", [("PT3H", 25)], begin))
    forecast = read(sample.saved(grid=warm, hourly=None))
    assert str(forecast.hours.start[0]) == "2027-07-05T06:00"


def test_hours_before_the_first_are_there_without_a_reading() -> None:
    """Nobody knows from a forecast whether it rained before it: those hours are absent, not dry."""
    forecast = read(sample.saved(), Site(36.1, -79.95, 270.0, "America/New_York", around=48))
    assert forecast.hours.absent.tolist() == [True] * 48 + [False] * 49 + [True] * 48
    assert np.isnan(forecast.hours.rain_mm[:49]).all()


def test_issued_is_the_older_of_the_two_replies() -> None:
    """Hours are taken from both, so that the age is that of the older."""
    late = sample.hourly()
    late["properties"]["updateTime"] = "2027-01-11T01:00:00+00:00"
    assert read(sample.saved(hourly=late)).issued == dt.datetime(2027, 1, 11, 1, tzinfo=dt.UTC)


def test_the_hours_before_the_first_come_from_an_earlier_forecast() -> None:
    """A grid from 10:00 UTC on, an earlier one from 03:00: seven hours of it, its amounts cut with their time."""
    begin = dt.datetime(2027, 1, 11, 10, tzinfo=dt.UTC)
    late = sample.grid(
        temperature=sample.layer("degC", [("P1D", 7)], begin),
        quantitativePrecipitation=sample.layer("mm", [("P1D", 0)], begin),
    )
    earlier = sample.grid(quantitativePrecipitation=sample.layer("mm", [("P1D", 24)]))
    forecast = read(sample.saved(grid=late, hourly=None, before=earlier))
    assert forecast.hours.air_c[:9].tolist() == [-4.0] * 6 + [-5.0, 7.0, 7.0]
    assert np.nansum(forecast.hours.rain_mm) == pytest.approx(7.0, abs=1e-9)


def test_the_grid_alone_and_the_hours_alone_are_read() -> None:
    """A bare reply of either kind is a forecast; the hours have no amounts and no sky cover."""
    assert np.isfinite(read(json.dumps(sample.grid()).encode()).hours.rain_mm[1:]).all()
    hours = read(json.dumps(sample.hourly()).encode())
    assert hours.hours.air_c.tolist() == [0.0] * 49
    assert np.isnan(hours.hours.rain_mm).all()
    assert np.isnan(hours.hours.cloud).all()


def test_the_other_json_format_of_the_service_is_read() -> None:
    """Without `properties` around it, as the service sends linked data."""
    assert read(json.dumps(sample.grid()["properties"]).encode()).hours.air_c[0] == -4.0


def test_nulls_of_the_grid_are_taken_from_the_hours() -> None:
    """A null is not a zero: the hourly forecast fills it, and that is told."""
    holed = sample.grid(temperature=sample.layer("degC", [("PT6H", -4), ("PT4H", None), ("P1DT14H", 2)]))
    forecast = read(sample.saved(grid=holed))
    assert forecast.hours.air_c[5:11].tolist() == [-4.0, 0.0, 0.0, 0.0, 0.0, 2.0]
    assert "f.json  air: 4 hours not in the grid; taken from the hourly forecast" in notes(sample.saved(grid=holed))


def test_a_null_that_nobody_fills_stays_unknown() -> None:
    """Four hours without a chance of rain stay without one; long holes of the air are not bridged."""
    holed = sample.grid(
        probabilityOfPrecipitation=sample.layer("percent", [("PT6H", None), ("P1DT18H", 5)]),
        temperature=sample.layer("degC", [("PT6H", None), ("P1DT18H", 2)]),
    )
    forecast = read(sample.saved(grid=holed, hourly=None))
    assert np.isnan(forecast.rain_chance[:7]).all()
    assert np.isnan(forecast.hours.air_c[:6]).all()


def test_a_unit_of_another_kind_is_not_guessed() -> None:
    """Degrees that are no degrees are not used: the hours are then without an air temperature."""
    odd = sample.grid(windSpeed=sample.layer("degC", [("P2D", 4)]))
    told = notes(sample.saved(grid=odd, hourly=None))
    assert "f.json  windSpeed: unit wmoUnit:degC is not one of its kind; taken as not reported" in told
    assert np.isnan(read(sample.saved(grid=odd, hourly=None)).hours.wind_m_s).all()


def test_fahrenheit_is_told_from_celsius() -> None:
    """The hourly forecast has °F beside a dew point in °C: 32 °F is 0 °C, the dew point is as it stands."""
    hours = read(json.dumps(sample.hourly()).encode())
    assert hours.hours.air_c[0] == 0.0
    assert hours.hours.dew_point_c[0] == pytest.approx(-8.8889, abs=1e-4)
    scale = temperature_scale("wmoUnit:degF")
    assert scale is not None and scale(212.0) == pytest.approx(100.0, abs=1e-12)


@pytest.mark.parametrize(
    ("words", "speed_m_s"),
    [("5 to 10 mph", 4.4704), ("10 mph", 4.4704), ("0 km/h", 0.0), ("18 km/h", 5.0), ("up to 36 km/h", 10.0)],
)
def test_wind_in_words_is_read_at_its_higher_end(words: str, speed_m_s: float) -> None:
    """10 mph are 4.4704 m/s by definition of the mile."""
    assert wind_m_s(words) == pytest.approx(speed_m_s, abs=1e-12)


@pytest.mark.parametrize("words", ["calm", "", "5 to", "10", "mph", None, True, {"value": 10}, "9999999 mph"])
def test_wind_that_can_t_be_read_is_unknown(words: object) -> None:
    """No wind is made up."""
    assert np.isnan(wind_m_s(words))


def test_thunder_and_named_rain_are_marked() -> None:
    """Thunder is marked at any coverage; rain is named where it is sure, not where it is a chance."""
    named = sample.grid(
        weather=sample.layer(
            None,
            [
                ("PT2H", sample.weather("thunderstorms", "slight_chance")),
                ("PT3H", sample.weather("rain", "chance")),
                ("PT4H", sample.weather("snow", "definite")),
            ],
        )
    )
    forecast = read(sample.saved(grid=named))
    assert np.flatnonzero(forecast.thunder).tolist() == [1, 2]
    assert np.flatnonzero(forecast.rain_named).tolist() == [6, 7, 8, 9]


def test_without_a_zone_the_service_s_own_is_taken() -> None:
    """And said."""
    nowhere = Site(36.1, -79.95, None, None, around=0)
    assert read(sample.saved(), nowhere).time_zone == "America/New_York"
    assert read(json.dumps(sample.grid()).encode(), nowhere).time_zone == "Etc/GMT+5"


def test_a_forecast_of_another_place_is_refused() -> None:
    """It would be read as this site's."""
    text = refusal(sample.saved(), Site(40.1, -88.2, None, None, around=0))
    assert text.startswith("f.json  forecast\n  read:   a forecast for 36.10, -79.95, ")
    assert "  needs:  a forecast for the job's site, 40.1, -88.2\n" in text


def test_half_days_are_refused() -> None:
    """The forecast by half days has one temperature for twelve hours."""
    long = sample.hourly(1)
    long["properties"]["periods"][0]["endTime"] = "2027-01-11T10:00:00-05:00"
    assert "read:   periods of 12 h" in refusal(json.dumps(long).encode())


@pytest.mark.parametrize(
    ("content", "read_words"),
    [
        (b"", "an empty file"),
        (b"<html><body>down</body></html>", "<html><body>down</body></html>"),
        (sample.saved()[:3000], '{"schema": "lapwright.forecast/1"'),
        (b"[1, 2]", "a list"),
        (b'{"a": 1}', "a"),
        (b'{"title": "Unexpected Problem", "detail": "An unexpected problem has occurred."}',
         "Unexpected Problem: An unexpected problem has occurred."),
        (b'{"x": NaN}', '{"x": NaN}'),
        (b"[" * 100_000, "[[["),
        (json.dumps(sample.points()).encode(), "type, geometry, properties"),
    ],
)  # fmt: skip
def test_what_is_no_forecast_is_refused_with_what_to_bring(content: bytes, read_words: str) -> None:
    """Never a traceback: empty, a web page, cut short, an error reply, no JSON."""
    text = refusal(content)
    assert f"  read:   {read_words}" in text
    assert text.endswith("  write:  --forecast nws --save FILE.json")


@pytest.mark.parametrize(
    "values",
    ["text", [None], [{"validTime": 3, "value": 1}], [{"value": {"deep": []}}], [{"validTime": "x/PT1H", "value": []}]],
)
def test_odd_layers_do_no_harm(values: object) -> None:
    """A layer of another form has no hours."""
    odd = sample.grid(skyCover={"uom": "wmoUnit:percent", "values": values}, weather={"values": values})
    assert np.isnan(read(sample.saved(grid=odd)).hours.cloud).all()


def test_absurd_numbers_are_not_used() -> None:
    """Colder than any record, and numbers beyond all bounds."""
    odd = sample.grid(temperature=sample.layer("degC", [("PT5H", -300), ("PT5H", 10**400), ("P1D", 1)]))
    air = read(sample.saved(grid=odd, hourly=None)).hours.air_c
    assert np.isnan(air[:10]).all()
    assert air[10] == 1.0
