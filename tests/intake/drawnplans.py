"""Drawings and maps of whole plans, made for the tests: in feet, each thing on a layer of its own."""

from __future__ import annotations

from io import StringIO
from typing import Any

import ezdxf
import pytest

from lapwright.faults import Refused
from lapwright.intake.plan_dxf import read_plan
from lapwright.intake.plan_scale import how_read
from lapwright.intake.plan_values import AreaLayers, DrawnPlan

FOOT = 24_384
INCH = 2_032
WIDE = [(0, 0), (120, 0), (120, 64), (0, 64)]
EAST = [(120, 0), (160, 0), (160, 40), (120, 40)]
MAIN = AreaLayers("Main", "ROOF-MAIN", openings=("CURBS",), pipes=("VENTS",), drains=("DRAINS",))
ANNEX = AreaLayers("Annex", "ROOF-ANNEX", openings=("CURBS",), pipes=("VENTS",), drains=("DRAINS",))
BARE = AreaLayers("Main", "ROOF-MAIN")
CURBED = AreaLayers("Main", "ROOF-MAIN", openings=("CURBS",))
VENTED = AreaLayers("Main", "ROOF-MAIN", pipes=("VENTS",))


def feet(*points: tuple[float, float]) -> tuple[tuple[int, int], ...]:
    """Points in feet as ticks."""
    return tuple((round(x * FOOT), round(y * FOOT)) for x, y in points)


def drawing(*outlines: str, insunits: int = 2) -> Any:
    """A drawing in feet that holds the wide outline on each of some layers."""
    made = ezdxf.new("R2010")
    made.header["$INSUNITS"] = insunits
    for layer in outlines:
        made.modelspace().add_lwpolyline(WIDE, close=True, dxfattribs={"layer": layer})
    return made


def box(space: Any, layer: str, x: float, y: float, wide: float, deep: float) -> Any:
    """A closed rectangle."""
    corners = [(x, y), (x + wide, y), (x + wide, y + deep), (x, y + deep)]
    return space.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})


def text(made: Any) -> str:
    """The drawing as its file would read."""
    stream = StringIO()
    made.write(stream)
    return stream.getvalue()


def plan(made: Any, *areas: AreaLayers, **asked: Any) -> DrawnPlan:
    """The plan read."""
    source = made if isinstance(made, (str, bytes)) else text(made)
    return read_plan(source, areas, how=how_read("plan.dxf", **asked))


def notes(made: Any, *areas: AreaLayers, **asked: Any) -> list[str]:
    """What was mended, as told, without the file's name."""
    return [f"{each.place}: {each.found}; {each.done}" for each in plan(made, *areas, **asked).mended]


def refused(made: Any, *areas: AreaLayers, **asked: Any) -> str:
    """The refusal, as told."""
    with pytest.raises(Refused) as caught:
        plan(made, *areas, **asked)
    return caught.value.text()
