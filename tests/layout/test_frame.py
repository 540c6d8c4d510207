"""The frame of an area, across the fall and with it."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from roofs import BRIEF, FOOT, GRID, TWO_PLIES, rectangle, rules

from lapwright.layout.frame import make_frame, to_slope
from lapwright.layout.place import make_layout

STRETCH = math.sqrt(1 + 1 / 36)


def test_at_two_in_twelve_the_frame_turns() -> None:
    """Falling south at 2:12, u runs north and is stretched, v runs west and is not."""
    area = replace(rectangle(40 * FOOT, 20 * FOOT, ["ridge"] * 4), slope=2 / 12)
    frame = make_frame(area, rules())
    assert frame.is_strapped
    assert to_slope(frame, [(40 * FOOT, 0), (0, 20 * FOOT)]) == (
        (0, 0),
        (round(20 * FOOT * STRETCH), 40 * FOOT),
    )
    assert frame.plan(*frame.slope_uv(7 * FOOT, 3 * FOOT)) == pytest.approx((7 * 0.3048, 3 * 0.3048), abs=1e-12)


def test_under_two_in_twelve_courses_run_across_the_fall() -> None:
    """Just under the rule, u runs east; the rule can be moved."""
    area = replace(rectangle(40 * FOOT, 20 * FOOT, ["ridge"] * 4), slope=1.99 / 12)
    assert make_frame(area, rules()).across == (1.0, 0.0)
    assert make_frame(area, rules(strap_at="1 in 12")).across == (0.0, 1.0)


def test_a_steep_roof_is_laid_with_the_fall() -> None:
    """40' wide and 20' up at 2:12: courses as wide as the sheet stand side by side over 40', each one piece long.

    Caps: (480 - 3) / 36.375 = 13.1, so 14 courses; 20' · 1.0138 = 20.28' is one piece.
    """
    area = replace(rectangle(40 * FOOT, 20 * FOOT, ["ridge"] * 4), slope=2 / 12)
    layout = make_layout([area], TWO_PLIES, rules(), grid=GRID, aim="fewest_laps", patience=BRIEF)
    cap = next(ply for ply in layout.plies if ply.ply == "cap")
    assert (len(cap.courses), len(cap.pieces), cap.end_laps) == (14, 14, 0)
    assert {name for name, _ in layout.warnings if "with-the-fall" in name} == {"layout.with-the-fall-Main"}
