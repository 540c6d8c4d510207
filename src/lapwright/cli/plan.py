"""`lapwright plan`: the whole job."""

from __future__ import annotations

from pathlib import Path

from lapwright.cli.terminal import Progress, closing, refuse, say, status_of, tell_checks, tell_mended
from lapwright.faults import Refused


def plan(job: Path, out: Path, *, strict: bool, quiet: bool) -> int:
    """Make and write the plan; the exit status."""
    from lapwright.plan.workers import SecondHands

    progress = Progress(quiet)
    with SecondHands() as hands:
        from lapwright.plan.make import make_plan, write_plan  # heavy, and the second process loads its own meanwhile

        try:
            made = make_plan(job, out, tell=progress, hands=hands)
            write_plan(made, out)
        except Refused as refused:
            return refuse(refused)
    if not quiet:
        tell_mended(made.mended)
        for _, text in made.warnings:
            say(f"note     {text}")
        for line in made.choices:
            say(line)
    tell_checks(made.checks)
    if not quiet:
        say(f"written to {out}: " + ", ".join(made.names))
    say(closing(made.checks))
    return status_of(made.checks, strict=strict)
