"""Which course lines an area is laid with: those that promise the least, judged before any joint is chosen."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from lapwright.assembly.values import Assembly
from lapwright.layout.bounds import fewest_laps
from lapwright.layout.choose import Chosen, choose_joints, has_place, no_place
from lapwright.layout.cost import weights_of
from lapwright.layout.courses import Conflict
from lapwright.layout.ground import AreaGround, line_choices, make_area_ground, one_sided, stack_of, wider_tops
from lapwright.layout.levels import tight_joints
from lapwright.layout.pieces import PlyGround
from lapwright.layout.setting import Before, Setting
from lapwright.layout.tightlaps import CourseTakes, TightLaps
from lapwright.layout.together import make_apart
from lapwright.layout.wholesheets import unripped

OTHERS = 4  # other starters looked at, on a small area or where the first lines leave no place
SMALL = 60  # runs of all plies up to which an area is small
TRIED = 1  # other lines of a small area that are tried to the end
BETTER = 0.0005  # share of its worth by which other lines must promise less before they are tried


def choose_some(
    one: AreaGround, assembly: Assembly, setting: Setting, before: Before, grid: int
) -> list[tuple[AreaGround, Chosen]]:
    """The joints of an area on the course lines that promise the least; where they find no place, on others.

    Of a small area those on its own lines too, the cheaper first: what its details then take of the rolls, and of what
    is ripped off, is known only when it is laid.  Whole sheets lie on more courses of other plies, whose end laps they
    keep clear of, so sheets that are ripped are laid as well.
    grid: step that rips are read to [ticks].
    Raises: Conflict where no lines leave a place.
    Source: docs/method/layout.md
    """
    is_small = sum(len(runs) for ground in one.bare for runs in ground.runs) <= SMALL
    least = promise(one, setting) * (1.0 - BETTER)
    made = list(others(one, assembly, setting, grid, OTHERS if is_small else 0))
    promised = [(promise(ground, setting), k) for k, ground in enumerate(made)]
    better = [made[k] for worth, k in sorted(promised) if worth < least]
    whole = [ground for ground in better if is_whole(ground)]
    better = [ground for ground in better if not is_whole(ground)]
    conflicts: list[Conflict] = []
    found: list[tuple[float, AreaGround, Chosen]] = []
    for ground in (*whole[:1], *better[: TRIED if is_small else 1], one):
        if not is_small and any(not is_whole(each) for _, each, _ in found):
            break
        try:
            found.append(laid_on(ground, setting, before, is_doubtful=bool(conflicts)))
        except Conflict as conflict:
            conflicts.append(conflict)
    if not found:
        found += first_of(fallbacks(one, assembly, setting, grid), setting, before)
    if not found:
        raise conflicts[-1]
    if lies_bare(one, assembly, setting):
        found = [spared(each, assembly, setting, grid) for each in found]
    return [(ground, chosen) for _, ground, chosen in sorted(found, key=lambda each: each[0])]


def others(one: AreaGround, assembly: Assembly, setting: Setting, grid: int, most: int) -> Iterator[AreaGround]:
    """The area on other course lines."""
    is_spare = lies_bare(one, assembly, setting)
    for lines in line_choices(one, assembly, setting.rules, grid=grid, most=most, is_spare=is_spare):
        yield make_area_ground(one.area, assembly, setting.rules, grid=grid, lines=lines)


def is_whole(ground: AreaGround) -> bool:
    """Sheets under the cap are laid whole."""
    return any(one.whole for one in ground.lines)


def lies_bare(one: AreaGround, assembly: Assembly, setting: Setting) -> bool:
    """Nothing goes through an area's roof and no detail is cut from the sheets under its cap: what is ripped off them
    would serve nothing.
    """
    under_cap = {ply.sheet.name for ply in assembly.plies[:-1]}
    taken = {name for name, cut in zip(setting.sheets, setting.full, strict=True) if cut}
    return not one.area.openings and not taken & under_cap


def spared(
    laid: tuple[float, AreaGround, Chosen], assembly: Assembly, setting: Setting, grid: int
) -> tuple[float, AreaGround, Chosen]:
    """An area with those courses of whole sheets whose end laps allow it."""
    cost, one, chosen = laid
    joints: list[dict[int, tuple[int, ...]]] = [{} for _ in one.plies]
    for (ply, course, _), places in chosen.joints.items():
        joints[ply][course] = (*joints[ply].get(course, ()), *places)
    rules = setting.rules
    lines = unripped(one.lines, joints, stack_of(rules, grid), rules.end_lap_ply_offset_ticks)
    if lines == one.lines:
        return laid
    ground = make_area_ground(one.area, assembly, rules, grid=grid, lines=lines)
    if [spans_of(ply) for ply in ground.plies] != [spans_of(ply) for ply in one.plies]:
        return laid  # beside a step runs are shorter where sheets lap wider
    cost += ripped(ground, setting) - ripped(one, setting)
    return cost, ground, replace(chosen, grounds=ground.plies)


def spans_of(ply: PlyGround) -> list[tuple[int, int]]:
    """From where to where each run of a ply goes."""
    return [(run.left, run.right) for runs in ply.runs for run in runs]


def fallbacks(one: AreaGround, assembly: Assembly, setting: Setting, grid: int) -> Iterator[AreaGround]:
    """The area on other course lines, then with wider top courses; none twice."""
    tried = [one.lines]
    for ground in others(one, assembly, setting, grid, OTHERS):
        tried.append(ground.lines)
        yield ground
    for top in wider_tops(one, setting.rules, grid):
        try:
            ground = make_area_ground(one.area, assembly, setting.rules, grid=grid, top=top)
        except Conflict:  # the wider top course has no place
            continue
        if ground.lines not in tried:
            tried.append(ground.lines)
            yield ground


def first_of(grounds: Iterable[AreaGround], setting: Setting, before: Before) -> list[tuple[float, AreaGround, Chosen]]:
    """The first ground on which joints find a place; empty where there is none."""
    for ground in grounds:
        try:
            return [laid_on(ground, setting, before, is_doubtful=True)]
        except Conflict:
            continue
    return []


def laid_on(
    ground: AreaGround, setting: Setting, before: Before, *, is_doubtful: bool = False
) -> tuple[float, AreaGround, Chosen]:
    """The joints of an area on given course lines, and what it costs with its rips.

    Held laps lie on alternate sides of their openings; where that leaves no place, all on one side.
    is_doubtful: whether there is a place at all is asked first, which is far less work than to choose.
    Raises: Conflict where that leaves no place either.
    """
    first: Conflict | None = None
    for plies in (ground.plies, one_sided(ground.plies, right=True), one_sided(ground.plies, right=False)):
        if (is_doubtful or first) and not has_place(plies, setting, before):
            first = first or no_place(plies[0])
            continue
        try:
            chosen = choose_joints(ground.bare, plies, setting, before)
        except Conflict as found:
            first = first or found
        else:
            return chosen.cost + ripped(ground, setting), ground, chosen
    assert first is not None  # there are sides to try
    raise first


def promise(ground: AreaGround, setting: Setting) -> float:
    """What an area would cost with the fewest end laps that its lines let its courses have, rolls without waste, and
    its rips.
    """
    weights = weights_of(setting.aim, setting.costs, setting.sheets)
    plies = []
    for ply in ground.bare:
        sheet, lap = ply.sheet, ply.sheet.end_lap_ticks
        a_tick = weights.roll[sheet.name] / sheet.length_ticks
        courses = []
        for course, runs in zip(ply.courses, ply.runs, strict=True):
            lengths = [run.right - run.left for run in runs]
            laps = [fewest_laps(length, ply.longest, lap) for length in lengths]
            spans = tight_joints((runs[0].left, runs[0].right), laps[0], ply.longest, lap) if len(runs) == 1 else ()
            paid = sum(laps) * weights.end_lap + (sum(lengths) + sum(laps) * lap) * a_tick
            courses.append(CourseTakes(course.low, spans, paid, weights.end_lap + lap * a_tick))
        plies.append(courses)
    return ripped(ground, setting) + TightLaps(plies, make_apart(setting.rules, len(plies)).joints).least()


def ripped(ground: AreaGround, setting: Setting) -> float:
    """What the different widths of an area's ripped courses cost."""
    widths = sum(
        len({course.high - course.low for course in ply.courses} - {ply.sheet.width_ticks}) for ply in ground.bare
    )
    return widths * setting.costs.worth("new_rip")
