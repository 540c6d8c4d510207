"""The roof of a job: outlines closed or fetched from drawings, edges and openings in place, problems as faults."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise
from pathlib import Path

from lapwright.faults import Fault, Mended, Refused
from lapwright.intake.plan_values import DrawnArea
from lapwright.job.models import Job
from lapwright.job.outline_models import Points, Walk
from lapwright.job.roof_models import AreaTyped, MetalTyped, PlaneTyped
from lapwright.job.tree import written
from lapwright.plan.drawings import HERE, Drawings
from lapwright.plan.drawn import Standing, drawn_words, is_drawn, read_drawn, standing
from lapwright.plan.origin import near_origin
from lapwright.roof.build import EdgeRow, edge_problems, make_area, problems
from lapwright.roof.joins import join_areas
from lapwright.roof.planefaults import plane_problems
from lapwright.roof.planes import PlaneRow, settled, split_area
from lapwright.roof.problem import Problem
from lapwright.roof.rises import with_rises
from lapwright.roof.values import Area, Closure, Metal, Point
from lapwright.roof.walk import close_walk, is_closed_enough, misclosure_limit, misclosure_words
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.write import Units


@dataclass(frozen=True, slots=True)
class Roofs:
    """The areas of a job, how their walks closed, what was mended in drawings, and what was drawn, in words."""

    areas: tuple[Area, ...]
    closures: tuple[Closure, ...]
    mended: tuple[Mended, ...]
    drawn: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Beside:
    """Where drawings stand, and who reads them."""

    folder: Path
    drawings: Drawings


@dataclass(slots=True)
class _Told:
    """What building the roof has to tell besides the roof."""

    closures: list[Closure] = field(default_factory=list)
    mended: list[Mended] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)


def build_roofs(job: Job, folder: Path, drawings: Drawings = HERE) -> Roofs:
    """The areas of a job.

    folder: where the job file stands; drawings are looked for beside it, and read by `drawings`.  An area that is
    None could not be read.
    Raises: Refused with every fault of every outline.
    """
    told = _Told()
    units, fetch = Units(job.units), _Beside(folder, drawings)
    typed_areas: Sequence[AreaTyped | None] = job.roof
    drawn, mended, faults = read_drawn(job, folder, drawings)
    told.mended += mended
    told.faults += faults
    own_areas: dict[int, DrawnArea] = {}
    outlines: dict[int, tuple[Point, ...]] = {}
    for i, typed in enumerate(typed_areas):
        if typed is not None:
            own = drawn.get(typed.area) if typed.outline is None else _outline(job, i, typed, fetch, told)
            if own is not None:
                own_areas[i] = own
                outlines[i] = own.outline
    near = near_origin(job, outlines)
    told.mended += near.mended
    told.faults += near.faults
    areas: list[Area] = []
    planes: list[list[PlaneRow]] = []
    places: list[_Place] = []
    for i, outline in near.outlines.items():
        typed = job.roof[i]
        own = own_areas[i] if is_drawn(typed) else None
        stands = standing(job, i, typed, own)
        area = _area(typed, outline, stands)
        rows = _edge_rows(typed)
        told.faults += stands.faults
        told.faults += [_fault(job, found) for found in edge_problems(rows, len(area.outline), f"roof[{i}].edges")]
        areas.append(_with_keys(area, typed, i, stands))
        places.append(
            _Place(i, written(("areas", "layers", typed.area, "outline")) if typed.outline is None else "", stands.keys)
        )
        typed_rows = _plane_rows(job, i, typed, None if typed.outline else own, near.moved, fetch, told)
        planes.append(_settled_rows(typed.area, area.outline, typed_rows, told, units))
    told.faults += [_fault(job, _placed(found, places)) for found in problems(areas, units=units)]
    if not told.faults:
        told.faults += [
            _fault(job, found)
            for place, area, rows in zip(places, areas, planes, strict=True)
            for found in plane_problems(area, rows, f"roof[{place.i}].planes", units)
        ]
    if told.faults:
        raise Refused(dict.fromkeys(told.faults))
    joined = join_areas([plane for area, rows in zip(areas, planes, strict=True) for plane in split_area(area, rows)])
    whole = with_rises(joined, height=job.building.height)
    return Roofs(whole, tuple(told.closures), tuple(told.mended), _words(drawn, own_areas, job))


def _words(drawn: Mapping[str, DrawnArea], own: Mapping[int, DrawnArea], job: Job) -> tuple[str, ...]:
    """What drawings give of the areas."""
    yards = [area for i, area in own.items() if job.roof[i].outline is not None and area.openings]
    return tuple(drawn_words(area, Units(job.units)) for area in (*drawn.values(), *yards))


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


def _plane_rows(
    job: Job, i: int, typed: AreaTyped, own: DrawnArea | None, moved: Point, fetch: _Beside, told: _Told
) -> list[PlaneRow]:
    """The planes of an area, moved as it was, those whose outline has a fault left out."""
    rows = []
    for k, plane in enumerate(typed.planes):
        is_walked = isinstance(plane.outline, Walk | Points)
        first = own.outline[0] if own is not None and is_walked else typed.start
        start = (first[0] + plane.start[0] + moved[0], first[1] + plane.start[1] + moved[1])
        placed = plane.model_copy(update={"start": start})
        found = _outline(job, i, placed, fetch, told, plane=k)
        if found is not None:
            rows.append(PlaneRow(plane.plane, found.outline, plane.falls, plane.slope))
    return rows


def _settled_rows(
    name: str, outline: Sequence[Point], rows: Sequence[PlaneRow], told: _Told, units: Units
) -> list[PlaneRow]:
    """The planes laid on their area's corners and sides, as near as the walks closed; what was moved is told."""
    misses = {closure.area: math.hypot(closure.east, closure.north) for closure in told.closures}
    reach = [misses.get(name, 0.0) + misses.get(f"{name} {row.name}", 0.0) for row in rows]
    found = settled(outline, rows, [min(far, misclosure_limit(_round(outline))) for far in reach])
    for row, laid in zip(rows, found, strict=True):
        off = max((math.dist(*pair) for pair in zip(row.outline, laid.outline, strict=True)), default=0.0)
        if off > 0:
            told.mended.append(
                Mended(
                    f"{name} {row.name}",
                    "outline",
                    f"corners up to {units.length(off / TICKS_PER_METRE)} off those of {name}, as the walks close",
                    "laid on them",
                )
            )
    return found


