"""An area made ready for its joints: the ground, course lines, runs and held laps of each ply, with and without what
goes through the roof.

*Bare* ground is that of the outline alone.  Joints are chosen for it first, so that a curb that moves changes only the
courses it touches.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from lapwright.assembly.values import Assembly, Ply
from lapwright.defaults.values import Rules
from lapwright.layout.courses import Band, Conflict, Lines, Stack, line_options, plan_lines
from lapwright.layout.frame import make_frame
from lapwright.layout.keepclear import barred
from lapwright.layout.narrowtop import even_tops
from lapwright.layout.pieces import PlyGround, hold_joints
from lapwright.layout.region import Region, make_region
from lapwright.layout.sharedrips import other_counts, sharing
from lapwright.layout.snapping import snapped, steps_of
from lapwright.layout.values import Frame
from lapwright.layout.wholesheets import whole_sheets
from lapwright.layout.wideruns import wide_runs
from lapwright.roof.values import Area

MOST_EVEN = 5  # choices of lines with evenly ripped courses
MOST_TOPS = 6  # widths of top courses tried where end laps find no place


@dataclass(frozen=True, slots=True)
class AreaGround:
    """One area, ready for its joints; plies bottom first.

    bare: the same as `plies` where nothing goes through the roof.
    """

    area: Area
    frame: Frame
    regions: tuple[Region, ...]
    lines: tuple[Lines, ...]
    plies: tuple[PlyGround, ...]
    bare: tuple[PlyGround, ...]


def make_area_ground(
    area: Area, assembly: Assembly, rules: Rules, *, grid: int, lines: Sequence[Lines] | None = None, top: int = 0
) -> AreaGround:
    """Course lines of all plies together, then each ply's runs and held laps.

    lines: those of `line_choices` to take; None: the first of them.
    top: exposed width that every top course has at least, where that is more than `narrowest_rip` asks [ticks].
    Raises: Conflict where course lines can't keep their rules.
    Source: docs/method/layout.md
    """
    frame = make_frame(area, rules)
    last = len(assembly.plies) - 1
    regions = [make_region(area, frame, rules, under_cap=i == last - 1) for i in range(last + 1)]
    if lines is None:
        lines = plan_lines(bands_of(assembly, regions), stack_of(rules, grid, top))
        lines = tuple(for_laps(one, rules) for one in lines) if top else lines
    plies = ply_grounds(assembly.plies, lines, regions, rules)
    bare = plies
    clear = [keep_clear(ground, area, frame, ply, rules) for ground, ply in zip(plies, assembly.plies, strict=True)]
    if any(ground.barred for ground in clear):
        plies = tuple(clear)
    if area.openings:
        outline = replace(area, openings=())
        without = [make_region(outline, frame, rules, under_cap=i == last - 1) for i in range(last + 1)]
        bare = ply_grounds(assembly.plies, lines, without, rules)
    return AreaGround(area, frame, tuple(regions), tuple(lines), plies, bare)


def for_laps(lines: Lines, rules: Rules) -> Lines:
    """Lines with a wider top than is asked, what had to give noted as given for the end laps' sake."""
    words = ["offset_for_laps" if word == "offset_at_rip" else word for word in lines.exceptions]
    if lines.top_exposed >= rules.narrowest_rip_ticks:
        words = [word for word in words if word != "narrow_top"]
    return replace(lines, exceptions=tuple(words))


