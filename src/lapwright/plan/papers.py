"""The files of a plan as bytes: the packet here, the others by whoever has a hand free."""

from __future__ import annotations

from collections.abc import Callable

from lapwright.packet.values import Paper

Tell = Callable[[str], None]
ORDER = ("plan.json", "packet.pdf", "order.xlsx", "layout.dxf", "layout.svg", "hours.csv", "days.ics")


def packet_files(paper: Paper, tell: Tell) -> dict[str, bytes]:
    """The packet and the drawing that it shares."""
    from lapwright.packet.pdf import packet_pdf  # each paper loads what it needs
    from lapwright.packet.plates import make_plates
    from lapwright.packet.svg import svg_text

    plates = make_plates(paper)
    tell("drawings made")
    packet = packet_pdf(paper, plates)
    tell("packet set")
    return {"packet.pdf": packet, "layout.svg": svg_text(plates.plans[-1]).encode()}


def other_files(paper: Paper) -> dict[str, bytes]:
    """The files for other programs."""
    from lapwright.packet.dxf import dxf_bytes
    from lapwright.packet.hourscsv import hours_csv
    from lapwright.packet.ics import days_ics
    from lapwright.packet.planjson import plan_bytes
    from lapwright.packet.sheets.layoutdrawing import layout_drawing, plot_scale
    from lapwright.packet.xlsx import order_xlsx

    mm = 1 / plot_scale(paper).per_metre
    return {
        "layout.dxf": dxf_bytes(layout_drawing(paper), units=paper.head.units, metres_per_paper_mm=mm),
        "order.xlsx": order_xlsx(paper),
        "plan.json": plan_bytes(paper),
        "hours.csv": hours_csv(paper.hours),
        "days.ics": days_ics(paper),
    }
