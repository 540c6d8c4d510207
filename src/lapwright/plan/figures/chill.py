"""`chill`: what cold and wind do to bare skin."""

from __future__ import annotations

from lapwright.plan.figures.figure import Answer, Asked, Curve, Figure, Shown
from lapwright.plan.figures.option import Option
from lapwright.units.anything import si_scale
from lapwright.verdict import Step
from lapwright.weather.chill import frostbite_min, wind_chill_c

OPTIONS = (
    Option("air", "temperature", "the air", "0F", low="-70F", high="120F"),
    Option(
        "wind", "speed", "the wind in the open, as weather stations report it", "15mph", low="0 mph", high="100 mph"
    ),
)
RESULTS = {
    "wind_chill_c": "air in a walking wind that would cool bare skin as fast",
    "frostbite_min": "minutes until bare skin freezes; null where it does not within half an hour",
}
SOURCE = (
    "US National Weather Service, wind chill chart of 2001; Environment Canada, time to freezing of the most exposed "
    "skin [from memory]"
)
MOST_MPH = 40


def compute(asked: Asked) -> Answer:
    """Wind chill and time to frostbite."""
    air_c, wind_m_s = asked["air_c"], asked["wind_m_s"]
    chill_c, minutes = float(wind_chill_c(air_c, wind_m_s)), frostbite_min(air_c, wind_m_s)
    frozen = "Bare skin freezes within" if minutes is not None else "Bare skin does not freeze within half an hour"
    steps = (
        Step(
            text="Wind chill; over 50 F, or in a wind of 3 mph or less, it is the air itself",
            formula="35.74 + 0.6215 T - 35.75 V^0.16 + 0.4275 T V^0.16, in F and mph",
            values={"air [degC]": air_c, "wind [m/s]": wind_m_s},
            result=chill_c,
            unit="degC",
        ),
        Step(
            text=f"{frozen} [from memory]",
            formula="(-24.5 (0.667 V + 4.8) + 2111) (-4.8 - T)^-1.668, C and km/h, at most 30 min",
            result=minutes,
            unit="min",
        ),
    )
    mph, _ = si_scale("mph")
    return Answer(
        results={"wind_chill_c": chill_c, "frostbite_min": minutes},
        shown=[
            Shown("Wind chill", chill_c, "degC"),
            Shown("Bare skin freezes within", "not in half an hour" if minutes is None else minutes, "min"),
        ],
        steps=steps,
        source=SOURCE,
        curve=Curve(
            tuple((speed * mph, float(wind_chill_c(air_c, speed * mph))) for speed in range(MOST_MPH + 1)),
            "wind",
            "m/s",
            "wind chill",
            "degC",
        ),
    )


CHILL = Figure("chill", "What cold and wind do to bare skin.", OPTIONS, RESULTS, compute, "--air 0F --wind 15mph")
