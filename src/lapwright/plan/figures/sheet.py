"""`sheet`: how long a warm sheet stays warm once it is unrolled."""

from __future__ import annotations

from lapwright.heat.unrolled import SUBSTRATES, SheetAsk, sheet_clock
from lapwright.plan.figures.figure import Answer, Asked, Figure, Shown
from lapwright.plan.figures.option import Option
from lapwright.verdict import Step

OPTIONS = (
    Option("laid-at", "temperature", "the sheet as it leaves the roll", "70F", low="-40F", high="150F"),
    Option("air", "temperature", "the air", "25F", low="-60F", high="120F"),
    Option("wind", "speed", "the wind over the sheet", "10mph", low="0 mph", high="100 mph"),
    Option("substrate", "choice", "what it is unrolled on", "gypsum", choices=tuple(SUBSTRATES),
           also=(("steel deck", "steel"), ("base ply", "base"), ("high-density polyiso", "polyiso_board"))),
    Option("substrate-at", "temperature", "the substrate's surface; as the air where not given", "25F",
           may_lack=True, low="-60F", high="180F"),
    Option("sun", "irradiance", "sun on the roof", "250 W/m2", "0 W/m2", low="0 W/m2", high="1400 W/m2"),
    Option("until", "temperature", "the limit that it must stay above", "50F", low="-40F", high="150F"),
    Option("thickness", "length", "thickness of the sheet", "4mm", low="1 mm", high="10 mm"),
)  # fmt: skip
RESULTS = {
    "until_s": "when the mean of the sheet falls to the limit",
    "contact_c": "the bond line at first touch",
}


def compute(asked: Asked) -> Answer:
    """The sheet's clock.

    Raises: Refused where the sheet is no warmer than the limit.
    """
    if asked["until_c"] >= asked["laid_at_c"]:
        raise asked.refuse("until", needs="a limit colder than the sheet as it leaves the roll", write="50F")
    given = asked["substrate_at_c"]
    clock = sheet_clock(
        SheetAsk(
            laid_at_c=asked["laid_at_c"],
            air_c=asked["air_c"],
            wind_m_s=asked["wind_m_s"],
            substrate=asked["substrate"],
            substrate_c=asked["air_c"] if given is None else given,
            sun_w_m2=asked["sun_w_m2"],
            until_c=asked["until_c"],
            thickness=asked["thickness_m"],
        )
    )
    return Answer(
        results={"until_s": clock.until_s, "contact_c": clock.contact_c},
        shown=[
            Shown("Mean of the sheet at the limit after", clock.until_s, "s"),
            Shown("Bond line at first touch", clock.contact_c, "degC"),
        ],
        steps=clock.steps if clock.until_s is not None else (*clock.steps, NEVER),
        source=clock.source,
    )


NEVER = Step(text="Never reached within a day: air, sun and substrate keep the mean of the sheet over the limit")
SHEET = Figure(
    "sheet",
    "How long a warm sheet stays warm once it is unrolled, and what the bond line feels.",
    OPTIONS,
    RESULTS,
    compute,
    "--laid-at 70F --air 25F --wind 10mph --substrate gypsum --until 50F --thickness 4mm",
)
