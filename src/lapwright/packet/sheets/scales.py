"""Drawing scales, the bar scale and the north arrow.

A scale is one that stands on a scale rule: 1/16" = 1'-0" for US jobs, 1:200 for metric ones; beyond the last, a
plain ratio.  Plans take the largest that fits the paper.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from lapwright.packet.drawing import Fill, Item, Pt, Ring, Stroke, Text, rectangle
from lapwright.units.factors import FOOT, INCH

LAYER = "SHEET"


@dataclass(frozen=True, slots=True)
class Scale:
    """Its words and how many times the roof is larger than the paper."""

    text: str
    ratio: int

    @property
    def per_metre(self) -> float:
        """Millimetres of paper to a metre."""
        return 1000.0 / self.ratio


ARCHITECT = (('1/4"', 48), ('3/16"', 64), ('1/8"', 96), ('3/32"', 128), ('1/16"', 192))
ENGINEER = (20, 30, 40, 50, 60, 80, 100, 200, 400)
PLAN_US = (
    *(Scale(f"{text} = 1'-0\"", ratio) for text, ratio in ARCHITECT),
    *(Scale(f"1\" = {feet}'", feet * 12) for feet in ENGINEER),
)
PLAN_METRIC = tuple(
    Scale(f"1:{ratio}", ratio) for ratio in (50, 75, 100, 125, 150, 200, 250, 300, 400, 500, 750, 1000, 2000)
)
DETAIL_US = tuple(
    Scale(f"{text} = 1'-0\"", ratio)
    for text, ratio in (
        ('6"', 2),
        ('4"', 3),
        ('3"', 4),
        ('2"', 6),
        ('1 1/2"', 8),
        ('1"', 12),
        ('3/4"', 16),
        ('1/2"', 24),
    )
)
DETAIL_METRIC = tuple(Scale(f"1:{ratio}", ratio) for ratio in (2, 3, 4, 5, 8, 10, 15, 20))


def plan_scales(units: str) -> tuple[Scale, ...]:
    """Scales for plans, the largest first."""
    return PLAN_US if units == "us" else PLAN_METRIC


def detail_scales(units: str) -> tuple[Scale, ...]:
    """Scales for details, the largest first."""
    return DETAIL_US if units == "us" else DETAIL_METRIC


def fitting(scales: Sequence[Scale], size: Pt, room: Pt) -> Scale:
    """The largest scale at which a thing of `size` [m] fits into `room` [mm]; a round ratio beyond the last."""
    for scale in scales:
        if size[0] * scale.per_metre <= room[0] and size[1] * scale.per_metre <= room[1]:
            return scale
    least = max(size[0] / room[0], size[1] / room[1]) * 1000
    ratio = math.ceil(least)
    step = 10 ** max(0, math.floor(math.log10(ratio)) - 1)
    ratio = math.ceil(ratio / step) * step
    return Scale(f"1:{ratio}", ratio)


def bar_length(scale: Scale, units: str, longest: float) -> tuple[int, float, str]:
    """A round length for the bar: its number, millimetres on the paper, unit; the greatest within `longest`."""
    small = scale.ratio <= 20
    unit, size = (
        (("in", float(INCH)) if small else ("ft", float(FOOT)))
        if units == "us"
        else (("mm", 0.001) if small else ("m", 1.0))
    )
    steps = [k * 10**power for power in range(6) for k in (1, 2, 4, 5)]
    fits = [n for n in steps if n * size * scale.per_metre <= longest]
    number = max(fits, default=1)
    return (number, number * size * scale.per_metre, unit)


def bar_scale(scale: Scale, units: str, at: Pt, longest: float, *, letter: float = 1.9) -> tuple[Item, ...]:
    """A bar of four parts, dark and light in turn, numbered at its ends and middle; `at` is its lower left."""
    number, length, unit = bar_length(scale, units, longest)
    x, y = at
    part, thick = length / 4, 1.4
    items: list[Item] = [Stroke(rectangle(x, y, length, thick), LAYER, weight="thin", closed=True)]
    items += [Fill((rectangle(x + k * part, y, part, thick),), LAYER) for k in (0, 2)]
    half = number / 2
    for value, place in ((0, 0.0), (half, length / 2), (number, length)):
        words = f"{value:g}" if value != number else f"{value:g} {unit}"
        items.append(Text((x + place, y + thick + 1.0), words, letter, LAYER, across="middle"))
    return tuple(items)


def north_arrow(at: Pt, radius: float) -> tuple[Item, ...]:
    """North up the sheet: a needle, dark on its left half, in a ring; `at` is the ring's centre."""
    x, y = at
    tip, left, right, waist = (
        (x, y + radius * 1.35),
        (x - radius * 0.42, y - radius),
        (x + radius * 0.42, y - radius),
        (x, y - radius * 0.6),
    )
    return (
        Ring(at, radius, LAYER, weight="thin"),
        Fill(((tip, right, waist, left),), LAYER, ink="paper"),
        Fill(((tip, waist, left),), LAYER),
        Stroke((tip, right, waist, left), LAYER, weight="thin", closed=True),
        Text((x, y + radius * 1.35 + 1.0), "N", 3.0, LAYER, across="middle"),
    )
