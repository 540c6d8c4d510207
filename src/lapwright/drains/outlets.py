"""One way out for water, judged: the flow that comes to it and what it passes (Q4)."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from lapwright.drains.gutter import box_depth_m, gutter_flow_m3_s
from lapwright.drains.pipes import area_served_m2, drain_head_m, head_rows, leader_flow_m3_s, least_leader_m
from lapwright.drains.weir import francis_flow_m3_s, scupper_flow_m3_s, scupper_head_m
from lapwright.roof.values import Drain
from lapwright.units.anything import si_scale
from lapwright.verdict import Reading, Step

PRIMARY_KINDS = ("drain", "scupper", "gutter")
OVERFLOW_KINDS = ("overflow_drain", "overflow_scupper")
# What each kind must give before it can be judged.
NEEDS: Mapping[str, tuple[str, ...]] = {
    "drain": ("diameter",),
    "scupper": ("width", "height"),
    "gutter": ("side", "width", "outlets"),
    "overflow_drain": ("diameter", "sill"),
    "overflow_scupper": ("width", "height", "sill"),
}
BY_POINT, BY_SIDE = ("drain", "overflow_drain"), ("scupper", "overflow_scupper")
SIDES_OF_AN_OUTLET = 2


@dataclass(frozen=True, slots=True)
class Passage:
    """What a way out is asked to pass and what it passes [m³/s], with the steps."""

    demand: float
    capacity: float
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Standing:
    """Heads at an overflow [m]: static up to its inlet, hydraulic over it (None where it is past the table)."""

    static_head: float
    hydraulic_head: float | None
    steps: tuple[Step, ...]


def read_drain(reading: Reading, key: str, drain: Drain) -> None:
    """Notes what a way out must give, and where it stands: without that its part of the roof is not known.

    Source: arithmetic
    """
    if drain.at is not None or drain.kind in BY_POINT:
        reading.take(f"{key}.at", drain.at)
    elif drain.kind in BY_SIDE:
        reading.take(f"{key}.side", drain.side)
        reading.take(f"{key}.from_start", drain.from_start)
    for name in NEEDS[drain.kind]:
        reading.take(f"{key}.{name}", getattr(drain, name))


def ways_out(drain: Drain) -> int:
    """How many shares of the water it takes: a gutter one for each outlet.

    Source: arithmetic
    """
    return drain.outlets if drain.kind == "gutter" and drain.outlets else 1


def passage(drain: Drain, flow: float) -> Passage:
    """What a way out of a known kind, fully given, makes of the flow that comes to it [m³/s].

    Source: defaults/drains.csv, origin on each row
    """
    judges: Mapping[str, Callable[[Drain, float], Passage]] = {
        "drain": _drain,
        "scupper": _scupper,
        "gutter": _gutter,
    }
    return judges[drain.kind](drain, flow)


def standing(drain: Drain, flow: float) -> Standing:
    """How high water stands at an overflow of a known kind, fully given, at a flow [m³/s].

    Source: defaults/drains.csv, origin on each row
    """
    sill = _given(drain.sill)
    if drain.kind == "overflow_drain":
        head = drain_head_m(flow, _given(drain.diameter))
        text = f"{drain.name}: depth over the overflow drain, straight between the table's rows [from memory]"
        if head is None:
            text = f"{drain.name}: more than the table of roof drains goes to (4 and 6 in) [from memory]"
        rows = _rows_used(_given(drain.diameter))
        values = {"Q [m3/s]": flow, "diameter [m]": _given(drain.diameter), **rows, "sill [m]": sill}
        return Standing(sill, head, (Step(text=text, values=values, result=head, unit="m"),))
    width, height = _given(drain.width), _given(drain.height)
    head = scupper_head_m(flow, width=width, height=height)
    return Standing(sill, head, (_head_step(drain.name, flow, width, height, head),))


def _drain(drain: Drain, flow: float) -> Passage:
    diameter = _given(drain.diameter)
    capacity = leader_flow_m3_s(diameter)
    head = drain_head_m(flow, diameter)
    carries = Step(
        text=f"{drain.name}: what a vertical leader of its diameter carries, table of plumbing codes [from memory]",
        formula="Q = A at 1 in/h x 1 in/h",
        values={"diameter [m]": diameter, "A at 1 in/h [m2]": _served_m2(diameter), "flow to it [m3/s]": flow},
        result=capacity,
        unit="m3/s",
    )
    stands = Step(
        text=f"{drain.name}: depth of water over it at that flow [from memory]"
        if head is not None
        else f"{drain.name}: the table of water over roof drains (4 and 6 in) does not reach this flow [from memory]",
        formula="straight between the table's rows",
        values={**_rows_used(diameter), "flow to it [m3/s]": flow},
        result=head,
        unit="m",
    )
    return Passage(flow, capacity, (carries, stands))


def _served_m2(diameter: float) -> float:
    """The table's area at 1 in/h for a leader [m²]."""
    inch_an_hour, _ = si_scale("in/h")
    return area_served_m2(diameter, inch_an_hour)


