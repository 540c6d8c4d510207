"""The roof as far as it is described: outlines, sides and what stands in them, in place, though much may be missing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any, cast

from lapwright.faults import Refused
from lapwright.intake.plan_values import DrawnArea
from lapwright.job.models import Job
from lapwright.job.outline_models import DxfOutline, GeoJsonOutline
from lapwright.job.reading import read_areas
from lapwright.job.roof_models import AreaTyped, DrainTyped, EdgeGroup, OpeningTyped, PipeTyped, sides_of
from lapwright.plan.describe.apart import APART
from lapwright.plan.describe.typed import Model, Typed, made_of_rest, read_or, table_of, tables_of, text_of, typed_job
from lapwright.plan.describe.walked import Walked, walked
from lapwright.plan.desk.keeping import Kept, Shared
from lapwright.plan.desk.stages import JobAsk
from lapwright.plan.drawn import read_drawn, standing
from lapwright.plan.origin import near_origin
from lapwright.roof.values import Drain, Opening, Pipe, Point
from lapwright.units import read
from lapwright.units.unread import Unread
from lapwright.units.write import Units

MOST_AREAS = 200


@dataclass(frozen=True, slots=True)
class SideSketch:
    """What is said of a side.  group: place of its entry in `edges`, None where none speaks of it."""

    kind: str | None = None
    group: int | None = None
    height: str = ""


@dataclass(frozen=True, slots=True)
class PlaneSketch:
    """A plane of an area: its corners [ticks]; the way water runs, (0, 0) unknown."""

    name: str
    corners: tuple[Point, ...]
    falls: tuple[float, float]
    slope: str


@dataclass(frozen=True, slots=True)
class AreaSketch:
    """An area as far as it is described; corners [ticks] in the job's plan.

    source: walk, points, drawing or none.  is_whole: the corners are an outline, else the places a walk passed.
    typed: corners as they are typed, east and north.  sides: by number, those that an entry speaks of.  keys: the
    entry of each opening, pipe and drain; is_drawn: whether a drawing says where each of them stands.  falls, slope:
    of an area of one plane, as far as they are given.
    """

    place: int
    name: str
    source: str
    corners: tuple[Point, ...] = ()
    is_whole: bool = False
    walk: Walked | None = None
    typed: tuple[tuple[str, str], ...] = ()
    sides: Mapping[int, SideSketch] = field(default_factory=dict)
    openings: tuple[Opening, ...] = ()
    pipes: tuple[Pipe, ...] = ()
    drains: tuple[Drain, ...] = ()
    keys: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    is_drawn: Mapping[str, tuple[bool, ...]] = field(default_factory=dict)
    falls: tuple[float, float] | None = None
    slope: str = ""
    planes: tuple[PlaneSketch, ...] = ()

    @property
    def first(self) -> Point:
        """The corner that places are measured from."""
        return self.corners[0] if self.corners else (0, 0)


@dataclass(frozen=True, slots=True)
class Sketch:
    """The areas of a job, and its units."""

    areas: tuple[AreaSketch, ...]
    units: Units
    cut_step: str = ""


@dataclass(slots=True)
class Sketches:
    """Sketches of jobs, kept; asked by several threads."""

    kept: Shared = field(default_factory=lambda: Shared(Kept(12)))

    def of(self, ask: JobAsk) -> Sketch:
        """The sketch of a job as it stands."""
        return cast(Sketch, self.kept.take(ask.key(), lambda: sketch(ask)))


def sketch(ask: JobAsk, *, walks: Mapping[int, str] | None = None) -> Sketch:
    """The sketch of a job.  walks: outlines as they are typed just now, by the area's place, in place of the file's."""
    typed = typed_job(ask.text, file=ask.path.name)
    units = Units("metric" if typed.get("units") == "metric" else "us")
    rows = tables_of(typed.get("roof"))[:MOST_AREAS]
    for place, walk in (walks or {}).items():
        if place < len(rows):
            rows[place] = {**rows[place], "outline": walk}
    job = read_areas(ask.text, file=ask.path.name)
    drawn = _Drawn(job, ask, units)
    areas = _near(job, [_area(place, row, drawn) for place, row in enumerate(rows)])
    return Sketch(
        tuple(
            replace(area, **_standing(area, row, drawn), **_falling(row), planes=tuple(_planes(area, row)))
            for area, row in zip(areas, rows, strict=True)
        ),
        units,
        text_of(table_of(typed.get("rules")).get("cut_step")),
    )


class _Drawn:
    """What drawings give, read once each; a drawing that can't be read gives nothing here, and is told as a fault."""

    def __init__(self, job: Job | None, ask: JobAsk, units: Units) -> None:
        self.job, self.folder, self.units = job, ask.path.parent, units
        self.areas = read_drawn(job, self.folder, APART)[0] if job is not None else {}
        self.own: dict[int, DrawnArea] = {}

    def area(self, place: int, name: str) -> DrawnArea | None:
        """The area at a place under `roof`, as it is drawn."""
        typed = self.job.roof[place] if self.job is not None and place < len(self.job.roof) else None
        found = self.areas.get(name)
        if typed is not None and isinstance(typed.outline, DxfOutline | GeoJsonOutline):
            found = self._outline(typed.outline, name, typed.start)
        if found is not None:
            self.own[place] = found
        return found

    def _outline(self, outline: DxfOutline | GeoJsonOutline, name: str, start: Point) -> DrawnArea | None:
        try:
            found = APART.outline(self.folder, outline, self.units)
        except Refused:
            return None
        yards = tuple(
            replace(each, corner=(each.corner[0] + start[0], each.corner[1] + start[1])) for each in found.courtyards
        )
        return DrawnArea(name, tuple((x + start[0], y + start[1]) for x, y in found.corners), yards)


