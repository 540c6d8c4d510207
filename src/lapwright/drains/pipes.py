"""Tables of pipes and roof drains: what a leader carries, how deep water stands over a drain (Q4)."""

from __future__ import annotations

from itertools import pairwise

from lapwright.defaults.table import table
from lapwright.units.anything import si_scale

# A diameter typed in inches comes back from metres a hair off.
HAIR = 1e-9
HEADED_DRAINS = ("4", "6")


def pairs_si(row: str) -> tuple[tuple[float, float], ...]:
    """A table's row as pairs in SI, such as (area at 1 in/h [m²], diameter [m]).

    Source: defaults/drains.csv, origin on each row
    """
    found = table("drains")[row]
    first, second = (si_scale(unit)[0] for unit in found.unit.split(" at "))
    cells = [part.split(" at ") for part in found.value.split(", ")]
    return tuple((float(value) * first, float(at) * second) for value, at in cells)


def area_served_m2(diameter: float, rain_m_s: float, *, run: str = "leader") -> float:
    """Plan area [m²] that a pipe drains at a rate of rain [m/s]; 0 under the table's smallest pipe.

    run: leader, pipe_eighth (1/8 in/ft) or pipe_quarter (1/4 in/ft).  A diameter between two takes the smaller.
    Source: plumbing codes, tables at 1 in/h [from memory, in part confirmed by worked examples]
    Checked: tests/published/drains.csv pipe-*
    """
    inch_an_hour, _ = si_scale("in/h")
    return max((area for area, size in pairs_si(run) if size <= diameter + HAIR), default=0.0) * inch_an_hour / rain_m_s


def least_diameter_m(area_m2: float, rain_m_s: float, *, run: str = "leader") -> float | None:
    """The table's smallest pipe [m] that drains an area [m²]; None beyond its largest.

    Source: plumbing codes, tables at 1 in/h [from memory, in part confirmed by worked examples]
    Checked: tests/published/drains.csv pipe-*
    """
    sizes = [size for _, size in pairs_si(run)]
    return next((size for size in sizes if area_served_m2(size, rain_m_s, run=run) >= area_m2), None)


def leader_flow_m3_s(diameter: float) -> float:
    """What a vertical leader carries [m³/s]; 0 under the table's smallest.

    Source: plumbing codes, table of vertical leaders at 1 in/h as a flow [from memory]
    Checked: tests/published/drains.csv leader-*
    """
    return area_served_m2(diameter, 1.0)


def least_leader_m(flow: float) -> float | None:
    """The smallest leader [m] that carries a flow [m³/s]; None beyond the largest.

    Source: plumbing codes, table of vertical leaders at 1 in/h as a flow [from memory]
    Checked: tests/published/drains.csv leader-*
    """
    return least_diameter_m(flow, 1.0)


def drain_head_m(flow: float, diameter: float) -> float | None:
    """Depth of water over a roof drain [m] at a flow [m³/s]; straight between the table's rows.

    None where the drain is smaller than any of the table or the flow beyond its last row; never further than it goes.
    Source: ASCE 7 commentary C8, table of roof drains [from memory]
    Checked: tests/published/drains.csv drain-*
    """
    around = rows_around(flow, diameter)
    if around is None:
        return None
    (low_flow, low_head), (at_flow, head) = around
    return low_head + (head - low_head) * (flow - low_flow) / (at_flow - low_flow)


def rows_around(flow: float, diameter: float) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """The table's rows under and over a flow [m³/s], each flow [m³/s] and depth [m]; None beyond the table.

    Source: ASCE 7 commentary C8, table of roof drains [from memory]; under its first row dry and no flow
    Checked: tests/published/drains.csv drain-*
    """
    rows = ((0.0, 0.0), *head_rows(diameter))
    return next((pair for pair in pairwise(rows) if flow <= pair[1][0] * (1 + HAIR)), None)


def head_rows(diameter: float) -> tuple[tuple[float, float], ...]:
    """The table's rows for a roof drain: flow [m³/s], depth over it [m]; none for a drain smaller than any of it.

    Source: ASCE 7 commentary C8, table of roof drains [from memory]
    Checked: tests/published/drains.csv drain-*
    """
    inch, _ = si_scale("in")
    served = [size for size in HEADED_DRAINS if float(size) * inch <= diameter + HAIR]
    return pairs_si(f"drain_head.{served[-1]}") if served else ()
