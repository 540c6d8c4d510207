"""Dimension lines of a section: their ticks, and their words where no name's leader runs through them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from lapwright.packet.drawing import Item, Points, Pt, Stroke, Text, View
from lapwright.packet.lettering import text_width
from lapwright.packet.sheets.labels import label_box, line_box, overlap

LAYER, LETTER = "DETAIL", 2.1
TICK = 0.8
LEADER = 0.1  # half of a leader's width, for what it runs through [mm]
STEPS = 8  # places along a dimension line that are tried to either side of its middle


@dataclass(frozen=True, slots=True)
class Dim:
    """A dimension: from, to [m], how far off the line stands [mm of paper, + up or right], and its words."""

    a: Pt
    b: Pt
    off: float
    words: str


def dim_items(dim: Dim, view: View, leaders: Sequence[Points] = ()) -> list[Item]:
    """A dimension line with its extension lines, slanting ticks and words, which keep clear of the names' leaders."""
    a, b = view.point(dim.a), view.point(dim.b)
    is_level = abs(b[0] - a[0]) >= abs(b[1] - a[1])
    if is_level:
        y = (max(a[1], b[1]) if dim.off > 0 else min(a[1], b[1])) + dim.off
        ends: tuple[Pt, Pt] = ((min(a[0], b[0]), y), (max(a[0], b[0]), y))
        feet = (a, b) if a[0] <= b[0] else (b, a)
        out = (0.0, math.copysign(1.0, dim.off))
    else:
        x = (max(a[0], b[0]) if dim.off > 0 else min(a[0], b[0])) + dim.off
        ends = ((x, min(a[1], b[1])), (x, max(a[1], b[1])))
        feet = (a, b) if a[1] <= b[1] else (b, a)
        out = (math.copysign(1.0, dim.off), 0.0)
    items: list[Item] = [Stroke(ends, LAYER, weight="thin")]
    for foot, end in zip(feet, ends, strict=True):
        start = (foot[0] + out[0] * 0.8, foot[1] + out[1] * 0.8)
        stop = (end[0] + out[0] * 1.2, end[1] + out[1] * 1.2)
        items.append(Stroke((start, stop), LAYER, weight="hair"))
        slant = ((end[0] - TICK, end[1] - TICK), (end[0] + TICK, end[1] + TICK))
        items.append(Stroke(slant, LAYER, weight="medium"))
    return [*items, clear_of(leaders, dim_words(dim, ends, is_level), ends)]


def dim_words(dim: Dim, ends: tuple[Pt, Pt], is_level: bool) -> Text:
    """The words of a dimension: on its line where they fit, else beyond its end, the second point of a level one."""
    (x0, y0), (x1, y1) = ends
    room = math.dist(*ends)
    long = text_width(dim.words, LETTER) + 1.5
    if is_level:
        if long <= room * 1.4:
            return Text(((x0 + x1) / 2, y0 + 0.9), dim.words, LETTER, LAYER, 0.0, "middle", "base", backed=True)
        if dim.a[0] > dim.b[0]:
            return Text((x0 - 1.8, y0), dim.words, LETTER, LAYER, 0.0, "right", "middle", backed=True)
        return Text((x1 + 1.8, y0), dim.words, LETTER, LAYER, 0.0, "left", "middle", backed=True)
    if long <= room * 1.8:
        return Text((x0 - 0.9, (y0 + y1) / 2), dim.words, LETTER, LAYER, 90.0, "middle", "base", backed=True)
    side = math.copysign(1.6, dim.off)
    return Text(
        (x0 + side, (y0 + y1) / 2),
        dim.words,
        LETTER,
        LAYER,
        0.0,
        "left" if side > 0 else "right",
        "middle",
        backed=True,
    )


def clear_of(leaders: Sequence[Points], text: Text, ends: tuple[Pt, Pt]) -> Text:
    """The words, moved along their line as little as keeps leaders out of them; as they are where nothing does."""
    (x0, y0), (x1, y1) = ends
    strips = [line_box(a, b, LEADER) for leader in leaders for a, b in pairwise(leader) if a != b]
    for step in sorted(range(-STEPS, STEPS + 1), key=abs):
        share = step / (2 * STEPS)
        moved = replace(text, at=(text.at[0] + (x1 - x0) * share, text.at[1] + (y1 - y0) * share))
        box = label_box(moved)
        if not any(overlap(box, strip) for strip in strips):
            return moved
    return text
