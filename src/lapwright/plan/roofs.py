"""The roof of a job: outlines closed or fetched from drawings, edges and openings in place, problems as faults."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from lapwright.faults import Fault, Mended, Refused
from lapwright.job.models import Job
from lapwright.job.outline_models import DxfOutline, GeoJsonOutline, Points, Walk
from lapwright.job.roof_models import AreaTyped
from lapwright.roof.build import EdgeRow, edge_problems, make_area, problems
from lapwright.roof.problem import Problem
from lapwright.roof.values import Area, Closure, Drain, Metal, Opening, Pipe, Point
from lapwright.roof.walk import close_walk, is_closed_enough, misclosure_words
from lapwright.units.write import Units


@dataclass(frozen=True, slots=True)
class Roofs:
    """The areas of a job, how their walks closed, and what was mended in drawings."""

    areas: tuple[Area, ...]
    closures: tuple[Closure, ...]
    mended: tuple[Mended, ...]


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
    outlines = [None if typed is None else _outline(job, i, typed, folder, told) for i, typed in enumerate(typed_areas)]
    areas: list[Area] = []
    for i, (typed, outline) in enumerate(zip(typed_areas, outlines, strict=True)):
        if typed is not None and outline is not None:
            area = _area(typed, outline)
            rows = _edge_rows(typed)
            told.faults += [_fault(job, found) for found in edge_problems(rows, len(area.outline), f"roof[{i}].edges")]
            areas.append(_with_keys(area, typed, i))
    places = [i for i, outline in enumerate(outlines) if outline is not None]
    told.faults += [_fault(job, _placed(found, places)) for found in problems(areas, units=units)]
    if told.faults:
        raise Refused(dict.fromkeys(told.faults))
    return Roofs(tuple(areas), tuple(told.closures), tuple(told.mended))


def _placed(problem: Problem, places: Sequence[int]) -> Problem:
    """A problem's path with the area's place in the job file, where areas before it could not be read."""
    number, _, rest = problem.path.removeprefix("roof[").partition("]")
    return replace(problem, path=f"roof[{places[int(number)]}]{rest}")


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
    try:
        points, mended = _drawn(outline, folder)
    except Refused as refused:
        told.faults += refused.faults
        return None
    told.mended += mended
    x, y = typed.start
    return tuple((px + x, py + y) for px, py in points)


def _drawn(outline: DxfOutline | GeoJsonOutline, folder: Path) -> tuple[Sequence[Point], Sequence[Mended]]:
    """The corners of an outline that stands in a drawing."""
    from lapwright.plan.sources import read_dxf, read_geojson  # ezdxf is heavy

    if isinstance(outline, DxfOutline):
        return read_dxf(folder, outline)
    return read_geojson(folder, outline)


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


def _area(typed: AreaTyped, outline: Sequence[Point]) -> Area:
    return make_area(
        typed.area,
        outline,
        falls=typed.falls,
        slope=typed.slope,
        edges=_edge_rows(typed),
        openings=[Opening(each.name, each.kind, each.at, each.size, each.height) for each in typed.openings],
        pipes=[Pipe(each.name, each.at, each.diameter) for each in typed.pipes],
        drains=list(_drains(typed)),
    )


def _drains(typed: AreaTyped) -> Iterator[Drain]:
    for each in typed.drains:
        yield Drain(
            name=each.name,
            kind=each.kind,
            at=each.at,
            side=each.side,
            from_start=each.from_start,
            diameter=each.diameter,
            width=each.width,
            height=each.height,
            sill=each.sill,
            outlets=each.outlets,
        )


def _with_keys(area: Area, typed: AreaTyped, i: int) -> Area:
    """The area with each edge knowing the entry of the job file that speaks of it."""
    keys = {side: f"roof[{i}].edges[{j}]" for j, group in enumerate(typed.edges) for side in group.sides}
    return replace(area, edges=tuple(replace(edge, key=keys.get(edge.side, "")) for edge in area.edges))
