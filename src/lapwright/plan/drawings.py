"""How drawings beside a job are read: here, or, where somebody waits for other things meanwhile, elsewhere."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from lapwright.intake.plan_values import AreaLayers, DrawnOutline, DrawnPlan
from lapwright.job.area_models import AreasTyped
from lapwright.job.outline_models import DxfOutline, GeoJsonOutline
from lapwright.units.write import Units


class Drawings:
    """Drawings that are read by the process that asks for them."""

    def outline(self, folder: Path, outline: DxfOutline | GeoJsonOutline, units: Units) -> DrawnOutline:
        """An outline that stands in a drawing.

        Raises: Refused
        """
        from lapwright.plan.sources import read_dxf, read_geojson  # its readers are heavy

        if isinstance(outline, DxfOutline):
            return read_dxf(folder, outline, units)
        return read_geojson(folder, outline, units)

    def areas(self, folder: Path, areas: AreasTyped, wanted: Sequence[AreaLayers], units: Units) -> DrawnPlan:
        """The areas of one plan, with what stands in them.

        Raises: Refused
        """
        from lapwright.plan.sources import read_areas_drawn

        return read_areas_drawn(folder, areas, wanted, units)


HERE = Drawings()
