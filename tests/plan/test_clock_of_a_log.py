"""Rows of a log taken at the site: the same instants on the clock of the site's zone, whatever clock the log keeps.

At 84° W, west of the middle of Eastern time (UTC-5), the sun's way alone would give UTC-6.  On 20 June at 40° N the sun
is up from 4:31 to 19:32 of its own meridian's time at 75° W (common almanac, no source), 36 minutes later at 84° W: the
hours from 6:00 to 20:00 are light from end to end.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from hours_by_hand import JOB, LOG, log

from lapwright.plan.desk.stages import JobAsk, Stages

SITE = "site: {latitude: 40.0, longitude: -90.0, elevation: 600', time_zone: America/Chicago}"
EASTERN = "site: {latitude: 40.0, longitude: -84.0, elevation: 600', time_zone: America/New_York}"


@pytest.mark.parametrize(("clock", "windy"), [("UTC-6", [11, 12]), ("UTC", [5, 6]), ("UTC-5", [10, 11])])
def test_a_log_is_laid_on_the_sites_zone(tmp_path: Path, clock: str, windy: list[int]) -> None:
    """24 mph in the rows of 10:30 and 11:30 by the log's own clock; the sun is where it is."""
    (tmp_path / LOG).write_text(log().replace("UTC-6", clock), encoding="utf-8")
    found = Stages().hours(JobAsk(JOB.replace(SITE, EASTERN), tmp_path / "job.yaml"))
    assert found is not None
    weather = found[0].weather
    hour = weather.start.astype("datetime64[h]").astype(int) % 24
    on = weather.start.astype("datetime64[D]")
    assert weather.offset_h == -5.0
    assert hour[(weather.wind_m_s > 9.0) & (on == np.datetime64("2026-06-21"))].tolist() == windy
    assert hour[found[0].daylight & (on == np.datetime64("2026-06-21"))].tolist() == list(range(6, 20))
