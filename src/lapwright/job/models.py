"""The job as typed, top level: every key of the job file that is not roof, assembly or material.

SI throughout; what was not given is None, and what needs it says `unknown`.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from importlib import resources
from types import MappingProxyType
from typing import Annotated, Any

from pydantic import PrivateAttr

from lapwright.defaults.rules import make_rules
from lapwright.defaults.values import Rules
from lapwright.faults import Fault
from lapwright.job.area_models import AreasTyped
from lapwright.job.assembly_models import AssemblyTyped, MaterialsTyped, SheetTyped
from lapwright.job.fields import TEXT, OneOf, Reads, close_to, file_beside, filled, key, needed
from lapwright.job.mappings import ReadsPrices, ReadsRates, ReadsRules
from lapwright.job.part import Part
from lapwright.job.roof_models import AreaTyped
from lapwright.job.store_models import StoreTyped
from lapwright.job.tool_models import PowerTyped, WeldTyped
from lapwright.job.tree import EMPTY, Path, Places, Table, Text, nearest, path_of, written
from lapwright.units import read
from lapwright.units.unread import Unread

YEARS = ("greensboro", "sand-point", "chicago-2015", "chicago-2016", "northway-2018")
STANDARDS = ("ASCE 7-10", "ASCE 7-16", "ASCE 7-22")
ENCLOSURES = ("enclosed", "partially_enclosed", "partially_open", "open")
_DATE = Reads("date", read.date, "2027-01-11")


def _rain(write: str) -> Reads:
    return Reads("rate of rain", read.rain_m_s, write, above="0 in/h", high="40 in/h")


def known_zone(name: str) -> str:
    """A time zone's name, as the IANA data lists them.

    Raises: Unread with the nearest name.
    """
    # the tzdata package, not the machine's own list: the same answer everywhere
    zones = (resources.files("tzdata") / "zones").read_text(encoding="utf-8").split()
    if name not in zones:
        by_lower = {zone.lower(): zone for zone in zones}
        near = close_to(name, by_lower)
        raise Unread("a time zone by its name", by_lower[near] if near else "America/New_York")
    return name


def risk_of(text: str) -> int:
    """A risk category, 2 or II.

    Raises: Unread for what is neither.
    """
    roman = {"I": 1, "II": 2, "III": 3, "IV": 4}
    return roman[text] if text in roman else read.integer(text)


class JobHead(Part):
    """What the title block says."""

    name: Annotated[str | None, TEXT] = key("name of the job")
    number: Annotated[str | None, TEXT] = key("number of the job, kept as typed")
    date: Annotated[dt.date | None, _DATE] = key("date of the documents")
    revision: Annotated[str | None, TEXT] = key("revision of the documents")


def _degrees(write: str, most: str) -> Reads:
    return Reads("number", read.number, write, low=f"-{most}", high=most, has_unit=False)


class SiteTyped(Part):
    """Where the roof is."""

    latitude: Annotated[float | None, _degrees("36.10", "90")] = key("degrees north; south is negative")
    longitude: Annotated[float | None, _degrees("-79.95", "180")] = key("degrees east; west is negative")
    elevation: Annotated[float | None, Reads("length", read.length_m, "886'", low="-1500'", high="20000'")] = key(
        "height of the ground above the sea"
    )
    time_zone: Annotated[str | None, Reads("time zone", known_zone, "America/New_York", has_unit=False)] = key(
        "time zone of the crew's clock"
    )
    rain_primary: Annotated[float | None, _rain("3.75 in/h")] = key("rain that the drains must take")
    rain_secondary: Annotated[float | None, _rain("6.5 in/h")] = key("rain that the overflows must take")


class WeatherTyped(Part):
    """Which hours the work is planned on."""

    year: Annotated[str | None, OneOf(YEARS)] = key("a bundled year")
    file: Annotated[str | None, file_beside("site.epw")] = key(
        "a weather file beside the job file: EPW, TMY3 CSV, ISD-Lite, or a logger's CSV"
    )


class BuildingTyped(Part):
    """The building, for wind."""

    height: Annotated[float | None, Reads("length", read.length_m, "22'", above="0'", high="1500'")] = key(
        "mean roof height above the ground"
    )
    exposure: Annotated[str | None, OneOf(("B", "C", "D"))] = key("exposure category")
    wind_speed: Annotated[float | None, Reads("speed", read.speed_m_s, "112 mph", low="40 mph", high="300 mph")] = key(
        "basic wind speed of the standard, for the risk category"
    )
    risk_category: Annotated[int | None, Reads("risk category", risk_of, "2", low="1", high="4", has_unit=False)] = key(
        "risk category"
    )
    enclosure: Annotated[str | None, OneOf(ENCLOSURES)] = key("how open the building is")
    standard: Annotated[str | None, OneOf(STANDARDS)] = key("edition of the wind standard")
    topographic: Annotated[float | None, Reads("number", read.number, "1.0", low="1", high="5", has_unit=False)] = key(
        "topographic factor Kzt; 1, flat ground, where not given, and the sheets say so"
    )


def _work_time(write: str) -> Reads:
    return Reads("duration", read.duration_s, write, low="0 min", high="8 h")


class LayoutTyped(Part):
    """What the layout aims at, and the working times it is weighed by; the price of an hour is prices.labour_hour."""

    aim: Annotated[str, OneOf(("least_cost", "fewest_rolls", "fewest_laps"))] = key("what to spare", "least_cost")
    end_lap_time: Annotated[float | None, _work_time("4 min")] = key("working time for an end lap", shown="4 min")
    t_joint_time: Annotated[float | None, _work_time("2 min")] = key("working time for a T-joint", shown="2 min")
    cut_time: Annotated[float | None, _work_time("1 min")] = key(
        "working time to measure and cut one length off a roll", shown="1 min"
    )
    new_length_time: Annotated[float | None, _work_time("3 min")] = key(
        "working time for a length that was not cut in its ply before, beside the cut", shown="3 min"
    )
    new_rip_time: Annotated[float | None, _work_time("10 min")] = key(
        "working time to set out courses of a width that was not ripped in its ply before", shown="10 min"
    )


def _people(write: str, low: str) -> Reads:
    return Reads("whole number", read.integer, write, low=low, high="500", has_unit=False)


def no_values() -> Mapping[str, Any]:
    """A table with nothing in it."""
    return MappingProxyType({})


class CrewTyped(Part):
    """The crew and its days."""

    people: Annotated[int | None, _people("6", "1")] = key("everyone")
    welders: Annotated[int | None, _people("2", "0")] = key(
        "people among them who weld, each with a tool on its own circuit"
    )
    day: Annotated[tuple[dt.time, dt.time] | None, Reads("two clock times", read.clock, "07:00-16:30")] = key(
        "working hours"
    )
    days: Annotated[tuple[int, ...] | None, Reads("days of the week", read.weekdays, "Mon-Fri")] = key("working days")
    start: Annotated[dt.date | None, _DATE] = key("first working day; without it days are numbered, not dated")
    rates: Annotated[Mapping[str, str], ReadsRates()] = filled(
        "elapsed rates that replace the defaults, by name", no_values
    )
    fire_watch: Annotated[float | None, Reads("duration", read.duration_s, "60 min", low="0 min", high="24 h")] = key(
        "how long someone watches after welding: the longest of code, owner and programme"
    )


class Job(Part):
    """A job file, read."""

    job: JobHead = filled("what the title block says", JobHead)
    units: Annotated[str, OneOf(("us", "metric"))] = key("units of what is written out", "us")
    paper: Annotated[str | None, OneOf(("letter", "a4"))] = key("paper; letter for us, a4 for metric where not given")
    site: SiteTyped = filled("where the roof is", SiteTyped)
    weather: WeatherTyped | None = key("the hours the work is planned on: a bundled year or a file")
    building: BuildingTyped = filled("the building, for wind", BuildingTyped)
    work: Annotated[str | None, OneOf(("new", "recover", "tear_off"))] = key("what kind of work it is")
    areas: AreasTyped | None = key("areas of the roof that are drawn in one plan, by its layers")
    roof: tuple[AreaTyped, ...] = needed("the areas of the roof, each a plane")
    assembly: AssemblyTyped = needed("the build-up, from the deck up")
    sheets: dict[str, SheetTyped] = needed("the sheets by name, as their data sheets describe them")
    materials: MaterialsTyped = filled("primer, mastic, caulk", MaterialsTyped)
    rules: Annotated[Rules, ReadsRules()] = filled("rules that replace the defaults", lambda: make_rules({}))
    layout: LayoutTyped = filled("what the layout aims at", LayoutTyped)
    crew: CrewTyped = filled("the crew and its days", CrewTyped)
    store: StoreTyped | None = key("the warm store, and how rolls come from it to the roof")
    weld: WeldTyped = filled("a test weld that held, and what the tool can do", WeldTyped)
    power: PowerTyped = filled("the power on the roof", PowerTyped)
    prices: Annotated[Mapping[str, float], ReadsPrices()] = filled(
        "prices, each of one as it is ordered: a roll, by the sheet's name; a pail of primer or mastic, a tube of"
        " caulk, a bag of granules, a box of fasteners, a length of edge_metal; of an hour of one person, labour_hour",
        no_values,
    )

    _root: Table = PrivateAttr(default_factory=lambda: Table(EMPTY, 0, 0))
    _places: Places = PrivateAttr(default_factory=lambda: Places((0,), False))
    _file: str = PrivateAttr(default="")

    @property
    def paper_size(self) -> str:
        """`letter` or `a4`."""
        return self.paper or ("letter" if self.units == "us" else "a4")

    @property
    def currency(self) -> str:
        """The money that the prices are in, as the first sign or letters in them say; without any, `$` in a US job."""
        table, _ = nearest(self._root, ("prices",))
        rows = table.pairs.values() if isinstance(table, Table) and "prices" in self._root.pairs else ()
        named = (read.currency(pair.value.value) for pair in rows if isinstance(pair.value, Text))
        return next(filter(None, named), "$" if self.units == "us" else "")

    def stand(self, root: Table, places: Places, file: str) -> Job:
        """The job with the tree it was read from, so that `place` can answer."""
        self._root, self._places, self._file = root, places, file
        return self

    def place(self, path: str | Path) -> tuple[int, int, str]:
        """Line, column and text of a path such as `roof[0].slope`; the place of what stands above it if absent."""
        steps = path_of(path) if isinstance(path, str) else path
        node, reached = nearest(self._root, steps)
        line, column = self._places.of(node.start)
        typed = " ".join(node.typed.split()) if isinstance(node, Text) and reached == steps else ""
        return (line, column, typed)

    def fault(self, path: str | Path, *, needs: str, write: str) -> Fault:
        """A fault at a path of this job's file."""
        line, column, typed = self.place(path)
        shown = path if isinstance(path, str) else written(path)
        return Fault(self._file, line, column, shown, typed, needs, write)
