"""Rules of course lines that can't be met together, with the whole text that is told about them."""

from __future__ import annotations

import pytest

from lapwright.job.reading import read_job
from lapwright.layout.courses import Band, Conflict, Stack, plan_lines
from lapwright.plan.conflict import conflict_fault

INCH = 2_032
JOB = """\
roof:
  - area: Main
    outline: E 60', N 5', W 60', S 5'
    falls: S
    slope: 1/4 in 12
assembly:
  plies:
    - {ply: base, sheet: base-sa}
    - {ply: cap, sheet: cap-sa}
sheets:
  base-sa: {width: 39 3/8", length: 65' 7", side_lap: 3", end_lap: 6"}
  cap-sa: {width: 39 3/8", length: 32' 10", side_lap: 3", end_lap: 6"}
rules: {ply_offset: 18"}
"""


def told(depth: float, cap_lap: float, stack: Stack) -> str:
    """The fault of a slope [in] with the base 2" past its low edge and the cap 1/2" back."""
    bands = [
        Band("base", 80_010, 3 * INCH, -2 * INCH, round(depth * INCH)),
        Band("cap", 80_010, round(cap_lap * INCH), 1_016, round(depth * INCH)),
    ]
    with pytest.raises(Conflict) as conflict:
        plan_lines(bands, stack)
    return conflict_fault(read_job(JOB, file="job.yaml"), conflict.value).text()


def stack(offset: float, at_rip: float) -> Stack:
    """Rules in inches, `narrowest_rip` 12"."""
    return Stack(round(offset * INCH), round(at_rip * INCH), 12 * INCH, 127)


def test_a_slope_that_is_just_too_deep_for_one_line() -> None:
    """5' of slope: one base line has to lie 60" - 39 3/8" = 20 5/8" up, 16 1/4" below the cap's at 36 7/8".

    Two below it lie 12" and 24" up from where the base begins, -2": the upper one, 22", is 14 7/8" away.  A second one
    above it, at 54 7/8", leaves 5 1/8" at the top (by hand).
    """
    assert told(60, 3, stack(18, 15)) == (
        "job.yaml:13:8  rules.ply_offset_at_rip\n"
        '  needs:  an offset that the side laps of base and cap can keep on every course, at most 14 7/8": '
        "the top course is ripped\n"
        '  write:  ply_offset_at_rip: 14 1/2", or ply_offset: 16", or narrowest_rip: 5"'
    )


def test_sheets_that_drift_past_half_a_course() -> None:
    """A cap with 4" laps shows 35 3/8": its lines and the base's lie 17 11/16" apart at most, up 60' (by hand)."""
    assert told(720, 4, stack(18, 12)) == (
        "job.yaml:13:21  rules.ply_offset\n"
        '  read:   18"\n'
        '  needs:  an offset that the side laps of base and cap can keep on every course, at most 17 11/16": '
        "with whatever starters and ripped courses, their side laps come closer somewhere on the way up\n"
        '  write:  ply_offset: 17 1/2"'
    )


def test_a_top_too_narrow_whatever_the_starters() -> None:
    """40" of slope, `narrowest_rip` 30": a base line leaves 30" above and below it, or 21" at most (by hand)."""
    rules = Stack(0, 0, 30 * INCH, 127)
    assert told(40, 3, rules) == (
        "job.yaml:13:8  rules.narrowest_rip\n"
        '  needs:  a narrowest_rip that every course of base and cap can show, at most 21": '
        "whatever the starters, a course gets narrower\n"
        '  write:  narrowest_rip: 21"'
    )
