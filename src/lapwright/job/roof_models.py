"""The roof as typed: areas with their outline, edges, openings, pipes and ways out for water.

Lengths of the layout are ticks of 1/80 mm, heights and other dimensions metres; what was not given is None.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from lapwright.job.fields import TEXT, OneOf, Reads, key, needed, told, told_already
from lapwright.job.outline_models import Outline, Point
from lapwright.job.part import Part
from lapwright.job.tree import SPOILT
from lapwright.units import read
from lapwright.units.unread import Unread

EDGE_KINDS = ("metal_edge", "parapet", "wall", "ridge", "valley", "step", "expansion", "tie_in")
OPENING_KINDS = ("curb", "skylight", "hatch", "shaft")
DRAIN_KINDS = ("drain", "scupper", "overflow_drain", "overflow_scupper", "gutter")
METALS = ("galvanised", "stainless", "aluminium", "copper")
OTHER_SPELLINGS = (("galvanized", "galvanised"), ("aluminum", "aluminium"))

STEEPEST = "20 deg"

_POSITION = Reads("position east and north", read.position, "E 30' N 20'")
_DIRECTION = Reads("direction E N W S, or a bearing", read.direction, "S", has_unit=False)


def _dimension(write: str, high: str, *, above: str = '0"', low: str = "") -> Reads:
    return Reads("length", read.length_m, write, low=low, above="" if low else above, high=high)


def _ticks(write: str, high: str) -> Reads:
    return Reads("length", read.length_ticks, write, above='0"', high=high)


def _tested(write: str) -> Reads:
    return Reads("pressure", read.pressure_pa, write, low="1 psf", high="2000 psf")


def sides_of(value: object) -> tuple[int, ...]:
    """Numbers of sides from `1`, `2-4` or `[1, 3]`, in the order typed.

    Raises: Unread for anything else.
    """
    if isinstance(value, list):
        return tuple(side for item in value for side in read.sides(item if isinstance(item, str) else ""))
    return read.sides(value if isinstance(value, str) else "")


@dataclass(frozen=True, slots=True)
class ReadsSides:
    """Sides of an outline."""

    kind: str = "side, range of sides, or list"

    def take(self, value: object) -> tuple[int, ...]:
        """The numbers, in the order typed."""
        if isinstance(value, list) and SPOILT in value:
            raise told_already()
        try:
            return sides_of(value)
        except Unread as found:
            raise told(found.needs, found.write) from None

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Hands every value to `take`."""
        return core_schema.no_info_plain_validator_function(self.take)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        """A number, a range or a list of them."""
        one = {"type": ["integer", "string"]}
        return {"type": ["integer", "string", "array"], "items": one, "examples": [1, "2-4", [1, 3]]}


class MetalTyped(Part):
    """Edge metal."""

    kind: Annotated[str | None, OneOf(METALS, OTHER_SPELLINGS)] = key("metal")
    gauge: Annotated[int | None, Reads("whole number", read.integer, "24", low="10", high="36", has_unit=False)] = key(
        "gauge number of the sheet metal"
    )
    face: Annotated[float | None, _dimension('5"', '40"')] = key("height of the face")
    flange: Annotated[float | None, _dimension('4"', '40"')] = key("width of the flange on the roof")
    test_factor: Annotated[float | None, Reads("number", read.number, "2.0", low="1", high="5", has_unit=False)] = key(
        "factor on the load that the edge's test must reach, as the specification has it"
    )
    tested_outward: Annotated[float | None, _tested("60 psf")] = key("pressure outward that the edge held in its test")
    tested_upward: Annotated[float | None, _tested("120 psf")] = key("pressure upward that the edge held in its test")
    nail_spacing: Annotated[float | None, _dimension('3"', '24"')] = key("spacing of the flange's nails in each row")
    cleat_spacing: Annotated[float | None, _dimension('6"', '24"')] = key("spacing of the cleat's nails")
    nail_shear: Annotated[float | None, Reads("force", read.force_n, "60 lbf", low="1 lbf", high="10000 lbf")] = key(
        "allowable load of one nail of the flange, along the roof"
    )


class EdgeGroup(Part):
    """Sides of an outline that are made alike."""

    sides: Annotated[tuple[int, ...], ReadsSides()] = needed("numbers of the sides, in walking order from 1")
    kind: Annotated[str | None, OneOf(EDGE_KINDS)] = key("what the edge is")
    height: Annotated[float | None, _dimension('30"', "100'")] = key("height above the finished roof")
    metal: MetalTyped | None = key("edge metal")


class OpeningTyped(Part):
    """A rectangle through the roof."""

    name: Annotated[str, TEXT] = needed("name of the opening, one of its kind in the area")
    kind: Annotated[str | None, OneOf(OPENING_KINDS)] = key("what the opening is (needed unless drawn)")
    at: Annotated[Point | None, _POSITION] = key(
        "its south-west corner, from the area's first corner (needed unless drawn)"
    )
    size: Annotated[Point | None, Reads("size east by north", read.size, "E 8' x N 6'")] = key(
        "its size east by north (needed unless drawn)"
    )
    height: Annotated[float | None, _dimension('8"', "20'")] = key("height of the curb above the finished roof")


