"""What stands on a layer of a DXF drawing: openings drawn as closed lines, pipes and drains as circles or blocks."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any

from lapwright.defaults.table import table
from lapwright.faults import Fault, Mended, Refused, shorten
from lapwright.geometry.polygon import Point
from lapwright.intake.plan_blocks import Piece
from lapwright.intake.plan_curves import LINES
from lapwright.intake.plan_openings import Label, Ring, numbered, openings_of, plain_name
from lapwright.intake.plan_rings import Rings, counted
from lapwright.intake.plan_scale import How, as_ticks, refusal
from lapwright.intake.plan_values import DrawnSpot, LayerShapes
from lapwright.units.lengths import nearest

TEXTS = ("TEXT", "MTEXT")
SPOTS = ("CIRCLE", "INSERT", "POINT")
NAME_TAG = "NAME"


def shapes_of(rings: Rings, pieces: Sequence[Piece], size: Fraction, how: How) -> LayerShapes:
    """The openings on a layer.

    Raises: Refused for lines that do not close, and for shapes that are no openings.
    """
    if rings.still_open:
        chain = rings.still_open[0]
        place = "; ".join(dict.fromkeys(filter(None, (rings.owner(chain[0]), rings.owner(chain[-1])))))
        ends = f"the first from {how.at(chain[0])} to {how.at(chain[-1])}"
        read = f"lines that do not close: {len(rings.still_open)}; {ends}"
        needs = f"openings as closed lines; ends up to {how.shown.tape(how.join)} apart are joined"
        raise rings.refused(how, read, needs, "the lines drawn until their ends meet", place=place)
    if not rings.closed:
        read = counted(piece.kind for piece in pieces) or "nothing in model space"
        raise rings.refused(how, read, "openings drawn as closed lines", "the layer that holds the openings")
    found = [ring_as_drawn(ring, rings) for ring in rings.closed]
    made = openings_of(found, labels_of(pieces, size), rings.layer, how)
    others = [piece.kind for piece in pieces if piece.kind not in (*LINES, *TEXTS)]
    if others:
        rings.mend(how, f"also on the layer: {counted(others)}", "left out")
    made.mended[:0] = rings.notes
    return made


def ring_as_drawn(ring: Sequence[Point], rings: Rings) -> Ring:
    """A closed line of a layer as an opening may have it."""
    return Ring(tuple(ring), rings.entities(list(ring)), is_curved=rings.curved.issuperset(ring))


def labels_of(pieces: Sequence[Piece], size: Fraction) -> list[Label]:
    """The texts among some entities."""
    return [label for piece in pieces if piece.kind in TEXTS for label in _labels(piece, size)]


def _labels(piece: Piece, size: Fraction) -> Iterator[Label]:
    entity = piece.entity
    text = plain_name(entity.plain_text() if piece.kind == "MTEXT" else entity.dxf.text)
    place = entity.dxf.insert
    if text and math.isfinite(place.x) and math.isfinite(place.y):
        yield Label(text, as_ticks(place.x, place.y, size))


def spots_of(pieces: Sequence[Piece], layer: str, size: Fraction, how: How) -> LayerShapes:
    """The places on a layer: centres of circles, insertion points of blocks, points.

    Circles round one centre are one place, as wide as the widest.
    Raises: Refused where there are none, or too many.
    """
    key = f"layer {shorten(layer, 40)}"
    made = LayerShapes()
    faults: list[Fault] = []
    found: dict[Point, tuple[str, int | None]] = {}
    again = 0
    for piece in pieces:
        if piece.kind not in SPOTS:
            continue
        try:
            for at, name, diameter in _places(piece, size, how, key):
                was = found.get(at)
                again += was is not None
                widest = max(filter(None, (diameter, was[1] if was else None)), default=None)
                found[at] = ((was[0] if was else "") or name, widest)
        except Refused as refused:
            faults += refused.faults
    if faults:
        raise Refused(faults)
    _some(found, pieces, key, how)
    others = [piece.kind for piece in pieces if piece.kind not in SPOTS]
    if others:
        made.mended.append(Mended(how.file, key, f"also on the layer: {counted(others)}", "left out"))
    if again:
        made.mended.append(
            Mended(how.file, key, f"drawn again round the same centre: {again}", "the widest circle counts")
        )
    for place, (at, (name, diameter)) in enumerate(found.items()):
        made.spots.append(DrawnSpot(name or numbered(layer, place), layer, at, diameter))
    return made


def _some(found: dict[Point, Any], pieces: Sequence[Piece], key: str, how: How) -> None:
    most = int(table("roof")["standing_most"].number())
    if not found:
        read = counted(piece.kind for piece in pieces) or "nothing in model space"
        needs = "circles, blocks or points on the layer"
        raise refusal(how.file, key, read, needs, "the layer that holds the pipes or drains")
    if len(found) > most:
        needs = f"at most {most:,} of a kind on a layer"
        raise refusal(how.file, key, f"places: {len(found):,}", needs, "the layer that holds the pipes or drains alone")


def _places(piece: Piece, size: Fraction, how: How, key: str) -> Iterator[tuple[Point, str, int | None]]:
    """Centre, name and diameter of what one entity marks; an array of blocks marks several."""
    entity, kind = piece.entity, piece.kind
    most = int(table("roof")["standing_most"].number())
    if kind == "INSERT" and entity.mcount > most:
        read, needs = f"a block put {entity.mcount:,} times", f"at most {most:,} of a kind on a layer"
        raise refusal(how.file, f"{key}, {piece.place}", read, needs, "the layer that holds the pipes or drains alone")
    for each in entity.multi_insert() if kind == "INSERT" and entity.mcount > 1 else (entity,):
        centre = each.dxf.location if kind == "POINT" else _seen_from_above(each, kind)
        radius = each.dxf.radius if kind == "CIRCLE" else 0.0
        if not all(math.isfinite(number) for number in (centre.x, centre.y, radius)):
            read = "a coordinate that is no number (NaN or infinite)"
            raise refusal(how.file, f"{key}, {piece.place}", read, "finite coordinates", "the place marked anew")
        diameter = nearest(2 * Fraction(radius) * size) or None
        yield as_ticks(centre.x, centre.y, size), _attribute(each) if kind == "INSERT" else "", diameter


def _seen_from_above(entity: Any, kind: str) -> Any:  # noqa: ANN401  # ezdxf's vector
    place = entity.dxf.insert if kind == "INSERT" else entity.dxf.center
    return entity.ocs().to_wcs(place)


def _attribute(insert: Any) -> str:  # noqa: ANN401  # ezdxf has no types here
    """What a block's attribute NAME says."""
    return next((plain_name(each.dxf.text) for each in insert.attribs if each.dxf.tag.upper() == NAME_TAG), "")
