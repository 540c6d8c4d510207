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

    Levels more than a sheet's width apart lie in different courses; so do levels more than the exposed width apart,
    save in the top course, whose whole width may lie open, so that the last of them is left out.  A stretch of ground
    at a level that is longer than the longest piece has an end lap in it, whatever the courses and joints.
    Source: docs/method/layout.md
    """
    longest = min(rules.longest_piece_ticks, sheet.length_ticks)
    best = 0
    for apart, dropped in ((sheet.width_ticks + 1, 0), (sheet.pitch_ticks + 1, 1)):
        for phase in range(PHASES):
            levels = range(region.begins + 1 + phase * apart // PHASES, region.ends, apart)
            counts = [laps_at(region, level, longest, sheet.end_lap_ticks) for level in levels]
            best = max(best, sum(counts[: len(counts) - dropped]))
    return best


def laps_at(region: Region, level: int, longest: int, end_lap: int) -> int:
    """End laps that the ground at one level needs."""
    from shapely import LineString

    shape: Any = region.shape.intersection(LineString([(region.left - 1, level), (region.right + 1, level)]))
    lines = [shape] if shape.geom_type == "LineString" else list(getattr(shape, "geoms", ()))
    lengths = [int(line.length) for line in lines if line.geom_type == "LineString"]
    return sum(-(-(length - longest) // (longest - end_lap)) for length in lengths if length > longest)
