"""The forms of an outline: a tape walk, points, a layer of a drawing, a feature of a map."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Annotated, Any

from pydantic import Discriminator, GetCoreSchemaHandler, GetJsonSchemaHandler, Tag
from pydantic_core import CoreSchema, core_schema

from lapwright.job.fields import TEXT, OneOf, Reads, file_beside, key, needed, told, told_already
from lapwright.job.part import Part
from lapwright.job.tree import SPOILT
from lapwright.units import read
from lapwright.units.unread import Unread

WALK_WRITE = "E 120', N 64', W 120', S 64'"
POINTS_WRITE = "[[0', 0'], [120', 0'], [120', 64'], [0', 64']]"
DXF_WRITE = "{dxf: roof.dxf, layer: ROOF-MAIN}"
MOST_LEGS = 5_000

Point = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Walk:
    """An outline walked with the tape; not closed yet."""

    legs: tuple[read.Leg, ...]


@dataclass(frozen=True, slots=True)
class Points:
    """An outline by its corners, (east, north) [ticks], not repeated at the end."""

    corners: tuple[Point, ...]


DRAWING_UNITS = ("in", "ft", "ftUS", "mm", "cm", "m")
ARCS_WITHIN = Reads("length", read.length_ticks, '1/4"', low="0.5 mm", high='2"')
JOIN_WITHIN = Reads("length", read.length_ticks, '1"', low="0 mm", high='12"')
SIZE = OneOf(("accept",))


class DxfOutline(Part):
    """An outline from a layer of a DXF drawing."""

    dxf: Annotated[str, file_beside("plans/roof.dxf")] = needed("DXF drawing beside the job file")
    layer: Annotated[str, TEXT] = needed("layer of the drawing that holds the outline")
    units: Annotated[str | None, OneOf(DRAWING_UNITS)] = key("unit of the drawing, where it does not say itself")
    arcs_within: Annotated[int | None, ARCS_WITHIN] = key('how far straight sides may leave a curve; 1/4" if not given')
    join_within: Annotated[int | None, JOIN_WITHIN] = key('how far apart ends of lines are joined; 1" if not given')
    size: Annotated[str | None, SIZE] = key("accept: the roof is as large or as small as it was read")


class GeoJsonOutline(Part):
    """An outline from a feature of a GeoJSON file."""

    geojson: Annotated[str, file_beside("plans/roof.geojson")] = needed("GeoJSON file beside the job file")
    feature: Annotated[str, TEXT] = needed("name of the feature that is the outline")
    units: Annotated[str | None, OneOf(DRAWING_UNITS)] = key("unit of its coordinates, where they are not metres")
    size: Annotated[str | None, SIZE] = key("accept: the roof is as large or as small as it was read")


def _walk(text: str) -> Walk:
    if text.count(",") > MOST_LEGS:
        raise Unread(f"a walk of at most {MOST_LEGS:,} legs; a longer outline comes from a drawing", DXF_WRITE)
    legs = read.walk(text)
    if len(legs) < 3:
        raise Unread("a walk of three legs or more", WALK_WRITE)
    return Walk(legs)


@dataclass(frozen=True, slots=True)
class ReadsPoints:
    """A list of corners: `[[0', 0'], [120', 0'], [120', 64'], [0', 64']]`."""

    kind: str = "points"

    def take(self, value: object) -> Points:
        """The corners; a last one that repeats the first is left out."""
        needs = "three corners or more, each [east, north]"
        items = value if isinstance(value, list) else []
        if any(item is SPOILT or (isinstance(item, list) and SPOILT in item) for item in items):
            raise told_already()
        corners = [self._corner(item, number) for number, item in enumerate(items)]
        if len(corners) > 1 and corners[0] == corners[-1]:
            corners.pop()
        if len(corners) < 3:
            raise told(needs, POINTS_WRITE)
        for number, (corner, after) in enumerate(pairwise(corners), start=1):
            if corner == after:
                raise told(f"corners that differ; corners {number} and {number + 1} are the same", POINTS_WRITE)
        return Points(tuple(corners))

    def _corner(self, item: object, number: int) -> Point:
        needs, write = f"corner {number + 1} as [east, north], each a length with its unit", "[120', 64']"
        if not isinstance(item, list) or len(item) != 2:
            raise told(needs, write)
        try:
            east, north = (read.length_ticks(part if isinstance(part, str) else "") for part in item)
        except Unread:
            raise told(needs, write, is_dimension=True) from None
        return (east, north)

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Hands every value to `take`."""
        return core_schema.no_info_plain_validator_function(self.take)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        """Pairs of lengths."""
        pair = {"type": "array", "items": {"type": "string"}, "minItems": 2, "maxItems": 2}
        return {"type": "array", "items": pair, "minItems": 3}


def outline_form(value: object) -> str | None:
    """Which kind of outline a value is."""
    if isinstance(value, str):
        return "@walk"
    if isinstance(value, list):
        return "@points"
    if isinstance(value, Mapping):
        return "@geojson" if "geojson" in value or "feature" in value else "@dxf"
    return None


Outline = Annotated[
    Annotated[Walk, Reads("walk", _walk, WALK_WRITE), Tag("@walk")]
    | Annotated[Points, ReadsPoints(), Tag("@points")]
    | Annotated[DxfOutline, Tag("@dxf")]
    | Annotated[GeoJsonOutline, Tag("@geojson")],
    Discriminator(outline_form),
]
