"""The drawings of a packet, made for its paper."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from lapwright.packet.drawing import Plate
from lapwright.packet.page import day_plan_size, plate_size
from lapwright.packet.sheets.day import day_sheet
from lapwright.packet.sheets.overview import stacked_sheet
from lapwright.packet.sheets.plan import plan_sheets
from lapwright.packet.values import Paper


@dataclass(frozen=True, slots=True)
class Plates:
    """The drawings by where they stand: on day sheets by day number; plans, details and pictures of hours by page."""

    days: Mapping[int, Plate] = field(default_factory=dict)
    plans: tuple[Plate, ...] = ()
    details: tuple[Plate, ...] = ()
    hours: tuple[Plate, ...] = ()


def make_plates(paper: Paper) -> Plates:
    """Every drawing of the packet; plans lie across where the roof is wider than high."""
    kind = paper.head.paper
    width, height = plate_size(kind, landscape=is_wide(paper))
    plies = list(dict.fromkeys(ply.ply for ply in paper.layout.plies))
    plans = [plate for ply in plies for plate in plan_sheets(paper, ply, width=width, height=height)]
    if len(plies) > 1:
        plans.append(stacked_sheet(paper, width=width, height=height))
    day_width, day_height = day_plan_size(kind)
    days = {day.number: day_sheet(paper, day, width=day_width, height=day_height) for day in paper.days}
    return Plates(days=days, plans=tuple(plans))


def is_wide(paper: Paper) -> bool:
    """The roof reaches farther east and west than north and south."""
    points = [point for area in paper.areas for point in area.outline]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return max(xs) - min(xs) >= max(ys) - min(ys)
