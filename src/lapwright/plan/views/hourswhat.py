"""The hours as they would be: another weather year, start of the crew's day, wind limit or dew margin, in memory only.

The job file is changed by nothing here.  What differs is written into a copy of its text, so that it is read and
refused as the file itself would be; the edits that would put it there are told along with it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import time
from typing import Any, cast
from zoneinfo import ZoneInfo

import numpy as np
from numpy.typing import NDArray

from lapwright.crew.calendar import make_calendar
from lapwright.faults import Fault, Refused
from lapwright.hours.clock import crew_clock
from lapwright.hours.table import rejudged
from lapwright.hours.values import HourTable
from lapwright.job.models import Job
from lapwright.plan.desk.edits import DropValue, Edit, SetValue, apply
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.fitness import standard_zone
from lapwright.plan.roofs import Roofs
from lapwright.units.write import Units

# option -> key of the job file that it stands in for
RULES = {"wind": "rules.wind_sheets", "margin": "rules.dew_point_margin"}
MINUTES = 60
DAY_MIN = 24 * MINUTES


@dataclass(frozen=True, slots=True)
class Looked:
    """The hours that are looked at.

    own: the job as its file has it; job, roofs: as it would be.  table: as the option `dried` has it, None without
    weather; whole: the same as it was judged.  edits: what would put the differences into the job file.
    """

    ask: JobAsk
    own: Job
    job: Job
    roofs: Roofs
    whole: HourTable | None
    table: HourTable | None
    edits: tuple[Edit, ...]

    @property
    def units(self) -> Units:
        """The job's units."""
        return Units(self.job.units)

    @property
    def zone(self) -> ZoneInfo:
        """Of the crew's clock; without the site's it keeps the weather's standard time."""
        offset_h = 0.0 if self.table is None else self.table.weather.offset_h
        return ZoneInfo(self.job.site.time_zone or standard_zone(offset_h))

    @property
    def offset_h(self) -> float:
        """Hours of the site's standard time east of UTC: weather from elsewhere is laid on the job's own clock."""
        if self.table is None:
            return 0.0
        weather = self.table.weather
        year: int = weather.start[0].astype("datetime64[Y]").astype(int) + 1970
        return make_calendar(weather, str(self.zone)).standard_s(year) / 3600


def look(stages: Stages, ask: JobAsk, options: Mapping[str, str]) -> Looked:
    """The hours under the options `year`, `start`, `wind`, `margin` and `dried`.

    Raises: Refused with every fault of the job, or of an option as the job file would tell it
    """
    own, _ = stages.read(ask)
    weather = weather_edits(own, options.get("year", ""))
    judging = [*start_edits(own, options.get("start", "")), *rule_edits(options)]
    under = JobAsk(apply(ask.text, weather, ask.path.name), ask.path)
    asked = JobAsk(apply(under.text, judging, ask.path.name), ask.path)
    job, roofs = stages.read(asked)
    found = stages.hours(under)
    whole = None if found is None else found[0]
    if whole is not None and any(options.get(name) for name in RULES):
        judged = whole
        key = ("rejudged", asked.key())
        whole = cast(HourTable, stages.hours_made.take(key, lambda: rejudged(judged, job.rules, Units(job.units))))
    table = None if whole is None else whole.as_dried() if options.get("dried") else whole.same_day()
    return Looked(asked, own, job, roofs, whole, table, (*weather, *judging))


def weather_edits(job: Job, year: str) -> list[Edit]:
    """What would put a bundled year into the job file; nothing where it is the job's own."""
    typed = job.weather
    if not year or (typed is not None and typed.year == year):
        return []
    put: list[Edit] = [SetValue("weather.year", year)]
    return [DropValue("weather.file"), *put] if typed is not None and typed.file else put


def start_edits(job: Job, start: str) -> list[Edit]:
    """What would let the crew's day begin at another time; it ends when it did.

    Raises: Refused where the job has no working hours
    """
    if not start:
        return []
    if job.crew.day is None:
        raise Refused(
            [
                job.fault(
                    "crew.day", needs="the crew's working hours, to begin them at another time", write="07:00-16:30"
                )
            ]
        )
    return [SetValue("crew.day", f"{start}-{job.crew.day[1]:%H:%M}")]


def rule_edits(options: Mapping[str, str]) -> list[Edit]:
    """What would put the rules of the options into the job file."""
    return [SetValue(key, options[name]) for name, key in RULES.items() if options.get(name)]


def as_json(edits: tuple[Edit, ...]) -> list[dict[str, Any]]:
    """Edits as a page sends them back."""
    return [
        {"edit": "set", "path": edit.path, "value": edit.value}
        if isinstance(edit, SetValue)
        else {"edit": "drop", "path": edit.path}
        for edit in edits
        if isinstance(edit, SetValue | DropValue)
    ]


def table_of(looked: Looked) -> HourTable:
    """The hours that are looked at.

    Raises: Refused where the job names no weather
    """
    if looked.table is None:
        raise Refused(
            [looked.job.fault("weather", needs="weather, to say anything of its hours", write="{year: greensboro}")]
        )
    return looked.table


def clock_minutes(looked: Looked, table: HourTable) -> NDArray[np.int64]:
    """The crew's clock at the begin of each hour, minutes after midnight, (hours,)."""
    offset_h, zone = looked.offset_h, looked.zone
    found = (crew_clock(start, offset_h=offset_h, zone=zone) for start in table.weather.start)
    return np.array([MINUTES * moment.hour + moment.minute for moment in found], dtype=np.int64)


def crew_minutes(clock: NDArray[np.int64], day: tuple[time, time] | None) -> NDArray[np.int64]:
    """Minutes of each hour that lie in the crew's day, (hours,); none where that is not given.

    clock: of the crew at the begin of each hour, minutes after midnight.
    """
    if day is None:
        return np.zeros(clock.shape, dtype=np.int64)
    begin, end = (MINUTES * at.hour + at.minute for at in day)
    end += DAY_MIN if end <= begin else 0
    inside = [
        np.clip(np.minimum(clock + MINUTES, end - shift) - np.maximum(clock, begin - shift), 0, None)
        for shift in (-DAY_MIN, 0, DAY_MIN)
    ]
    total: NDArray[np.int64] = np.sum(inside, axis=0)
    return total


def day_fault(read: str, days: int) -> Fault:
    """The fault of a day that is not in the weather."""
    return Fault("", 0, 0, "day", read, f"a day of the weather from 0 to {days - 1}", "0")
