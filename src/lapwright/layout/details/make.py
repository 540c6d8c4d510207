"""Every detail of an area with the laps between them, in the order of the job file."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from lapwright.assembly.values import Assembly, Ply
from lapwright.defaults.values import Rules
from lapwright.layout.details.corners import gusset_laps, gussets
from lapwright.layout.details.drains import (
    FIELD_DRAINS,
    SCUPPERS,
    Patched,
    field_drain,
    pipe_flashed,
    scupper_flashed,
    sump_side,
)
from lapwright.layout.details.edges import corner_strip, corner_strip_laps, edge_strips, strip_laps, tie_in_strips
from lapwright.layout.details.fieldlaps import FieldLaps
from lapwright.layout.details.flashings import Flashed, fixings, flash_stand, flashing_laps
from lapwright.layout.details.joints import cants, expansion_covers
from lapwright.layout.details.lengths import detail_ticks
from lapwright.layout.details.metal import corner_metal, edge_metal, metal_meetings
from lapwright.layout.details.stands import Corner, corners_of, stands_of
from lapwright.layout.values import Detail, Lap
from lapwright.roof.values import Area, Drain

NO_FIELD = FieldLaps()


@dataclass(slots=True)
class Details:
    """Details of an area, the laps between them, and what the user should know of them: id and words."""

    details: list[Detail] = field(default_factory=list)
    laps: list[Lap] = field(default_factory=list)
    warnings: list[tuple[str, str]] = field(default_factory=list)

    def take(self, patched: Patched) -> None:
        """Add a patch and its laps."""
        self.details += patched.details
        self.laps += patched.laps


def make_details(
    area: Area,
    assembly: Assembly,
    rules: Rules,
    laps: FieldLaps = NO_FIELD,
    covered: frozenset[tuple[str, int]] = frozenset(),
    *,
    flashed: FlashedArea | None = None,
) -> Details:
    """Details of one area.

    laps: of the field's top ply, which flashing joints keep off.  covered: sides at expansion joints whose cover
    belongs to an earlier area.  flashed: what is flashed before the field is laid, where that is known.
    Source: common practice, no source
    Checked: tests/layout/test_pencil_roof.py
    """
    found = Details()
    plies = (assembly.plies[0], assembly.plies[-1])
    add_edges(found, area, assembly, rules)
    found.details += expansion_covers(area, covered)
    before = flashed or flash_area(area, plies, rules)
    add_flashings(found, area, off_laps(before, area, plies, rules, laps), plies, rules)
    add_patches(found, area, plies, rules)
    found.warnings += [*step_warnings(area), *drain_warnings(area, rules)]
    return found


def cut_details(area: Area, assembly: Assembly, rules: Rules, flashed: FlashedArea) -> list[Detail]:
    """Those details of one area that are cut from sheets, as they are before its field is laid, in the same order.

    They are asked for what they take of the rolls, so the laps between them and all that is bought are left out.
    Source: common practice, no source
    Checked: tests/layout/test_cut_details.py
    """
    found = Details()
    add_edges(found, area, assembly, rules)
    found.details += [piece for one in flashed.faces for piece in one.pieces]
    found.details += [gusset for corner in flashed.corners for gusset in corner.gussets]
    add_patches(found, area, (assembly.plies[0], assembly.plies[-1]), rules)
    return [one for one in found.details if one.sheet]


def add_edges(found: Details, area: Area, assembly: Assembly, rules: Rules) -> None:
    """Strips, metal and tie-ins along the sides, then what is over the corners of metal."""
    plies = (assembly.plies[0], assembly.plies[-1])
    under = plies[0].sheet
    laid: list[Detail] = []
    for edge in area.edges:
        if edge.kind == "metal_edge":
            made = edge_strips(area, edge, under, rules) if len(assembly.plies) == 2 else []
            laid += made
            found.details += [*made, *edge_metal(area, edge)]
            found.laps += strip_laps(made, under)
        elif edge.kind == "tie_in":
            for ply, made in zip(plies, tie_in_strips(area, edge, plies, rules), strict=True):
                found.details += made
                found.laps += strip_laps(made, ply.sheet)
    for meeting in metal_meetings(area):
        if laid:
            corner = corner_strip(area, meeting, under, rules)
            found.details.append(corner)
            found.laps += corner_strip_laps(corner, laid, meeting.at)
        found.details += corner_metal(area, meeting)


@dataclass(frozen=True, slots=True)
class FlashedCorner:
    """A corner with the flashings that meet there and its gussets."""

    corner: Corner
    faces: Sequence[Flashed]
    gussets: Sequence[Detail]


@dataclass(frozen=True, slots=True)
class FlashedArea:
    """What is flashed of an area: backer and cap flashing of every stand, and every corner."""

    stands: Sequence[Sequence[Flashed]]
    corners: Sequence[FlashedCorner]

    @property
    def faces(self) -> list[Flashed]:
        """The flashings of every stand, one after the other."""
        return [one for both in self.stands for one in both]


def flash_area(area: Area, plies: Sequence[Ply], rules: Rules) -> FlashedArea:
    """The flashing of every stand, and the gussets of the corners, before the field is laid.

    plies: of the backer, of the cap.
    Source: common practice, no source
    Checked: tests/layout/test_cut_details.py
    """
    stands = stands_of(area)
    made = [flash_stand(area.name, stand, plies, ((), ()), rules) for stand in stands]
    faces = by_stand(made)
    corners = []
    for corner in corners_of(area, stands):
        here = [one for stand in corner.stands for one in faces[stand.of]]
        girths = [max(one.first.length for one in here if one.first.ply == ply.ply) for ply in plies]
        corners.append(FlashedCorner(corner, here, gussets(area.name, corner, plies, girths, rules)))
    return FlashedArea(made, corners)


def off_laps(before: FlashedArea, area: Area, plies: Sequence[Ply], rules: Rules, laps: FieldLaps) -> FlashedArea:
    """What is flashed of an area, its joints off the laps of the field; where a stand meets none, as it was before."""
    made = []
    for both in before.stands:
        stand = both[0].stand
        meets = (laps.meet(stand), laps.meet_ends(stand))
        made.append(flash_stand(area.name, stand, plies, meets, rules) if any(meets) else both)
    faces = by_stand(made)
    corners = [
        FlashedCorner(one.corner, [face for stand in one.corner.stands for face in faces[stand.of]], one.gussets)
        for one in before.corners
    ]
    return FlashedArea(made, corners)


def by_stand(made: Iterable[Sequence[Flashed]]) -> dict[str, list[Flashed]]:
    """Flashings by the name of their stand."""
    found: dict[str, list[Flashed]] = {}
    for both in made:
        found.setdefault(both[0].stand.of, []).extend(both)
    return found


def add_flashings(found: Details, area: Area, flashed: FlashedArea, plies: Sequence[Ply], rules: Rules) -> None:
    """Flashing, fixing and cant of every stand, then the gussets of the corners, with the laps between them."""
    ends: dict[str, list[Corner]] = {}
    for one in flashed.corners:
        for stand in one.corner.stands:
            ends.setdefault(stand.of, []).append(one.corner)
    for both in flashed.stands:
        for ply, face in zip(plies, both, strict=True):
            found.details += face.pieces
            found.laps += flashing_laps(face, ply.sheet)
        stand = both[-1].stand
        found.details += fixings(area.name, both[-1])
        found.details += cants(area.name, stand, ends.get(stand.of, ()), rules)
    for one in flashed.corners:
        found.details += one.gussets
        found.laps += gusset_laps(one.corner, one.gussets, one.faces)
    found.warnings += flashing_warnings(area, flashed.faces)


def add_patches(found: Details, area: Area, plies: Sequence[Ply], rules: Rules) -> None:
    """What drains and pipes ask for."""
    for drain in area.drains:
        for patched in drain_patches(area, drain, plies, rules):
            found.take(patched)
    for pipe in area.pipes:
        for patched in pipe_flashed(area, pipe, plies, rules):
            found.take(patched)


def flashing_warnings(area: Area, made: Sequence[Flashed]) -> Iterator[tuple[str, str]]:
    """Faces that are not flashed to their top; how many flashing joints could not keep off the field's laps."""
    near, joints = sum(one.near for one in made), sum(len(row) - 1 for one in made for row in one.rows)
    low = dict.fromkeys(one.stand.of for one in made if is_below_top(one))
    if low:
        yield (
            f"layout.flashing-height-{area.name}",
            f"{area.name}: flashed to flashing_height, not to the top: {', '.join(low)}; above that the wall's own "
            "finish has to cover it and close over the flashing's top edge",
        )
    if near:
        yield (
            f"layout.flashing-laps-{area.name}",
            f"{area.name}: {near} of {joints} laps between flashing pieces lie nearer than flashing_lap_stagger to a "
            "lap of the field that runs into the wall; nowhere within their reach is far enough from one",
        )


