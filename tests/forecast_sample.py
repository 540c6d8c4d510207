"""Made replies in the form of the US National Weather Service: two winter days at an invented place, in UTC.

All numbers are invented.  The day is Monday 11 January 2027, the clock that of New York (UTC-5): 12:00 UTC is 07:00.
"""

import copy
import datetime as dt
import json
from collections.abc import Sequence
from typing import Any

BEGIN = dt.datetime(2027, 1, 11, 3, tzinfo=dt.UTC)  # 22:00 the evening before
PLACE = (-79.95, 36.1)
Run = tuple[str, Any]


def layer(unit: str | None, runs: Sequence[Run], begin: dt.datetime = BEGIN) -> dict[str, Any]:
    """A layer from (duration, value) one after the other."""
    values, at = [], begin
    for duration, value in runs:
        values.append({"validTime": f"{at.isoformat()}/{duration}", "value": value})
        at += length(duration)
    return {"values": values} if unit is None else {"uom": f"wmoUnit:{unit}", "values": values}


def length(duration: str) -> dt.timedelta:
    """Days and hours of a duration, by eye: `PT3H`, `P1DT6H`."""
    days, _, hours = duration.removeprefix("P").partition("T")
    return dt.timedelta(days=int(days.removesuffix("D") or 0), hours=int(hours.removesuffix("H") or 0))


def weather(kind: str | None, coverage: str | None) -> list[dict[str, Any]]:
    """One value of the weather layer."""
    return [
        {"coverage": coverage, "weather": kind, "intensity": "light", "visibility": {"value": None}, "attributes": []}
    ]


def grid(**changed: Any) -> dict[str, Any]:
    """A raw reply: cold and clear in the night, 2 to 4 °C by day, snow on the second day; `changed` layers replace."""
    layers: dict[str, Any] = {
        "temperature": layer("degC", [("PT6H", -4), ("PT4H", -5), ("PT2H", -2), ("PT2H", 1), ("PT4H", 4), ("PT6H", 0),
                                      ("P1D", -3)]),
        "dewpoint": layer("degC", [("PT12H", -9), ("P1DT12H", -8)]),
        "relativeHumidity": layer("percent", [("P2D", 60)]),
        "skyCover": layer("percent", [("PT12H", 10), ("PT12H", 30), ("P1D", 95)]),
        "probabilityOfPrecipitation": layer("percent", [("P1D", 5), ("PT6H", 20), ("PT12H", 80), ("PT6H", 10)]),
        "windSpeed": layer("km_h-1", [("P1D", 14.4), ("P1D", 18)]),
        "windGust": layer("km_h-1", [("P1D", 25.2), ("P1D", 36)]),
        "quantitativePrecipitation": layer("mm", [("P1D", 0), ("PT6H", 0), ("PT6H", 3), ("PT6H", 1.2), ("PT6H", 0)]),
        "snowfallAmount": layer("mm", [("P1D", 0), ("PT6H", 0), ("PT6H", 30), ("PT6H", 12), ("PT6H", 0)]),
        "iceAccumulation": layer("mm", [("P2D", 0)]),
        "weather": layer(None, [("P1DT6H", weather(None, None)), ("PT12H", weather("snow", "likely")),
                                ("PT6H", weather(None, None))]),
    }  # fmt: skip
    x, y = PLACE
    corners = [[x - 0.01, y - 0.01], [x + 0.01, y - 0.01], [x + 0.01, y + 0.01], [x - 0.01, y + 0.01]]
    return {
        "type": "Feature",
        "geometry": {"type": "Polygon", "coordinates": [[*corners, corners[0]]]},
        "properties": {
            "updateTime": "2027-01-11T02:31:00+00:00",
            "validTimes": "2027-01-11T03:00:00+00:00/P2D",
            "elevation": {"unitCode": "wmoUnit:m", "value": 270.1},
            "gridId": "RAH", "gridX": 25, "gridY": 64,
            **copy.deepcopy(layers | changed),
        },
    }  # fmt: skip


def period(hour: int, **changed: Any) -> dict[str, Any]:
    """An hourly period, `hour` hours after BEGIN, on New York's clock."""
    start = (BEGIN + dt.timedelta(hours=hour)).astimezone(dt.timezone(dt.timedelta(hours=-5)))
    said = {
        "number": hour + 1,
        "name": "",
        "startTime": start.isoformat(),
        "endTime": (start + dt.timedelta(hours=1)).isoformat(),
        "isDaytime": 7 <= start.hour < 18,
        "temperature": 32,
        "temperatureUnit": "F",
        "temperatureTrend": None,
        "probabilityOfPrecipitation": {"unitCode": "wmoUnit:percent", "value": 5},
        "dewpoint": {"unitCode": "wmoUnit:degC", "value": -8.888888888888889},
        "relativeHumidity": {"unitCode": "wmoUnit:percent", "value": 51},
        "windSpeed": "5 to 10 mph",
        "windDirection": "NW",
        "shortForecast": "Mostly Sunny",
        "detailedForecast": "",
    }
    return said | changed


def hourly(hours: int = 48, **changed: Any) -> dict[str, Any]:
    """An hourly reply."""
    return {
        "type": "Feature",
        "geometry": None,
        "properties": {
            "units": "us",
            "generatedAt": "2027-01-11T03:05:12+00:00",
            "updateTime": "2027-01-11T02:31:00+00:00",
            "elevation": {"unitCode": "wmoUnit:m", "value": 270.1},
            "periods": [period(hour, **changed) for hour in range(hours)],
        },
    }


def points(base: str = "https://api.weather.gov") -> dict[str, Any]:
    """The reply for the place."""
    x, y = PLACE
    return {
        "type": "Feature",
        "geometry": {"type": "Point", "coordinates": [x, y]},
        "properties": {
            "gridId": "RAH",
            "gridX": 25,
            "gridY": 64,
            "forecastHourly": f"{base}/gridpoints/RAH/25,64/forecast/hourly",
            "forecastGridData": f"{base}/gridpoints/RAH/25,64",
            "timeZone": "America/New_York",
            "relativeLocation": {"type": "Feature", "properties": {"city": "Millrace", "state": "NC"}},
        },
    }


def saved(**parts: Any) -> bytes:
    """A saved forecast of all three replies; `parts` replace."""
    whole = {
        "schema": "lapwright.forecast/1",
        "asked": "2027-01-11T03:05:20+00:00",
        "points": points(),
        "grid": grid(),
        "hourly": hourly(),
    }
    return json.dumps(whole | parts).encode()