def _area(place: int, row: Typed, drawn: _Drawn) -> AreaSketch:
    name, outline = text_of(row.get("area")), row.get("outline")
    start = read_or(row.get("start"), read.position, (0, 0))
    sides = _sides(row)
    if isinstance(outline, str):
        walk = walked(outline, start=start, is_accepted=row.get("closure") == "accept")
        return AreaSketch(place, name, "walk", walk.corners, walk.is_whole, walk, (), sides)
    if isinstance(outline, list):
        corners = tuple((x + start[0], y + start[1]) for x, y in _points(outline))
        rows = [item if isinstance(item, list) else [] for item in outline]
        typed = tuple((text_of((*each, "", "")[0]), text_of((*each, "", "")[1])) for each in rows)
        return AreaSketch(place, name, "points", corners, len(corners) > 2, None, typed, sides)
    found = drawn.area(place, name)
    if found is None:
        return AreaSketch(place, name, "drawing" if isinstance(outline, dict) else "none", sides=sides)
    return AreaSketch(place, name, "drawing", found.outline, is_whole=True, sides=sides)


def _planes(area: AreaSketch, row: Typed) -> Iterator[PlaneSketch]:
    """The planes that can be drawn."""
    rows = tables_of(row.get("planes"))
    first = area.first
    if area.source == "points" and (points := _points(cast("list[Any]", row.get("outline")))):
        first = (first[0] - points[0][0], first[1] - points[0][1])  # planes count from where the points do
    for plane in rows:
        x, y = read_or(plane.get("start"), read.position, (0, 0))
        start, outline = (first[0] + x, first[1] + y), plane.get("outline")
        corners: Sequence[Point] = ()
        if isinstance(outline, str):
            walk = walked(outline, start=start, is_accepted=plane.get("closure") == "accept")
            corners = walk.corners if walk.is_whole else ()
        elif isinstance(outline, list):
            corners = [(px + start[0], py + start[1]) for px, py in _points(outline)]
        if len(corners) > 2:
            falls = read_or(plane.get("falls"), read.direction, (0.0, 0.0))
            yield PlaneSketch(text_of(plane.get("plane")), tuple(corners), falls, text_of(plane.get("slope")))


