"""Nails of edge metal and of a nailed base sheet: how many, how dense, and how much roof the worst one holds (Q3).

A base sheet's pattern is one row along each lap and `field_rows` rows between, evenly spread over the exposed width.
Averages hide the worst nail: in the usual 9" and 18" pattern the field row holds a third more than the average.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from lapwright.defaults.si import default_number

# A length that is a whole number of spacings may come a hair over it.
HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class NailPattern:
    """A pattern's figures: exposed width and row spacing [m], nails per m², roof held by one nail [m²]."""

    exposure: float
    row_spacing: float
    per_m2: float
    average_m2: float
    lap_nail_m2: float
    field_nail_m2: float

    @property
    def worst_m2(self) -> float:
        """Roof held by the nail that holds most."""
        return max(self.lap_nail_m2, self.field_nail_m2)


def metal_nails(length_m: float, spacing: float) -> int:
    """Nails for a length of edge metal [m], rows staggered, each row `spacing` [m] and a nail at both its ends.

    Source: common practice: two rows, 4 to 6 in in each, offset 2 in
    """
    in_row = math.ceil(length_m / spacing - HAIR) + 1
    return in_row * int(default_number("fasten", "metal_nail_rows"))


def nail_pattern(
    *, lap_spacing: float, field_spacing: float, field_rows: int, width: float, side_lap: float
) -> NailPattern:
    """Density and tributary areas of a base sheet's nails; all lengths [m].

    Source: arithmetic: tributary areas of evenly spaced rows
    Checked: tests/published/fasten.csv pattern-*
    """
    exposure = width - side_lap
    row_spacing = exposure / (field_rows + 1)
    per_m2 = (1 / lap_spacing + field_rows / field_spacing) / exposure
    return NailPattern(
        exposure=exposure,
        row_spacing=row_spacing,
        per_m2=per_m2,
        average_m2=1 / per_m2,
        lap_nail_m2=lap_spacing * row_spacing,
        field_nail_m2=field_spacing * row_spacing if field_rows else 0.0,
    )


def widest_spacing(value_n: float, *, pressure_pa: float, row_spacing: float) -> float:
    """Spacing along a row [m] at which one fastener's allowable load [N] holds a working-level pressure [Pa].

    Source: a high-wind county's roofing application standard 117: FS = Fv x 144 / (P x RS) [from memory]
    Checked: tests/published/fasten.csv spacing-*
    """
    return value_n / (pressure_pa * row_spacing)
