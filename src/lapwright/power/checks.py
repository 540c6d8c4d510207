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
    """The cord carries the tool's current; the volts that it takes are in the steps, and told apart (`cord_advice`).

    Demand: current on the tool's plate; capacity: what the cord carries [A].
    Source: NEC table 400.5(A) [from memory]
    Checked: tests/published/power.csv cord-*, longest-*
    """
    title = "The cord carries the tool's current"
    reading = Reading()
    load = reading.take("power.load", power.load_w)
    volts = reading.take("power.volts", power.volts)
    gauge = reading.take("power.gauge", power.gauge)
    length = reading.take("power.length", power.length)
    if reading.missing:
        return reading.unknown(CORD, title, source=CORD_SOURCE, confirm=CONFIRM)
    found = cord(CordAsk(load, volts, length, gauge, default_number("power", "wire_at")))
    return Check(
        id=CORD,
        title=title,
        status="fail" if found.is_overloaded else "pass",
        demand=found.amps,
        capacity=found.carries_a,
        unit="A",
        steps=found.steps,
        source=found.source,
        confirm=CONFIRM,
        uses=tuple(reading.uses),
    )


def cord_advice(power: Power) -> str:
    """What to know of a cord that takes more than the code books' 5 % of the volts; empty where it takes less.

    Advice, no limit: a long cord is slow, not forbidden, so it fails no check.  By the current on the tool's plate,
    as the code books reckon; empty where the cord is not known.
    Source: NEC 210.19(A), informational note: advice, not law [from memory]
    Checked: tests/published/power.csv cord-*
    """
    load, volts, length, gauge = power.load_w, power.volts, power.length, power.gauge
    if power.tools == 0 or load is None or volts is None or length is None or gauge is None:
        return ""
    found = cord(CordAsk(load, volts, length, gauge, default_number("power", "wire_at")))
    share, most = found.plate_drop_v / volts, default_number("power", "drop_all")
    if share <= most:
        return ""
    return (
        f"the cord takes {100 * share:.1f} % of the tool's volts and {100 * found.heat_lost_share:.1f} % of its heat; "
        f"the code books advise {100 * most:.0f} % at most, which is no law: a heavier or shorter one, or the slower "
        "weld speeds of the table"
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
        return reading.unknown(SUPPLY, title, source=SUPPLY_SOURCE, confirm=CONFIRM)
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
