"""The layout of a whole job: Q1, what goes where."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import count

from lapwright.assembly.values import Assembly, Ply, Sheet
from lapwright.defaults.values import Rules
from lapwright.layout.abreast import beside_of, lengths_abreast, set_abreast
from lapwright.layout.bill import aimed, make_bill, money
from lapwright.layout.bounds import Bound, ply_bound
from lapwright.layout.choose import Chosen
from lapwright.layout.closing import in_closing_order
from lapwright.layout.copies import changed
from lapwright.layout.cost import Costs
from lapwright.layout.courses import Lines, least_offset
from lapwright.layout.cutting import Cut, cut_rolls
from lapwright.layout.detailjoints import detail_joints
from lapwright.layout.details.fieldlaps import field_laps
from lapwright.layout.details.joints import covered_sides
from lapwright.layout.details.make import FlashedArea, cut_details, flash_area, make_details
from lapwright.layout.feet import feet_laps
from lapwright.layout.ground import AreaGround, make_area_ground
from lapwright.layout.laps import Joined, join
from lapwright.layout.least import AreaNeed, job_least
from lapwright.layout.linechoice import choose_some
from lapwright.layout.pieces import make_pieces
from lapwright.layout.planelaps import Plane, plane_laps
from lapwright.layout.ripoffcuts import set_beside_rips
from lapwright.layout.setting import Before, Setting, nothing_before
from lapwright.layout.strapping import strap_warnings
from lapwright.layout.uncollected import uncollected
from lapwright.layout.valleys import make_valleys
from lapwright.layout.values import Detail, Frame, Lap, Layout, PlyLayout, Roll, TJoint
from lapwright.roof.values import Area

DRAFT = 0.005  # share of the usual search up to which somebody waits for a first layout


@dataclass(frozen=True, slots=True)
class AreaLayout:
    """One area's plies with what follows from them, before rolls are cut."""

    plies: tuple[PlyLayout, ...]
    details: tuple[Detail, ...]
    laps: tuple[Lap, ...]
    tjoints: tuple[TJoint, ...]
    warnings: tuple[tuple[str, str], ...]
    bounds: tuple[Bound, ...]
    planes: tuple[Plane, ...]


def make_layout(
    areas: Sequence[Area],
    assembly: Assembly,
    rules: Rules,
    *,
    grid: int,
    aim: str = "least_cost",
    costs: Costs | None = None,
    patience: float = 1.0,
) -> Layout:
    """Every piece, lap, T-joint, roll and detail of a job.

    grid: step that rips are read to [ticks]: 1/16" or 1 mm.  aim: what is spared first, of `cost.AIMS`.
    patience: share of the usual number of tries of the search for joints; every rule is kept whatever it is.  Up to
    `DRAFT` the bounds are of each ply by itself, which are lower.
    Raises: Conflict where the rules can't be met together.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_place.py; tests/rulecheck
    """
    with uncollected():
        return lay(make_ready(areas, assembly, rules, grid=grid), aim, costs or Costs(), patience)


@dataclass(frozen=True, slots=True)
class Ready:
    """A job made ready for its joints: all that does not hang on the aim.

    covered: sides at expansion joints whose cover belongs to an earlier area.  valleys: sheets in valleys with their
    laps.  bare, full: lengths that details take of each sheet [ticks] with how many, about: without those at openings
    and with them.  flashed: what is flashed of each area before its field is laid.
    """

    assembly: Assembly
    rules: Rules
    grid: int
    sheets: Mapping[str, Sheet]
    areas: tuple[AreaGround, ...]
    covered: frozenset[tuple[str, int]]
    valleys: tuple[list[Detail], list[Lap]]
    bare: tuple[Mapping[int, int], ...]
    full: tuple[Mapping[int, int], ...]
    flashed: Mapping[str, FlashedArea]


