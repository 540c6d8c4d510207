"""The roof to look at: outline and everything on it, each ply's pieces, laps, T-joints, and what lies on the roof.

Coordinates are metres of the job's plan, x east, y north.  A first layout is given at once and is followed by that of
the whole search.
"""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.layout.values import Frame, Piece, PlyLayout
from lapwright.packet.layoutjson import whole_counts
from lapwright.packet.sheets.model import cut_line, piece_ring, roof_items
from lapwright.packet.sheets.naming import edge_words
from lapwright.packet.sheets.showing import Showing, Shown
from lapwright.packet.values import Paper
from lapwright.plan.desk.stages import FIRST, JobAsk, Stages
from lapwright.plan.views.loads import loads
from lapwright.plan.views.registry import Json, Tell
from lapwright.plan.views.strokes import drawn, numbers
from lapwright.roof.values import Area
from lapwright.units.factors import FOOT as EXACT_FOOT
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.write import Units

FOOT = float(EXACT_FOOT)
SYMBOL_SHARE = 1 / 260  # of the roof's longer side: a millimetre of a sheet that shows all of it


def view(stages: Stages, ask: JobAsk, options: Mapping[str, str], tell: Tell) -> Json:
    """The roof as laid.

    Raises: Refused with every fault
    """
    if not stages.is_laid(ask):
        tell.draft(shown(stages.laid(ask, patience=FIRST), is_draft=True))
        tell("a first layout is drawn; the search goes on")
    return shown(stages.laid(ask), is_draft=False)


def shown(paper: Paper, *, is_draft: bool) -> Json:
    """A laid roof as plain values."""
    layout, units = paper.layout, Units(paper.head.units)
    showing = Showing(layout, paper.areas)
    box = box_of(paper)
    mm = max(box[2] - box[0], box[3] - box[1]) * SYMBOL_SHARE
    return {
        "draft": is_draft,
        "box": [round(value, 4) for value in box],
        "areas": [area_entry(area, units, mm) for area in paper.areas],
        "plies": [ply_entry(ply, showing) for ply in layout.plies],
        "names": list(dict.fromkeys(ply.ply for ply in layout.plies)),
        "laps": [[lap.id, lap.kind, lap.area, lap.ply, *numbers(lap.line)] for lap in showing.laps(layout.laps)],
        "joints": [[joint.id, joint.area, joint.ply, *numbers([joint.at])] for joint in layout.tjoints],
        "details": [
            [detail.id, detail.kind, detail.area, detail.ply, *numbers(detail.line or [detail.at or ()])]
            for detail in layout.details
            if detail.line is not None or detail.at is not None
        ],
        "loads": loads(paper, units),
        "counts": whole_counts(layout),
        "pieces": len(layout.pieces),
        "bar": bar(box, units),
    }


def box_of(paper: Paper) -> tuple[float, float, float, float]:
    """West, south, east and north end of the roof [m]."""
    points = [(x / TICKS_PER_METRE, y / TICKS_PER_METRE) for area in paper.areas for x, y in area.outline]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs), min(ys), max(xs), max(ys))


def area_entry(area: Area, units: Units, mm: float) -> Json:
    """An area: its outline, what is drawn of it, words at its edges and openings.  mm: a millimetre of paper [m]."""
    return {
        "name": area.name,
        "outline": numbers((x / TICKS_PER_METRE, y / TICKS_PER_METRE) for x, y in area.outline),
        "falls": [round(value, 6) for value in area.falls],
        "slope": f"falls {units.slope(area.slope)}",
        "holes": [metres_of(opening.outline) for opening in area.openings],
        "drawn": drawn(roof_items(area, mm)),
        "edges": [
            {"line": metres_of((edge.start, edge.end)), "words": list(edge_words(edge, units))} for edge in area.edges
        ],
        "marks": [
            *(mark(opening.name, opening.outline) for opening in area.openings),
            *(mark(pipe.name, (pipe.at,)) for pipe in area.pipes),
            *(mark(drain.name, (drain.at,)) for drain in area.drains if drain.at is not None),
        ],
    }


def mark(name: str, ring: tuple[tuple[int, int], ...]) -> Json:
    """The name of a thing, the middle of its corners and its size east by north [m]; a place has none."""
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    size = numbers([((max(xs) - min(xs)) / TICKS_PER_METRE, (max(ys) - min(ys)) / TICKS_PER_METRE)])
    return {"at": middle(ring), "size": size, "words": name}


def metres_of(points: tuple[tuple[int, int], ...] | list[tuple[int, int]]) -> list[float]:
    """Points [ticks] as metres in one list."""
    return numbers((x / TICKS_PER_METRE, y / TICKS_PER_METRE) for x, y in points)


def middle(ring: tuple[tuple[int, int], ...]) -> list[float]:
    """The middle of a ring's corners [m]."""
    count = len(ring) * TICKS_PER_METRE
    return numbers([(sum(x for x, _ in ring) / count, sum(y for _, y in ring) / count)])


def ply_entry(ply: PlyLayout, showing: Showing) -> Json:
    """A ply of an area and its pieces."""
    frame = showing.layout.frames[ply.area]
    return {
        "area": ply.area,
        "ply": ply.ply,
        "position": ply.position,
        "sheet": ply.sheet,
        "pieces": [piece_entry(piece, frame, showing.piece(piece)) for piece in ply.pieces],
        "cuts": [
            [piece.sequence, *numbers(cut_line(frame, piece, cut))] for piece in ply.pieces for cut in piece.corner_cuts
        ],
    }


def piece_entry(piece: Piece, frame: Frame, shown: Shown) -> list[str | int | float]:
    """Id, place in the order of laying, four corners; what shows of it: its middle, how long and how high [m]."""
    middle = frame.plan((shown.u0 + shown.u1) / 2, shown.middle)
    size = ((shown.u1 - shown.u0) / TICKS_PER_METRE, shown.height)
    return [piece.id, piece.sequence, *numbers([*piece_ring(frame, piece), middle, size])]


def bar(box: tuple[float, float, float, float], units: Units) -> list[Json]:
    """Lengths for a bar scale [m] with their words, from small to large."""
    unit, write, steps = (
        (FOOT, "{} ft", (1, 2, 5, 10, 20, 50, 100, 200)) if units.is_us else (1.0, "{} m", (0.5, 1, 2, 5, 10, 20, 50))
    )
    most = max(box[2] - box[0], box[3] - box[1])
    return [{"m": step * unit, "words": write.format(step)} for step in steps if step * unit <= most]
