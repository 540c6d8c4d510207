"""Scuppers and free edges: water over a level crest, and through an opening once it is covered (Q4)."""

from __future__ import annotations

import math

from lapwright.defaults.si import default_number
from lapwright.units.factors import FOOT, GALLON, INCH, MINUTE

DEEPEST = 10.0
HALVINGS = 80


def scupper_flow_m3_s(head: float, *, width: float, height: float = math.inf) -> float:
    """Flow through a scupper [m³/s] at a head over its sill [m]; opening width and height [m], open-topped without one.

    Source: Q = 2.9 b H^1.5, covered 2.9 b (H^1.5 - (H - h)^1.5), gpm and in: reproduces the ASCE 7 commentary's
        scupper table [from memory]
    Checked: tests/published/drains.csv scupper-*
    """
    covered = max(0.0, head - height)
    return _weir_si() * width * (math.pow(head, 1.5) - math.pow(covered, 1.5))


def scupper_head_m(flow: float, *, width: float, height: float = math.inf) -> float:
    """Head over the sill [m] at which a scupper passes a flow [m³/s].

    Holds for: heads to 10 m; more is returned as 10 m.
    Source: the same formula, turned round: closed while the opening is not covered, else by halving
    Checked: tests/published/drains.csv overflow-*
    """
    free = math.pow(flow / (_weir_si() * width), 2 / 3)
    if free <= height:
        return free
    low, high = height, DEEPEST
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        if scupper_flow_m3_s(middle, width=width, height=height) < flow:
            low = middle
        else:
            high = middle
    return high


def francis_flow_m3_s(head: float, *, width: float) -> float:
    """Flow over an open-topped weir [m³/s] after Francis, no end contraction; shown beside the scupper's own.

    Source: Francis, Q = 3.33 L H^1.5, cfs and ft [from memory]
    Checked: tests/published/drains.csv francis-*
    """
    coefficient = default_number("drains", "francis") * math.sqrt(float(FOOT))
    return coefficient * width * math.pow(head, 1.5)


def _weir_si() -> float:
    """2.9 gpm per in of width and in^1.5 of head, in m^0.5/s."""
    return default_number("drains", "weir") * float(GALLON / MINUTE / INCH) / math.pow(float(INCH), 1.5)
