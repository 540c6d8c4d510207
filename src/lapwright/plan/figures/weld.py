"""`weld`: the speed for this sheet on this cord, from the morning's test weld."""

from __future__ import annotations

from lapwright.defaults.si import default_si
from lapwright.heat.weld import WeldAsk, at_sheet, weld_speed
from lapwright.plan.figures.figure import Answer, Asked, Curve, Figure, Shown
from lapwright.plan.figures.option import Option

OPTIONS = (
    Option("proved-speed", "speed", "speed of the test weld that held", "3in/s", above="0 in/s", high="24 in/s"),
    Option("proved-sheet", "temperature", "the sheet at the test weld", "70F", low="-40F", high="180F"),
    Option("sheet", "temperature", "the sheet now", "25F", low="-40F", high="180F"),
    Option("nozzle", "temperature", "air at the nozzle at the test weld", "550C", low="200C", high="750C"),
    Option("volts-lost", "percent", "share of the tool's volts lost since the test weld", "10%", "0%",
           low="0%", high="90%"),
    Option("proved-air", "temperature", "the air at the test weld; as the sheet where not given", "70F",
           may_lack=True, low="-60F", high="120F"),
    Option("air", "temperature", "the air now; without it the nozzle is taken to hold its temperature", "25F",
           may_lack=True, low="-60F", high="120F"),
    Option("slowest", "speed", "the slowest that the tool goes", "1 ft/min", may_lack=True, low="0 in/s",
           high="24 in/s"),
    Option("fastest", "speed", "the fastest that the tool goes", "30 ft/min", may_lack=True, above="0 in/s",
           high="24 in/s"),
)  # fmt: skip
RESULTS = {
    "speed_m_s": "speed along the lap; null where the tool can't weld it as it is",
    "ratio": "to the proved speed",
}
POINTS = 25


def compute(asked: Asked) -> Answer:
    """The weld speed.

    Raises: Refused where the tool's slowest is over its fastest.
    """
    slowest, fastest = asked["slowest_m_s"], asked["fastest_m_s"]
    if slowest is not None and fastest is not None and slowest > fastest:
        raise asked.refuse("slowest", needs="a speed under the tool's fastest", write="1 ft/min")
    ask = WeldAsk(
        proved_speed_m_s=asked["proved_speed_m_s"],
        proved_sheet_c=asked["proved_sheet_c"],
        sheet_c=asked["sheet_c"],
        nozzle_c=asked["nozzle_c"],
        volts_lost_share=asked["volts_lost_share"],
        proved_air_c=asked["proved_air_c"],
        air_c=asked["air_c"],
        slowest_m_s=slowest,
        fastest_m_s=fastest,
    )
    speed = weld_speed(ask)
    return Answer(
        results={"speed_m_s": speed.speed_m_s, "ratio": speed.ratio},
        shown=[
            Shown("Speed along the lap", speed.why if speed.speed_m_s is None else speed.speed_m_s, "m/s tool"),
            Shown("Ratio to the proved speed", "none" if speed.ratio is None else speed.ratio),
            Shown("Air at the nozzle", speed.nozzle_c, "degC"),
        ],
        steps=speed.steps,
        source=speed.source,
        curve=_curve(ask),
    )


def _curve(ask: WeldAsk) -> Curve | None:
    """Speed against the sheet, the rest as asked, over the sheets of the packet's table."""
    low, high = default_si("weld", "coldest_row"), default_si("weld", "warmest_row")
    points = []
    for place in range(POINTS):
        sheet_c = low + (high - low) * place / (POINTS - 1)
        speed = at_sheet(ask, sheet_c, air_c=ask.air_c, volts_lost_share=ask.volts_lost_share).speed_m_s
        if speed is not None:
            points.append((sheet_c, speed))
    return Curve(tuple(points), "sheet", "degC", "speed along the lap", "m/s tool") if len(points) > 1 else None


WELD = Figure(
    "weld",
    "How fast to weld in this cold and on this cord, from the morning's test weld. Computed, not published.",
    OPTIONS,
    RESULTS,
    compute,
    "--proved-speed 3in/s --proved-sheet 70F --sheet 25F --nozzle 550C --volts-lost 5%",
)
