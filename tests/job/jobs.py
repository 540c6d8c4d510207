"""Job texts for the tests of the job file."""

from __future__ import annotations

from pathlib import Path

EXAMPLE = (Path(__file__).parent / "quarry_lane.yaml").read_text(encoding="utf-8")

SMALL = """\
roof:
  - area: Main
    outline: E 120', N 64', W 120', S 64'
    falls: S
    slope: 1/4 in 12
assembly:
  plies:
    - {ply: base, sheet: base-sa}
    - {ply: cap, sheet: cap-sa}
sheets:
  base-sa: {width: 39 3/8", length: 65' 7", side_lap: 3", end_lap: 6"}
  cap-sa: {width: 39 3/8", length: 32' 10", side_lap: 3", end_lap: 6"}
"""
