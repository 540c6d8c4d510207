"""The one outline among the rings of a layer, or why there is none: open, drawn over, crossing, of no roof's size."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import islice, pairwise

from lapwright.defaults.table import table
from lapwright.geometry.meets import is_well_inside
from lapwright.geometry.polygon import Point, Side, bounds, place_of, sides_of, signed_area2, turn
from lapwright.geometry.sweep import crossings, is_across, meeting_place
from lapwright.intake.plan_blocks import Piece
from lapwright.intake.plan_chains import Chain
from lapwright.intake.plan_curves import LINES
from lapwright.intake.plan_openings import Label, courtyards_of, is_inner_face
from lapwright.intake.plan_rings import Rings, counted, curved_sides
from lapwright.intake.plan_scale import TICKS_PER, How, check_size
from lapwright.intake.plan_shapes import labels_of, ring_as_drawn
from lapwright.intake.plan_values import DrawnOutline
from lapwright.units.read import length_ticks

LOOKED_AT = 200  # sides of open lines that are compared with one another; more is no outline nearly closed
JOIN_MOST = "1 ft"


def the_outline(rings: Rings, pieces: Sequence[Piece], unit: str, how: How) -> DrawnOutline:
    """The one outline on a layer, rings inside it as courtyards, and what was mended in all of them.

    Raises: Refused
    """
    if not any(piece.kind in LINES for piece in pieces):
        read = counted(piece.kind for piece in pieces) or "nothing in model space"
        needs = "a closed polyline, or lines and arcs end to end, on the layer"
        raise rings.refused(how, read, needs, "the layer that holds the outline")
    outline, inner = _the_one(rings, how)
    if rings.still_open:
        rings.mend(how, f"open lines beside the outline: {len(rings.still_open)}", "left out")
    yards = [ring_as_drawn(ring, rings) for ring in inner]
    naming = [piece for piece in pieces if any(_is_in(inner, label) for label in labels_of([piece], TICKS_PER[unit]))]
    labels = labels_of(naming, TICKS_PER[unit])
    others = [piece.kind for piece in pieces if piece.kind not in LINES and piece not in naming]
    if others:
        rings.mend(how, f"also on the layer: {counted(others)}", "left out")
    most = int(table("roof")["corners_most"].number())
    if len(outline) > most:
        needs = f"an outline of at most {most:,} corners"
        write = "the roof's own corners; curves in fewer straight sides"
        raise rings.refused(how, f"corners: {len(outline):,}", needs, write, place=rings.entities(outline))
    _uncrossed(outline, rings, how)
    check_size(outline, how, unit=unit, key=f"{rings.key}, {rings.entities(outline)}")
    numbers = curved_sides(outline, rings.curved)
    if numbers:
        rings.mend(how, "curves in the outline", f"they are sides {numbers}")
    found = courtyards_of(yards, labels, rings.layer, how, key=rings.key)
    return DrawnOutline(tuple(outline), tuple(found.openings), (*rings.notes, *found.mended))


def _is_in(rings: Sequence[Chain], label: Label) -> bool:
    return any(place_of(ring, label.at) >= 0 for ring in rings)


def _the_one(rings: Rings, how: How) -> tuple[Chain, list[Chain]]:
    """The one ring there is, and those inside it; the same drawn twice is one."""
    different = {frozenset(ring): ring for ring in reversed(rings.closed)}
    if len(different) < len(rings.closed):
        rings.mend(how, f"the same outline drawn {len(rings.closed)} times", "read once")
    if len(different) > 1:
        drawn = list(reversed(different.values()))
        outline = max(drawn, key=lambda ring: abs(signed_area2(ring)))
        inner = [ring for ring in drawn if ring is not outline]
        if all(is_well_inside(outline, ring) for ring in inner):
            _one_line(outline, inner, rings, how)
            return outline, inner
        first = [rings.entities(ring) for ring in drawn]
        needs = "one closed outline on the layer"
        write = "each area's outline on a layer of its own; what stands in it on layers named under openings"
        raise rings.refused(how, f"closed outlines: {len(first)}", needs, write, place="; ".join(first[:2]))
    if rings.closed:
        return rings.closed[0], []
    _not_closed(rings, how)
    raise AssertionError("not closed")  # pragma: no cover


def _one_line(outline: Chain, inner: Sequence[Chain], rings: Rings, how: How) -> None:
    """Refuses an outline drawn with a line for each face of its parapet: one of them is where the roof ends."""
    for ring in inner:
        if is_inner_face(bounds(ring), bounds(outline)):
            read = f"a ring all round just inside the outline, at {how.at(bounds(ring)[:2])}"
            needs = "one line where the roof ends, such as the inner face of the parapet"
            write = "the other line on a layer of its own"
            raise rings.refused(how, read, needs, write, place=f"{rings.entities(outline)}; {rings.entities(ring)}")


def _not_closed(rings: Rings, how: How) -> None:
    """Says why open lines are no outline: they lie on one another, they cross, or they leave a gap."""
    chains = rings.still_open
    if not chains:
        raise rings.refused(how, "lines without a length", "a closed polyline on the layer", "the outline redrawn")
    needs = "one closed outline on the layer"
    found = next(_on_one_another(chains), None)
    if found is not None:
        one, two, at, is_crossing = found
        read = f"lines that {'cross' if is_crossing else 'lie on one another'} at {how.at(at)}"
        write = "both lines cut off where they cross" if is_crossing else "one line there, from corner to corner"
        raise rings.refused(how, read, needs, write, place=f"{rings.owner(*one)}; {rings.owner(*two)}")
    gap, start, end = min(_gaps(chains[:50]))
    apart = f"{how.gap(gap)} apart, at {how.at(start)} and {how.at(end)}"
    read = f"an open line, its ends {apart}"
    if len(chains) > 1:
        read = f"open lines: {len(chains)}; the two ends nearest to one another are {apart}"
    write = "the lines drawn until their ends meet"
    if gap <= length_ticks(JOIN_MOST) and len(chains) == 1:
        write += f", or {how.write(f'join_within: {how.shown.tape(math.ceil(gap))}')}"
    place = "; ".join(dict.fromkeys(filter(None, (rings.owner(start), rings.owner(end)))))
    raise rings.refused(
        how, read, f"{needs}; ends up to {how.shown.tape(how.join)} apart are joined", write, place=place
    )


def _on_one_another(chains: Sequence[Chain]) -> Iterator[tuple[Side, Side, Point, bool]]:
    """Two sides of open lines that cross, or share a stretch, and where."""
    sides = list(islice((side for chain in chains for side in pairwise(chain) if side[0] != side[1]), LOOKED_AT))
    for place, one in enumerate(sides):
        for two in sides[:place]:
            if is_across(two, one):
                yield two, one, meeting_place(two, one), True
            elif _shares(two, one):
                yield two, one, _shared_at(two, one), False


def _shares(one: Side, two: Side) -> bool:
    """Two sides on one line that share more than a point."""
    (a, b), (c, d) = one, two
    if turn(a, b, c) or turn(a, b, d):
        return False
    start, end = max(min(a, b), min(c, d)), min(max(a, b), max(c, d))
    return start < end


def _shared_at(one: Side, two: Side) -> Point:
    return max(min(one), min(two))


def _gaps(chains: Sequence[Chain]) -> Iterator[tuple[float, Point, Point]]:
    """Between the two ends of an only chain; else between the ends of different chains."""
    if len(chains) == 1:
        yield math.dist(chains[0][0], chains[0][-1]), chains[0][0], chains[0][-1]
    for place, chain in enumerate(chains):
        for other in chains[:place]:
            yield from ((math.dist(a, b), a, b) for a in (other[0], other[-1]) for b in (chain[0], chain[-1]))


def _uncrossed(outline: Sequence[Point], rings: Rings, how: How) -> None:
    found = crossings(outline)
    if not found:
        return
    sides = sides_of(outline)
    one, two = (sides[number] for number in found[0])
    read = f"sides {found[0][0] + 1} and {found[0][1] + 1} cross or touch at {how.at(meeting_place(one, two))}"
    if len(found) > 1:
        read += f"; and {len(found) - 1} more places"
    place = "; ".join(dict.fromkeys(filter(None, (rings.owner(*one), rings.owner(*two)))))
    needs = "an outline whose sides meet only where one ends and the next starts"
    raise rings.refused(how, read, needs, "the corners in walking order, none passed twice", place=place)