def _rows_used(diameter: float) -> dict[str, object]:
    """The rows of the table of roof drains that a diameter goes by: depth [m] by the flow that stands so deep."""
    inch, gpm = si_scale("in")[0], si_scale("gpm")[0]
    return {f"at {flow / gpm:g} gpm [m]": round(head / inch, 6) * inch for flow, head in head_rows(diameter)}


def _scupper(drain: Drain, flow: float) -> Passage:
    width, height = _given(drain.width), _given(drain.height)
    capacity = scupper_flow_m3_s(height, width=width)
    head = scupper_head_m(flow, width=width, height=height)
    full = Step(
        text=f"{drain.name}: what the scupper passes while its top is just not covered [from memory]",
        formula="Q = 2.9 b H^1.5, gpm and in",
        values={
            "b [m]": width,
            "H [m]": height,
            "flow to it [m3/s]": flow,
            "after Francis, 3.33 L H^1.5 [m3/s]": francis_flow_m3_s(height, width=width),
        },
        result=capacity,
        unit="m3/s",
    )
    return Passage(flow, capacity, (full, _head_step(drain.name, flow, width, height, head)))


def _gutter(drain: Drain, flow: float) -> Passage:
    """Each outlet of a gutter takes its share from two sides; judged by the channel, the leader is told or judged."""
    width, depth = _given(drain.width), box_depth_m(_given(drain.width), drain.height)
    side_flow = flow / SIDES_OF_AN_OUTLET
    channel = gutter_flow_m3_s(width, depth)
    inch_an_hour, _ = si_scale("in/h")
    half_round = area_served_m2(width, inch_an_hour, run="half_round") * inch_an_hour
    told = "as given" if drain.height is not None else "taken as half the width, no height given"
    carries = Step(
        text=f"{drain.name}: what a level box gutter brings to one side of an outlet, outlets evenly spaced and fed "
        f"from two sides, depth {told} [from memory]",
        formula="0.9 b sqrt(g) (d / sqrt 3)^1.5",
        values={
            "b [m]": width,
            "d [m]": depth,
            "flow from one side [m3/s]": side_flow,
            "a half-round gutter of this width at 1/16 in/ft, by the plumbing code's table [m3/s]": half_round,
        },
        result=channel,
        unit="m3/s",
    )
    leader, step = _leader(drain, flow, width)
    if leader < flow and (leader == 0 or leader / flow < channel / side_flow):
        return Passage(flow, leader, (carries, step))
    return Passage(side_flow, channel, (carries, step))


def _leader(drain: Drain, flow: float, width: float) -> tuple[float, Step]:
    """What a leader of the diameter given carries; without one, of the smallest that does and fits into the gutter."""
    if drain.diameter is not None:
        capacity = leader_flow_m3_s(drain.diameter)
        text = f"{drain.name}: what each leader of the diameter given carries [from memory]"
        values = {"diameter [m]": drain.diameter, "flow to it [m3/s]": flow}
        return capacity, Step(text=text, values=values, result=capacity, unit="m3/s")
    least = least_leader_m(flow)
    if least is None or least > width:
        text = f"{drain.name}: no leader of the table that fits into the gutter carries an outlet's flow [from memory]"
        return 0.0, Step(text=text, values={"flow to it [m3/s]": flow, "gutter's width [m]": width})
    text = f"{drain.name}: each outlet and its leader need at least this diameter, none is given [from memory]"
    return leader_flow_m3_s(least), Step(text=text, values={"flow to it [m3/s]": flow}, result=least, unit="m")


def _head_step(name: str, flow: float, width: float, height: float, head: float) -> Step:
    covered = head > height
    return Step(
        text=f"{name}: head over its sill at that flow" + (", its top covered" if covered else "") + " [from memory]",
        formula="Q = 2.9 b (H^1.5 - (H - h)^1.5), gpm and in" if covered else "Q = 2.9 b H^1.5, gpm and in",
        values={"Q [m3/s]": flow, "b [m]": width, "h [m]": height},
        result=head,
        unit="m",
    )


def _given(value: float | None) -> float:
    """A value that `read_drain` has seen."""
    assert value is not None
    return value
