"""Gutters: what a level box gutter carries to an outlet that takes all that comes (Q4)."""

from __future__ import annotations

import math

from lapwright.defaults.si import default_number
from lapwright.units.factors import GRAVITY


def gutter_flow_m3_s(width: float, depth: float) -> float:
    """Flow [m³/s] that a level box gutter brings to one side of an outlet; width and depth of the channel [m].

    Fed evenly along its length, water stands √3 times as deep at the still end as where it drops into the outlet, so
    the drop has depth / √3; a margin of a tenth is taken off for friction.
    Holds for: short runs, an outlet large enough to drop into; no debris, no freeboard.
    Source: momentum of a level channel fed along its length, free outfall, no friction (Beij, Flow in roof gutters,
        1934) [from memory]; margin of EN 12056-3 [from memory]
    Checked: tests/published/drains.csv gutter-*
    """
    drop = depth / math.sqrt(3)
    return default_number("drains", "gutter_margin") * width * math.sqrt(float(GRAVITY)) * math.pow(drop, 1.5)


def box_depth_m(width: float, height: float | None) -> float:
    """Depth of a gutter [m]: its height where the job file gives one, else half its width.

    Source: common practice, no source
    """
    return height if height is not None else default_number("drains", "gutter_depth_share") * width
