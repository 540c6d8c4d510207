"""Areas drawn in one plan and typed under `roof`: what the drawing says and what it can't, put together by name."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

from lapwright.faults import Fault, Mended, Refused
from lapwright.geometry.polygon import bounds
from lapwright.intake.plan_values import AreaLayers, DrawnArea, DrawnOpening, DrawnSpot
from lapwright.job.area_models import AreaLayersTyped, AreasTyped, DrainsLayer, OpeningsLayer, PipesLayer
from lapwright.job.crosscheck import slug
from lapwright.job.fields import near_name
from lapwright.job.models import Job
from lapwright.job.outline_models import DxfOutline, GeoJsonOutline
from lapwright.job.roof_models import DRAIN_NEEDS, OPENING_KINDS, OPENING_NEEDS, PIPE_NEEDS, AreaTyped
from lapwright.job.tree import Path as Steps
from lapwright.job.tree import written
from lapwright.plan.drawings import HERE, Drawings
from lapwright.roof.values import Drain, Opening, Pipe, Point
from lapwright.units.write import Units

MOST_NAMED = 12
NEEDS = {"openings": OPENING_NEEDS, "pipes": PIPE_NEEDS, "drains": DRAIN_NEEDS}
Made = TypeVar("Made", Opening, Pipe, Drain)
Shape = TypeVar("Shape", DrawnOpening, DrawnSpot)


@dataclass(frozen=True, slots=True)
class Standing:
    """What stands in an area, positions from its first corner, and the entry of the job file that speaks of each.

    Those with an entry under `roof` come first, in its order, so that a place in these lists is a place there.
    """

    openings: tuple[Opening, ...]
    pipes: tuple[Pipe, ...]
    drains: tuple[Drain, ...]
    keys: Mapping[str, tuple[str, ...]]
    faults: tuple[Fault, ...]


def read_drawn(
    job: Job, folder: Path, drawings: Drawings = HERE
) -> tuple[Mapping[str, DrawnArea], Sequence[Mended], Sequence[Fault]]:
    """The drawn areas by name, what was mended, and the faults that kept them from being read."""
    areas = job.areas
    if areas is None or (areas.dxf is None and areas.geojson is None):
        return {}, (), ()
    wanted = [
        AreaLayers(name, each.outline, tuple(each.openings), tuple(each.pipes), tuple(each.drains))
        for name, each in areas.layers.items()
    ]
    try:
        plan = drawings.areas(folder, areas, wanted, Units(job.units))
    except Refused as refused:
        return {}, (), refused.faults
    return {area.area: area for area in plan.areas}, plan.mended, ()


def drawn_words(area: DrawnArea, units: Units) -> str:
    """What a drawing gives of an area: its size, in which a wrong unit shows, and the names to speak of it by."""
    left, low, right, high = bounds(area.outline)
    size = f"{units.tape(right - left)} by {units.tape(high - low)}"
    parts = [f"{area.area}: drawn with {len(area.outline)} sides, {size}"]
    for key, shapes in (("openings", area.openings), ("pipes", area.pipes), ("drains", area.drains)):
        if shapes:
            parts.append(f"{key} {', '.join(shape.name for shape in shapes)}")
    return "; ".join(parts)


def is_drawn(typed: AreaTyped) -> bool:
    """Its outline comes from a drawing, which may show what stands in it too."""
    return typed.outline is None or isinstance(typed.outline, DxfOutline | GeoJsonOutline)


def standing(job: Job, i: int, typed: AreaTyped, drawn: DrawnArea | None) -> Standing:
    """What stands in an area, typed and drawn."""
    areas = job.areas
    layers = areas.layers.get(typed.area) if isinstance(areas, AreasTyped) else None
    merge = _Merge(job, i, drawn, layers)
    openings = merge.merged("openings", typed.openings, drawn.openings if drawn else (), _typed_opening, merge.opening)
    pipes = merge.merged("pipes", typed.pipes, drawn.pipes if drawn else (), _typed_pipe, merge.pipe)
    drains = merge.merged("drains", typed.drains, drawn.drains if drawn else (), _typed_drain, merge.drain)
    merge.own_names()
    return Standing(tuple(openings), tuple(pipes), tuple(drains), merge.keys, tuple(merge.faults))


@dataclass(slots=True)
class _Merge:
    """One area being put together."""

    job: Job
    i: int
    drawn: DrawnArea | None
    layers: AreaLayersTyped | None
    keys: dict[str, tuple[str, ...]] = field(default_factory=dict)
    names: list[tuple[str, Steps]] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)

    def merged(
        self,
        key: str,
        typed: Sequence[Any],
        drawn: Sequence[Shape],
        whole: Callable[[Any], Made],
        put_together: Callable[[Shape, Any], Made],
    ) -> list[Made]:
        """Those typed, whole or by the name of a drawn one; then the other drawn ones."""
        left = {shape.name: shape for shape in drawn}
        keys: list[str] = []
        made: list[Made] = []
        for k, entry in enumerate(typed):
            path: Steps = ("roof", self.i, key, k)
            is_placed = entry.at is not None or getattr(entry, "side", None) is not None
            shape = None if is_placed else left.pop(entry.name, None)
            if shape is None and any(getattr(entry, name) is None for name in NEEDS[key]):
                if self.drawn is not None and not is_placed:
                    self._not_drawn(key, entry.name, drawn, path)
                continue  # where nothing is drawn, what is missing is told with the job file
            keys.append(written(path))
            self.names.append((entry.name, path))
            made.append(whole(entry) if shape is None else put_together(shape, entry))
        for shape in left.values():
            path = self._path(key, shape)
            keys.append(written(path))
            self.names.append((shape.name, path))
            made.append(put_together(shape, None))
        self.keys[key] = tuple(keys)
        twice = len(drawn) - len({shape.name for shape in drawn})
        if twice:
            self._twice(key, drawn)
        return made

    def _not_drawn(self, key: str, name: str, drawn: Sequence[DrawnOpening | DrawnSpot], path: Steps) -> None:
        """Tells a name alone that the drawing does not give."""
        names = [shape.name for shape in drawn]
        there = f"one of {', '.join(names[:MOST_NAMED])}" if names else "where none is drawn"
        needs = f"a name that the drawing gives, {there}; or the keys {', '.join(NEEDS[key])}"
        self.faults.append(self.job.fault((*path, "name"), needs=needs, write=near_name(name, names) or ""))

    def _twice(self, key: str, drawn: Sequence[DrawnOpening | DrawnSpot]) -> None:
        names = [shape.name for shape in drawn]
        first = next(name for name in names if names.count(name) > 1)
        path = self._path(key, next(shape for shape in drawn if shape.name == first))
        needs = f"names that differ; {first} is drawn {names.count(first)} times"
        self.faults.append(self.job.fault(path, needs=needs, write="another name in the drawing"))

    def own_names(self) -> None:
        """Tells a name that ids can't tell from another; names that are typed alone were judged with the job file."""
        taken: dict[str, str] = {}
        for name, path in self.names:
            was = taken.setdefault(slug(name), name)
            if was != name and self.drawn is not None:
                needs = f"a name of its own; {was} is taken"
                self.faults.append(self.job.fault(path, needs=f"{needs} ({name} is drawn)", write="another name"))

    def _from_corner(self, point: Point) -> Point:
        assert self.drawn is not None  # only drawn shapes are put together
        x, y = self.drawn.outline[0]
        return (point[0] - x, point[1] - y)

    def opening(self, shape: DrawnOpening, entry: Any) -> Opening:  # noqa: ANN401  # as its typed key has it
        """A drawn opening, with what is typed of it; what a courtyard is, nothing but the job file can say."""
        given = self.layers.openings.get(shape.layer) if self.layers else None
        block = given if isinstance(given, OpeningsLayer) else None
        kind = _first(entry and entry.kind, block and block.kind, given)
        height = _first(entry and entry.height, block and block.height)
        if kind is None:
            self._ask_kind(shape, entry)
        return Opening(shape.name, str(kind), self._from_corner(shape.corner), shape.size, height, shape.ring)

    def _ask_kind(self, shape: DrawnOpening, entry: Any) -> None:  # noqa: ANN401  # as its typed key has it
        """Asks what a ring inside an outline is, at its entry or at the outline."""
        tape = Units(self.job.units).tape
        kinds = f"{', '.join(OPENING_KINDS[:-1])} or {OPENING_KINDS[-1]}"
        size = f"E {tape(shape.size[0])} x N {tape(shape.size[1])}"
        needs = f"the kind of {shape.name}, {size}, a ring inside the outline: {kinds}"
        listed = [each.name for each in self.job.roof[self.i].openings]
        if entry is not None:
            path: Steps = ("roof", self.i, "openings", listed.index(entry.name))
            self.faults.append(self.job.fault(path, needs=needs, write="kind: shaft"))
            return
        write = f'openings: [{{name: {shape.name}, kind: shaft, height: 12"}}]  # under {self.job.roof[self.i].area}'
        self.faults.append(self.job.fault(self._path("openings", shape), needs=needs, write=write))

    def _path(self, key: str, shape: DrawnOpening | DrawnSpot) -> Steps:
        """Where the job file names the layer of what is drawn: under its kind, or as the outline's."""
        if self.layers is None:
            return ("roof", self.i, "outline")
        own = ("areas", "layers", self.drawn.area if self.drawn else "")
        return (*own, key, shape.layer) if shape.layer in getattr(self.layers, key) else (*own, "outline")

    def pipe(self, shape: DrawnSpot, entry: Any) -> Pipe:  # noqa: ANN401  # as its typed key has it
        """A drawn pipe, with what is typed of it."""
        given = self.layers.pipes.get(shape.layer) if self.layers else None
        block = given if isinstance(given, PipesLayer) else None
        diameter = _first(entry and entry.diameter, block and block.diameter, shape.diameter)
        if diameter is None:
            path = self._path("pipes", shape)
            needs = f"the diameter of {shape.name}, which is not drawn as a circle"
            write = f'{shape.layer}: {{diameter: 4"}}'
            self.faults.append(self.job.fault(path, needs=needs, write=write))
            return Pipe(shape.name, self._from_corner(shape.at), 1)
        return Pipe(shape.name, self._from_corner(shape.at), diameter)

    def drain(self, shape: DrawnSpot, entry: Any) -> Drain:  # noqa: ANN401  # as its typed key has it
        """A drawn drain, with what is typed of it."""
        given = self.layers.drains.get(shape.layer) if self.layers else None
        block = given if isinstance(given, DrainsLayer) else None
        kind = _first(entry and entry.kind, block and block.kind, given)
        return Drain(
            name=shape.name,
            kind=str(kind),
            at=self._from_corner(shape.at),
            diameter=_first(entry and entry.diameter, block and block.diameter),
            sill=_first(entry and entry.sill, block and block.sill),
        )


def _first(*values: Any) -> Any:  # noqa: ANN401  # of whatever kind the key is
    """The first that is given."""
    return next((value for value in values if value is not None), None)


def _typed_opening(each: Any) -> Opening:  # noqa: ANN401  # OpeningTyped, whose keys crosscheck has seen
    return Opening(each.name, each.kind, each.at, each.size, each.height)


def _typed_pipe(each: Any) -> Pipe:  # noqa: ANN401  # as its typed key has it
    return Pipe(each.name, each.at, each.diameter)


def _typed_drain(each: Any) -> Drain:  # noqa: ANN401  # as its typed key has it
    return Drain(
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
