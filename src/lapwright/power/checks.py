"""Does enough reach the tools: the cord's volts, and the generator's rating (question 7)."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.defaults.si import default_number
from lapwright.power.cord import SOURCE as CORD_SOURCE
from lapwright.power.cord import cord
from lapwright.power.supply import CAUTIONS, supply
from lapwright.power.supply import SOURCE as SUPPLY_SOURCE
from lapwright.power.values import CordAsk, Power, SupplyAsk
from lapwright.verdict import Check, Reading, Step, judged

CONFIRM = "whoever answers for the site's electricity; local code"
CORD, SUPPLY = "power.cord", "power.supply"
USES: Mapping[str, tuple[str, ...]] = {
    CORD: ("power.load", "power.volts", "power.gauge", "power.length"),
    SUPPLY: (
        "power.supply",
        "power.load",
        "power.volts",
        "power.motors",
        "power.others",
        "power.generator",
        "crew.welders",
        "site.elevation",
    ),
}


def check_power(power: Power) -> tuple[Check, ...]:
    """The cord, and the generator where the tools run on one; nothing where nobody welds.

    Source: common practice, no source
    """
    if power.tools == 0:
        return ()
    return (check_cord(power), *(() if power.supply == "mains" else (check_supply(power),)))


def check_cord(power: Power) -> Check:
    """The cord takes no more than the code books' 5 % of the tool's volts, and carries its current.

    Demand: volts lost by the current on the plate, as the code books reckon; capacity: 5 % of the plate's volts.
    Source: NEC 210.19(A), informational note: advice, not law [from memory]
    Checked: tests/published/power.csv cord-*, longest-*
    """
    title = "The cord leaves the tool its volts: no more than 5 % lost, as the code books advise"
    reading = Reading()
    load = reading.take("power.load", power.load_w)
    volts = reading.take("power.volts", power.volts)
    gauge = reading.take("power.gauge", power.gauge)
    length = reading.take("power.length", power.length)
    if reading.missing:
        return reading.unknown(CORD, title, source=CORD_SOURCE)
    found = cord(CordAsk(load, volts, length, gauge, default_number("power", "wire_at")))
    most = default_number("power", "drop_all") * volts
    return Check(
        id=CORD,
        title=title,
        status="fail" if found.is_overloaded else judged(found.plate_drop_v, most),
        demand=found.plate_drop_v,
        capacity=most,
        unit="V",
        steps=found.steps,
        source=found.source,
        confirm=CONFIRM,
        uses=tuple(reading.uses),
    )


def check_supply(power: Power) -> Check:
    """The generator's continuous rating covers what runs at the same time, at this height of ground [W].

    Source: common practice, no source
    Checked: tests/published/power.csv generator-*
    """
    title = "The generator covers what runs at the same time"
    reading = Reading()
    reading.take("power.supply", power.supply)
    load = reading.take("power.load", power.load_w)
    volts = reading.take("power.volts", power.volts)
    motors = reading.take("power.motors", power.motors_w)
    others = reading.take("power.others", power.others_w)
    generator = reading.take("power.generator", power.generator_w)
    tools = reading.take("crew.welders", power.tools)
    elevation = reading.take("site.elevation", power.elevation)
    if reading.missing:
        return reading.unknown(SUPPLY, title, source=SUPPLY_SOURCE)
    found = supply(SupplyAsk(tools, load, volts, motors, others, elevation))
    return Check(
        id=SUPPLY,
        title=title,
        status=judged(found.here_w, generator),
        demand=found.here_w,
        capacity=generator,
        unit="W",
        steps=(*found.steps, *(Step(text=caution) for caution in CAUTIONS)),
        source=found.source,
        confirm=CONFIRM,
        uses=tuple(reading.uses),
    )