def is_below_top(flashed: Flashed) -> bool:
    """A flashing ends below the top of a face whose height is given."""
    parts, height = flashed.first.parts, flashed.stand.height
    return height is not None and parts["wall"] + parts["cant"] / math.sqrt(2.0) < height - 1e-6


def drain_patches(area: Area, drain: Drain, plies: Sequence[Ply], rules: Rules) -> Iterator[Patched]:
    """What a drain or scupper asks for; a gutter asks for nothing here."""
    if drain.kind in FIELD_DRAINS:
        yield from field_drain(area, drain, plies, rules)
    elif drain.kind in SCUPPERS:
        yield from scupper_flashed(area, drain, plies, rules)


def step_warnings(area: Area) -> Iterator[tuple[str, str]]:
    """Steps without a height: the high side, whose edge is closed by what the job does not say.

    A step of falls between two planes of an area is none of them: one sheet goes over it.
    """
    sides = [f"{edge.side}" for edge in area.edges if edge.kind == "step" and edge.height is None]
    if sides and not area.whole:
        yield (
            f"layout.step-{area.name}",
            f"{area.name}, side {', '.join(sides)}: a step without a height is taken for the high side: plies end at "
            "its line, and no metal or strip is counted there; the low side is flashed where its height is given",
        )


def drain_warnings(area: Area, rules: Rules) -> Iterator[tuple[str, str]]:
    """Drains without room for a sump, scuppers without a size."""
    for drain in area.drains:
        where = f"{area.name}, {drain.name}"
        if drain.kind in FIELD_DRAINS and sump_side(area, drain, rules) < detail_ticks("sump_least"):
            yield (
                f"layout.sump-{area.name}/{drain.name}",
                f"{where}: an edge or opening leaves no room for the least sump about this drain",
            )
        if drain.kind in SCUPPERS and (drain.width is None or drain.height is None):
            yield (
                f"layout.scupper-{area.name}/{drain.name}",
                f"{where}: width and height of the scupper are not both given; strips over its flange are not counted",
            )