def wider_tops(ground: AreaGround, rules: Rules, grid: int) -> list[int]:
    """Exposed widths of top courses at which the course below passes by an opening's side, rising; a few.

    There an opening reaches in from the long side of that course, which then needs no end lap at it, or is clear of it.
    Source: method of our own, docs/method/layout.md
    """
    found = set()
    for region, ply in zip(ground.regions, ground.plies, strict=True):
        for ring in region.openings:
            levels = [v for _, v in ring]
            for line in (max(levels), min(levels) - ply.sheet.side_lap_ticks):
                width = -(-(region.ends - line) // grid) * grid
                if rules.narrowest_rip_ticks < width < ply.sheet.width_ticks - ply.sheet.side_lap_ticks:
                    found.add(width)
    return sorted(found)[:MOST_TOPS]


def bands_of(assembly: Assembly, regions: Sequence[Region]) -> list[Band]:
    """Where each ply begins and ends up the fall."""
    return [
        Band(ply.ply, ply.sheet.width_ticks, ply.sheet.side_lap_ticks, region.begins, region.ends)
        for ply, region in zip(assembly.plies, regions, strict=True)
    ]


def stack_of(rules: Rules, grid: int, top: int = 0) -> Stack:
    """What course lines answer to.  top: least exposed width of top courses, where that is more than the rules'."""
    narrowest = max(top, rules.narrowest_rip_ticks)
    return Stack(rules.ply_offset_ticks, rules.ply_offset_at_rip_ticks, narrowest, grid)


def line_choices(
    one: AreaGround, assembly: Assembly, rules: Rules, *, grid: int, most: int, is_spare: bool = False
) -> list[tuple[Lines, ...]]:
    """Course lines an area could have instead of its own: at steps of its ground, other starters, shared rips, and of
    whole sheets under the cap.

    most: other starters looked at.  is_spare: what is ripped off sheets under the cap serves no detail.
    Source: docs/method/layout.md
    """
    stack, steps = stack_of(rules, grid), [steps_of(region) for region in one.regions]
    bands = bands_of(assembly, one.regions)
    options = line_options(bands, stack, most + 1) if most else [one.lines]
    for even in () if one.area.openings else even_tops(one.lines, stack):
        options += even_options(bands, replace(stack, rip=even))
    drawn = [snapped(lines, stack, steps) for lines in options] if any(steps) else []
    shared = [*sharing(one.lines, stack), *other_counts(one.lines, stack)] if most else []
    found = [tuple(lines) for lines in (*drawn, *options, *shared) if lines is not None]
    if is_spare and not one.area.openings:
        found += whole_sheets(one.lines, found, stack)
    return [lines for k, lines in enumerate(found) if lines != one.lines and lines not in found[:k]]


def even_options(bands: Sequence[Band], stack: Stack) -> list[tuple[Lines, ...]]:
    """Lines whose top courses are as wide as `even_tops` has them; none where that can't be."""
    try:
        return line_options(bands, stack, MOST_EVEN)
    except Conflict:
        return []


def ply_grounds(
    plies: Sequence[Ply], lines: Sequence[Lines], regions: Sequence[Region], rules: Rules
) -> tuple[PlyGround, ...]:
    """Each ply's courses with their runs; held laps of neighbouring courses and plies take different sides."""
    grounds = [make_ground(ply, one, region, rules) for ply, one, region in zip(plies, lines, regions, strict=True)]
    return tuple(hold(ground, alternate(i)) for i, ground in enumerate(grounds))


def alternate(ply: int) -> Callable[[int], bool]:
    """Sides that change from course to course and from ply to ply."""
    return lambda course: (course + ply) % 2 == 0


def one_sided(grounds: Sequence[PlyGround], *, right: bool) -> tuple[PlyGround, ...]:
    """The same grounds with every held lap on one side of its opening: they bar less to the laps between openings.

    Source: common practice, no source
    """
    return tuple(hold(ground, lambda course: right) for ground in grounds)


def hold(ground: PlyGround, is_right: Callable[[int], bool]) -> PlyGround:
    """The ground with its held laps on the sides asked."""
    held = hold_joints(ground.runs, ground.sheet.end_lap_ticks, is_right)
    by_course: dict[int, tuple[int, ...]] = {}
    for (course, _), joints in held.items():
        by_course[course] = (*by_course.get(course, ()), *joints)
    return replace(ground, held=held, held_by_course=by_course)


def keep_clear(ground: PlyGround, area: Area, frame: Frame, ply: Ply, rules: Rules) -> PlyGround:
    """The ground with what drains and valleys bar to its end laps."""
    lap = ply.sheet.end_lap_ticks
    spans = {one.index: barred(area, frame, ply, one.low, one.high, lap, rules) for one in ground.courses}
    return replace(ground, barred={index: tuple(found) for index, found in spans.items() if found})


def make_ground(ply: Ply, lines: Lines, region: Region, rules: Rules) -> PlyGround:
    """A ply's courses with their runs."""
    courses = lines.courses()
    runs = wide_runs(region, courses, ply.sheet.side_lap_ticks)
    longest = min(rules.longest_piece_ticks, ply.sheet.length_ticks)
    return PlyGround(ply.ply, ply.sheet, courses, runs, {}, {}, rules.shortest_piece_ticks, longest)
