"""Drawings that a job names, read by a process of their own with limits in time and memory.

Whatever a drawing holds, the server goes on answering meanwhile.  What was found, faults too, is kept by the file's
size and time, so that a drawing is read once and not with each change of the job.
"""

from __future__ import annotations

import threading
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, cast

from lapwright.faults import Fault, Refused
from lapwright.intake.plan_values import AreaLayers, DrawnOutline, DrawnPlan
from lapwright.job.area_models import AreasTyped
from lapwright.job.outline_models import DxfOutline, GeoJsonOutline
from lapwright.plan.describe.given import look
from lapwright.plan.desk.keeping import Kept, Shared
from lapwright.plan.drawings import HERE, Drawings
from lapwright.plan.files import beside
from lapwright.units.write import Units

AT_ONCE = 2  # processes that read drawings


@dataclass(frozen=True, slots=True)
class Apart(Drawings):
    """Drawings read apart; asked for by several threads."""

    kept: Shared = field(default_factory=lambda: Shared(Kept(24)))
    room: threading.Semaphore = field(default_factory=lambda: threading.Semaphore(AT_ONCE))

    def outline(self, folder: Path, outline: DxfOutline | GeoJsonOutline, units: Units) -> DrawnOutline:
        """An outline that stands in a drawing.

        Raises: Refused, also where it takes too long or too much
        """
        name, key = (outline.dxf, "dxf") if isinstance(outline, DxfOutline) else (outline.geojson, "geojson")
        path = beside(folder, name, key=key)
        if not path.is_file():
            return HERE.outline(folder, outline, units)  # which says so
        return cast(DrawnOutline, self.read("outline", path, name, (folder, outline, units)))

    def areas(self, folder: Path, areas: AreasTyped, wanted: Sequence[AreaLayers], units: Units) -> DrawnPlan:
        """The areas of one plan, with what stands in them.

        Raises: Refused, also where it takes too long or too much
        """
        name, key = (areas.dxf, "dxf") if areas.dxf is not None else (areas.geojson or "", "geojson")
        path = beside(folder, name, key=key)
        if not path.is_file():
            return HERE.areas(folder, areas, wanted, units)
        return cast(DrawnPlan, self.read("areas", path, name, (folder, areas, tuple(wanted), units)))

    def read(self, what: str, path: Path, name: str, asked: tuple[object, ...]) -> Any:  # noqa: ANN401  # of either kind
        """What was found, kept.

        Raises: Refused
        """
        found = path.stat()
        key = (what, str(path), found.st_size, found.st_mtime_ns, repr(asked))
        kind, value = self.kept.take(key, lambda: self.found(what, path, name, asked))
        if kind == "refused":
            raise Refused(value)
        return value

    def found(self, what: str, path: Path, name: str, asked: tuple[object, ...]) -> tuple[str, Any]:
        """What is found now, faults as such.

        Raises: Refused where no process can be begun, which is not kept
        """
        with self.room:
            try:
                return ("done", look(what, path, name, {"asked": asked}))
            except Refused as refused:
                return ("refused", refused.faults)
            except OSError as error:
                needs = "a process that reads drawings, which could not be begun"
                raise Refused([Fault(name, 0, 0, "", error.strerror or "", needs, "the same again")]) from error


APART = Apart()
