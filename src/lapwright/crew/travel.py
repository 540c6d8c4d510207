"""Time at the tool: how long the nozzle travels along a lap, and nothing else.

A crew's day is planned on elapsed rates; the time at the tool is printed beside them, for cords and generator hours.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from lapwright.crew.rates import rate_of
from lapwright.layout.values import Lap

NO_RATES: Mapping[str, float] = MappingProxyType({})


def tool_time_s(kind: str, length: float, *, rates: Mapping[str, float] = NO_RATES) -> float:
    """Time at the tool along one lap [s].

    Args:
        kind: `end` laps take two passes of half the lap's width, each at its own speed; all others one pass.
        length: of the lap [m].
        rates: the crew's rates [SI]; those absent are the defaults.

    Source: common practice, no source
    Checked: tests/published/crew.csv crew.tool-*
    """
    if kind == "end":
        return rate_of(rates, "tool_end_passes") * length / rate_of(rates, "tool_end")
    return length / rate_of(rates, "tool_side")


def laps_tool_s(laps: Iterable[Lap], *, rates: Mapping[str, float] = NO_RATES) -> float:
    """Time at the tool along several laps [s].  Source: arithmetic"""
    return sum(tool_time_s(lap.kind, lap.length, rates=rates) for lap in laps)
