"""The roof of a job: outlines closed or fetched from drawings, edges and openings in place, problems as faults."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from lapwright.faults import Fault, Mended, Refused
from lapwright.job.models import Job
from lapwright.job.outline_models import DxfOutline, GeoJsonOutline, Points, Walk
from lapwright.job.roof_models import AreaTyped
from lapwright.job.tree import written
from lapwright.plan.drawn import Standing, drawn_words, read_drawn, standing
from lapwright.roof.build import EdgeRow, edge_problems, make_area, problems
from lapwright.roof.problem import Problem
from lapwright.roof.values import Area, Closure, Metal, Point
from lapwright.roof.walk import close_walk, is_closed_enough, misclosure_words
from lapwright.units.write import Units


@dataclass(frozen=True, slots=True)
class Roofs:
    """The areas of a job, how their walks closed, what was mended in drawings, and what was drawn, in words."""

    areas: tuple[Area, ...]
    closures: tuple[Closure, ...]
    mended: tuple[Mended, ...]
    drawn: tuple[str, ...] = ()


@dataclass(slots=True)
class _Told:
    """What building the roof has to tell besides the roof."""

    closures: list[Closure] = field(default_factory=list)
    mended: list[Mended] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)


def build_roofs(job: Job, folder: Path) -> Roofs:
    """The areas of a job.

    folder: where the job file stands; drawings are looked for beside it.  An area that is None could not be read.
    Raises: Refused with every fault of every outline.
    """
    told = _Told()
    units = Units(job.units)
    typed_areas: Sequence[AreaTyped | None] = job.roof
    drawn, mended, faults = read_drawn(job, folder)
    told.mended += mended
    told.faults += faults
    areas: list[Area] = []
    places: list[_Place] = []
    for i, typed in enumerate(typed_areas):
        if typed is None:
            continue
        own = drawn.get(typed.area) if typed.outline is None else None
        outline = own.outline if own is not None else _outline(job, i, typed, folder, told)
        if outline is not None:
            stands = standing(job, i, typed, own)
            area = _area(typed, outline, stands)
            rows = _edge_rows(typed)
            told.faults += stands.faults
            told.faults += [_fault(job, found) for found in edge_problems(rows, len(area.outline), f"roof[{i}].edges")]
            areas.append(_with_keys(area, typed, i))
            places.append(
                _Place(i, written(("areas", "layers", typed.area, "outline")) if own is not None else "", stands.keys)
            )
    told.faults += [_fault(job, _placed(found, places)) for found in problems(areas, units=units)]
    if told.faults:
        raise Refused(dict.fromkeys(told.faults))
    return Roofs(tuple(areas), tuple(told.closures), tuple(told.mended), tuple(map(drawn_words, drawn.values())))


@dataclass(frozen=True, slots=True)
class _Place:
    """Where the job file speaks of an area: its place under `roof`, its drawn outline, and what stands in it."""

    i: int
    outline: str
    keys: Mapping[str, tuple[str, ...]]


def _placed(problem: Problem, places: Sequence[_Place]) -> Problem:
    """A problem's path as the job file has it: areas before it may be unread, what stands in it may be drawn."""
    number, _, rest = problem.path.removeprefix("roof[").partition("]")
    place = places[int(number)]
    key, _, tail = rest.removeprefix(".").partition("[")
    at, _, below = tail.partition("]")
    if key == "outline" and place.outline:
        return replace(problem, path=place.outline, write="the outline put right in the drawing")
    if key in place.keys and at.isdecimal():
        path = place.keys[key][int(at)]
        if path.startswith("areas"):
            return replace(problem, path=path, write="the drawing put right there")
        return replace(problem, path=path + below)
    return replace(problem, path=f"roof[{place.i}]{rest}")


def _fault(job: Job, problem: Problem) -> Fault:
    fault = job.fault(problem.path, needs=problem.needs, write=problem.write)
    return replace(fault, read=problem.read or fault.read)


def _outline(job: Job, i: int, typed: AreaTyped, folder: Path, told: _Told) -> tuple[Point, ...] | None:
    """The corners of one area; None where its outline has a fault."""
    outline, path = typed.outline, f"roof[{i}].outline"
    if isinstance(outline, Points):
        x, y = typed.start
        return tuple((px + x, py + y) for px, py in outline.corners)
    if isinstance(outline, Walk):
        corners, closure = close_walk(outline.legs, start=typed.start, area=typed.area)
        told.closures.append(closure)
        if is_closed_enough(closure) or typed.closure == "accept":
            return corners
        needs = f"a walk that ends where it began: {misclosure_words(closure, Units(job.units))}"
        told.faults.append(job.fault(path, needs=needs, write="the legs as measured again, or closure: accept"))
        return None
    if outline is None:
        return None  # drawn under areas, and not read; or missing, which is told with the job file
    try:
        points, mended = _drawn(outline, folder, Units(job.units))
    except Refused as refused:
        told.faults += refused.faults
        return None
    told.mended += mended
    x, y = typed.start
    return tuple((px + x, py + y) for px, py in points)


def _drawn(
    outline: DxfOutline | GeoJsonOutline, folder: Path, units: Units
) -> tuple[Sequence[Point], Sequence[Mended]]:
    """The corners of an outline that stands in a drawing."""
    from lapwright.plan.sources import read_dxf, read_geojson  # ezdxf is heavy

    if isinstance(outline, DxfOutline):
        return read_dxf(folder, outline, units)
    return read_geojson(folder, outline, units)


def _edge_rows(typed: AreaTyped) -> list[EdgeRow]:
    return [
        EdgeRow(
            group.sides,
            group.kind,
            group.height,
            Metal(group.metal.kind, group.metal.gauge, group.metal.face, group.metal.flange) if group.metal else None,
        )
        for group in typed.edges
    ]


def _area(typed: AreaTyped, outline: Sequence[Point], stands: Standing) -> Area:
    return make_area(
        typed.area,
        outline,
        falls=typed.falls,
        slope=typed.slope,
        edges=_edge_rows(typed),
        openings=stands.openings,
        pipes=stands.pipes,
        drains=stands.drains,
    )


def _with_keys(area: Area, typed: AreaTyped, i: int) -> Area:
    """The area with each edge knowing the entry of the job file that speaks of it."""
    keys = {side: f"roof[{i}].edges[{j}]" for j, group in enumerate(typed.edges) for side in group.sides}
    return replace(area, edges=tuple(replace(edge, key=keys.get(edge.side, "")) for edge in area.edges))
