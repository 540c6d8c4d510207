"""What no layout of a job can do without: rolls of each sheet and of all, end laps, and money.

Derivation: docs/method/layout.md, bounds.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product

from lapwright.assembly.values import Assembly, Sheet
from lapwright.defaults.values import Rules
from lapwright.layout.bounds import Bound
from lapwright.layout.cost import Costs
from lapwright.layout.laplines import Band
from lapwright.layout.leastlengths import lengths_cost
from lapwright.layout.leastrips import least_rips
from lapwright.layout.levels import SLIVER, are_long, make_levels
from lapwright.layout.region import Region
from lapwright.layout.together import ROUNDING, Least, least_together, make_apart, more_courses
from lapwright.layout.values import Detail
from lapwright.layout.worths import SHARES
from lapwright.units.factors import TICKS_PER_METRE

SINGLE = ("gusset", "target", "strip_corner", "pipe_strip", "scupper_strip")  # details that lie by themselves


@dataclass(frozen=True, slots=True)
class AreaNeed:
    """An area as the bounds look at it: each ply's ground, and its bound by itself.

    courses: of each ply of a layout that is there; none where none is known.
    """

    name: str
    regions: Sequence[Region]
    bounds: Sequence[Bound]
    courses: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class JobLeast:
    """Bounds over a job: rolls by ply in laying order, by sheet, and of all sheets; end laps of all plies; money."""

    ply_rolls: tuple[int, ...]
    sheet_rolls: Mapping[str, int]
    rolls: int
    end_laps: int
    cost: float


@dataclass(frozen=True, slots=True)
class Choice:
    """What an area's plies use at least when they have certain numbers of courses: rolls of each ply, in order."""

    use: tuple[float, ...]


def job_least(
    areas: Sequence[AreaNeed],
    assembly: Assembly,
    rules: Rules,
    costs: Costs,
    details: Sequence[Detail],
    *,
    together: bool = True,
) -> JobLeast:
    """The bounds of a job.

    together: plies are looked at together as well, which takes seconds on a roof of several bands; without it the
    bounds are lower.
    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_least.py, tests/reference
    """
    sheets = {ply.sheet.name: ply.sheet for ply in assembly.plies}
    names = [ply.sheet.name for ply in assembly.plies]
    levels = [[make_levels(region) for region in area.regions] for area in areas]
    plain = {
        name: all(
            are_long(found[i], rules.shortest_piece_ticks)
            for found in levels
            for i, own in enumerate(names)
            if own == name
        )
        for name in sheets
    }
    least = [least_together(assembly.plies, found, rules, costs, plain) if together else None for found in levels]
    choices = [choices_of(area, one, assembly, rules) for area, one in zip(areas, least, strict=True)]
    detailed = {name: detail_rolls(name, areas, names, sheet, details) for name, sheet in sheets.items()}
    sheet_rolls = {
        name: max(
            rolled_up(sum(min(used(choice, names)[name] for choice in found) for found in choices)),
            detailed[name],
            own_rolls(name, names, areas),
        )
        for name in sheets
    }
    work = [most_work(area, one, assembly, rules, costs) for area, one in zip(areas, least, strict=True)]
    weighed = least[0].weighed if len(areas) == 1 and least[0] else ()
    prices = {name: costs.price(name) for name in sheets}
    return JobLeast(
        tuple(ply_rolls(areas, choices, names)),
        sheet_rolls,
        round(cheapest(choices, names, Rolls(sheet_rolls, weighed), dict.fromkeys(sheets, 1.0))),
        sum(laps_of(area, one) for area, one in zip(areas, least, strict=True)),
        whole_cost(cheapest(choices, names, Rolls(sheet_rolls, weighed), prices), work)
        + sum(lengths_cost(area.regions, assembly, rules, costs) for area in areas)
        + sum(rips(area, assembly, rules, costs, together=together) for area in areas),
    )


def whole_cost(rolls: float, work: Sequence[Sequence[float]]) -> float:
    """Money for rolls and work.

    rolls: for all rolls at least.  work: of each area, for each of SHARES, work and that share of what it uses of
    rolls; so much of their price is left out of the rolls.
    Source: docs/method/layout.md, bounds
    """
    return max((1.0 - share) * rolls + sum(each[k] for each in work) for k, share in enumerate(SHARES))


