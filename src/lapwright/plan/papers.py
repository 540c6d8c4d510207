"""The files of a plan as bytes: the packet here, the others by whoever has a hand free."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lapwright.packet.drawing import Plate
from lapwright.packet.values import Paper
from lapwright.plan.workers import each_by_itself

if TYPE_CHECKING:
    from lapwright.packet.parts import Bound, Part
    from lapwright.packet.plates import Drawn

Tell = Callable[[str], None]
ORDER = ("plan.json", "packet.pdf", "order.xlsx", "layout.dxf", "layout.svg", "hours.csv", "days.ics", "figures.html")


@dataclass(frozen=True, slots=True)
class FixedPlates:
    """The drawings that hang on the roof alone."""

    plans: tuple[Plate, ...]
    details: tuple[Plate, ...]
    loads: tuple[Plate, ...] = ()


def fixed_plates(laid: Paper) -> FixedPlates:
    """Plans and details, drawn while the weather is read."""
    from lapwright.packet.plates import detail_sheets, load_sheets, plan_plates  # each paper loads what it needs

    return FixedPlates(plan_plates(laid), detail_sheets(laid), load_sheets(laid))


def is_long(days: Sequence[object]) -> bool:
    """A job of so many days that its packet is set in parts, each process small."""
    from lapwright.packet.parts import MOST_DAYS

    return len(days) > MOST_DAYS


def some_days(paper: Paper, which: int) -> dict[int, Drawn]:
    """The plans of every other day by its number, from the first (0) or the second one (1)."""
    from lapwright.packet.plates import drawn_days

    return dict(drawn_days(paper, every=2, after=which))


def packet_files(
    paper: Paper, drawn: FixedPlates, days: dict[int, Drawn], make_room: Callable[[], None]
) -> dict[str, bytes]:
    """The packet and the drawing that it shares.

    make_room: called before a large packet is set in other processes.
    """
    from lapwright.packet.pdf import packet_pdf
    from lapwright.packet.plates import Plates, hour_sheets, sheet_of_all, warm_chart
    from lapwright.packet.svg import svg_text

    in_order = {number: days[number] for number in sorted(days)}
    plates = Plates(
        days=in_order,
        plans=drawn.plans,
        details=drawn.details,
        hours=hour_sheets(paper),
        warm=warm_chart(paper),
        loads=drawn.loads,
    )
    is_first = True

    def set_all(parts: Sequence[Part]) -> list[Bound]:
        """Parts of the packet, each set in a process of its own, which gives back what it took."""
        nonlocal is_first
        if is_first:
            make_room()
            is_first = False
        return each_by_itself("lapwright.packet.typeset", "set_part", parts)

    svg = svg_text(sheet_of_all(drawn.plans))
    return {"packet.pdf": packet_pdf(paper, plates, set_all), "layout.svg": svg.encode()}


def other_files(paper: Paper) -> dict[str, bytes]:
    """The files for other programs."""
    from lapwright.packet.figures.page import figures_page
    from lapwright.packet.hourscsv import hours_csv
    from lapwright.packet.ics import days_ics
    from lapwright.packet.layoutdxf import layout_dxf
    from lapwright.packet.planjson import plan_bytes
    from lapwright.packet.xlsx import order_xlsx

    return {
        "layout.dxf": layout_dxf(paper),
        "order.xlsx": order_xlsx(paper),
        "plan.json": plan_bytes(paper),
        "hours.csv": hours_csv(paper.hours),
        "days.ics": days_ics(paper),
        "figures.html": figures_page(paper),
    }
