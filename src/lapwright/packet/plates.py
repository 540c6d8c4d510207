"""The drawings of a packet, made for its paper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from lapwright.hours.values import OPERATIONS
from lapwright.packet.drawing import Plate, Text
from lapwright.packet.page import WARM_CHART, body, day_plan_size, plate_size
from lapwright.packet.sheets.day import day_sheet
from lapwright.packet.sheets.dayground import know
from lapwright.packet.sheets.detailplan import detail_plans
from lapwright.packet.sheets.details import detail_numbers, detail_plates
from lapwright.packet.sheets.hourspicture import hour_plates
from lapwright.packet.sheets.loadplan import staging_sheet
from lapwright.packet.sheets.overview import key_plan, stacked_sheets
from lapwright.packet.sheets.plan import plan_sheets
from lapwright.packet.sheets.rollchart import roll_chart
from lapwright.packet.sheets.waterplan import water_sheet
from lapwright.packet.sheets.zoneplan import nail_sheets, zone_sheet
from lapwright.packet.svg import svg_text
from lapwright.packet.values import Paper


@dataclass(frozen=True, slots=True)
class Drawn:
    """A plate as SVG text, which takes a fraction of its memory; size [mm]."""

    title: str
    width: float
    height: float
    svg: str


@dataclass(frozen=True, slots=True)
class Plates:
    """The drawings by where they stand: on day sheets by day number; plans, details and pictures of hours by page.

    warm: on the page of warm rolls, None where there is none.
    """

    days: Mapping[int, Plate | Drawn] = field(default_factory=dict)
    plans: tuple[Plate, ...] = ()
    details: tuple[Plate, ...] = ()
    hours: tuple[Plate, ...] = ()
    warm: Plate | None = None
    loads: tuple[Plate, ...] = ()


def make_plates(paper: Paper) -> Plates:
    """Every drawing of the packet; plans lie across where the roof is wider than high, details and hours always."""
    return Plates(
        days=day_plates(paper),
        plans=plan_plates(paper),
        details=detail_sheets(paper),
        hours=hour_sheets(paper),
        warm=warm_chart(paper),
        loads=load_sheets(paper),
    )


def day_plates(paper: Paper, *, every: int = 1, after: int = 0) -> Mapping[int, Plate]:
    """The plan of each day by its number; or of every n-th day only, counted from the place `after`."""
    width, height = day_plan_size(paper.head.paper)
    known, days = know(paper), paper.days[after::every]
    return {day.number: day_sheet(paper, day, width=width, height=height, known=known) for day in days}


def drawn_days(paper: Paper, *, every: int, after: int) -> Mapping[int, Drawn]:
    """The plans of `day_plates` as SVG, one after the other, so that no more than one is held as its items."""
    width, height = day_plan_size(paper.head.paper)
    known, found = know(paper), {}
    for day in paper.days[after::every]:
        plate = day_sheet(paper, day, width=width, height=height, known=known)
        found[day.number] = Drawn(plate.title, plate.width, plate.height, svg_text(plate, named=False))
    return found


def plan_plates(paper: Paper) -> tuple[Plate, ...]:
    """One ply after the other, then all together."""
    width, height = plate_size(paper.head.paper, landscape=is_wide(paper))
    plies = list(dict.fromkeys(ply.ply for ply in paper.layout.plies))
    plans = [plate for ply in plies for plate in plan_sheets(paper, ply, width=width, height=height)]
    if len(plies) > 1:
        plans += stacked_sheets(paper, width=width, height=height)
    return tuple(plans)


def sheet_of_all(plans: Sequence[Plate]) -> Plate:
    """The sheet of all plies over the whole roof; of a single ply where there is no other."""
    return [plate for plate in plans if not plate.part][-1]


def detail_sheets(paper: Paper) -> tuple[Plate, ...]:
    """The key plan with the number of each detail, where strips, flashings and metal lie, then the details."""
    width, height = plate_size(paper.head.paper, landscape=is_wide(paper))
    key = key_plan(paper, width=width, height=height, details=detail_numbers(paper))
    places = detail_plans(paper, width=width, height=height)
    width, height = plate_size(paper.head.paper, landscape=True)
    return (key, *places, *detail_plates(paper, width=width, height=height))


def load_sheets(paper: Paper) -> tuple[Plate, ...]:
    """Wind zones, nails, drainage and material on the roof, as far as the job gives what they need."""
    width, height = plate_size(paper.head.paper, landscape=is_wide(paper))
    found = [
        zone_sheet(paper, width=width, height=height),
        *nail_sheets(paper, width=width, height=height),
        water_sheet(paper, width=width, height=height),
        staging_sheet(paper, width=width, height=height),
    ]
    return tuple(plate for plate in found if plate is not None)


def hour_sheets(paper: Paper) -> tuple[Plate, ...]:
    """The year of hours of each operation; one whose every hour is as another's shares its picture."""
    if paper.hours is None:
        return ()
    width, height = plate_size(paper.head.paper, landscape=True)
    table = paper.hours.same_day()
    chosen: dict[bytes, list[str]] = {}
    for operation in (name for name in OPERATIONS if name in table.states):
        chosen.setdefault(table.states[operation].tobytes(), []).append(operation)
    plates = []
    for names in chosen.values():
        (plate,) = hour_plates(table, (names[0],), width=width, height=height)
        over = ", over a base of the day" if names[0] in table.fresh_base else ""
        plates.append(titled(plate, "Hours: " + ", ".join(name.replace("_", " ") for name in names) + over))
    return tuple(plates)


def titled(plate: Plate, title: str) -> Plate:
    """The plate under another title, in the drawing as in the title block."""
    items = (
        replace(item, text=title) if isinstance(item, Text) and item.text == plate.title else item
        for item in plate.items
    )
    return replace(plate, title=title, items=tuple(items))


def warm_chart(paper: Paper) -> Plate | None:
    """The roll clock over the winter; None where the job has no store or no cold hour."""
    if paper.warmth is None or not paper.warmth.days or not any(sheet.months for sheet in paper.warmth.sheets):
        return None
    width, _ = body(paper.head.paper)
    return roll_chart(paper.warmth, width=width, height=WARM_CHART)


def is_wide(paper: Paper) -> bool:
    """The roof reaches farther east and west than north and south."""
    points = [point for area in paper.areas for point in area.outline]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return max(xs) - min(xs) >= max(ys) - min(ys)
