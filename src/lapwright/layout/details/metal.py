"""Edge metal in lengths as sold, its corner pieces, the continuous cleat behind it, covers over its joints."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from lapwright.geometry.polygon import signed_area2, turn
from lapwright.layout.details.lengths import TICKS, along, butted, detail_ticks, slope_length
from lapwright.layout.values import Detail
from lapwright.roof.values import Area, Edge, Point


@dataclass(frozen=True, slots=True)
class Meeting:
    """Where two sides with metal meet: its name, place [ticks], `inside`, `outside`, or `straight` in one line.

    flange: the wider of both sides' [m], 0 where neither is given.
    """

    of: str
    at: Point
    form: str
    flange: float = 0.0


def metal_meetings(area: Area) -> list[Meeting]:
    """Every place where a side with metal follows another.

    Source: geometry
    Checked: tests/order/test_order_metal.py
    """
    sense = 1 if signed_area2(area.outline) > 0 else -1
    found = []
    for one, other in zip(area.edges, (*area.edges[1:], area.edges[0]), strict=True):
        if one.kind == other.kind == "metal_edge":
            bend = turn(one.start, other.start, other.end) * sense
            form = "outside" if bend > 0 else "inside" if bend < 0 else "straight"
            where = "joint" if form == "straight" else "corner"
            found.append(
                Meeting(
                    f"{where} of sides {one.side} and {other.side}",
                    other.start,
                    form,
                    max(flange_of(one), flange_of(other)),
                )
            )
    return found


def flange_of(edge: Edge) -> float:
    """The width of a side's metal on the roof [m]; 0 where it is not given.  Source: the job"""
    return (edge.metal.flange or 0.0) if edge.metal else 0.0


def edge_metal(area: Area, edge: Edge) -> Iterator[Detail]:
    """Lengths of edge metal and cleat along one side, and covers over the joints between them.

    Lengths are not joined round a corner: its piece is one of its own.  A cover is as wide as the flange.
    Source: common practice, no source; UFGS 07600 (cleat, joint covers)
    Checked: tests/layout/test_detail_metal.py
    """
    of, total = f"side {edge.side}", slope_length(area, edge.start, edge.end)
    flange = flange_of(edge)
    places = butted(total, detail_ticks("metal_length", "fasten"), detail_ticks("metal_gap"))
    for kind, width in (("metal", flange), ("cleat", 0.0)):
        for k, (a, b) in enumerate(places, start=1):
            line = along(edge.start, edge.end, a / total, b / total)
            yield replace(of_metal(area, of, f"{kind} {k}", kind), length=(b - a) / TICKS, width=width, line=line)
    for k, (a, _) in enumerate(places[1:], start=1):
        at = along(edge.start, edge.end, a / total, a / total)[0]
        cover = of_metal(area, of, f"joint cover {k}", "joint_cover")
        yield replace(cover, length=detail_ticks("joint_cover") / TICKS, width=flange, at=at)


def corner_metal(area: Area, meeting: Meeting) -> Iterator[Detail]:
    """The corner piece with a joint cover on either side of it; where two sides stand in one line, a joint cover.

    The corner piece's length is that of either leg along its side.
    Source: common practice, no source
    Checked: tests/layout/test_detail_metal.py
    """
    at = (meeting.at[0] / TICKS, meeting.at[1] / TICKS)
    is_corner = meeting.form != "straight"
    named = [("metal corner", "metal_corner")] if is_corner else []
    named += [(f"joint cover {k}", "joint_cover") for k in ((1, 2) if is_corner else (1,))]
    for name, kind in named:
        made, long = of_metal(area, meeting.of, name, kind), detail_ticks(kind) / TICKS
        yield replace(made, length=long, width=meeting.flange, at=at, form=meeting.form)


def of_metal(area: Area, of: str, name: str, kind: str) -> Detail:
    """A piece of metal; nothing of it is cut from a sheet."""
    return Detail(f"{area.name}/{of}/{name}", kind, area.name, of, "", "", 0.0, 0.0)
