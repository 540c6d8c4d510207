"""`drain`: what a storm brings to one drain or scupper, how deep it stands, whether it passes."""

from __future__ import annotations

import math

from lapwright.drains.flow import flow_m3_s, rain_load_pa
from lapwright.drains.pipes import area_served_m2, drain_head_m, leader_flow_m3_s, rows_around
from lapwright.drains.weir import francis_flow_m3_s, scupper_flow_m3_s, scupper_head_m
from lapwright.plan.figures.figure import Answer, Asked, Curve, Figure, Shown
from lapwright.plan.figures.option import Option
from lapwright.units.anything import si_scale
from lapwright.verdict import Step

OPTIONS = (
    Option("area", "area", "plan area of roof that runs to it", "2500 sf", above="0 sf", high="500000 sf"),
    Option("rain", "rain", "rain of the storm", "3.75 in/h", above="0 in/h", high="40 in/h"),
    Option("wall", "area", "walls that shed onto that area, counted by half", "0 sf", "0 sf", low="0 sf",
           high="500000 sf"),
    Option("kind", "choice", "what takes the water", "drain", choices=("drain", "scupper")),
    Option("size", "opening", "diameter of a drain; width, or width x height, of a scupper", "4 in",
           above="0 in", high="20'"),
    Option("sill", "length", "height of its inlet above the roof", "2 in", "0 in", low="0 in", high="3'"),
)  # fmt: skip
RESULTS = {
    "flow_m3_s": "what the storm brings",
    "head_m": "depth over its inlet at that flow; null beyond the table of drains",
    "load_pa": "rain load under sill and head; null without the head",
    "passes": "its leader carries the flow, or the scupper's top stays dry; null for a scupper without a height",
}
SOURCE = (
    "IPC 1106.4, Q = A i with half of the walls; leaders, drains and scuppers by tables of plumbing codes and of the "
    "ASCE 7 commentary [from memory]; rain load 5.2 (ds + dh) psf, ASCE 7-10 equation 8.3-1"
)
POINTS = 33
RAIN_OF_TABLE_M_S = si_scale("in/h")[0]  # the table of leaders is made for it
ENGINEER = "Whether the roof carries it is the engineer's: hand on head, sill and load"


def compute(asked: Asked) -> Answer:
    """The drain.

    Raises: Refused where a drain is given two sizes.
    """
    size, sill = asked["size_m"], asked["sill_m"]
    flow = flow_m3_s(asked["area_m2"], asked["rain_m_s"], wall_m2=asked["wall_m2"])
    first = Step(
        text="Flow: plan area and half of the walls, by the rain",
        formula="Q = (A + walls / 2) i",
        values={"A [m2]": asked["area_m2"], "walls [m2]": asked["wall_m2"], "i [m/s rain]": asked["rain_m_s"]},
        result=flow,
        unit="m3/s",
    )
    is_drain = asked["kind"] == "drain"
    if is_drain and len(size) > 1:
        raise asked.refuse("size", needs="one diameter for a drain", write="4 in")
    height = size[1] if len(size) > 1 else math.inf
    head, passes, steps = _drain(flow, size[0]) if is_drain else _scupper(flow, size[0], height)
    load = None if head is None else rain_load_pa(sill, head)
    last = Step(
        text="Rain load under the height of its inlet and the head over it, an unbent roof"
        if load is not None
        else "No rain load without the head",
        formula="5.2 (ds + dh) psf and in",
        values={"ds [m]": sill, "dh [m]": head},
        result=load,
        unit="Pa",
    )
    return Answer(
        results={"flow_m3_s": flow, "head_m": head, "load_pa": load, "passes": passes},
        shown=[
            Shown("Flow", flow, "m3/s"),
            Shown("Depth over its inlet", "beyond the table" if head is None else head, "m"),
            Shown("Rain load", "not without the depth" if load is None else load, "Pa"),
            Shown("Passes", "unknown: give the scupper's height" if passes is None else passes),
        ],
        steps=(first, *steps, last, Step(text=ENGINEER)),
        source=SOURCE,
        curve=_curve(asked, height),
    )