class PipeTyped(Part):
    """A pipe through the roof."""

    name: Annotated[str, TEXT] = needed("name of the pipe, one of its kind in the area")
    at: Annotated[Point | None, _POSITION] = key("its centre, from the area's first corner (needed unless drawn)")
    diameter: Annotated[int | None, _ticks('4"', "10'")] = key("its outside diameter (needed unless drawn)")


class DrainTyped(Part):
    """A way out for water."""

    name: Annotated[str, TEXT] = needed("name of the drain, one of its kind in the area")
    kind: Annotated[str | None, OneOf(DRAIN_KINDS)] = key("what it is (needed unless drawn)")
    at: Annotated[Point | None, _POSITION] = key("its centre, from the area's first corner")
    diameter: Annotated[float | None, _dimension('4"', '40"')] = key("inside diameter of the outlet or leader")
    side: Annotated[int | None, Reads("whole number", read.integer, "1", low="1", high="9999", has_unit=False)] = key(
        "number of the side it stands in"
    )
    from_start: Annotated[float | None, _dimension("30'", "3000'", low='0"')] = key(
        "distance of its middle from the start of the side"
    )
    width: Annotated[float | None, _dimension('12"', "100'")] = key("clear width of the opening or of the gutter")
    height: Annotated[float | None, _dimension('6"', "20'")] = key("clear height of the opening, or depth of a gutter")
    sill: Annotated[float | None, _dimension('2"', "20'", low='0"')] = key(
        "height of the inlet above the finished roof"
    )
    outlets: Annotated[int | None, Reads("whole number", read.integer, "3", low="1", high="999", has_unit=False)] = key(
        "number of outlets of a gutter"
    )


# What can't be left out of what stands in an area, unless it is drawn.
OPENING_NEEDS = ("kind", "at", "size")
PIPE_NEEDS = ("at", "diameter")
DRAIN_NEEDS = ("kind",)

# What each kind of drain has, beside name and kind.
DRAIN_KEYS: Mapping[str, tuple[str, ...]] = {
    "drain": ("at", "diameter"),
    "overflow_drain": ("at", "diameter", "sill"),
    "scupper": ("side", "from_start", "width", "height", "sill"),
    "overflow_scupper": ("side", "from_start", "width", "height", "sill"),
    "gutter": ("side", "width", "height", "diameter", "outlets"),
}


class PlaneTyped(Part):
    """One plane of an area that has several."""

    plane: Annotated[str, TEXT] = needed("name of the plane, one of its kind in the area")
    start: Annotated[Point, _POSITION] = key("place of its first corner in the area", (0, 0), shown="E 0' N 0'")
    outline: Outline = needed("its outline, as an area's; the planes fill the area")
    closure: Annotated[str | None, OneOf(("accept",))] = key("accept: as of an area")
    falls: Annotated[tuple[float, float], _DIRECTION] = needed("the way water runs: E N W S, or a bearing")
    slope: Annotated[float, Reads("slope", read.slope, "1/4 in 12", low="0 %", high=STEEPEST)] = needed(
        "how steeply it falls"
    )


class AreaTyped(Part):
    """One area of the roof: a plane, or several that fill it."""

    area: Annotated[str, TEXT] = needed("name of the area, one of its kind in the job")
    start: Annotated[Point, _POSITION] = key("place of its first corner in the job", (0, 0), shown="E 0' N 0'")
    outline: Outline | None = key(
        "its outline: a walk, points, or a layer or feature of a drawing (needed unless drawn under areas)"
    )
    closure: Annotated[str | None, OneOf(("accept",))] = key(
        'accept: a walk that misses its start by more than 1 in 500 or 2" is closed all the same'
    )
    falls: Annotated[tuple[float, float] | None, _DIRECTION] = key(
        "the way water runs: E N W S, or a bearing; needed where there are no planes"
    )
    slope: Annotated[float | None, Reads("slope", read.slope, "1/4 in 12", low="0 %", high=STEEPEST)] = key(
        "how steeply it falls; needed where there are no planes"
    )
    planes: tuple[PlaneTyped, ...] = key("its planes where it has several, each with its own fall", ())
    roof_height: Annotated[float | None, _dimension("22'", "1500'")] = key(
        "its mean height above the ground, for wind; the building's where not given"
    )
    edges: tuple[EdgeGroup, ...] = key("its sides, by what is done there", ())
    openings: tuple[OpeningTyped, ...] = key("curbs, skylights, hatches and shafts", ())
    pipes: tuple[PipeTyped, ...] = key("pipes through the roof", ())
    drains: tuple[DrainTyped, ...] = key("ways out for water", ())
