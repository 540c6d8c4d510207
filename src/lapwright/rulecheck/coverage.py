"""Rules about the ground: covered without a gap, up to and no farther than the ply's ends, runs not crossed."""

from __future__ import annotations

from collections.abc import Iterator

from shapely import LineString, Point, union_all
from shapely.geometry.base import BaseGeometry as Shape

from lapwright.rulecheck.ground import WALLS, Side
from lapwright.rulecheck.lie import Lying, PlyLie, middle
from lapwright.rulecheck.values import Violation

BESIDE = {"metal_edge": "the metal edge", "parapet": "the parapet", "wall": "the wall", "ridge": "the ridge"}
ASKED = {
    "metal_edge": ("base_over_edge", "lengthen the sheet and turn it down"),
    **dict.fromkeys(WALLS, ("up_wall", "lengthen the sheet up the cant")),
}


def coverage_violations(lie: PlyLie) -> Iterator[Violation]:
    """Gaps wider than the tolerance, told apart by where they are: on the roof, past its metal edge, up its wall.

    Source: docs/method/rulecheck.md
    """
    bare = lie.ground.must.difference(union_all([part for parts in lie.parts.values() for part in parts]))
    if bare.area == 0.0:
        return
    in_roof = _gaps(bare.intersection(lie.ground.core), lie.limits.gap)
    yield from (_gap(lie, gap) for gap in in_roof)
    for gap in _gaps(bare.difference(lie.ground.core), lie.limits.gap):
        yield _short(lie, gap)


def overhang_violations(lie: PlyLie) -> Iterator[Violation]:
    """Pieces that run past where their ply ends, or that lie beside it; first and top course likewise.

    Source: docs/method/rulecheck.md
    """
    for lying in lie.lying:
        parts = lie.parts[lying.id]
        if not parts:
            text = f"Piece {lying.id} lies wholly off the {lie.name}; take it out."
            yield lie.found("overhang", [lying.id], middle(lying.box), text)
            continue
        left, _, right, _ = lie.own[lying.id].bounds
        for name, past, at in (("left", left - lying.u0, lying.u0), ("right", lying.u1 - right, lying.u1)):
            if past > lie.limits.gap:
                yield _past(lie, lying, name, past, at)
    yield from _past_depth(lie)


def run_violations(lie: PlyLie) -> Iterator[Violation]:
    """Pieces that openings or bites of the outline cut in two.

    What another piece covers does not count: there the blanks of two runs lie over one another.
    Source: docs/method/rulecheck.md
    """
    for lying in lie.lying:
        rest = [part for part in lie.parts[lying.id] if not part.equals(lie.main[lying.id])]
        if not rest:
            continue
        others = union_all([shape for id, shape in lie.main.items() if id != lying.id])
        loose = [part for part in rest if _gaps(part.difference(others), lie.limits.gap)]
        if loose:
            count = 1 + len(loose)
            text = f"Piece {lying.id} goes across a break in its run and falls in {count}; lay one for each part."
            yield lie.found("run", [lying.id], _inside(loose[0]), text, read=f"{count} parts", needs="one part")


def _gaps(shape: Shape, narrow: float) -> list[Shape]:
    """The parts of a shape that are wider than `narrow`."""
    open_parts = shape.buffer(-narrow / 2, join_style="mitre")
    parts = getattr(open_parts, "geoms", [open_parts])
    return sorted((part for part in parts if not part.is_empty), key=lambda part: part.bounds)


def _gap(lie: PlyLie, gap: Shape) -> Violation:
    u0, v0, u1, v1 = gap.bounds
    wide, deep = u1 - u0 + lie.limits.gap, v1 - v0 + lie.limits.gap
    text = f"The {lie.name} leaves a gap, {{read}} at its narrower way; lengthen or add the piece that covers it."
    near = [lying.id for lying in lie.lying if _is_near(lying, gap.bounds, lie.limits.gap)]
    return lie.found("coverage", near[:4], _inside(gap), text, read=min(wide, deep), needs=0.0)


def _short(lie: PlyLie, gap: Shape) -> Violation:
    spot = gap.representative_point()
    side = min((side for side in lie.ground.sides if side.shift > 0), key=lambda side: _line(side).distance(spot))
    name = BESIDE.get(side.kind or "", "the line between the planes")
    rule, how = ASKED.get(side.kind or "", ("over_ridge", "lengthen the sheet over the line"))
    text = (
        f"The {lie.name} ends {{read}} past the line of {name}, side {side.number}, and has to reach {{needs}}; {how}."
    )
    reach = max(0.0, min(_line(side).distance(Point(corner)) for corner in gap.exterior.coords) - lie.limits.gap / 2)
    near = [lying.id for lying in lie.lying if _is_near(lying, gap.bounds, lie.limits.gap)]
    return lie.found(rule, near[:4], _inside(gap), text, read=reach, needs=side.shift)


def _past(lie: PlyLie, lying: Lying, name: str, past: float, at: float) -> Violation:
    spot = Point(at, (lying.v0 + lying.v1) / 2)
    side = min(lie.ground.sides, key=lambda side: _line(side).distance(spot))
    if side.kind == "metal_edge" and lie.is_cap:
        text = (
            f"Piece {lying.id}: its {name} end is {{read}} past the line held back from the metal's edge; shorten it."
        )
    else:
        text = f"Piece {lying.id}: its {name} end is {{read}} past where the {lie.name} ends; shorten it."
    return lie.found("overhang", [lying.id], (spot.x, spot.y), text, read=past, needs=0.0)


def _past_depth(lie: PlyLie) -> Iterator[Violation]:
    if not lie.courses:
        return
    first, top = lie.courses[0], lie.courses[-1]
    ends = (
        (first, "low", lie.ground.low - first.low, "move it up"),
        (top, "high", top.high - lie.ground.high, "rip it"),
    )
    for course, name, past, mend in ends:
        if past > lie.limits.gap:
            row = lie.rows.get(course.index, ())
            where = middle(row[0].box) if row else None
            text = (
                f"The {lie.name}, course {course.index}: its {name} edge is {{read}} past where the ply ends; {mend}."
            )
            yield lie.found("overhang", [lying.id for lying in row], where, text, read=past, needs=0.0)


def _is_near(lying: Lying, bounds: tuple[float, float, float, float], reach: float) -> bool:
    u0, v0, u1, v1 = bounds
    return u0 - reach <= lying.u1 and lying.u0 <= u1 + reach and v0 - reach <= lying.v1 and lying.v0 <= v1 + reach


def _inside(shape: Shape) -> tuple[float, float]:
    spot = shape.representative_point()
    return (spot.x, spot.y)


def _line(side: Side) -> LineString:
    return LineString([side.start, side.end])