def make_ready(areas: Sequence[Area], assembly: Assembly, rules: Rules, *, grid: int) -> Ready:
    """The grounds of a job.

    Raises: Conflict where course lines can't keep their rules.
    Source: docs/method/layout.md
    """
    sheets = {ply.sheet.name: ply.sheet for ply in assembly.plies}
    grounds = tuple(make_area_ground(area, assembly, rules, grid=grid) for area in areas)
    covered = covered_sides(areas)
    valleys = make_valleys(areas, assembly, rules)

    flashing = (assembly.plies[0], assembly.plies[-1])

    def taken(of: Sequence[Area]) -> tuple[tuple[Mapping[int, int], ...], Mapping[str, FlashedArea]]:
        flashed = {area.name: flash_area(area, flashing, rules) for area in of}
        made = [detail for area in of for detail in cut_details(area, assembly, rules, flashed[area.name])]
        return lengths_abreast([*valleys[0], *made], sheets), flashed

    full, flashed = taken(areas)
    is_pierced = any(area.openings for area in areas)
    bare = taken([replace(area, openings=()) for area in areas])[0] if is_pierced else full
    return Ready(assembly, rules, grid, sheets, grounds, covered, valleys, bare, full, flashed)


def lay(ready: Ready, aim: str, costs: Costs, patience: float = 1.0) -> Layout:
    """The layout of a job for one aim.

    Raises: Conflict where the staggers leave no place.
    Source: method of our own, docs/method/layout.md
    """
    laid = lay_areas(ready, aim, costs, patience)
    plies = [ply for one in laid for ply in one.plies]
    details = make_cuts(laid, ready, plies)
    rolls, roll_of = cut_all(plies, details, ready.sheets)
    needs = [
        AreaNeed(one.area.name, one.regions, found.bounds, tuple(len(ply.courses) for ply in found.plies))
        for one, found in zip(ready.areas, laid, strict=True)
    ]
    least = job_least(needs, ready.assembly, ready.rules, costs, details, together=patience > DRAFT)
    plies = count_rolls(number_pieces(plies, roll_of), rolls, least.ply_rolls)
    frames = frames_of(ready)
    laps, tjoints = joined_laps(laid, ready, plies, details)
    return Layout(
        frames=frames,
        plies=tuple(plies),
        details=tuple(with_roll(detail, roll_of) for detail in details),
        laps=laps,
        tjoints=tjoints,
        rolls=tuple(rolls),
        warnings=(
            *warnings_of(plies),
            *rip_warnings(plies, ready.sheets),
            *strap_warnings([one.area for one in ready.areas], frames, ready.rules),
            *(warning for one in laid for warning in one.warnings),
        ),
        sheet_rolls_at_least=least.sheet_rolls,
        rolls_at_least=least.rolls,
        end_laps_at_least=least.end_laps,
        cost=money(make_bill(plies, rolls, tjoints, sizes_of(ready)), costs),
        cost_at_least=least.cost,
    )


def joined_laps(
    laid: Sequence[AreaLayout], ready: Ready, plies: Sequence[PlyLayout], details: Sequence[Detail]
) -> tuple[tuple[Lap, ...], tuple[TJoint, ...]]:
    """Every lap and T-joint of the job, those between its planes too, in the order in which they are closed."""
    laps = [*(lap for one in laid for lap in one.laps), *ready.valleys[1]]
    joints = [joint for one in laid for joint in one.tjoints]
    planes = [plane for one in laid for plane in one.planes]
    more, more_joints = plane_laps(planes, ready.valleys[0], laps, ready.rules)
    laps += more
    joints += more_joints
    areas, frames = [one.area for one in ready.areas], frames_of(ready)
    laps += feet_laps(details, plies, areas, frames, ready.assembly)
    joints += detail_joints(laps, details, areas, frames, ready.assembly, ready.rules)
    return in_closing_order(laps, joints, plies, details)


def frames_of(ready: Ready) -> Mapping[str, Frame]:
    """The frame of each area."""
    return {one.area.name: one.frame for one in ready.areas}