def _points(rows: Sequence[object]) -> Sequence[Point]:
    """The corners typed, up to the first that can't be read; a last one that repeats the first is left out."""
    found: list[Point] = []
    for item in rows:
        try:
            east, north = (read.length_ticks(text_of(part)) for part in cast("list[Any]", item))
        except (Unread, TypeError, ValueError):
            break
        found.append((east, north))
    return found[:-1] if len(found) > 1 and found[0] == found[-1] else found


def _sides(row: Typed) -> Mapping[int, SideSketch]:
    found: dict[int, SideSketch] = {}
    for group, entry in enumerate(tables_of(row.get("edges"))):
        made = made_of_rest(EdgeGroup, entry)
        try:
            numbers = made.sides if made is not None else sides_of(entry.get("sides"))
        except Unread:
            continue
        kind = made.kind if made is not None else text_of(entry.get("kind")) or None
        for number in numbers[:5000]:
            found.setdefault(number, SideSketch(kind, group, text_of(entry.get("height"))))
    return found


def _near(job: Job | None, areas: list[AreaSketch]) -> list[AreaSketch]:
    """The areas near the origin, as the plan has them."""
    whole = {area.place: area.corners for area in areas if area.corners}
    if job is None or not whole:
        return areas
    near = near_origin(job, whole).outlines
    return [replace(area, corners=near.get(area.place, area.corners)) for area in areas]


def _standing(area: AreaSketch, row: Typed, drawn: _Drawn) -> dict[str, Any]:
    """What stands in an area, and the entry of each; places count from its first corner."""
    own = drawn.own.get(area.place)
    if own is not None and drawn.job is not None and (typed := drawn.job.roof[area.place]) is not None:
        found = standing(drawn.job, area.place, typed, own)
        is_drawn = {name: _are_drawn(area.place, name, typed, keys) for name, keys in found.keys.items()}
        made = {"openings": found.openings, "pipes": found.pipes, "drains": found.drains}
        return {**made, "keys": found.keys, "is_drawn": is_drawn}
    openings = [
        (k, Opening(each.name, each.kind or "", each.at, each.size, each.height))
        for k, each in _made(row, "openings", OpeningTyped)
        if each.at is not None and each.size is not None
    ]
    pipes = [
        (k, Pipe(each.name, each.at, each.diameter))
        for k, each in _made(row, "pipes", PipeTyped)
        if each.at is not None and each.diameter is not None
    ]
    drains = [
        (k, Drain(each.name, each.kind or "", each.at, each.side, each.from_start, each.diameter, each.width))
        for k, each in _made(row, "drains", DrainTyped)
    ]
    listed: dict[str, list[tuple[int, Any]]] = {"openings": openings, "pipes": pipes, "drains": drains}
    keys = {name: tuple(f"roof[{area.place}].{name}[{k}]" for k, _ in each) for name, each in listed.items()}
    return {**{name: tuple(found for _, found in each) for name, each in listed.items()}, "keys": keys}


def _falling(row: Typed) -> dict[str, Any]:
    """Which way an area falls and how steeply; nothing of one with planes of its own."""
    if "planes" in row:
        return {}
    return {"falls": read_or(row.get("falls"), read.direction, None), "slope": text_of(row.get("slope"))}


def _are_drawn(place: int, name: str, typed: AreaTyped, keys: Sequence[str]) -> tuple[bool, ...]:
    """Whether what stands at each of some entries is placed by a drawing: it is, unless the entry itself places it."""
    placed = {
        f"roof[{place}].{name}[{k}]"
        for k, each in enumerate(getattr(typed, name))
        if each.at is not None or getattr(each, "side", None) is not None
    }
    return tuple(key not in placed for key in keys)


def _made(row: Typed, name: str, model: type[Model]) -> Iterator[tuple[int, Model]]:
    """The entries of a list that can be read, each with its place."""
    for k, typed in enumerate(tables_of(row.get(name))):
        made = made_of_rest(model, typed)
        if made is not None:
            yield k, made
