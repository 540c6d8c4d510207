"""How few rolls and end laps any layout could do with: bounds that hold for every choice of course lines and joints.

Derivations: docs/method/layout.md, bounds.  What they take for granted: neighbouring sheets lap by the side lap at
least wherever they meet on the ground, and a course lies wherever the ground that it shows goes on.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from lapwright.assembly.values import Sheet
from lapwright.defaults.values import Rules
from lapwright.layout.joints import Span
from lapwright.layout.linecover import cover_least
from lapwright.layout.region import Region
from lapwright.layout.sections import Edges, Ground, edges_of, upright_strips

MOST_STARTS = 8  # levels from which courses are counted up; any of them gives a true bound
STRIP = 24_384  # 1': width of the strips in which slanted ground is measured; a wider one gives a weaker bound


@dataclass(frozen=True, slots=True)
class Bound:
    """What no layout of a ply on an area can do without.

    length: of sheet [ticks], laps included; usable: the same where what a roll has left is too short for any piece;
    end_laps; levels: the stretches that different courses must cover, course by course, with the pairs that are solid.
    solid: width of the ground that goes on from the low edge to the high one [ticks].  area: of sheet [ticks²].
    t_joints: of those end laps that have side laps at both ends.
    """

    length: int
    usable: int
    end_laps: int
    levels: tuple[tuple[Span, ...], ...]
    rolls: int
    solid: int
    area: float
    t_joints: int


def ply_bound(region: Region, sheet: Sheet, rules: Rules, *, is_cap: bool = False) -> Bound:
    """The bounds of one ply on one area.

    is_cap: side laps over granules are no wider than asked.
    Holds for: a sheet that serves one ply of one area only, as far as rolls go; else add the lengths first.
    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_bounds.py, tests/reference
    """
    edges = edges_of(region)
    ground = Ground(edges)
    longest = min(rules.longest_piece_ticks, sheet.length_ticks)
    lap = sheet.end_lap_ticks

    def laps(stretch: Span) -> int:
        return fewest_laps(stretch[1] - stretch[0], longest, lap)

    levels, pairs, places = most_levels(ground, region, sheet, lambda found: float(sum(laps(one) for one in found)))
    stagger = rules.end_lap_stagger_ticks
    tight = [k for k in pairs if is_tight(levels[k][0], levels[k + 1][0], longest, lap, stagger)]
    end_laps = sum(laps(one) for found in levels for one in found) + disjoint(tight)
    strips = list(upright_strips(edges, STRIP))
    is_exact = is_cap and sheet.is_granular
    through, beyond = (0.0, 0.0) if ground.is_square else cover_least(ground, region, sheet, is_exact=is_exact)
    once = sum(width for width, heights in strips if heights)
    covered = max(courses_length(strips, sheet), math.floor(once + through)) + end_laps * lap
    usable = covered
    if is_plain(edges, rules.shortest_piece_ticks, longest, sheet):
        long_levels, _, _ = most_levels(ground, region, sheet, lambda found: float(sum(b - a for a, b in found)))
        taken = sum(least_use(b - a, sheet.length_ticks, rules, lap) for found in long_levels for a, b in found)
        usable = max(covered, taken)
    rolls = -(-usable // sheet.length_ticks)
    solid = math.floor(sum(width for width, heights in strips if is_whole(heights, region)))
    area = max(courses_area(strips, sheet), float(region.shape.area) + beyond) + lap * laps_height(
        ground, region, sheet, laps
    )
    width = sheet.width_ticks
    joints = 2 * sum(laps(one) for v in places for one in ground.stretches(v - width - 0.5, v + width + 1.5))
    return Bound(covered, usable, end_laps, tuple(tuple(found) for found in levels), rolls, solid, area, joints)


def laps_height(ground: Ground, region: Region, sheet: Sheet, laps: Callable[[Span], int]) -> float:
    """Length of all end laps up the fall: at each level as many as the course that shows there needs [ticks].

    Looked at in bands of `STRIP`; in each only ground counts that goes on through it and a side lap above.
    Source: docs/method/layout.md, bounds
    """
    total = 0.0
    for low in range(region.begins, region.ends, STRIP):
        high = min(low + STRIP, region.ends)
        stretches = ground.stretches(low + 0.5, min(high + sheet.side_lap_ticks, region.ends) - 0.5)
        total += (high - low) * sum(laps(one) for one in stretches)
    return total


def is_whole(heights: Sequence[tuple[float, float]], region: Region) -> bool:
    """Ground that goes on from the low edge to the high one without a break."""
    return len(heights) == 1 and heights[0][0] <= region.begins + 1 and heights[0][1] >= region.ends - 1


def courses_area(strips: Sequence[tuple[float, Sequence[tuple[float, float]]]], sheet: Sheet) -> float:
    """Area of sheet over the ground with its side laps, of which a stretch has one between each two sheets [ticks²].

    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_bounds.py
    """
    total, lap = 0.0, sheet.side_lap_ticks
    for width, heights in strips:
        for low, high in heights:
            count = fewest_sheets([(low, high)], sheet.width_ticks, lap)
            total += width * (high - low + (count - 1) * lap)
    return total


def fewest_laps(length: int, longest: int, end_lap: int) -> int:
    """End laps that a stretch needs, whatever the joints: k pieces reach k·longest − (k − 1)·end_lap.

    Source: arithmetic
    """
    return max(0, -(-(length - longest) // (longest - end_lap)))


def most_levels(
    ground: Ground, region: Region, sheet: Sheet, weight: Callable[[Sequence[Span]], float]
) -> tuple[list[list[Span]], list[int], list[int]]:
    """Stretches of ground at levels that no two courses can share, of all starts tried those that weigh most.

    Returns: the stretches level by level, those levels k of which k and k + 1 lie on one solid rectangle, and where
    the levels lie.
    """
    pitch, lap = sheet.width_ticks - sheet.side_lap_ticks, sheet.side_lap_ticks
    best: tuple[float, list[int]] = (-1.0, [])
    cache: dict[int, list[Span]] = {}
    for start in starts(ground.edges, region):
        lowest = start - (start - region.begins) // (pitch + 1) * (pitch + 1)
        levels = list(range(lowest, region.ends, pitch + 1))
        total = 0.0
        for level in levels:
            if level not in cache:
                cache[level] = ground.stretches(level + 0.5, level + 0.5 + lap)
            total += weight(cache[level])
        if total > best[0]:
            best = (total, levels)
    chosen = [level for level in best[1] if cache[level]]
    pairs = [k for k, (a, b) in enumerate(pairwise(chosen)) if is_solid(ground, cache[a], cache[b], a, b + lap)]
    return [cache[level] for level in chosen], pairs, chosen


def starts(edges: Edges, region: Region) -> list[int]:
    """Levels to count courses from: the low edge, and levels where the ground changes, a few of them evenly chosen."""
    marks = sorted({round(v) for v in edges[:, 1].tolist() if region.begins <= v < region.ends})
    if len(marks) > MOST_STARTS:
        marks = [marks[k * (len(marks) - 1) // (MOST_STARTS - 1)] for k in range(MOST_STARTS)]
    return sorted({region.begins, *marks})


def is_solid(ground: Ground, one: Sequence[Span], two: Sequence[Span], low: int, high: int) -> bool:
    """Two levels with one stretch each, the same, and ground without a break between them."""
    if len(one) != 1 or len(two) != 1 or one[0] != two[0]:
        return False
    between = ground.stretches(low + 0.5, high + 0.5)
    return len(between) == 1 and between[0] == one[0]


def is_tight(one: Span, two: Span, longest: int, end_lap: int, stagger: int) -> bool:
    """Neighbouring courses can't both have the fewest pieces: their joints have less play than the stagger."""
    length = one[1] - one[0]
    count = fewest_laps(length, longest, end_lap) + 1
    play = count * longest - (count - 1) * end_lap - length
    return count > 1 and one == two and play < stagger


