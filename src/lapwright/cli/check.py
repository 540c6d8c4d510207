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
            for line in found:
                say(line)
            say(
                f"{layout.name}: {len(found)} rule broken"
                if len(found) == 1
                else f"{layout.name}: {len(found)} rules broken"
            )
            return FAILED if found else USED
        from lapwright.plan.reading import check_job

        report = check_job(job)
    except Refused as refused:
        return refuse(refused)
    if not quiet:
        tell_mended(report.mended)
        for line in report.lines:
            say(line)
    say(f"{job.name}: nothing to mend")
    return USED
