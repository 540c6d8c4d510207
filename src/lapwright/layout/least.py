"""What no layout of a job can do without: rolls of each sheet and of all, end laps, and money.

Derivation: docs/method/layout.md, bounds.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from lapwright.assembly.values import Assembly, Sheet
from lapwright.defaults.values import Rules
from lapwright.layout.bounds import Bound
from lapwright.layout.cost import Costs
from lapwright.layout.levels import are_long, make_levels
from lapwright.layout.region import Region
from lapwright.layout.together import ROUNDING, Least, least_together
from lapwright.layout.values import Detail
from lapwright.units.factors import TICKS_PER_METRE

SINGLE = ("gusset", "target", "strip_corner", "pipe_strip", "scupper_strip")  # details that lie by themselves


@dataclass(frozen=True, slots=True)
class AreaNeed:
    """An area as the bounds look at it: each ply's ground, and its bound by itself."""

    name: str
    regions: Sequence[Region]
    bounds: Sequence[Bound]


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
    areas: Sequence[AreaNeed], assembly: Assembly, rules: Rules, costs: Costs, details: Sequence[Detail]
) -> JobLeast:
    """The bounds of a job.

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
    least = [least_together(assembly.plies, found, rules, costs, plain) for found in levels]
    choices = [choices_of(area, one, assembly) for area, one in zip(areas, least, strict=True)]
    detailed = {name: detail_rolls(name, areas, names, sheet, details) for name, sheet in sheets.items()}
    sheet_rolls = {
        name: max(
            rolled_up(sum(min(used(choice, names)[name] for choice in found) for found in choices)),
            detailed[name],
            own_rolls(name, names, areas),
        )
        for name in sheets
    }
    work = sum(
        one.work if one else sum(bound.end_laps for bound in area.bounds) * costs.worth("end_lap")
        for area, one in zip(areas, least, strict=True)
    )
    prices = {name: costs.price(name) for name in sheets}
    return JobLeast(
        tuple(ply_rolls(areas, choices, names)),
        sheet_rolls,
        round(cheapest(choices, names, sheet_rolls, dict.fromkeys(sheets, 1.0))),
        sum(laps_of(area, one) for area, one in zip(areas, least, strict=True)),
        cheapest(choices, names, sheet_rolls, prices) + work,
    )


def laps_of(area: AreaNeed, least: Least | None) -> int:
    """End laps of an area's plies at least."""
    return max(sum(bound.end_laps for bound in area.bounds), least.end_laps if least else 0)


def choices_of(area: AreaNeed, least: Least | None, assembly: Assembly) -> list[Choice]:
    """What the plies of an area use at least; one of these holds."""
    lengths = [ply.sheet.length_ticks for ply in assembly.plies]
    own = [bound.length / length for bound, length in zip(area.bounds, lengths, strict=True)]
    if least is None:
        return [Choice(tuple(own))]
    return [Choice(tuple(max(a, b) for a, b in zip(use, own, strict=True))) for use in least.use]


def used(choice: Choice, names: Sequence[str]) -> dict[str, float]:
    """Rolls used up by sheet."""
    found = dict.fromkeys(names, 0.0)
    for name, use in zip(names, choice.use, strict=True):
        found[name] += use
    return found


def rolled_up(use: float) -> int:
    """Whole rolls.  Source: arithmetic"""
    return math.ceil(use - ROUNDING)


def cheapest(
    choices: Sequence[Sequence[Choice]], names: Sequence[str], least: Mapping[str, int], prices: Mapping[str, float]
) -> float:
    """The least that rolls come to: for one area over what goes together, for several sheet by sheet."""
    if len(choices) > 1:
        return sum(count * prices[name] for name, count in least.items())
    return min(
        sum(max(rolled_up(use), least[name]) * prices[name] for name, use in used(choice, names).items())
        for choice in choices[0]
    )


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
    """Rolls of a sheet by what is covered alone, plies and details, whatever is cut beside what.

    Of a detail a lap less at each end counts, since another layout may lap it less.
    """
    width, lap = sheet.width_ticks / TICKS_PER_METRE, max(sheet.end_lap_ticks, sheet.side_lap_ticks) / TICKS_PER_METRE
    ground = sum(
        float(area.regions[i].shape.area) / TICKS_PER_METRE**2
        for area in areas
        for i, own in enumerate(names)
        if own == name
    )
    made = sum(covers(one, lap) for one in details if one.sheet == name)
    return rolled_up((ground + made) / (width * sheet.length_ticks / TICKS_PER_METRE))


def covers(detail: Detail, lap: float) -> float:
    """What a detail covers [m²]; of what is made of several pieces less a lap at both ends."""
    if detail.kind in SINGLE:
        return detail.length * detail.width
    if detail.kind == "flashing":
        return detail.length * max(0.0, detail.width - 2 * lap)
    return max(0.0, detail.length - 2 * lap) * detail.width
