"""`surface`: the temperature of the roof's surface at one moment, with the spread of the models."""

from __future__ import annotations

from lapwright.defaults.table import table
from lapwright.heat.figure import surface_now
from lapwright.plan.figures.figure import Answer, Asked, Figure, Shown
from lapwright.plan.figures.option import Option
from lapwright.verdict import Step

OPTIONS = (
    Option("air", "temperature", "the air", "25F", low="-60F", high="120F"),
    Option("dew-point", "temperature", "the dew point, as a weather report says it", "20F", low="-90F", high="90F"),
    Option("wind", "speed", "the wind at the roof", "5mph", low="0 mph", high="100 mph"),
    Option("cloud", "cloud", "tenths of the sky under cloud", "3", low="0", high="10"),
    Option("sun", "irradiance", "sun on the roof", "300 W/m2", low="0 W/m2", high="1400 W/m2"),
    Option("absorptance", "number", "share of the sun that the surface takes", "0.85",
           table("heat")["absorptance"].value, low="0", high="1"),
    Option("inside", "temperature", "the air inside, counted where the resistance to it is given", "70F",
           table("heat")["inside"].text, low="-40F", high="120F"),
    Option("r-value", "resistance", "from the surface to the air inside; without it no heat comes from inside", "R-20",
           may_lack=True, low="R-1", high="R-100"),
)  # fmt: skip
RESULTS = {
    "surface_c": "the surface, by the middle of the models",
    "surface_low_c": "by the model that makes it coldest",
    "surface_high_c": "by the model that makes it warmest",
    "frost": "frost settles, by the middle",
    "dew": "dew settles, by the middle",
}
SOURCE = (
    "heat balance, EnergyPlus engineering reference; skies of Clark and Allen and of Berdahl and Martin; films of "
    "Watmuff, McAdams and TARP, each with its origin in docs/method/heat.md"
)

STRADDLES = "some of the models stay over the dew or frost point, others not"


def compute(asked: Asked) -> Answer:
    """The surface now.

    Raises: Refused where the dew point is over the air.
    """
    if asked["dew_point_c"] > asked["air_c"]:
        raise asked.refuse("dew-point", needs="a dew point no warmer than the air", write="20F")
    now = surface_now(
        air_c=asked["air_c"],
        dew_point_c=asked["dew_point_c"],
        wind_m_s=asked["wind_m_s"],
        cloud=asked["cloud_share"],
        sun_w_m2=asked["sun_w_m2"],
        absorptance=asked["absorptance"],
        inside_c=asked["inside_c"],
        r_value_m2k_w=asked["r_value_m2k_w"],
    )
    steps = (
        Step(
            text="Steady balance of the surface, Clark and Allen's sky with Watmuff's film",
            formula="a sun + e (sky - sigma T^4) = h (T - air) + U (T - inside)",
            values={"over the air [K]": now.over_air_k},
            result=now.surface_c,
            unit="degC",
        ),
        Step(text="Coldest of all pairs of sky and film", result=now.surface_low_c, unit="degC"),
        Step(text="Warmest of all pairs of sky and film", result=now.surface_high_c, unit="degC"),
        Step(
            text="Dew or frost settles at and below this; under freezing it is the frost point, not the dew point",
            result=now.wetting_c,
            unit="degC",
        ),
        Step(text="The reading on the roof decides: where the spread straddles a limit, measure first"),
    )
    return Answer(
        results={
            "surface_c": now.surface_c,
            "surface_low_c": now.surface_low_c,
            "surface_high_c": now.surface_high_c,
            "frost": now.frost,
            "dew": now.dew,
        },
        shown=[
            Shown("Surface", now.surface_c, "degC"),
            Shown("as cold as", now.surface_low_c, "degC"),
            Shown("as warm as", now.surface_high_c, "degC"),
            Shown("Frost or dew settles at", now.wetting_c, "degC"),
            Shown("Frost settles", now.frost),
            Shown("Dew settles", now.dew),
            *([Shown("Measure first", STRADDLES)] if now.surface_low_c <= now.wetting_c < now.surface_high_c else []),
        ],
        steps=steps,
        source=SOURCE,
    )


SURFACE = Figure(
    "surface",
    "How warm the roof's surface is now, dry or not, with the spread of the models.",
    OPTIONS,
    RESULTS,
    compute,
    "--air 25F --dew-point 20F --wind 5mph --cloud 0 --sun '0 W/m2'",
)
