"""The layout of a whole job: Q1, what goes where."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from lapwright.assembly.values import Assembly, Ply, Sheet
from lapwright.defaults.values import Rules
from lapwright.layout.abreast import beside_of, set_abreast
from lapwright.layout.bounds import end_laps_at_least, rolls_at_least
from lapwright.layout.courses import Band, Lines, Stack, least_offset, plan_lines
from lapwright.layout.cutting import Cut, cut_rolls
from lapwright.layout.details.fieldlaps import field_laps
from lapwright.layout.details.joints import covered_sides
from lapwright.layout.details.make import make_details
from lapwright.layout.frame import make_frame
from lapwright.layout.keepclear import barred
from lapwright.layout.laps import Joined, join
from lapwright.layout.pieces import Joints, PlyGround, best_joints, hold_joints, make_pieces
from lapwright.layout.region import Region, make_region
from lapwright.layout.runs import ply_runs
from lapwright.layout.strapping import strap_warnings
from lapwright.layout.valleys import make_valleys
from lapwright.layout.values import Detail, Frame, Lap, Layout, PlyLayout, Roll, TJoint
from lapwright.roof.values import Area


@dataclass(frozen=True, slots=True)
class AreaLayout:
    """One area's plies with what follows from them, before rolls are cut."""

    frame: Frame
    plies: tuple[PlyLayout, ...]
    details: tuple[Detail, ...]
    laps: tuple[Lap, ...]
    tjoints: tuple[TJoint, ...]
    ground: Mapping[tuple[str, str], int]
    warnings: tuple[tuple[str, str], ...] = ()


def make_layout(areas: Sequence[Area], assembly: Assembly, rules: Rules, *, grid: int) -> Layout:
    """Every piece, lap, T-joint, roll and detail of a job.

    grid: step that rips are read to [ticks]: 1/16" or 1 mm.
    Raises: Conflict where the rules can't be met together.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_place.py; tests/rulecheck
    """
    covered = covered_sides(areas)
    laid = [lay_area(area, assembly, rules, grid=grid, covered=covered) for area in areas]
    plies = number_pieces([ply for one in laid for ply in one.plies])
    in_valleys, valley_laps = make_valleys(areas, assembly, rules)
    details = [*in_valleys, *(detail for one in laid for detail in one.details)]
    sheets = {ply.sheet.name: ply.sheet for ply in assembly.plies}
    details = set_abreast(details, sheets)
    rolls, roll_of = cut_all(plies, details, sheets)
    plies = count_rolls([with_roll(ply, roll_of) for ply in plies], rolls)
    ground = {key: area for one in laid for key, area in one.ground.items()}
    frames = {area.name: one.frame for area, one in zip(areas, laid, strict=True)}
    return Layout(
        frames=frames,
        plies=tuple(plies),
        details=tuple(replace(detail, roll=roll_of.get(detail.id, "")) for detail in details),
        laps=(*(lap for one in laid for lap in one.laps), *valley_laps),
        tjoints=tuple(joint for one in laid for joint in one.tjoints),
        rolls=tuple(rolls),
        warnings=(
            *warnings_of(plies),
            *strap_warnings(areas, frames, rules),
            *(warning for one in laid for warning in one.warnings),
        ),
        sheet_rolls_at_least=sheet_bounds(plies, ground, sheets),
    )


