"""A roof's outline from one layer of a DXF drawing, or a whole plan: areas and what stands in them, each on its layers.

What is repaired on the way is told as Mended; what can't be an outline is refused with what to do.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from lapwright.faults import Fault, Mended, Refused, shorten
from lapwright.intake.plan_blocks import Piece, Shown, by_layer, pieces
from lapwright.intake.plan_outline import the_outline
from lapwright.intake.plan_rings import Rings, rings_of
from lapwright.intake.plan_scale import How, Source, chosen, refusal, taken_in, unit_size
from lapwright.intake.plan_shapes import shapes_of, spots_of
from lapwright.intake.plan_tags import Drawing, decoded, scanned
from lapwright.intake.plan_values import AreaLayers, DrawnOutline, DrawnPlan, LayerShapes
from lapwright.intake.plan_within import put_in_areas

INSUNITS = {1: "in", 2: "ft", 4: "mm", 5: "cm", 6: "m", 21: "ftUS"}


def read_outline(source: Source, *, layer: str, how: How) -> DrawnOutline:
    """The one outline on a layer with the courtyards in it, and what was repaired.

    Args:
        source: an open stream, bytes or text of a DXF drawing.
        layer: whose lines are the outline.

    Holds for: outlines drawn in plan in model space, in blocks too.  Curves are cut into straight sides.
    Raises: Refused; never another exception for a drawing that can't be read.
    Checked: tests/intake/test_plan_dxf.py
    """
    drawing = scanned(decoded(taken_in(source, file=how.file), file=how.file), file=how.file)
    unit, notes = _unit(drawing, how)
    _has_layer(drawing, layer, how)
    found = pieces(drawing, Shown(frozenset({layer.casefold()})), file=how.file)
    rings = rings_of(found, layer, unit_size(unit, file=how.file), how)
    rings.notes[:0] = _hidden(drawing, layer, how)
    outline = the_outline(rings, found, unit, how)
    return replace(outline, mended=(*notes, *outline.mended))


def read_plan(source: Source, areas: Sequence[AreaLayers], *, how: How) -> DrawnPlan:
    """Areas with their openings, pipes and drains, in drawing coordinates [ticks], and what was repaired.

    Args:
        source: an open stream, bytes or text of a DXF drawing.
        areas: each with the layers that draw it; layers may serve several areas.

    Raises: Refused with the faults of all layers; never another exception for a drawing that can't be read.
    Checked: tests/intake/test_plan_areas.py
    """
    drawing = scanned(decoded(taken_in(source, file=how.file), file=how.file), file=how.file)
    unit, notes = _unit(drawing, how)
    size = unit_size(unit, file=how.file)
    plan = _Plan(drawing, how, unit, size, notes)
    layers = plan.known(list(dict.fromkeys(layer for area in areas for layer in area.layers())))
    spots = {layer.casefold() for area in areas for layer in (*area.pipes, *area.drains)}
    found = by_layer(
        pieces(drawing, Shown(frozenset(each.casefold() for each in layers), frozenset(spots)), file=how.file)
    )
    for area in areas:
        plan.outline(area, found)
    openings = plan.shapes([layer for area in areas for layer in area.openings], found, are_spots=False)
    places = plan.shapes([layer for area in areas for layer in (*area.pipes, *area.drains)], found, are_spots=True)
    if plan.faults:
        raise Refused(dict.fromkeys(plan.faults))
    made = put_in_areas(areas, plan.outlines, {**openings, **places}, how)
    return DrawnPlan(made.areas, (*plan.notes, *made.mended))


def _hidden(drawing: Drawing, layer: str, how: How) -> list[Mended]:
    """Says that a layer is not shown in the drawing."""
    hidden = drawing.hidden_by(layer)
    key = f"layer {shorten(layer, 40)}"
    return [Mended(how.file, key, f"the layer is {hidden} in the drawing", "read all the same")] if hidden else []


def _has_layer(drawing: Drawing, layer: str, how: How) -> None:
    if not drawing.has_layer(layer):
        choices, close = chosen(layer, list(drawing.layers))
        needs = f"a layer of the drawing: {choices}"
        raise refusal(how.file, f"layer {shorten(layer, 40)}", layer, needs, f"layer: {close}" if how.head else close)


def _unit(drawing: Drawing, how: How) -> tuple[str, list[Mended]]:
    """The drawing's unit: the job file's, else what the drawing says."""
    code = drawing.insunits
    said = INSUNITS.get(code) if code is not None else None
    if how.units is not None:
        if said is None or said == how.units:
            return how.units, []
        done = f"read in {how.units}, as the job file says"
        return how.units, [Mended(how.file, "INSUNITS", f"the drawing says {said}", done)]
    if said is None:
        read = "no unit (INSUNITS is absent)" if code is None else f"INSUNITS {code}"
        needs = "the unit of the drawing, one of in, ft, ftUS, mm, cm, m"
        raise refusal(how.file, "units", read, needs, how.write("units: in"))
    return said, []


class _Plan:
    """A plan as it is read, layer by layer; the faults of all layers are collected."""

    def __init__(self, drawing: Drawing, how: How, unit: str, size: Fraction, notes: Sequence[Mended]) -> None:
        self.drawing, self.how, self.unit, self.size = drawing, how, unit, size
        self.notes = list(notes)
        self.faults: list[Fault] = []
        self.outlines: dict[str, DrawnOutline] = {}

    def known(self, layers: Sequence[str]) -> list[str]:
        """The layers that the drawing has; a fault for each other."""
        there = []
        for layer in layers:
            try:
                _has_layer(self.drawing, layer, self.how)
            except Refused as refused:
                self.faults += refused.faults
                continue
            there.append(layer)
            self.notes += _hidden(self.drawing, layer, self.how)
        return there

    def outline(self, area: AreaLayers, found: Mapping[str, list[Piece]]) -> None:
        """Reads one area's outline."""
        if not self.drawing.has_layer(area.outline):
            return
        own = found.get(area.outline.casefold(), [])
        try:
            rings = rings_of(own, area.outline, self.size, self.how)
            self.outlines[area.area] = the_outline(rings, own, self.unit, self.how)
        except Refused as refused:
            self.faults += refused.faults
            return
        self.notes += self.outlines[area.area].mended

    def shapes(
        self, layers: Sequence[str], found: Mapping[str, list[Piece]], *, are_spots: bool
    ) -> dict[str, LayerShapes]:
        """Reads the openings or the places of each layer, once."""
        made: dict[str, LayerShapes] = {}
        for layer in dict.fromkeys(layers):
            own = found.get(layer.casefold(), [])
            try:
                if are_spots:
                    made[layer] = spots_of(own, layer, self.size, self.how)
                else:
                    rings: Rings = rings_of(own, layer, self.size, self.how)
                    made[layer] = shapes_of(rings, own, self.size, self.how)
            except Refused as refused:
                self.faults += refused.faults
                continue
            self.notes += made[layer].mended
        return made
