"""A material without a limit of its own goes by its ply's hours, and no day blames it for hours that were worked."""

from __future__ import annotations

from pathlib import Path

from hours_by_hand import JOB, put, seen

GIVEN = "materials:\n  primer: {apply_at_or_above: 20 F}\n  mastic: {apply_at_or_above: 20 F}\n"


def test_no_limit_of_primer_takes_no_hours_of_a_day(tmp_path: Path) -> None:
    """Monday 22 June: 06:00-16:30 is light from end to end, 40 °F, dry and calm, so every hour is fit for both plies.

    20 and 21 June 2026 are a Saturday and a Sunday.  Primer and mastic say no limit: they go by base and cap.
    """
    assert GIVEN in JOB
    found = seen(put(tmp_path, job=JOB.replace(GIVEN, "")), "days")
    monday = next(day for day in found["days"] if day["pieces"] != "0 pieces")
    assert monday["lost"] == []