def lay_area(
    area: Area, assembly: Assembly, rules: Rules, *, grid: int, covered: frozenset[tuple[str, int]] = frozenset()
) -> AreaLayout:
    """One area: course lines of all plies together, then each ply from the bottom."""
    frame = make_frame(area, rules)
    next_under = len(assembly.plies) - 2
    regions = [make_region(area, frame, rules, under_cap=i == next_under) for i in range(len(assembly.plies))]
    bands = [
        Band(ply.ply, ply.sheet.width_ticks, ply.sheet.side_lap_ticks, region.begins, region.ends)
        for ply, region in zip(assembly.plies, regions, strict=True)
    ]
    stack = Stack(rules.ply_offset_ticks, rules.ply_offset_at_rip_ticks, rules.narrowest_rip_ticks, grid)
    lines = plan_lines(bands, stack)
    grounds = [
        keep_clear(make_ground(ply, one, region, upper=i > 0), area, frame, ply, rules)
        for i, (ply, one, region) in enumerate(zip(assembly.plies, lines, regions, strict=True))
    ]
    under: tuple[PlyGround, Joints] | None = None
    plies: list[PlyLayout] = []
    laps: list[Lap] = []
    tjoints: list[TJoint] = []
    for i, (ground, region) in enumerate(zip(grounds, regions, strict=True)):
        over = grounds[i + 1] if i + 1 < len(grounds) else None
        joints = best_joints(ground, under, over, rules)
        pieces = make_pieces(area.name, ground, joints, rules)
        cut = rules.corner_cut_ticks if ground.ply == "cap" else 0
        joined = join(pieces, ground.sheet, frame, cut)
        by_course: Joints = {}
        for (course, _), places in joints.items():
            by_course.setdefault(course, []).extend(places)
        under = (ground, by_course)
        laps += joined.laps
        tjoints += joined.tjoints
        plies.append(ply_layout(lines, i, joined, region, assembly.plies[i], rules))
    field = field_laps(laps, frame, assembly.plies[-1].ply)
    made = make_details(area, assembly, rules, field, covered)
    grounds_of = {
        (area.name, ply.ply): int(region.shape.area) for ply, region in zip(assembly.plies, regions, strict=True)
    }
    return AreaLayout(
        frame, tuple(plies), tuple(made.details), (*laps, *made.laps), tuple(tjoints), grounds_of, tuple(made.warnings)
    )


def make_ground(ply: Ply, lines: Lines, region: Region, *, upper: bool) -> PlyGround:
    """A ply's courses with their runs and held laps."""
    courses = lines.courses()
    runs = ply_runs(region, courses, ply.sheet.side_lap_ticks)
    held = hold_joints(runs, ply.sheet.end_lap_ticks, upper=upper)
    return PlyGround(ply.ply, ply.sheet, courses, runs, held)


def keep_clear(ground: PlyGround, area: Area, frame: Frame, ply: Ply, rules: Rules) -> PlyGround:
    """The ground with what drains and valleys bar to its end laps."""
    lap = ply.sheet.end_lap_ticks
    spans = {one.index: tuple(barred(area, frame, ply, one.low, one.high, lap, rules)) for one in ground.courses}
    return replace(ground, barred=spans)


def ply_layout(lines: Sequence[Lines], i: int, joined: Joined, region: Region, ply: Ply, rules: Rules) -> PlyLayout:
    """One ply's layout with its starter, its tolerance and its bound on end laps."""
    one = lines[i]
    near = [least_offset(one.lines, lines[k].lines) for k in (i - 1, i + 1) if 0 <= k < len(lines)]
    gaps = [gap for gap in near if gap is not None]
    least = min(gaps) if gaps else None
    return PlyLayout(
        area=joined.pieces[0].area,
        ply=ply.ply,
        position=i + 1,
        sheet=ply.sheet.name,
        courses=one.courses(),
        pieces=joined.pieces,
        begins=one.band.begins,
        starter=one.starter,
        tolerance=None if least is None else max(0, least - rules.ply_offset_ticks),
        offset_least=least,
        exceptions=one.exceptions,
        rolls_at_least=rolls_at_least(region, ply.sheet),
        end_laps=sum(1 for lap in joined.laps if lap.kind == "end"),
        end_laps_at_least=end_laps_at_least(region, ply.sheet, rules),
    )


def number_pieces(plies: Sequence[PlyLayout]) -> list[PlyLayout]:
    """Sequence numbers over the job: area by area, ply by ply, course by course from the low edge."""
    result, sequence = [], 0
    for ply in plies:
        pieces = []
        for piece in ply.pieces:
            sequence += 1
            pieces.append(replace(piece, sequence=sequence))
        result.append(replace(ply, pieces=tuple(pieces)))
    return result


