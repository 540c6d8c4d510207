"""Areas drawn in one plan: which layers of a drawing, or which features of a map, are an area and what stands in it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated

from pydantic import Discriminator, Tag

from lapwright.job.fields import TEXT, OneOf, Reads, file_beside, filled, key, needed
from lapwright.job.outline_models import ARCS_WITHIN, DRAWING_UNITS, JOIN_WITHIN, SIZE
from lapwright.job.part import Part
from lapwright.job.roof_models import OPENING_KINDS
from lapwright.units import read

DRAWN_DRAINS = ("drain", "overflow_drain")
PIPES = ("pipe",)
WHERE_AREAS_MEET = "where_areas_meet"
CORNERS = ("as_drawn", WHERE_AREAS_MEET)


def _dimension(write: str, high: str, low: str = "") -> Reads:
    return Reads("length", read.length_m, write, low=low, above="" if low else '0"', high=high)


class OpeningsLayer(Part):
    """A layer of openings that are alike."""

    kind: Annotated[str, OneOf(OPENING_KINDS)] = needed("what its openings are")
    height: Annotated[float | None, _dimension('8"', "20'")] = key("height of their curbs above the finished roof")


class PipesLayer(Part):
    """A layer of pipes that are alike."""

    kind: Annotated[str, OneOf(PIPES)] = key("what stands there", "pipe")
    diameter: Annotated[int | None, Reads("length", read.length_ticks, '4"', above='0"', high="10'")] = key(
        "their outside diameter, where they are not drawn as circles"
    )


class DrainsLayer(Part):
    """A layer of drains that are alike."""

    kind: Annotated[str, OneOf(DRAWN_DRAINS)] = needed("what its drains are")
    diameter: Annotated[float | None, _dimension('4"', '40"')] = key(
        "inside diameter of their outlets; a drawn circle is not taken for it, since it may be the sump or the strainer"
    )
    sill: Annotated[float | None, _dimension('2"', "20'", '0"')] = key("height of their inlets above the finished roof")


def layer_form(value: object) -> str | None:
    """A word alone, or a block."""
    if isinstance(value, str):
        return "@word"
    return "@block" if isinstance(value, Mapping) else None


LayerOfOpenings = Annotated[
    Annotated[str, OneOf(OPENING_KINDS), Tag("@word")] | Annotated[OpeningsLayer, Tag("@block")],
    Discriminator(layer_form),
]
LayerOfPipes = Annotated[
    Annotated[str, OneOf(PIPES), Tag("@word")] | Annotated[PipesLayer, Tag("@block")], Discriminator(layer_form)
]
LayerOfDrains = Annotated[
    Annotated[str, OneOf(DRAWN_DRAINS), Tag("@word")] | Annotated[DrainsLayer, Tag("@block")],
    Discriminator(layer_form),
]


class AreaLayersTyped(Part):
    """The layers of one area, named as it is under `roof`."""

    outline: Annotated[str, TEXT] = needed("layer of its outline")
    openings: dict[str, LayerOfOpenings] = filled(
        "layers of its openings, each with its kind (`CURBS: curb`) or a block", dict
    )
    pipes: dict[str, LayerOfPipes] = filled("layers of its pipes, each `VENTS: pipe` or a block", dict)
    drains: dict[str, LayerOfDrains] = filled("layers of its drains, each with its kind or a block", dict)


class AreasTyped(Part):
    """Areas drawn in one plan."""

    dxf: Annotated[str | None, file_beside("plans/roof.dxf")] = key("DXF drawing beside the job file")
    geojson: Annotated[str | None, file_beside("plans/roof.geojson")] = key("or GeoJSON file beside the job file")
    property: Annotated[str, TEXT] = key("property of a GeoJSON feature that says its layer", "layer")
    units: Annotated[str | None, OneOf(DRAWING_UNITS)] = key("unit of the drawing, where it does not say itself")
    arcs_within: Annotated[int | None, ARCS_WITHIN] = key('how far straight sides may leave a curve; 1/4" if not given')
    join_within: Annotated[int | None, JOIN_WITHIN] = key(
        'how far apart ends of lines, and corners of areas side by side, are joined; 1" if not given'
    )
    corners: Annotated[str, OneOf(CORNERS)] = key(
        "where sides end; where_areas_meet: also where another area that shares a part of one ends", "as_drawn"
    )
    size: Annotated[str | None, SIZE] = key("accept: the roof is as large or as small as it was read")
    layers: dict[str, AreaLayersTyped] = needed("each area, named as under roof, and the layers that draw it")
