"""`roll`: how long a warm roll lasts outside."""

from __future__ import annotations

from lapwright.heat.rollclock import RollAsk, roll_clock
from lapwright.plan.figures.figure import Answer, Asked, Curve, Figure, Shown
from lapwright.plan.figures.option import Option
from lapwright.verdict import Step

OPTIONS = (
    Option("stored", "temperature", "the roll as it leaves the store", "70F", low="-40F", high="150F"),
    Option("air", "temperature", "the air outside", "25F", low="-60F", high="120F"),
    Option("wind", "speed", "the wind at the roll", "10mph", low="0 mph", high="100 mph"),
    Option("until", "temperature", "the limit that it must stay above", "50F", low="-40F", high="150F"),
    Option("thickness", "length", "thickness of its sheet", "4mm", low="1 mm", high="10 mm"),
    Option("length", "length", "length of its sheet", "10m", low="1 m", high="100 m"),
    Option("core", "length", "diameter of the hole that it is wound round", "75mm", "0mm", low="0 mm", high="300 mm"),
    Option("covered", "transmittance", "heat let through by a cover, roll to air; without it the roll stands bare",
           "2 W/m2K", may_lack=True, above="0 W/m2K", high="100 W/m2K"),
)  # fmt: skip
RESULTS = {
    "surface_s": "when its face falls to the limit",
    "outer_wrap_s": "when the mean of its outermost wrap does",
    "outer_two_wraps_s": "when the mean of its two outermost wraps does",
    "core_s": "when its core does",
    "warm_share": "[seconds, share of the sheet's length still above the limit] after one another",
}


def compute(asked: Asked) -> Answer:
    """The roll clock.

    Raises: Refused where the roll is no warmer than the limit.
    """
    if asked["until_c"] >= asked["stored_c"]:
        raise asked.refuse("until", needs="a limit colder than the roll as it leaves the store", write="50F")
    clock = roll_clock(
        RollAsk(
            stored_c=asked["stored_c"],
            air_c=asked["air_c"],
            wind_m_s=asked["wind_m_s"],
            until_c=asked["until_c"],
            thickness=asked["thickness_m"],
            length=asked["length_m"],
            core=asked["core_m"],
            covered_u_w_m2k=asked["covered_w_m2k"],
        )
    )
    times = {
        "surface_s": clock.surface_s,
        "outer_wrap_s": clock.outer_wrap_s,
        "outer_two_wraps_s": clock.outer_two_wraps_s,
        "core_s": clock.core_s,
    }
    words = ("Face at the limit after", "Outermost wrap (its mean)", "Two outermost wraps", "Core")
    points = tuple((float(at), 100 * float(share)) for at, share in clock.warm_share)
    return Answer(
        results={**times, "warm_share": [[float(at), float(share)] for at, share in clock.warm_share]},
        shown=[Shown(text, value, "s") for text, value in zip(words, times.values(), strict=True)],
        steps=(*clock.steps, *_never(asked)),
        source=clock.source,
        curve=Curve(points, "time outside", "s", "% of the sheet's length still above the limit", ""),
    )


def _never(asked: Asked) -> tuple[Step, ...]:
    """Why no time is reached, where none is."""
    if asked["air_c"] < asked["until_c"]:
        return ()
    text = "Never reached: the air is no colder than the limit"
    return (Step(text=text, values={"air [degC]": asked["air_c"], "limit [degC]": asked["until_c"]}),)


ROLL = Figure(
    "roll",
    "How long a warm roll lasts outside, from the outermost wrap to the core.",
    OPTIONS,
    RESULTS,
    compute,
    "--stored 70F --air 25F --wind 10mph --until 50F --thickness 4mm --length 10m",
)
