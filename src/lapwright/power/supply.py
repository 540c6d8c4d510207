"""The generator, the circuits and the fuel for what runs at the same time (question 7).  See docs/method/power.md."""

from __future__ import annotations

import math

from lapwright.defaults.si import default_number, default_si
from lapwright.defaults.table import table
from lapwright.power.values import Supply, SupplyAsk
from lapwright.units.factors import FOOT, GALLON, HOUR
from lapwright.verdict import Step

SOURCE = (
    "common practice, no source: a motor's start, a generator at four fifths of its continuous rating, its loss with "
    "height, its fuel; circuits by NEC 210.19 and 240.6 [from memory]"
)
CAUTIONS = (
    "Every outlet of 125 V and 15, 20 or 30 A that is used on the site is behind a ground-fault circuit interrupter "
    "(GFCI), tested before work; on other outlets by GFCI or by an assured grounding programme [NEC 590.6, from "
    "memory; local code governs].",
    "One tool to a circuit and to a cord, no cord coiled while it is loaded, plugs out of the wet and off the lap.",
    "A generator or a fuel heater makes carbon monoxide: outdoors, in the open, away from doors, windows and air "
    "intakes, never in the warm store, under a tarp or in a shed; an alarm where people warm up.",
    "A generator that feeds cords alone is bonded as its maker says; one that feeds a building is an electrician's.",
)
_HAIR = 1e-9


def altitude_share(elevation: float) -> float:
    """What an engine keeps of its rating at a height of the ground above the sea [m].

    Holds for: an engine without a blower, to 15 000 ft; below the sea nothing is gained.
    Source: common practice, no source
    Checked: tests/published/power.csv altitude-*
    """
    lost = default_number("power", "altitude_loss") * max(elevation, 0.0) / (1000 * float(FOOT))
    return max(1 - lost, 0.0)


def breaker_a(amps: float) -> float | None:
    """The smallest circuit [A] that carries a load all day; None beyond the table.

    Source: NEC 210.19 and 240.6: four fifths of the breaker for a load of three hours and more [from memory]
    Checked: tests/published/power.csv breaker-*
    """
    share = default_number("power", "continuous_share")
    sizes = (float(each) for each in table("power")["breakers"].value.split(", "))
    return next((size for size in sizes if amps <= share * size + _HAIR), None)


def supply(ask: SupplyAsk) -> Supply:
    """The generator, the circuits and the fuel for what runs at the same time.

    Holds for: single phase, legs balanced, the largest motor's start taken as that of all motors at once.
    Raises: nothing; a ground so high that no engine's rating is left gives an infinite size, which the steps say.
    Source: common practice, no source
    Checked: tests/published/power.csv generator-*
    """
    running = ask.tools * ask.tool_w + ask.motors_w + ask.others_w
    starting = running + ask.motors_w * (default_number("power", "motor_start") - 1)
    rating = max(starting, running / default_number("power", "generator_share"))
    keeps = altitude_share(ask.elevation)
    step = default_si("power", "generator_step")
    here = rating / keeps if keeps > 0 else math.inf
    size = math.ceil(here / step - _HAIR) * step if keeps > 0 else math.inf
    amps = ask.tool_w / ask.volts
    per_watt = float(GALLON / HOUR) / default_si("power", "fuel_load")
    fuels = tuple(default_number("power", row) * per_watt * running for row in ("fuel_low", "fuel_high"))
    return Supply(
        running_w=running,
        starting_w=starting,
        rating_w=rating,
        here_w=here,
        size_w=size,
        tool_amps=amps,
        breaker_a=breaker_a(amps),
        circuits=ask.tools,
        fuel_low_m3_s=fuels[0],
        fuel_high_m3_s=fuels[1],
        steps=(
            *_watt_steps(ask, running, starting, rating),
            _here_step(ask, rating, keeps, here),
            _circuit_step(ask, amps),
            *_fuel_steps(running, fuels),
        ),
        source=SOURCE,
    )


def _watt_steps(ask: SupplyAsk, running: float, starting: float, rating: float) -> tuple[Step, ...]:
    return (
        Step(
            text="Watts that run at the same time",
            formula="tools x plate + motors + others",
            values={
                "tools": ask.tools,
                "plate [W]": ask.tool_w,
                "motors [W]": ask.motors_w,
                "others [W]": ask.others_w,
            },
            result=running,
            unit="W",
        ),
        Step(
            text="While the motors start",
            formula="running + motors (start - 1)",
            values={"start": default_number("power", "motor_start")},
            result=starting,
            unit="W",
        ),
        Step(
            text="Continuous rating to ask for at the sea's height",
            formula="the greater of starting, and running / share",
            values={"share": default_number("power", "generator_share")},
            result=rating,
            unit="W",
        ),
    )


def _here_step(ask: SupplyAsk, rating: float, keeps: float, here: float) -> Step:
    return Step(
        text="Rating on the plate for this height of ground"
        if keeps > 0
        else "So high that nothing of an engine's rating is left by this rule: ask its maker",
        formula="rating / (1 - 0.035 per 1000 ft)",
        values={"rating [W]": rating, "elevation [m]": ask.elevation, "keeps": keeps},
        result=here if keeps > 0 else None,
        unit="W",
    )


def _circuit_step(ask: SupplyAsk, amps: float) -> Step:
    breaker = breaker_a(amps)
    return Step(
        text="Current of one tool, and the circuit that carries it all day at four fifths, one for each tool"
        + ("" if breaker is not None else ": beyond the table, an electrician's [from memory]"),
        formula="plate / V",
        values={"circuit [A]": "none" if breaker is None else breaker, "circuits": ask.tools},
        result=amps,
        unit="A",
    )


def _fuel_steps(running: float, fuels: tuple[float, ...]) -> tuple[Step, ...]:
    return tuple(
        Step(
            text=f"Fuel at that load, the {words} rate, in proportion",
            formula="rate x running / load it is told for",
            values={"running [W]": running},
            result=fuel,
            unit="m3/s",
        )
        for words, fuel in zip(("lower", "higher"), fuels, strict=True)
    )
