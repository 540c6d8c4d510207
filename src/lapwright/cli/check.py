"""`lapwright check`: the job file alone, or a layout as built."""

from __future__ import annotations

from pathlib import Path

from lapwright.cli.terminal import FAILED, USED, refuse, say, tell_mended
from lapwright.faults import Refused


def check(job: Path, layout: Path | None, *, quiet: bool) -> int:
    """Check and tell; the exit status."""
    try:
        if layout is not None:
            from lapwright.plan.asbuilt import check_layout

            found = check_layout(job, layout)
            for line in found.lines:
                say(line)
            say(f"{layout.name}: " + _broken(found.rules, found.places))
            return FAILED if found.places else USED
        from lapwright.plan.reading import check_job

        report = check_job(job)
    except Refused as refused:
        return refuse(refused)
    if not quiet:
        tell_mended(report.mended)
        for line in report.lines:
            say(line)
    count = len(report.mended)
    told = "" if quiet else ", as told above"
    say(f"{job.name}: " + (f"can be used; mended on the way in: {count}{told}" if count else "nothing to mend"))
    return USED


def _broken(rules: int, places: int) -> str:
    """How many rules are broken, at how many places."""
    if not places:
        return "no rule broken"
    return f"{rules} rule{'s' * (rules > 1)} broken, at {places} place{'s' * (places > 1)}"