def disjoint(pairs: Sequence[int]) -> int:
    """How many pairs (k, k + 1) have no level in common, taken from below.  Source: arithmetic"""
    count, free = 0, -1
    for k in pairs:
        if k >= free:
            count, free = count + 1, k + 2
    return count


def courses_length(strips: Sequence[tuple[float, Sequence[tuple[float, float]]]], sheet: Sheet) -> int:
    """Length of sheet that the ground needs without end laps: over each place across the fall, the fewest sheets.

    Source: docs/method/layout.md, bounds
    """
    total = 0.0
    for width, heights in strips:
        total += width * fewest_sheets(heights, sheet.width_ticks, sheet.side_lap_ticks)
    return math.floor(total)


def fewest_sheets(heights: Sequence[tuple[float, float]], width: int, side_lap: int) -> int:
    """Sheets that cover stretches up the fall, each lapping the one below it where they meet on the ground.

    Source: greedy from the low edge, docs/method/layout.md
    Checked: tests/layout/test_bounds.py
    """
    count, top = 0, -math.inf
    for low, high in heights:
        if high <= top:
            continue
        begins = max(low, top - side_lap) if low < top else low
        more = max(1, math.ceil((high - begins - side_lap) / (width - side_lap) - 1e-9))
        count += more
        top = begins + more * (width - side_lap) + side_lap
    return count


def is_plain(edges: Edges, shortest: int, longest: int, sheet: Sheet) -> bool:
    """No run can be shorter than the shortest piece, and a roll is no longer than the longest piece it gives.

    Sides run along and across the fall, and every side across it is as long as the shortest piece.
    """
    along = abs(edges[:, 0] - edges[:, 2])
    upright = abs(edges[:, 1] - edges[:, 3])
    is_square = bool(((along < 2) | (upright < 2)).all())
    return (
        is_square
        and len(edges) <= 6
        and bool((along[upright < 2] >= shortest).all())
        and (sheet.length_ticks < longest + shortest)
    )


def least_use(length: int, roll: int, rules: Rules, end_lap: int) -> int:
    """Length of roll that a run uses up at least: where its pieces leave less than a piece altogether, whole rolls.

    Source: docs/method/layout.md, bounds
    """
    longest = min(rules.longest_piece_ticks, roll)
    fewest = fewest_laps(length, longest, end_lap) + 1
    found = []
    for count in (fewest, fewest + 1):
        taken = length + (count - 1) * end_lap
        found.append(count * roll if count * roll - taken < rules.shortest_piece_ticks else taken)
    return min(found)
