"""A whole plan from a GeoJSON file: areas and what stands in them, told apart by one property of each feature.

The property plays the part that layers play in a drawing; maps made from drawings carry it as `layer`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from lapwright.faults import Fault, Mended, Refused, shorten
from lapwright.intake.plan_geojson import Plane, plane_of, whole_outline
from lapwright.intake.plan_json import Asked, Pair, brief, features, parsed, position, rings_of
from lapwright.intake.plan_openings import Ring, numbered, openings_of, plain_name
from lapwright.intake.plan_scale import How, Source, chosen, taken_in, without_repeats
from lapwright.intake.plan_values import AreaLayers, DrawnOutline, DrawnPlan, DrawnSpot, LayerShapes
from lapwright.intake.plan_within import put_in_areas

Named = tuple[str, Mapping[str, Any]]


def read_plan(source: Source, areas: Sequence[AreaLayers], *, named_by: str, how: How) -> DrawnPlan:
    """Areas with their openings, pipes and drains [ticks], and what was assumed or repaired.

    Args:
        source: an open stream, bytes or text.
        areas: each with the values of the property that its features have; values may serve several areas.
        named_by: the property, such as `layer`.

    Holds for: outlines and openings as Polygons, pipes and drains as Points.
    Raises: Refused with the faults of all features; never another exception for a file that can't be read.
    Checked: tests/intake/test_plan_areas.py
    """
    document = parsed(taken_in(source, file=how.file), how.file)
    plan = _Plan(document, named_by, how)
    rings = {area.area: plan.outline(area) for area in areas}
    whole = [pair for each in rings.values() for pair in each[0]]
    if plan.faults:
        raise Refused(dict.fromkeys(plan.faults))
    plane, notes = plane_of(whole, document, Asked(how, f"property {shorten(named_by, 40)}"))
    outlines = plan.in_ticks(areas, rings, plane)
    shapes: dict[str, LayerShapes] = {}
    for value in dict.fromkeys(value for area in areas for value in area.openings):
        shapes[value] = plan.openings(value, plane)
    for value in dict.fromkeys(value for area in areas for value in (*area.pipes, *area.drains)):
        shapes[value] = plan.spots(value, plane)
    if plan.faults:
        raise Refused(dict.fromkeys(plan.faults))
    made = put_in_areas(areas, outlines, shapes, how)
    told = [note for found in shapes.values() for note in found.mended]
    return DrawnPlan(made.areas, (*plan.notes, *notes, *told, *made.mended))


class _Plan:
    """A plan as it is read, value by value of the property; all faults are collected."""

    def __init__(self, document: Mapping[str, Any], named_by: str, how: How) -> None:
        self.how, self.named_by = how, named_by
        self.by_value: dict[str, list[Named]] = {}
        for name, geometry, properties in features(document):
            value = properties.get(named_by)
            if isinstance(value, (str, int, float)):
                self.by_value.setdefault(str(value), []).append((name, geometry))
        self.faults: list[Fault] = []
        self.notes: list[Mended] = []

    def asked(self, value: str) -> Asked:
        """What faults about the features of one value say."""
        return Asked(self.how, f"{shorten(self.named_by, 40)} {shorten(value, 40)}")

    def named(self, value: str) -> list[Named]:
        """The features of one value; a fault where there are none."""
        found = self.by_value.get(value)
        if found:
            return found
        if not self.by_value:
            read, needs = "no feature with it", f"features with the property {shorten(self.named_by, 40)}"
            raise self.asked(value).refused(read, needs, "property: the name of the property that tells them apart")
        choices, close = chosen(value, list(self.by_value))
        raise self.asked(value).refused(value, f"a value that features have: {choices}", close)

    def outline(self, area: AreaLayers) -> list[list[Pair]]:
        """The ring of an area's outline, and the holes in it."""
        asked = self.asked(area.outline)
        try:
            found = self.named(area.outline)
            if len(found) > 1:
                needs = "one feature for the outline"
                write = "a value of its own for each area's outline"
                raise asked.refused(f"features: {len(found)}", needs, write)
            rings, notes = rings_of(found[0][1], asked)
        except Refused as refused:
            self.faults += refused.faults
            return [[]]
        self.notes += notes
        return rings

    def in_ticks(
        self, areas: Iterable[AreaLayers], rings: Mapping[str, Sequence[Sequence[Pair]]], plane: Plane
    ) -> dict[str, DrawnOutline]:
        """The outlines on the plane."""
        made = {}
        for area in areas:
            try:
                made[area.area] = whole_outline(rings[area.area], plane, self.asked(area.outline))
            except Refused as refused:
                self.faults += refused.faults
                continue
            self.notes += made[area.area].mended
        return made

    def openings(self, value: str, plane: Plane) -> LayerShapes:
        """The openings of one value."""
        asked = self.asked(value)
        rings: list[Ring] = []
        faults: list[Fault] = []
        notes: list[Mended] = []
        try:
            for number, (name, geometry) in enumerate(self.named(value), start=1):
                try:
                    (pairs, *inner), told = rings_of(geometry, asked)
                except Refused as refused:
                    faults += refused.faults
                    continue
                notes += told
                if inner:
                    notes.append(asked.mended(f"feature {number}: holes in an opening: {len(inner)}", "left out"))
                corners = tuple(without_repeats([plane.ticks(x, y) for x, y in pairs]))
                if len(corners) < 3:
                    read = f"feature {number}: {len(corners)} corners"
                    faults += asked.refused(read, "a polygon of at least 3 corners", "the polygon redrawn").faults
                    continue
                rings.append(Ring(corners, f"feature {plain_name(name) or number}", plain_name(name)))
            made = openings_of(rings, (), value, self.how)
        except Refused as refused:
            faults += refused.faults
            made = LayerShapes()
        self.faults += faults
        made.mended[:0] = notes
        return made

    def spots(self, value: str, plane: Plane) -> LayerShapes:
        """The places of one value."""
        asked = self.asked(value)
        made = LayerShapes()
        try:
            for number, (name, geometry) in enumerate(self.named(value)):
                if geometry.get("type") != "Point":
                    read = f"feature {number + 1}: {brief(geometry.get('type'))}"
                    raise asked.refused(read, "a Point", '"geometry": {"type": "Point", "coordinates": [36.6, 19.5]}')
                x, y = position(geometry.get("coordinates"), number + 1, asked)
                made.spots.append(DrawnSpot(plain_name(name) or numbered(value, number), value, plane.ticks(x, y)))
        except Refused as refused:
            self.faults += refused.faults
        return made
