"""Drawings beside a job file, opened and handed to their readers."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from lapwright.intake.plan_scale import how_read
from lapwright.intake.plan_values import AreaLayers, DrawnOutline, DrawnPlan
from lapwright.job.area_models import WHERE_AREAS_MEET, AreasTyped
from lapwright.job.outline_models import DxfOutline, GeoJsonOutline
from lapwright.plan.files import beside, read_bytes
from lapwright.units.write import Units


def read_dxf(folder: Path, outline: DxfOutline, units: Units) -> DrawnOutline:
    """An outline in a DXF drawing.

    Raises: Refused
    """
    from lapwright.intake import plan_dxf

    content = read_bytes(beside(folder, outline.dxf, key="dxf"), needs="a DXF drawing")
    how = how_read(
        outline.dxf,
        head=f"dxf: {outline.dxf}, layer: {outline.layer}",
        units=outline.units,
        flat=outline.arcs_within,
        join=outline.join_within,
        any_size=outline.size == "accept",
        shown=units,
    )
    return plan_dxf.read_outline(content, layer=outline.layer, how=how)


def read_geojson(folder: Path, outline: GeoJsonOutline, units: Units) -> DrawnOutline:
    """An outline in a GeoJSON file.

    Raises: Refused
    """
    from lapwright.intake import plan_geojson

    content = read_bytes(beside(folder, outline.geojson, key="geojson"), needs="a GeoJSON file")
    head = f"geojson: {outline.geojson}, feature: {outline.feature}"
    is_any = outline.size == "accept"
    how = how_read(outline.geojson, head=head, units=outline.units, any_size=is_any, shown=units)
    return plan_geojson.read_outline(content, feature=outline.feature, how=how)


def read_areas_drawn(folder: Path, areas: AreasTyped, wanted: Sequence[AreaLayers], units: Units) -> DrawnPlan:
    """The areas of one plan, with what stands in them.

    Raises: Refused
    """
    from lapwright.intake import plan_dxf, plan_features

    file = areas.dxf or areas.geojson or ""
    how = how_read(
        file,
        units=areas.units,
        flat=areas.arcs_within,
        join=areas.join_within,
        any_size=areas.size == "accept",
        shown=units,
        meets=areas.corners == WHERE_AREAS_MEET,
    )
    if areas.dxf is not None:
        content = read_bytes(beside(folder, file, key="dxf"), needs="a DXF drawing")
        return plan_dxf.read_plan(content, wanted, how=how)
    content = read_bytes(beside(folder, file, key="geojson"), needs="a GeoJSON file")
    return plan_features.read_plan(content, wanted, named_by=areas.property, how=how)
