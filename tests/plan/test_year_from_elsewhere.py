"""A bundled year from elsewhere, laid on the site's own clock."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from hours_by_hand import JOB

from lapwright.plan.desk.stages import JobAsk, Stages

SITE = "site: {latitude: 40.0, longitude: -90.0, elevation: 600', time_zone: America/Chicago}"
FILE = "weather: {file: three-days.csv}     # of our own logger"


@pytest.mark.parametrize(
    "site",
    [
        "site: {latitude: 40.0, longitude: -75.0, time_zone: America/New_York}",
        "site: {latitude: 40.0, longitude: -75.0}",
    ],
)
def test_the_sun_is_the_sites(tmp_path: Path, site: str) -> None:
    """A year of Alaska's clock (UTC-9) in a job on the meridian of UTC-5, at 40° N, on 20 June.

    There the sun is up from 4:31 to 19:32 (common almanac, no source): the hours from 5:00 to 19:00 are light.
    """
    text = JOB.replace(SITE, site).replace(FILE, "weather: {year: northway-2018}")
    found = Stages().hours(JobAsk(text, tmp_path / "far.yaml"))
    assert found is not None
    table, _ = found
    day = table.weather.start.astype("datetime64[D]") == np.datetime64("2018-06-20")
    assert np.flatnonzero(table.daylight[day]).tolist() == list(range(5, 19))


def test_without_a_site_the_sun_is_the_stations(tmp_path: Path) -> None:
    """Northway, 63° N: on 20 June the sun is up for more than 19 hours (common almanac, no source), around its noon."""
    text = JOB.replace(SITE, "site: {time_zone: America/New_York}").replace(FILE, "weather: {year: northway-2018}")
    found = Stages().hours(JobAsk(text, tmp_path / "nowhere.yaml"))
    assert found is not None
    table, _ = found
    day = table.weather.start.astype("datetime64[D]") == np.datetime64("2018-06-20")
    light = np.flatnonzero(table.daylight[day])
    assert len(light) >= 18
    assert light[0] <= 3
    assert light[-1] >= 20


@pytest.mark.parametrize(
    ("site", "words"),
    [
        # Chicago's airport to a place two degrees of latitude north of it: 2 x 111.2 km = 138 miles
        ("site: {latitude: 43.995, longitude: -87.934}", ["138 miles from the site"]),
        ("site: {latitude: 42.5, longitude: -87.90}", []),  # 58 km
        ("site: {latitude: 43.98}", []),  # not a place yet
    ],
)
def test_a_year_from_afar_is_told(tmp_path: Path, site: str, words: list[str]) -> None:
    """The station's place, and how far it is from the site, where that is more than 100 km."""
    text = JOB.replace(SITE, site).replace(FILE, "weather: {year: chicago-2015}")
    found = Stages().hours(JobAsk(text, tmp_path / "afar.yaml"))
    assert found is not None
    told = [note for note in found[1] if note.place == "place"]
    assert [word in note.found for note, word in zip(told, words, strict=True)] == [True] * len(words)
