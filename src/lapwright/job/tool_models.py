"""The welding tools and their power as typed.  SI; what was not given is None."""

from __future__ import annotations

from typing import Annotated

from lapwright.job.fields import OneOf, Reads, YesNo, key
from lapwright.job.part import Part
from lapwright.units import read

GAUGES = ("16", "14", "12", "10", "8", "6")


def _travel(write: str) -> Reads:
    return Reads("speed", read.speed_m_s, write, above="0 in/s", high="24 in/s")


def _felt(write: str, low: str, high: str) -> Reads:
    return Reads("temperature", read.temperature_c, write, low=low, high=high)


def _watts(write: str, high: str) -> Reads:
    return Reads("power", read.power_w, write, low="0 W", high=high)


class WeldTyped(Part):
    """A test weld that held in the probe and in the peel, and what the tool can do."""

    proved_speed: Annotated[float | None, _travel("3 in/s")] = key("speed of the test weld that held")
    proved_sheet: Annotated[float | None, _felt("70 F", "-40 F", "180 F")] = key("the sheet at the test weld")
    proved_air: Annotated[float | None, _felt("70 F", "-60 F", "120 F")] = key(
        "the air at the test weld; taken as the sheet where not given"
    )
    nozzle: Annotated[float | None, _felt("550 C", "200 C", "750 C")] = key("air at the nozzle at the test weld")
    holds_nozzle: Annotated[bool | None, YesNo()] = key(
        "whether the tool keeps its nozzle to a set temperature; the slower of both speeds where not given"
    )
    slowest: Annotated[float | None, _travel("1 ft/min")] = key("the slowest that the tool goes")
    fastest: Annotated[float | None, _travel("30 ft/min")] = key("the fastest that the tool goes")


class PowerTyped(Part):
    """The power on the roof."""

    supply: Annotated[str | None, OneOf(("generator", "mains"))] = key("what the tools run on")
    volts: Annotated[float | None, Reads("voltage", read.voltage_v, "120 V", low="12 V", high="600 V")] = key(
        "volts on a welding tool's plate"
    )
    load: Annotated[float | None, Reads("power", read.power_w, "1.6 kW", low="50 W", high="30 kW")] = key(
        "watts on a welding tool's plate"
    )
    gauge: Annotated[str | None, OneOf(GAUGES)] = key("gauge (AWG) of the cord to a tool, stranded copper")
    length: Annotated[float | None, Reads("length", read.length_m, "100'", low="1'", high="2000'")] = key(
        "length of the cord to a tool, one way"
    )
    generator: Annotated[float | None, _watts("8 kW", "2000 kW")] = key("continuous rating of the generator")
    motors: Annotated[float | None, _watts("1.2 kW", "1000 kW")] = key(
        "running watts of what has a motor and runs beside the tools; 0 W for none"
    )
    others: Annotated[float | None, _watts("300 W", "1000 kW")] = key(
        "watts of whatever else runs beside the tools; 0 W for none"
    )