def lay_areas(ready: Ready, aim: str, costs: Costs, patience: float) -> list[AreaLayout]:
    """Each area in turn; offcuts of one go on to the next."""
    lengths = {name: sheet.length_ticks for name, sheet in ready.sheets.items()}
    before = nothing_before(len(lengths))
    setting = Setting(ready.rules, costs, aim, lengths, ready.bare, ready.full, patience)
    found: list[AreaLayout] = []
    for one in ready.areas:
        some = choose_some(one, ready.assembly, setting, before, ready.grid)
        made = [lay_area(ground, ready, chosen) for ground, chosen in some]
        worths = [worth_of([*found, each], ready, aim, costs) for each in made] if len(made) > 1 else [0.0]
        best = worths.index(min(worths))
        before = Before(some[best][1].pools, some[best][1].cut)
        found.append(made[best])
    return found


def worth_of(laid: Sequence[AreaLayout], ready: Ready, aim: str, costs: Costs) -> float:
    """What areas come to under an aim, their details cut from rolls, offcuts and what is ripped off."""
    plies = [ply for one in laid for ply in one.plies]
    details = make_cuts(laid, ready, plies)
    rolls, _ = cut_all(plies, details, ready.sheets)
    bill = make_bill(plies, rolls, [joint for one in laid for joint in one.tjoints], sizes_of(ready))
    return aimed(bill, aim, costs)


def make_cuts(laid: Sequence[AreaLayout], ready: Ready, plies: Sequence[PlyLayout]) -> list[Detail]:
    """The details of areas and valleys, each with what it is cut from or beside."""
    made = [*ready.valleys[0], *(detail for one in laid for detail in one.details)]
    return set_abreast(set_beside_rips(made, plies, ready.sheets), ready.sheets)


def sizes_of(ready: Ready) -> Mapping[str, tuple[int, int]]:
    """Width and roll length of each sheet."""
    return {name: (sheet.width_ticks, sheet.length_ticks) for name, sheet in ready.sheets.items()}


def lay_area(one: AreaGround, ready: Ready, chosen: Chosen) -> AreaLayout:
    """The pieces, laps and T-joints of an area, ply by ply from the bottom."""
    plies: list[PlyLayout] = []
    laps: list[Lap] = []
    tjoints: list[TJoint] = []
    bounds: list[Bound] = []
    planes: list[Plane] = []
    for i, (ground, region) in enumerate(zip(chosen.grounds, one.regions, strict=True)):
        joints = {(course, run): found for (ply, course, run), found in chosen.joints.items() if ply == i}
        pieces = make_pieces(one.area.name, ground, joints, ready.rules)
        cut = ready.rules.corner_cut_ticks if ground.ply == "cap" else 0
        joined = join(pieces, ground.sheet, one.frame, cut)
        laps += joined.laps
        tjoints += joined.tjoints
        is_cap = i == len(ready.assembly.plies) - 1
        bound = ply_bound(region, ground.sheet, ready.rules, is_cap=is_cap)
        bounds.append(bound)
        planes.append(Plane(one.area, one.frame, ready.assembly.plies[i], tuple(pieces)))
        plies.append(ply_layout(one.lines, i, joined, bound, ready.assembly.plies[i], ready.rules))
    field = field_laps(laps, one.frame, ready.assembly.plies[-1].ply)
    flashed = ready.flashed[one.area.name]
    made = make_details(one.area, ready.assembly, ready.rules, field, ready.covered, flashed=flashed)
    return AreaLayout(
        tuple(plies),
        tuple(made.details),
        (*laps, *made.laps),
        tuple(tjoints),
        tuple(made.warnings),
        tuple(bounds),
        tuple(planes),
    )


def ply_layout(lines: Sequence[Lines], i: int, joined: Joined, bound: Bound, ply: Ply, rules: Rules) -> PlyLayout:
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
        end_laps=sum(1 for lap in joined.laps if lap.kind == "end"),
        end_laps_at_least=bound.end_laps,
    )


