"""Rules about what stands at one place: gussets at every flashed corner, what drains, scuppers and pipes ask for."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from lapwright.assembly.values import Ply
from lapwright.roof.values import Area
from lapwright.rulecheck.faces import Face, flashed_faces
from lapwright.rulecheck.limits import Limits
from lapwright.rulecheck.read import GivenPlan
from lapwright.rulecheck.values import XY, Violation

BEND = 1e-3  # faces that turn by less stand in one line
SHARP = 0.05  # so far short of a sharp corner may roof end, where it is less than a hair wide [m]
DRAINS = ("drain", "overflow_drain")
SCUPPERS = ("scupper", "overflow_scupper")

Cell = tuple[int, int]


def patch_violations(
    plan: GivenPlan, areas: Sequence[Area], plies: Sequence[Ply], limits: Limits
) -> Iterator[Violation]:
    """Corners without gussets, drains, scuppers and pipes without all that belongs to them.

    Source: docs/method/rulecheck.md
    """
    ends = (plies[0].ply, plies[-1].ply)
    for area in areas:
        yield from _corner_violations(plan, area, ends, limits)
        yield from _place_violations(plan, area, ends)


def _corner_violations(plan: GivenPlan, area: Area, plies: Sequence[str], limits: Limits) -> Iterator[Violation]:
    close = 5 * limits.gap
    gussets = [one for one in plan.details if one.kind == "gusset" and one.area == area.name]
    if any(one.at is None for one in gussets):
        return
    by_cell: dict[Cell, list[tuple[XY, str]]] = {}
    for one in gussets:
        if one.at is not None:
            by_cell.setdefault(_cell(one.at, close), []).append((one.at, one.ply))
    for at, names in _corners(area, limits):
        here = {
            ply for cell in _around(at, close) for place, ply in by_cell.get(cell, ()) if math.dist(place, at) <= close
        }
        for ply in plies:
            if ply not in here:
                where = " and ".join(names)
                text = f"{area.name}: the corner of {where} has no gusset of the {ply}; add it."
                yield Violation("corner_flashed", tuple(f"{area.name}/{name}" for name in names), at, "none", ply, text)


def _corners(area: Area, limits: Limits) -> Iterator[tuple[XY, tuple[str, str]]]:
    """Where flashed stretches of two faces that are not in one line end together."""
    close = 5 * limits.gap
    ends: dict[Cell, list[tuple[XY, Face]]] = {}
    for face in flashed_faces(area, limits):
        for at in (face.at(place) for span in face.bare for place in span):
            near = [
                (place, other)
                for cell in _around(at, close)
                for place, other in ends.get(cell, ())
                if math.dist(place, at) <= close and _turn(face, other) > BEND
            ]
            if near:
                yield _crossing(near[0][1], face, near[0][0]), (near[0][1].of, face.of)
            ends.setdefault(_cell(at, close), []).append((at, face))


def _crossing(one: Face, two: Face, near: XY) -> XY:
    """Where the lines of two faces cross, by a place near it: in a sharp corner roof ends short of that."""
    (ax, ay), (bx, by) = ((f.end[0] - f.start[0], f.end[1] - f.start[1]) for f in (one, two))
    share = ((two.start[0] - one.start[0]) * by - (two.start[1] - one.start[1]) * bx) / (ax * by - ay * bx)
    at = (one.start[0] + ax * share, one.start[1] + ay * share)
    return at if math.dist(at, near) <= SHARP else near


def _turn(one: Face, two: Face) -> float:
    """Sine of the angle between two faces."""
    (ax, ay), (bx, by) = ((f.end[0] - f.start[0], f.end[1] - f.start[1]) for f in (one, two))
    return abs(ax * by - ay * bx) / (one.length * two.length)


def _cell(at: XY, size: float) -> Cell:
    return (math.floor(at[0] / size), math.floor(at[1] / size))


def _around(at: XY, size: float) -> Iterator[Cell]:
    x, y = _cell(at, size)
    return ((x + i, y + j) for i in (-1, 0, 1) for j in (-1, 0, 1))


def _place_violations(plan: GivenPlan, area: Area, plies: Sequence[str]) -> Iterator[Violation]:
    """Drains, scuppers and pipes that lack something; a gutter asks for nothing."""
    have = {(one.of, one.kind, one.ply) for one in plan.details if one.area == area.name}
    asked = [(pipe.name, "pipe flashing", "pipe_flashing", "pipe_strip", True) for pipe in area.pipes]
    for drain in area.drains:
        is_sized = drain.width is not None and drain.height is not None
        if drain.kind in DRAINS:
            asked.append((drain.name, "drain metal", "drain_metal", "target", True))
        elif drain.kind in SCUPPERS:
            asked.append((drain.name, "scupper metal", "scupper_metal", "scupper_strip", is_sized))
    for name, words, thing, patch, is_patched in asked:
        lacks = [] if (name, thing, "") in have else [words]
        if is_patched:
            lacks += [f"{patch.replace('_', ' ')} of the {ply}" for ply in plies if (name, patch, ply) not in have]
        if lacks:
            text = f"{area.name}, {name} lacks its {', '.join(lacks)}; add what is missing."
            yield Violation("drain_flashed", (f"{area.name}/{name}",), None, "missing", ", ".join(lacks), text)