def laps_of(area: AreaNeed, least: Least | None) -> int:
    """End laps of an area's plies at least."""
    return max(sum(bound.end_laps for bound in area.bounds), least.end_laps if least else 0)


def rips(area: AreaNeed, assembly: Assembly, rules: Rules, costs: Costs, *, together: bool = True) -> float:
    """Money for the different widths that are ripped of each ply of an area.

    together: plies are looked at together; without it, and where no more is said, the cap's first alone.
    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_least.py, tests/reference
    """
    least = first_rip(area, assembly, costs)
    if not together or not all(make_levels(region) for region in area.regions):
        return least
    bands = tuple(
        Band(ply.ply, ply.sheet.width_ticks, ply.sheet.side_lap_ticks, region.begins, region.ends)
        for ply, region in zip(assembly.plies, area.regions, strict=True)
    )
    is_held = assembly.plies[-1].sheet.is_granular
    return max(least, costs.worth("new_rip") * least_rips(bands, make_apart(rules, len(bands)), is_held=is_held))


def first_rip(area: AreaNeed, assembly: Assembly, costs: Costs) -> float:
    """Money for the first ripped width of an area's cap: full sheets, lapped as asked, seldom end at its high edge.

    Nothing where the cap bears no granules, since it may lap wider then.
    Source: docs/method/layout.md, bounds
    """
    sheet, region = assembly.plies[-1].sheet, area.regions[-1]
    pitch = sheet.width_ticks - sheet.side_lap_ticks
    over = (region.ends - region.begins - sheet.side_lap_ticks) % pitch
    return costs.worth("new_rip") if sheet.is_granular and SLIVER < over < pitch - SLIVER else 0.0


def most_work(area: AreaNeed, least: Least | None, assembly: Assembly, rules: Rules, costs: Costs) -> tuple[float, ...]:
    """Money for an area's work with each of SHARES of what it uses of rolls: of all plies together, and ply by ply.

    Each is a bound, the greater one holds; on some ground little is found of all plies together but their end laps.
    """
    own = own_work(area, laps_of(area, least), assembly, rules, costs)
    return own if least is None else tuple(map(max, least.work, own))


def own_work(area: AreaNeed, end_laps: int, assembly: Assembly, rules: Rules, costs: Costs) -> tuple[float, ...]:
    """Money for the end laps of an area, their T-joints, and the cuts of plies that have no piece as long as a roll.

    At each level there is one piece more at least than there are end laps.
    end_laps: of all plies at least, no less than those of each by itself together.
    Returns: the same with each of SHARES of the price of the rolls that the lengths fill.
    """
    total, used = (end_laps - sum(bound.end_laps for bound in area.bounds)) * costs.worth("end_lap"), 0.0
    for ply, bound in zip(assembly.plies, area.bounds, strict=True):
        total += bound.end_laps * costs.worth("end_lap") + bound.t_joints * costs.worth("t_joint")
        if rules.longest_piece_ticks < ply.sheet.length_ticks:
            total += (bound.end_laps + len(bound.levels)) * costs.worth("cut")
        used += bound.length / ply.sheet.length_ticks * costs.price(ply.sheet.name)
    return tuple(total + share * used for share in SHARES)


def choices_of(area: AreaNeed, least: Least | None, assembly: Assembly, rules: Rules) -> list[Choice]:
    """What the plies of an area use at least; one of these holds."""
    lengths = [ply.sheet.length_ticks for ply in assembly.plies]
    own = [bound.length / length for bound, length in zip(area.bounds, lengths, strict=True)]
    if least is not None:
        return [Choice(tuple(max(a, b) for a, b in zip(use, own, strict=True))) for use in least.use]
    found = []
    heights = [(region.begins, region.ends) for region in area.regions]
    for more in more_courses(heights, assembly, rules, area.courses):
        rows = zip(own, more, area.bounds, lengths, strict=True)
        found.append(Choice(tuple(use + extra * bound.solid / length for use, extra, bound, length in rows)))
    return found


def used(choice: Choice, names: Sequence[str]) -> dict[str, float]:
    """Rolls used up by sheet."""
    found = dict.fromkeys(names, 0.0)
    for name, use in zip(names, choice.use, strict=True):
        found[name] += use
    return found


def rolled_up(use: float) -> int:
    """Whole rolls.  Source: arithmetic"""
    return math.ceil(use - ROUNDING)