def _curve(asked: Asked, height: float) -> Curve | None:
    """Depth over its inlet by rains to twice the one asked, as far as tables reach; none where they reach none."""
    rains = [2 * asked["rain_m_s"] * place / (POINTS - 1) for place in range(POINTS)]
    size, is_drain = asked["size_m"][0], asked["kind"] == "drain"
    points = []
    for rain in rains:
        flow = flow_m3_s(asked["area_m2"], rain, wall_m2=asked["wall_m2"])
        head = drain_head_m(flow, size) if is_drain else scupper_head_m(flow, width=size, height=height)
        if head is not None:
            points.append((rain, head))
    return Curve(tuple(points), "rain", "m/s rain", "depth over its inlet", "m") if len(points) > 1 else None


def _drain(flow: float, diameter: float) -> tuple[float | None, bool | None, tuple[Step, ...]]:
    """Depth over a roof drain, whether its leader carries the flow, the steps."""
    carries, head = leader_flow_m3_s(diameter), drain_head_m(flow, diameter)
    served, around = area_served_m2(diameter, RAIN_OF_TABLE_M_S), rows_around(flow, diameter)
    (low_q, low_d), (high_q, high_d) = around or ((0.0, 0.0), (0.0, 0.0))
    rows = {"Q1 [m3/s]": low_q, "d1 [m]": low_d, "Q2 [m3/s]": high_q, "d2 [m]": high_d}
    return head, flow <= carries, (
        Step(
            text="What a vertical leader of its diameter carries, row of the table of plumbing codes [from memory]",
            formula="A1 x 1 in/h",
            values={"diameter [m]": diameter, "A1, drained at 1 in/h [m2]": served},
            result=carries,
            unit="m3/s",
        ),
        Step(
            text="Depth of water over it at that flow, straight between the table's rows [from memory]"
            if head is not None
            else "The table of water over roof drains (4 and 6 in) does not reach this flow or size [from memory]",
            formula="d1 + (d2 - d1) (Q - Q1) / (Q2 - Q1)" if around else "",
            values={"Q [m3/s]": flow, **(rows if around else {})},
            result=head,
            unit="m",
        ),
    )  # fmt: skip


def _scupper(flow: float, width: float, height: float) -> tuple[float | None, bool | None, tuple[Step, ...]]:
    """Head over a scupper's sill, whether its top stays dry, the steps."""
    head = scupper_head_m(flow, width=width, height=height)
    is_open = math.isinf(height)
    covered = head > height
    beside = "after Francis, 3.33 L H^1.5 in cfs and ft, at that head [m3/s]"
    steps = [
        Step(
            text="Head over its sill at that flow" + (", its top covered" if covered else "") + " [from memory]",
            formula="Q = 2.9 b (H^1.5 - (H - h)^1.5), gpm and in" if covered else "Q = 2.9 b H^1.5, gpm and in",
            values={"Q [m3/s]": flow, "b [m]": width, **({} if is_open else {"h [m]": height}),
                    **({} if covered else {beside: francis_flow_m3_s(head, width=width)})},
            result=head,
            unit="m",
        )
    ]  # fmt: skip
    if is_open:
        steps.append(Step(text="No height given: an open-topped one passes any flow, the head and its load decide"))
        return head, None, tuple(steps)
    steps.append(
        Step(
            text="What it passes while its top is just not covered [from memory]",
            formula="Q = 2.9 b h^1.5, gpm and in",
            values={"b [m]": width, "h [m]": height},
            result=scupper_flow_m3_s(height, width=width),
            unit="m3/s",
        )
    )
    return head, not covered, tuple(steps)


DRAIN = Figure(
    "drain",
    "What a storm brings to one drain or scupper, how deep it stands there, and what it weighs.",
    OPTIONS,
    RESULTS,
    compute,
    "--area '2500 sf' --rain '3.75 in/h' --kind drain --size '4 in'",
)
