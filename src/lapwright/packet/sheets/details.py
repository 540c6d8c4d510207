"""The details of a job: which sections it needs, and where on the roof each holds.

Edges and openings of the same build-up and size share a detail.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from lapwright.layout.values import Detail
from lapwright.packet.drawing import Plate
from lapwright.packet.sheets.cornerdetail import corner_plan
from lapwright.packet.sheets.edgedetail import metal_edge_section
from lapwright.packet.sheets.linedetails import expansion_section, ridge_section, tie_in_section, valley_section
from lapwright.packet.sheets.section import Section, section_plate
from lapwright.packet.sheets.smalldetails import pipe_section, tie_off_section
from lapwright.packet.sheets.substrate import Job
from lapwright.packet.sheets.tjointdetail import tjoint_plan
from lapwright.packet.sheets.walldetail import Stand, flashing_section
from lapwright.packet.sheets.waterdetails import drain_section, scupper_section
from lapwright.packet.values import Paper
from lapwright.roof.values import FACES, Drain, Edge, Metal
from lapwright.units.write import Units

Place = tuple[str, str]


@dataclass(frozen=True, slots=True)
class DetailSheet:
    """A detail: number, title, the places (area, side or name) where it holds, and what draws it."""

    number: int
    title: str
    places: tuple[Place, ...]
    draw: Callable[[], Section]


@dataclass(slots=True)
class Found:
    """A detail found so far."""

    title: str
    places: list[Place]
    draw: Callable[[str], Section]


def detail_list(paper: Paper) -> tuple[DetailSheet, ...]:
    """Every detail of the job: edges first, then openings and pipes, then those that hold everywhere."""
    job = Job(paper, Units(paper.head.units))
    found: dict[tuple[object, ...], Found] = {}
    add_edges(job, found)
    add_openings(job, found)
    add_lines(job, found)
    add_drains(job, found)
    for form in ("inside", "outside"):
        if any(detail.kind == "gusset" and detail.form == form for detail in paper.layout.details):
            found["corner", form] = Found(
                f"{form.capitalize()} corner of a base flashing", [], corner_drawer(job, form)
            )
    if paper.assembly.plies:
        found["tie-off",] = Found("Tie-off at the end of a day", [], lambda title: tie_off_section(job, title=title))
        found["tjoint",] = Found("Corner cuts at an end lap", [], lambda title: tjoint_plan(job, title=title))
    sheets = []
    for number, one in enumerate(found.values(), start=1):
        title = f"{number}  {one.title}"
        sheets.append(DetailSheet(number, one.title, tuple(one.places), bound(one.draw, title)))
    return tuple(sheets)


def bound(draw: Callable[[str], Section], title: str) -> Callable[[], Section]:
    """The drawing of a detail under its numbered title."""
    return lambda: draw(title)


def add_edges(job: Job, found: dict[tuple[object, ...], Found]) -> None:
    """Metal edges by their metal, walls and parapets by kind and height."""
    words = "two plies" if len(job.field_plies) == 2 else "three plies"
    for area in job.paper.areas:
        for edge in area.edges:
            place = (area.name, f"side {edge.side}")
            if edge.kind == "metal_edge" and len(job.field_plies) > 1:
                key: tuple[object, ...] = ("metal", edge.metal)
                found.setdefault(key, Found(f"Metal edge, {words}", [], edge_drawer(job, edge.metal)))
            elif edge.kind in ("wall", "parapet"):
                key = (edge.kind, edge.height)
                title = f"Base flashing at a {edge.kind}"
                found.setdefault(key, Found(title, [], wall_drawer(job, edge.kind, edge.kind, edge.height, place)))
            else:
                continue
            found[key].places.append(place)


def edge_drawer(job: Job, metal: Metal | None) -> Callable[[str], Section]:
    """What draws a metal edge."""
    return lambda title: metal_edge_section(job, metal, title=title)


def wall_drawer(job: Job, words: str, kind: str, height: float | None, place: Place) -> Callable[[str], Section]:
    """What draws a base flashing, with the flashing pieces that the layout cut for one of its places."""
    stand = Stand(words, kind, height, flashings_at(job, place), rows=rows_at(job, place))
    return lambda title: flashing_section(job, stand, title=title)


def flashings_at(job: Job, place: Place) -> tuple[Detail, ...]:
    """The flashing pieces that the layout cut for a side or an opening."""
    return tuple(
        detail
        for detail in job.paper.layout.details
        if detail.kind == "flashing" and detail.area == place[0] and stands_at(detail.of, place[1])
    )


def rows_at(job: Job, place: Place) -> tuple[float, ...]:
    """Heights of the rows of fasteners part-way up the flashing of a side or an opening [m]."""
    rows = (one for one in job.paper.layout.details if one.kind == "fixing" and one.area == place[0])
    return tuple(sorted({one.parts["height"] for one in rows if stands_at(one.of, place[1])}))


def stands_at(of: str, name: str) -> bool:
    """A flashing belongs to a side, or to one of the faces of an opening."""
    return of == name or of in tuple(f"{name} {face}" for face in FACES) or of.startswith(f"{name} face ")


def add_openings(job: Job, found: dict[tuple[object, ...], Found]) -> None:
    """Openings by kind and height, pipes by diameter."""
    for area in job.paper.areas:
        for opening in area.openings:
            key: tuple[object, ...] = ("opening", opening.kind, opening.height)
            place = (area.name, opening.name)
            drawer = wall_drawer(job, opening.kind, opening.kind, opening.height, place)
            found.setdefault(key, Found(f"Base flashing at a {opening.kind}", [], drawer)).places.append(place)
    for area in job.paper.areas:
        for pipe in area.pipes:
            key = ("pipe", pipe.diameter)
            drawer = pipe_drawer(job, pipe.diameter / 80_000)
            found.setdefault(key, Found("Pipe", [], drawer)).places.append((area.name, pipe.name))


def add_lines(job: Job, found: dict[tuple[object, ...], Found]) -> None:
    """Ridges and valleys by slope, tie-ins, expansion joints and steps by height."""
    slopes = {area.name: area.slope for area in job.paper.areas}
    for area in job.paper.areas:
        for edge in area.edges:
            place = (area.name, f"side {edge.side}")
            both = tuple(sorted((area.slope, slopes.get(edge.meets, area.slope))))
            key: tuple[object, ...] = (edge.kind, both if edge.kind in ("ridge", "valley") else edge.height)
            drawn = line_drawer(job, edge, (both[0], both[1]), place)
            if drawn is not None:
                title, draw = drawn
                found.setdefault(key, Found(title, [], draw)).places.append(place)


def line_drawer(
    job: Job, edge: Edge, slopes: tuple[float, float], place: Place
) -> tuple[str, Callable[[str], Section]] | None:
    """Title and drawing of a line where roofs meet; None for other sides."""
    if len(job.field_plies) < 2:
        return None
    pieces, rows = flashings_at(job, place), rows_at(job, place)
    stand = Stand("curb of the joint", "curb", edge.height, pieces, has_top=False, rows=rows)
    drawn: dict[str | None, tuple[str, Callable[[str], Section]]] = {
        "ridge": ("Ridge", lambda title: ridge_section(job, slopes, title=title)),
        "valley": ("Valley", lambda title: valley_section(job, slopes, title=title)),
        "tie_in": ("Tie-in to the old roof", lambda title: tie_in_section(job, title=title)),
        "expansion": ("Expansion joint", lambda title: expansion_section(job, stand, title=title)),
    }
    if edge.kind == "step" and edge.height is not None:
        return ("Step between areas", wall_drawer(job, "step up to the higher roof", "wall", edge.height, place))
    return drawn.get(edge.kind)


def add_drains(job: Job, found: dict[tuple[object, ...], Found]) -> None:
    """Drains in the field by kind, size and sump; scuppers by kind and sizes."""
    sumps = {(d.area, d.of): d.length for d in job.paper.layout.details if d.kind == "sump"}
    for area in job.paper.areas:
        for drain in area.drains:
            place, sump = (area.name, drain.name), sumps.get((area.name, drain.name), 0.0)
            words = drain.kind.replace("_", " ").capitalize()
            sizes = (drain.kind, drain.diameter, drain.width, drain.height, drain.sill, sump)
            if drain.kind in ("drain", "overflow_drain"):
                draw = drain_drawer(job, drain, sump)
            elif drain.kind in ("scupper", "overflow_scupper"):
                draw = scupper_drawer(job, drain)
            else:
                continue
            found.setdefault(sizes, Found(words, [], draw)).places.append(place)


def drain_drawer(job: Job, drain: Drain, sump: float) -> Callable[[str], Section]:
    """What draws a drain in the field."""
    return lambda title: drain_section(job, drain, sump, title=title)


def scupper_drawer(job: Job, drain: Drain) -> Callable[[str], Section]:
    """What draws a scupper."""
    return lambda title: scupper_section(job, drain, title=title)


def corner_drawer(job: Job, form: str) -> Callable[[str], Section]:
    """What draws an inside or an outside corner."""
    return lambda title: corner_plan(job, inside=form == "inside", title=title)


def pipe_drawer(job: Job, diameter: float) -> Callable[[str], Section]:
    """What draws a pipe."""
    return lambda title: pipe_section(job, diameter, title=title)


def detail_plates(paper: Paper, *, width: float, height: float) -> tuple[Plate, ...]:
    """Every detail on a sheet of its own, `width` by `height` [mm]."""
    return tuple(
        section_plate(sheet.draw(), paper.head.units, width=width, height=height, places=place_words(sheet.places))
        for sheet in detail_list(paper)
    )


def place_words(places: tuple[Place, ...]) -> str:
    """`Main: side 1, side 3; Annex: RTU-1`; everywhere where no place is named."""
    by_area: dict[str, list[str]] = {}
    for area, name in places:
        by_area.setdefault(area, []).append(name)
    return "; ".join(f"{area}: {', '.join(names)}" for area, names in by_area.items()) or "everywhere on the roof"


def detail_numbers(paper: Paper) -> dict[Place, str]:
    """The number of the detail that shows each side, opening and pipe, for the key plan."""
    return {place: str(sheet.number) for sheet in detail_list(paper) for place in sheet.places}