@dataclass(frozen=True, slots=True)
class Rolls:
    """Whole rolls of each sheet at least, and what rolls of all sheets come to by weights of theirs."""

    least: Mapping[str, int]
    weighed: Sequence[tuple[Mapping[str, float], float]]


def cheapest(
    choices: Sequence[Sequence[Choice]], names: Sequence[str], rolls: Rolls, prices: Mapping[str, float]
) -> float:
    """The least that rolls come to: for one area over what goes together, for several sheet by sheet."""
    if len(choices) > 1:
        return sum(count * prices[name] for name, count in rolls.least.items())
    return min(
        dearer(
            {name: max(rolled_up(use), rolls.least[name]) for name, use in used(choice, names).items()}, rolls, prices
        )
        for choice in choices[0]
    )


def dearer(counts: Mapping[str, int], rolls: Rolls, prices: Mapping[str, float]) -> float:
    """The least that so many rolls of each sheet or more come to, the weighed sums kept.

    Tried are all ways to give more to all sheets but the last, as far as any sum asks for; a sum in which the others
    weigh nothing is one sheet's own.
    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_least.py
    """
    counts = dict(counts)
    for weights, least in rolls.weighed:
        if not all(weights.values()):  # of one sheet by itself
            for name in (name for name, weight in weights.items() if weight):
                counts[name] = max(counts[name], rolled_up(least / weights[name]))
    rolls = replace(rolls, weighed=[one for one in rolls.weighed if all(one[0].values())])
    *others, last = counts
    most = max([0, *(rolled_up(short / min(weights.values())) for weights, short in short_of(counts, rolls))])
    found = []
    for more in product(range(most + 1), repeat=len(others)):
        tried = dict(counts)
        for name, extra in zip(others, more, strict=True):
            tried[name] += extra
        tried[last] += max([0, *(rolled_up(short / weights[last]) for weights, short in short_of(tried, rolls))])
        found.append(sum(count * prices[name] for name, count in tried.items()))
    return min(found)


def short_of(counts: Mapping[str, int], rolls: Rolls) -> list[tuple[Mapping[str, float], float]]:
    """What rolls lack of each weighed sum, with its weights.  Source: arithmetic"""
    return [
        (weights, least - sum(weights[name] * count for name, count in counts.items()))
        for weights, least in rolls.weighed
    ]


def ply_rolls(areas: Sequence[AreaNeed], choices: Sequence[Sequence[Choice]], names: Sequence[str]) -> Iterator[int]:
    """Rolls that each ply opens at least, in laying order: of a sheet only the ply that is laid first.

    What it is cut from was opened for it; later ones could be cut from rolls opened before.
    """
    seen: set[str] = set()
    for area, found in zip(areas, choices, strict=True):
        for i, name in enumerate(names):
            is_only = len(areas) == 1 and names.count(name) == 1
            own = area.bounds[i].rolls if is_only else 0
            yield 0 if name in seen else max(own, rolled_up(min(choice.use[i] for choice in found)))
            seen.add(name)


def own_rolls(name: str, names: Sequence[str], areas: Sequence[AreaNeed]) -> int:
    """Rolls of a sheet that serves one ply of one area, by that ply's own bound."""
    if len(areas) > 1 or names.count(name) > 1:
        return 0
    return areas[0].bounds[names.index(name)].rolls


def detail_rolls(
    name: str, areas: Sequence[AreaNeed], names: Sequence[str], sheet: Sheet, details: Sequence[Detail]
) -> int:
    """Rolls of a sheet by the area of plies with their laps and of details, whatever is cut beside what.

    What follows one another counts without its lap, since another layout may have fewer of them.
    """
    width, side, end = (x / TICKS_PER_METRE for x in (sheet.width_ticks, sheet.side_lap_ticks, sheet.end_lap_ticks))
    ground = sum(
        area.bounds[i].area / TICKS_PER_METRE**2 for area in areas for i, own in enumerate(names) if own == name
    )
    made = sum(covers(one, side, end) for one in details if one.sheet == name)
    return rolled_up((ground + made) / (width * sheet.length_ticks / TICKS_PER_METRE))


def covers(detail: Detail, side_lap: float, end_lap: float) -> float:
    """What a detail covers [m²]; of a flashing less a side lap along the wall, of other strips less an end lap."""
    if detail.kind in SINGLE:
        return detail.length * detail.width
    if detail.kind == "flashing":
        return detail.length * max(0.0, detail.width - side_lap)
    return max(0.0, detail.length - end_lap) * detail.width
