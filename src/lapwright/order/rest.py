"""Cant strip, granules, and the pieces that drains, pipes and flashed corners ask for."""

from __future__ import annotations

import math
from collections.abc import Iterator

from lapwright.layout.values import Detail
from lapwright.order.lines import Needs, Want, counted, default, ids_of, origin
from lapwright.order.wet import membrane_drains
from lapwright.roof.falls import area_m2
from lapwright.roof.values import Area

FROM_REST = "cut from what is left of the rolls; not in the cut list"


def want_cant(needs: Needs) -> Iterator[Want]:
    """Cant strip along every flashed face.

    Source: defaults/coverage.csv cant_* [common practice, no source]
    Checked: tests/order/test_order_rest.py
    """
    if not needs.rules.cant_ticks:
        return
    faces = flashed_faces(needs)
    total = sum(faces.values())
    if total <= 0.0:
        return
    long, extra = default("cant_length"), default("cant_extra")
    ids = ids_of(one for one in needs.details("flashing") if one.ply == needs.assembly.plies[0].ply)
    along = f"{needs.units.length(total)} along {counted(len(faces), 'face')}"
    basis = f"{along} and {extra:.0%}, lengths of {needs.units.length(long)}"
    yield Want("cant strip", "cant", total * (1.0 + extra) / long, "length", basis, ids, origin("cant_extra"))


def flashed_faces(needs: Needs) -> dict[tuple[str, str], float]:
    """Length of each flashed face [m], from the first flashing piece's begin to the last one's end.

    Source: geometry
    Checked: tests/order/test_order_rest.py
    """
    by_face: dict[tuple[str, str], list[Detail]] = {}
    for one in needs.details("flashing"):
        if one.ply == needs.assembly.plies[0].ply and one.line is not None:
            by_face.setdefault((one.area, one.of), []).append(one)
    return {
        face: math.dist(pieces[0].line[0], pieces[-1].line[1])
        for face, pieces in by_face.items()
        if pieces[0].line and pieces[-1].line
    }


def want_granules(needs: Needs) -> Iterator[Want]:
    """Loose granules for the beads and bleed-out of a granule-surfaced cap.

    Source: defaults/coverage.csv granule_bag [common practice, no source]
    Checked: tests/order/test_order_rest.py
    """
    top = needs.assembly.plies[-1]
    if top.sheet.surfacing != "granules":
        return
    area, each = sum(area_m2(area, on_slope=True) for area in needs.areas), default("granule_bag")
    joints = [joint for joint in needs.layout.tjoints if joint.ply == top.ply]
    ends = [lap for lap in needs.layout.laps if lap.ply == top.ply and lap.kind == "end"]
    said = f"{counted(len(joints), 'T-joint')} and {counted(len(ends), 'end lap')}"
    basis = f"{needs.units.squares(area)} of cap with {said}, one bag for {needs.units.squares(each)}"
    ids = (*(joint.id for joint in joints), *(lap.id for lap in ends))
    yield Want("granules", "granules", area / each, "bag", basis, ids, origin("granule_bag"), price_key="granules")


def want_drain_parts(needs: Needs) -> Iterator[Want]:
    """For each drain in the field a square of metal and a target of base and of cap, which no piece of the layout is.

    Source: defaults/coverage.csv drain_* [common practice, no source]
    Checked: tests/order/test_order_rest.py
    """
    drains = membrane_drains(needs)
    if not drains:
        return
    base, cap = needs.assembly.plies[0].sheet.name, needs.assembly.plies[-1].sheet.name
    for item, name, where in (
        ("drain metal, lead or copper", "drain_metal", "set in mastic on the base, primed on both faces"),
        (f"drain target, {base}", "drain_base_target", FROM_REST),
        (f"drain target, {cap}", "drain_cap_target", FROM_REST),
    ):
        side = needs.units.length(default(name))
        basis = f"{side} by {side} at each drain, {where}"
        yield Want(item, "details", float(len(drains)), "piece", basis, drains, origin(name))


def want_pipe_parts(needs: Needs) -> Iterator[Want]:
    """A flashing with its clamp for each pipe, by diameter.

    Source: counted
    Checked: tests/order/test_order_rest.py
    """
    found: dict[int, list[str]] = {}
    for area in needs.areas:
        for pipe in area.pipes:
            found.setdefault(pipe.diameter, []).append(f"{area.name}/{pipe.name}")
    for diameter, ids in sorted(found.items()):
        item = f"pipe flashing with clamp, {needs.units.width(diameter)}"
        yield Want(item, "details", float(len(ids)), "piece", "one for each pipe", tuple(ids))


def want_gussets(needs: Needs) -> Iterator[Want]:
    """Gussets at flashed corners, in every flashing ply.

    Source: defaults/coverage.csv corner_gussets [common practice, no source]
    Checked: tests/order/test_order_rest.py
    """
    corners = [id for area in needs.areas for id in flashed_corners(area)]
    if not corners:
        return
    each, plies = default("corner_gussets"), 2
    wanted = len(corners) * each * plies
    basis = f"{each:.0f} at each of {counted(len(corners), 'corner')} in {plies} plies, {FROM_REST}"
    yield Want("flashing corner gussets", "details", wanted, "piece", basis, tuple(corners), origin("corner_gussets"))


def flashed_corners(area: Area) -> list[str]:
    """Corners between two walls or parapets, and the four of every opening.

    Source: geometry
    Checked: tests/order/test_order_rest.py
    """
    walls = ("parapet", "wall")
    sides = zip(area.edges, (*area.edges[1:], area.edges[0]), strict=True)
    found = [
        f"{area.name}/corner of sides {a.side} and {b.side}" for a, b in sides if a.kind in walls and b.kind in walls
    ]
    return found + [
        f"{area.name}/{opening.name} {name}" for opening in area.openings for name in ("SW", "SE", "NE", "NW")
    ]
