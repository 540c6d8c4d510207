"""A default offset that the sheets can't meet is said in the check of side laps, in the rules and at the head."""

from __future__ import annotations

from pathlib import Path

from lapwright.job.reading import read_job
from lapwright.plan.laidcheck import gave_way
from lapwright.plan.make import lay_out
from lapwright.plan.roofs import build_roofs

JOB = """units: metric
roof: [{area: Main, outline: "E 12 m, N 5.9 m, W 12 m, S 5.9 m", falls: S, slope: 2 %}]
assembly: {plies: [{ply: base, sheet: b}, {ply: cap, sheet: c}]}
sheets:
  b: {width: 1000 mm, length: 20 m, side_lap: LAP, end_lap: 150 mm}
  c: {width: 1000 mm, length: 10 m, side_lap: LAP, end_lap: 150 mm}
"""
SAID = (
    "rules.ply_offset is not given, and its default of 457.2 mm is more than half a course of b and c: 449 mm is kept"
)


def test_it_is_said_once_and_only_where_it_is_so() -> None:
    """With laps of 100 mm 450 mm is half a course, with 80 mm it is 460 mm."""
    wide, narrow = (read_job(JOB.replace("LAP", lap), file="x.yaml").rules for lap in ("80 mm", "100 mm"))
    assert list(gave_way(wide)) == []
    assert list(gave_way(narrow)) == [("rules.ply_offset", SAID)]


def test_the_roof_is_laid_with_what_is_kept() -> None:
    """The lap lines of the two plies lie 449 mm apart at the least, and none can lie more than half of 900 mm apart."""
    job = read_job(JOB.replace("LAP", "100 mm"), file="x.yaml")
    layout = lay_out(job, build_roofs(job, Path()).areas)
    least = [ply.offset_least for ply in layout.plies if ply.offset_least is not None]
    assert least
    assert all(449 * 80 <= offset <= 450 * 80 for offset in least)
