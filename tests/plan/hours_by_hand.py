"""Three June days of a logger, written so that a pencil can say the state of every hour, and a job that lies in them.

At 40° N on the meridian of its standard time (90° W, UTC-6) the sun is up on 20 June from 4:31 to 19:32 (common
almanac, no source), so that the 14 hours from 5:00 to 19:00 are light from end to end and the other 10 are dark.

20 June  70 °F, 5 mph, dry, overcast: nothing but the dark shuts anything.
21 June  the same, but 24 mph in the hours from 10:00 and from 11:00: above 20 mph no sheets are handled.
22 June  40 °F all day: over the 25 °F for warm rolls or heat, under the 50 °F for open, by air alone
         (`limits_hold_for: air`); primer and mastic, open from 20 °F, must have air and surface at it and have.

Dew points lie 40 °F below the air, so that no night brings dew to a surface under a whole cloud.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.views.registry import Json, find

LOG = "three-days.csv"
JOB = """\
job: {name: Three days}
units: us
site: {latitude: 40.0, longitude: -90.0, elevation: 600', time_zone: America/Chicago}
weather: {file: three-days.csv}     # of our own logger
roof:
  - area: Main
    outline: E 30', N 12', W 30', S 12'
    falls: S
    slope: 1/4 in 12
    edges:
      - {sides: 1, kind: metal_edge, metal: {kind: galvanised, gauge: 24, face: 5", flange: 4"}}
      - {sides: 2-4, kind: parapet, height: 30"}
assembly:
  plies:
    - {ply: base, sheet: b}
    - {ply: cap, sheet: c}
sheets:
  b: {width: 39 3/8", length: 65' 7", side_lap: 3", end_lap: 6", apply_at_or_above: 50 F, warm_rolls_at_or_above: 25 F}
  c: {width: 39 3/8", length: 32' 10", side_lap: 3", end_lap: 6", apply_at_or_above: 50 F, with_heat_at_or_above: 25 F}
materials:
  primer: {apply_at_or_above: 20 F}
  mastic: {apply_at_or_above: 20 F}
rules:
  limits_hold_for: air
  wind_sheets: 20 mph
crew: {people: 4, welders: 1, day: 06:00-16:30, days: Mon-Fri, fire_watch: 60 min}
"""


def log() -> str:
    """The logger's rows."""
    rows = ["time [UTC-6], air [F], dew point [F], wind [mph], rain [in], cloud [%]"]
    for day, air in ((20, 70), (21, 70), (22, 40)):
        for hour in range(24):
            wind = 24 if (day, hour) in ((21, 10), (21, 11)) else 5
            rows.append(f"2026-06-{day} {hour:02d}:30, {air}, {air - 40}, {wind}, 0, 100")
    return "\n".join(rows) + "\n"


def put(folder: Path, name: str = "days", job: str = JOB) -> Path:
    """The job and its log in a folder."""
    (folder / LOG).write_text(log(), encoding="utf-8")
    path = folder / f"{name}.yaml"
    path.write_text(job, encoding="utf-8")
    return path


class Words:
    """Who hears of the work; nothing is said to anybody."""

    def __call__(self, words: str) -> None:
        """A step is done."""

    def draft(self, value: object) -> None:
        """A first answer."""


def seen(path: Path, view: str, stages: Stages | None = None, **options: str) -> Json:
    """A view of a job file."""
    asked: Mapping[str, str] = options
    return find(view).view(stages or Stages(), JobAsk(path.read_text(encoding="utf-8"), path), asked, Words())
