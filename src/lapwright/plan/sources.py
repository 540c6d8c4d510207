"""Drawings beside a job file, opened and handed to their readers."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from lapwright.faults import Mended
from lapwright.job.outline_models import DxfOutline, GeoJsonOutline
from lapwright.plan.files import beside, read_bytes
from lapwright.roof.values import Point


def read_dxf(folder: Path, outline: DxfOutline) -> tuple[Sequence[Point], Sequence[Mended]]:
    """The corners of an outline in a DXF drawing.

    Raises: Refused
    """
    from lapwright.intake import plan_dxf

    content = read_bytes(beside(folder, outline.dxf, key="dxf"), needs="a DXF drawing")
    return plan_dxf.read_outline(content, file=outline.dxf, layer=outline.layer, units=outline.units)


def read_geojson(folder: Path, outline: GeoJsonOutline) -> tuple[Sequence[Point], Sequence[Mended]]:
    """The corners of an outline in a GeoJSON file.

    Raises: Refused
    """
    from lapwright.intake import plan_geojson

    content = read_bytes(beside(folder, outline.geojson, key="geojson"), needs="a GeoJSON file")
    return plan_geojson.read_outline(content, file=outline.geojson, feature=outline.feature, units=outline.units)