def _round(outline: Sequence[Point]) -> int:
    """The way round an outline [ticks]."""
    return round(sum(math.dist(*side) for side in pairwise([*outline, outline[0]])))


def _outline(
    job: Job, i: int, typed: AreaTyped | PlaneTyped, fetch: _Beside, told: _Told, *, plane: int | None = None
) -> DrawnArea | None:
    """The outline of an area or of one of its planes, with the courtyards in it; None where it has a fault."""
    name = job.roof[i].area if isinstance(typed, AreaTyped) else f"{job.roof[i].area} {typed.plane}"
    path = f"roof[{i}].outline" if plane is None else f"roof[{i}].planes[{plane}].outline"
    outline = typed.outline
    x, y = typed.start
    if isinstance(outline, Points):
        return DrawnArea(name, tuple((px + x, py + y) for px, py in outline.corners))
    if isinstance(outline, Walk):
        corners, closure = close_walk(outline.legs, start=typed.start, area=name)
        told.closures.append(closure)
        if is_closed_enough(closure) or typed.closure == "accept":
            return DrawnArea(name, corners)
        needs = f"a walk that ends where it began: {misclosure_words(closure, Units(job.units))}"
        told.faults.append(job.fault(path, needs=needs, write="the legs as measured again, or closure: accept"))
        return None
    if outline is None:
        return None  # drawn under areas, and not read; or missing, which is told with the job file
    try:
        found = fetch.drawings.outline(fetch.folder, outline, Units(job.units))
    except Refused as refused:
        told.faults += refused.faults
        return None
    told.mended += found.mended
    yards = tuple(replace(each, corner=(each.corner[0] + x, each.corner[1] + y)) for each in found.courtyards)
    return DrawnArea(name, tuple((px + x, py + y) for px, py in found.corners), yards)


def _edge_rows(typed: AreaTyped) -> list[EdgeRow]:
    return [
        EdgeRow(
            group.sides,
            group.kind,
            group.height,
            _metal(group.metal),
        )
        for group in typed.edges
    ]


def _metal(typed: MetalTyped | None) -> Metal | None:
    if typed is None:
        return None
    return Metal(
        kind=typed.kind,
        gauge=typed.gauge,
        face=typed.face,
        flange=typed.flange,
        test_factor=typed.test_factor,
        tested_outward_pa=typed.tested_outward,
        tested_upward_pa=typed.tested_upward,
        nail_spacing=typed.nail_spacing,
        cleat_spacing=typed.cleat_spacing,
        nail_shear_n=typed.nail_shear,
    )


def _area(typed: AreaTyped, outline: Sequence[Point], stands: Standing) -> Area:
    first = typed.planes[0] if typed.planes else typed
    falls = first.falls or (0.0, -1.0)  # where neither is given, the file is refused for that
    slope = first.slope or 0.0
    return make_area(
        typed.area,
        outline,
        falls=falls,
        slope=slope,
        edges=_edge_rows(typed),
        openings=stands.openings,
        pipes=stands.pipes,
        drains=stands.drains,
    )


def _with_keys(area: Area, typed: AreaTyped, i: int, stands: Standing) -> Area:
    """The area with each edge, opening and drain knowing the entry of the job file that speaks of it."""
    keys = {side: f"roof[{i}].edges[{j}]" for j, group in enumerate(typed.edges) for side in group.sides}
    return replace(
        area,
        edges=tuple(
            replace(edge, key=keys.get(edge.side, f"roof[{i}].edges[side {edge.side}]")) for edge in area.edges
        ),
        openings=tuple(
            replace(each, key=key) for each, key in zip(area.openings, stands.keys["openings"], strict=True)
        ),
        drains=tuple(replace(each, key=key) for each, key in zip(area.drains, stands.keys["drains"], strict=True)),
        key=f"roof[{i}]",
        roof_height=typed.roof_height,
    )
