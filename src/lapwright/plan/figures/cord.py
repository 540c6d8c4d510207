"""`cord`: what a cord leaves of a tool's volts and heat."""

from __future__ import annotations

from dataclasses import replace

from lapwright.defaults.table import table
from lapwright.plan.figures.figure import Answer, Asked, Curve, Figure, Shown
from lapwright.plan.figures.option import Option
from lapwright.power.cord import cord, longest_m
from lapwright.power.values import GAUGES, CordAsk
from lapwright.verdict import Step

OPTIONS = (
    Option("load", "power", "watts on the tool's plate", "1.6kW", low="50 W", high="30 kW"),
    Option("volts", "volts", "volts on the tool's plate", "120", low="12", high="600"),
    Option("length", "length", "length of the cord, one way", "100'", low="1'", high="2000'"),
    Option("gauge", "choice", "gauge of its wires (AWG, stranded copper)", "14", choices=GAUGES),
    Option("wire-at", "temperature", "temperature of the wires", "75C", f"{table('power')['wire_at'].value}C",
           low="-40C", high="120C"),
    Option("limit", "percent", "share of the volts that may be lost, for the longest cord", "5%", "3%",
           low="0.5%", high="20%"),
)  # fmt: skip
RESULTS = {
    "drop_v": "volts lost, with the tool's own resistance",
    "drop_pct": "the same in percent",
    "heat_lost_pct": "percent of the tool's heat lost",
    "longest_m": "longest cord of this gauge for the limit asked, one way",
    "drop_by_plate_v": "volts lost by the current on the plate, as the code books reckon",
    "current_a": "current by the plate",
}
POINTS = 25


def compute(asked: Asked) -> Answer:
    """The cord."""
    ask = CordAsk(
        load_w=asked["load_w"],
        volts=asked["volts_v"],
        length=asked["length_m"],
        gauge=asked["gauge"],
        wire_c=asked["wire_at_c"],
    )
    found = cord(ask)
    longest = longest_m(ask, asked["limit_share"])
    last = Step(
        text="Longest cord of this gauge for the limit asked",
        formula="tool s / (1 - s) / (2 R)",
        values={"s": asked["limit_share"]},
        result=longest,
        unit="m",
    )
    shown = [
        Shown("Volts lost", found.drop_v, "V"),
        Shown("in percent", 100 * found.drop_share, "%"),
        Shown("Heat lost", 100 * found.heat_lost_share, "%"),
        Shown("Longest cord for the limit", longest, "m"),
        Shown("Current by the plate", found.amps, "A"),
    ]
    if found.is_overloaded:
        shown.append(Shown("Too thin", f"AWG {ask.gauge} carries {found.carries_a:g} A: take a heavier cord"))
    return Answer(
        results={
            "drop_v": found.drop_v,
            "drop_pct": 100 * found.drop_share,
            "heat_lost_pct": 100 * found.heat_lost_share,
            "longest_m": longest,
            "drop_by_plate_v": found.plate_drop_v,
            "current_a": found.amps,
        },
        shown=shown,
        steps=(*found.steps, last),
        source=found.source,
        curve=_curve(ask),
    )


def _curve(ask: CordAsk) -> Curve:
    """Heat lost against the length, to twice the length asked."""
    lengths = [2 * ask.length * place / (POINTS - 1) for place in range(POINTS)]
    points = tuple((length, 100 * cord(replace(ask, length=length)).heat_lost_share) for length in lengths)
    return Curve(points, "length of the cord", "m", "% of the tool's heat lost", "")


CORD = Figure(
    "cord",
    "What a cord leaves of a tool's volts and heat, and how long it may be.",
    OPTIONS,
    RESULTS,
    compute,
    "--load 1.6kW --volts 120 --length 100ft --gauge 14",
)
