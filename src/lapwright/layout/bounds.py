"""How few rolls and end laps any layout could do with: bounds that hold for every choice.

Derivations: docs/method/layout.md.
"""

from __future__ import annotations

from typing import Any

from lapwright.assembly.values import Sheet
from lapwright.defaults.values import Rules
from lapwright.layout.region import Region

PHASES = 8  # starting levels tried; any of them gives a true bound


def rolls_at_least(region: Region, sheet: Sheet) -> int:
    """Rolls that the ground needs even if nothing were lapped or lost: its area over that of a roll, rounded up.

    Holds for: a sheet that serves one ply of one area only; where a sheet is shared, add the areas first.
    Source: area comparison
    """
    return -(-int(region.shape.area) // (sheet.width_ticks * sheet.length_ticks))


def end_laps_at_least(region: Region, sheet: Sheet, rules: Rules) -> int:
    """End laps that any layout of the ply has.

    A stretch of ground at a level, which goes on for a side lap above and below, lies in one course at that level or
    at the one a side lap lower, and has an end lap in it where it is longer than the longest piece.  Levels more than
    a sheet's width and a side lap apart speak of different courses.
    Source: docs/method/layout.md
    """
    longest = min(rules.longest_piece_ticks, sheet.length_ticks)
    apart = sheet.width_ticks + sheet.side_lap_ticks + 1
    steady = steady_ground(region, sheet.side_lap_ticks)
    best = 0
    for phase in range(PHASES):
        levels = range(region.begins + 1 + phase * apart // PHASES, region.ends, apart)
        best = max(best, sum(laps_at(steady, region, level, longest, sheet.end_lap_ticks) for level in levels))
    return best


def steady_ground(region: Region, side_lap: int) -> Any:  # noqa: ANN401  # shapely is imported where it is used
    """The ground that goes on for a side lap above and below, so that no two courses can share it at one level."""
    from shapely.affinity import translate

    ground: Any = region.shape
    for up in (-side_lap, -side_lap // 2, side_lap // 2, side_lap):
        ground = ground.intersection(translate(region.shape, yoff=up))
    return ground


def laps_at(ground: Any, region: Region, level: int, longest: int, end_lap: int) -> int:  # noqa: ANN401
    """End laps that the ground at one level needs."""
    from shapely import LineString

    shape: Any = ground.intersection(LineString([(region.left - 1, level), (region.right + 1, level)]))
    lines = [shape] if shape.geom_type == "LineString" else list(getattr(shape, "geoms", ()))
    lengths = [int(line.length) for line in lines if line.geom_type == "LineString"]
    return sum(-(-(length - longest) // (longest - end_lap)) for length in lengths if length > longest)