def number_pieces(plies: Sequence[PlyLayout], roll_of: Mapping[str, str]) -> list[PlyLayout]:
    """Plies whose pieces know their rolls and their numbers over the job, in the order of laying."""
    numbers = count(1)
    return [
        replace(
            ply,
            pieces=tuple(changed(piece, roll=roll_of[piece.id], sequence=next(numbers)) for piece in ply.pieces),
        )
        for ply in plies
    ]


def cut_all(
    plies: Sequence[PlyLayout], details: Sequence[Detail], sheets: Mapping[str, Sheet]
) -> tuple[list[Roll], dict[str, str]]:
    """Every sheet's rolls, with field pieces and details cut from the same ones.

    The order of laying is area by area, ply by ply, course by course from the low edge, as pieces stand in the plies.
    """
    rolls: list[Roll] = []
    roll_of: dict[str, str] = {}
    pieces = [piece for ply in plies for piece in ply.pieces]
    for name, sheet in sheets.items():
        cuts = [
            Cut(piece.id, piece.cut_length, turn) for turn, piece in enumerate(pieces, start=1) if piece.sheet == name
        ]
        takers = [detail for detail in details if detail.sheet == name and detail.takes_ticks]
        rest = [Cut(detail.id, detail.takes_ticks, turn) for turn, detail in enumerate(takers, start=len(pieces) + 1)]
        found, where = cut_rolls(name, sheet.length_ticks, cuts, rest)
        beside = beside_of(detail for detail in details if detail.sheet == name)
        rolls += [replace(roll, pieces=with_beside(roll.pieces, beside)) for roll in found]
        roll_of.update(where)
        roll_of.update({id: where[taker] for taker, ids in beside.items() for id in ids})
    return rolls, roll_of


def with_beside(ids: Sequence[str], beside: Mapping[str, Sequence[str]]) -> tuple[str, ...]:
    """What is cut from a roll, each length followed by what is cut beside it."""
    return tuple(one for id in ids for one in (id, *beside.get(id, ())))


def with_roll(detail: Detail, roll_of: Mapping[str, str]) -> Detail:
    """A detail that knows the roll it is cut from, if it is cut from one."""
    return changed(detail, roll=roll_of[detail.id]) if detail.id in roll_of else detail


def count_rolls(plies: Sequence[PlyLayout], rolls: Sequence[Roll], least: Sequence[int]) -> list[PlyLayout]:
    """Rolls of each ply, a shared roll counted once, where it was opened; least: what each opens at least."""
    opened = {roll.pieces[0] for roll in rolls if roll.pieces}
    return [
        replace(ply, rolls=sum(1 for piece in ply.pieces if piece.id in opened), rolls_at_least=fewest)
        for ply, fewest in zip(plies, least, strict=True)
    ]


WORDS = {
    "offset_at_rip": "the top course would be under narrowest_rip, so the course below it is ripped too; beside it the"
    " side laps of the plies come closer than ply_offset, as ply_offset_at_rip allows",
    "offset_for_laps": "end laps find no place otherwise, so the course below the top one is ripped; beside it the"
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


def rip_warnings(plies: Sequence[PlyLayout], sheets: Mapping[str, Sheet]) -> Iterator[tuple[str, str]]:
    """Which courses between the first and the top one are ripped, ply by ply, as ranges."""
    for ply in plies:
        full = sheets[ply.sheet].width_ticks
        ripped = [course.index for course in ply.courses[1:-1] if course.high - course.low < full]
        if ripped:
            text = f"{ply.area}, {ply.ply}: ripped between the first and the top course: {said_ranges(ripped)}"
            why = "as ply_offset and narrowest_rip ask"
            yield (f"layout.ripped-{ply.area}/{ply.ply}", f"{text}, {why}")


def said_ranges(numbers: Sequence[int]) -> str:
    """Rising numbers, neighbours joined: 2, 5-7.  Source: arithmetic"""
    spans: list[tuple[int, int]] = []
    for number in numbers:
        if spans and number == spans[-1][1] + 1:
            spans[-1] = (spans[-1][0], number)
        else:
            spans.append((number, number))
    return ", ".join(str(low) if low == high else f"{low}-{high}" for low, high in spans)