def cut_all(
    plies: Sequence[PlyLayout], details: Sequence[Detail], sheets: Mapping[str, Sheet]
) -> tuple[list[Roll], dict[str, str]]:
    """Every sheet's rolls, with field pieces and details cut from the same ones."""
    rolls: list[Roll] = []
    roll_of: dict[str, str] = {}
    last = sum(len(ply.pieces) for ply in plies)
    for name, sheet in sheets.items():
        cuts = [
            Cut(piece.id, piece.cut_length, piece.sequence)
            for ply in plies
            for piece in ply.pieces
            if piece.sheet == name
        ]
        takers = [detail for detail in details if detail.sheet == name and detail.takes_ticks]
        cuts += [Cut(detail.id, detail.takes_ticks, last + k) for k, detail in enumerate(takers, start=1)]
        found, where = cut_rolls(name, sheet.length_ticks, cuts)
        beside = beside_of(detail for detail in details if detail.sheet == name)
        rolls += [replace(roll, pieces=with_beside(roll.pieces, beside)) for roll in found]
        roll_of.update(where)
        roll_of.update({id: where[taker] for taker, ids in beside.items() for id in ids})
    return rolls, roll_of


def with_beside(ids: Sequence[str], beside: Mapping[str, Sequence[str]]) -> tuple[str, ...]:
    """What is cut from a roll, each length followed by what is cut beside it."""
    return tuple(one for id in ids for one in (id, *beside.get(id, ())))


def with_roll(ply: PlyLayout, roll_of: Mapping[str, str]) -> PlyLayout:
    """A ply whose pieces know their rolls."""
    return replace(ply, pieces=tuple(replace(piece, roll=roll_of[piece.id]) for piece in ply.pieces))


def count_rolls(plies: Sequence[PlyLayout], rolls: Sequence[Roll]) -> list[PlyLayout]:
    """Rolls of each ply, a shared roll counted once, where it was opened.

    A sheet that serves several plies or areas gives no bound ply by ply, since any of them could be cut from rolls
    opened for another: the bound is then 0 here and stands for the sheet as a whole.
    """
    opened = {roll.pieces[0] for roll in rolls if roll.pieces}
    users: dict[str, int] = {}
    for ply in plies:
        users[ply.sheet] = users.get(ply.sheet, 0) + 1
    return [
        replace(
            ply,
            rolls=sum(1 for piece in ply.pieces if piece.id in opened),
            rolls_at_least=ply.rolls_at_least if users[ply.sheet] == 1 else 0,
        )
        for ply in plies
    ]


def sheet_bounds(
    plies: Sequence[PlyLayout], areas: Mapping[tuple[str, str], int], sheets: Mapping[str, Sheet]
) -> dict[str, int]:
    """Rolls of each sheet that no layout can do without: the ground of all its plies over the area of a roll."""
    return {
        name: -(
            -sum(areas[(ply.area, ply.ply)] for ply in plies if ply.sheet == name)
            // (sheet.width_ticks * sheet.length_ticks)
        )
        for name, sheet in sheets.items()
    }


WORDS = {
    "offset_at_rip": "the top course would be under narrowest_rip, so the course below it is ripped too; beside it the"
    " side laps of the plies come closer than ply_offset, as ply_offset_at_rip allows",
    "narrow_top": "the top course is under narrowest_rip: only the first course lies below it, and that one stays full",
}


def warnings_of(plies: Sequence[PlyLayout]) -> tuple[tuple[str, str], ...]:
    """What had to give, ply by ply."""
    return tuple(
        (f"layout.{word.replace('_', '-')}-{ply.area}/{ply.ply}", f"{ply.area}, {ply.ply}: {WORDS[word]}")
        for ply in plies
        for word in ply.exceptions
    )
