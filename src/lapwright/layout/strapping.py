"""Steep areas, laid with the fall: what is said of them, and how many nails hold their sheets back.

*Strapped*: courses run up the fall.  *Back-fastened*: a row of nails across the upper end of each sheet, under the end
lap of the next one or under what covers the roof's upper edge.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from lapwright.defaults.values import Rules
from lapwright.layout.values import Frame, Piece
from lapwright.roof.values import Area

HAIR = 1e-9


def strap_warnings(areas: Sequence[Area], frames: Mapping[str, Frame], rules: Rules) -> tuple[tuple[str, str], ...]:
    """One warning for each area that is laid with the fall.

    Source: UFGS 07550 (with the fall from 2 in 12, back-fastened)
    Checked: tests/layout/test_frame.py
    """
    steep = rules.origins["rules.strap_at"].text
    return tuple(
        (
            f"layout.with-the-fall-{area.name}",
            f"{area.name}: at {steep} or steeper (strap_at) it is laid with the fall, back-fastened across the upper"
            " end of each sheet, under the lap",
        )
        for area in areas
        if frames[area.name].is_strapped
    )


def back_nails(piece: Piece, spacing: float) -> int:
    """Nails across the upper end of one sheet, one at both of its edges; spacing in ticks.

    Source: arithmetic
    Checked: tests/layout/test_frame.py
    """
    return math.ceil((piece.v1 - piece.v0) / spacing - HAIR) + 1
