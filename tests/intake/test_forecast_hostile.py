"""Forecasts of any form: read, or refused with what to bring; never a traceback, never a made-up number."""

import copy
import json
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import forecast_sample as sample
from lapwright.faults import Refused
from lapwright.intake.forecast_read import Site, read_forecast

SITE = Site(36.1, -79.95, 270.0, "America/New_York", around=24)
LEAVES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(max_size=20),
    st.sampled_from(["", "PT1H", "wmoUnit:degC", "wmoUnit:degF", "5 to 10 mph", "2027-01-11T03:00:00+00:00/PT1H"]),
)
JSON = st.recursive(LEAVES, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=9), inner))
LAYERS = st.sampled_from(["temperature", "dewpoint", "windSpeed", "weather", "skyCover", "updateTime", "elevation"])


def faults_of(content: bytes) -> list[str]:
    """What is wrong with what came of it, in words: nothing where it was refused with a message or read in bounds."""
    try:
        forecast, _ = read_forecast(content, file="f.json", site=SITE)
    except Refused as refused:
        return [] if "f.json" in refused.text() else [f"refused without its file: {refused.text()!r}"]
    air = forecast.hours.air_c[np.isfinite(forecast.hours.air_c)]
    chance = forecast.rain_chance[np.isfinite(forecast.rain_chance)]
    sound = {
        "air": bool(np.all((air >= -70) & (air <= 57))),
        "chance of rain": bool(np.all((chance >= 0) & (chance <= 1))),
        "hours": len(forecast.hours.start) <= 24 * 16 + 2 + 48,
    }
    return [f"{name} out of bounds" for name, is_sound in sound.items() if not is_sound]


@settings(max_examples=150, deadline=None)
@given(content=st.binary(max_size=200) | JSON.map(lambda value: json.dumps(value).encode()))
def test_any_bytes_are_read_or_refused(content: bytes) -> None:
    """Bytes, and JSON of any shape."""
    assert faults_of(content) == []


@settings(max_examples=120, deadline=None)
@given(
    layer=LAYERS,
    value=JSON,
    at=st.integers(0, 5),
    part=st.sampled_from(["whole", "values", "value", "validTime", "uom"]),
)
def test_any_layer_may_be_odd(layer: str, value: Any, at: int, part: str) -> None:
    """One part of a good reply put in another's place."""
    grid = copy.deepcopy(sample.grid())
    inner = grid["properties"]
    if part == "whole" or not isinstance(inner[layer], dict) or "values" not in inner[layer]:
        inner[layer] = value
    elif part in ("values", "uom"):
        inner[layer][part] = value
    else:
        rows = inner[layer]["values"]
        rows[at % len(rows)][part] = value
    assert (
        faults_of(json.dumps({"schema": "lapwright.forecast/1", "points": sample.points(), "grid": grid}).encode())
        == []
    )


@settings(max_examples=80, deadline=None)
@given(
    key=st.sampled_from(
        ["startTime", "endTime", "temperature", "temperatureUnit", "dewpoint", "windSpeed", "windGust"]
    ),
    value=JSON,
    at=st.integers(0, 47),
)
def test_any_period_may_be_odd(key: str, value: Any, at: int) -> None:
    """One value of an hourly period put in another's place."""
    hourly = sample.hourly()
    hourly["properties"]["periods"][at][key] = value
    assert faults_of(json.dumps(hourly).encode()) == []


FORM = "a saved forecast: the service's replies in one JSON file, or one grid or hourly reply"
READ = {
    "a list": b"[]",
    "null": b"null",
    "12": b"12",
    "schema lapwright.forecast/9": b'{"schema": "lapwright.forecast/9"}',
}


@pytest.mark.parametrize("read", READ)
def test_what_is_no_forecast_is_told_in_words(read: str) -> None:
    """The whole message."""
    with pytest.raises(Refused) as refused:
        read_forecast(READ[read], file="f.json", site=SITE)
    write = "--forecast nws --save FILE.json"
    assert refused.value.text() == f"f.json  forecast\n  read:   {read}\n  needs:  {FORM}\n  write:  {write}"
