"""How many different lengths are cut of each ply of an area at least.

Derivation: docs/method/layout.md, bounds, different lengths.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from lapwright.assembly.values import Assembly, Sheet
from lapwright.defaults.values import Rules
from lapwright.layout.cost import Costs
from lapwright.layout.levels import Level, make_levels
from lapwright.layout.region import Region

OWN = 2  # sheets, lapped, as high as which a band has a course that lies on it alone
NEXT = 4  # sheets higher than which it has two of them, next to one another


@dataclass(frozen=True, slots=True)
class Lengths:
    """Different lengths of a ply, those of whole rolls not counted.

    sure: whatever its courses are cut to.  more: these too, unless a course that lies on one of `bands` alone, over
    which one piece reaches, has an end lap.
    """

    sure: int
    more: int
    bands: tuple[Level, ...]


def lengths_cost(regions: Sequence[Region], assembly: Assembly, rules: Rules, costs: Costs) -> float:
    """Money for the lengths that are cut of each ply of an area, or for end laps instead.

    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_leastlengths.py, tests/reference
    """
    each = costs.worth("new_length")
    instead = min(each, costs.worth("end_lap"))
    found = [least_lengths(region, ply.sheet, rules) for ply, region in zip(assembly.plies, regions, strict=True)]
    return sum(one.sure * each + one.more * instead for one in found)


def least_lengths(region: Region, sheet: Sheet, rules: Rules) -> Lengths:
    """The different lengths of a ply.

    No piece is longer than `longest_piece`, nor than the ground is across the fall; one as long as a roll is not cut.
    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_leastlengths.py, tests/reference
    """
    roll, levels = sheet.length_ticks, make_levels(region)
    longest = min(rules.longest_piece_ticks, region.right - region.left)
    beside = staggered(levels, sheet, rules)
    sure = bool(beside) + (longest < roll)
    single = of_one_piece(levels, sheet, rules)
    most = len(single)
    for level in beside:
        last = level.right - level.left + sheet.end_lap_ticks - rules.shortest_piece_ticks
        most = max(most, sure + sum(one.right - one.left > last for one in single))
    return Lengths(sure, max(0, most - sure), single)


def staggered(levels: Sequence[Level], sheet: Sheet, rules: Rules) -> list[Level]:
    """Bands on which two neighbouring courses end alike and both have an end lap: their last pieces differ.

    The last joint lies as far from the end as the last piece is long, to the cutting step.
    Source: docs/method/layout.md, bounds
    """
    longest = min(rules.longest_piece_ticks, sheet.length_ticks)
    if rules.end_lap_stagger_ticks <= rules.cut_step_ticks:
        return []
    return [
        level
        for level in levels
        if level.right - level.left > longest and level.high - level.low > NEXT * sheet.width_ticks
    ]


def of_one_piece(levels: Sequence[Level], sheet: Sheet, rules: Rules) -> tuple[Level, ...]:
    """Bands of different lengths on which a course lies alone that one piece reaches over.

    It leaves so much of its roll that more pieces use up no less.  Lengths within two cutting steps count as one.
    Source: docs/method/layout.md, bounds
    """
    longest = min(rules.longest_piece_ticks, sheet.length_ticks - rules.shortest_piece_ticks)
    found: list[Level] = []
    for level in sorted(levels, key=lambda one: one.right - one.left):
        length = level.right - level.left
        if length > longest or level.high - level.low < own_height(sheet):
            continue
        if not found or length - (found[-1].right - found[-1].left) > 2 * rules.cut_step_ticks:
            found.append(level)
    return tuple(found)


def own_height(sheet: Sheet) -> int:
    """Height of a band from which a course lies on it alone: one begins less than a pitch up, or right at its low edge.

    Source: arithmetic
    """
    return OWN * sheet.width_ticks - sheet.side_lap_ticks
