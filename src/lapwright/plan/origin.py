"""Areas in coordinates of a survey or a map, moved together to the job's origin, where the rest of the tool works."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from lapwright.defaults.table import table
from lapwright.faults import Fault, Mended
from lapwright.job.models import Job
from lapwright.roof.values import Point
from lapwright.units.read import length_ticks
from lapwright.units.write import Units

Outlines = Mapping[int, tuple[Point, ...]]


@dataclass(frozen=True, slots=True)
class Near:
    """Outlines by their place under `roof`, how far they were moved, and those that stayed too far."""

    outlines: Outlines
    moved: Point = (0, 0)
    mended: tuple[Mended, ...] = ()
    faults: tuple[Fault, ...] = ()


def near_origin(job: Job, outlines: Outlines) -> Near:
    """The outlines as they are or, where one lies far away, all moved until their south-west corner is the origin."""
    limit = table("roof")["far_from_origin"].text
    far = length_ticks(limit)
    if not any(_is_beyond(outline, far) for outline in outlines.values()):
        return Near(outlines)
    corners = [corner for outline in outlines.values() for corner in outline]
    left, low = min(x for x, _ in corners), min(y for _, y in corners)
    moved = {i: tuple((x - left, y - low) for x, y in outline) for i, outline in outlines.items()}
    east, north = (Units(job.units).tape(each) for each in (left, low))
    file = job.fault("roof", needs="", write="").file
    found = f"coordinates over {limit} from the origin"
    done = f"all areas moved together; E 0 N 0 of the job is E {east} N {north} of the drawing"
    needs = f"areas within {limit} of one another"
    faults = [
        job.fault(f"roof[{i}]", needs=needs, write="the places of the areas in one system of coordinates")
        for i, outline in moved.items()
        if _is_beyond(outline, far)
    ]
    return Near(moved, (-left, -low), (Mended(file, "roof", found, done),), tuple(faults))


def _is_beyond(outline: tuple[Point, ...], far: int) -> bool:
    return any(max(abs(x), abs(y)) > far for x, y in outline)
