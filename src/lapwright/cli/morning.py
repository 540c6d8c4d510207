"""`lapwright morning`: the one-page go, wait or stop sheet."""

from __future__ import annotations

import datetime as dt
import os
from pathlib import Path

from lapwright.cli.terminal import USED, refuse, say, tell_mended
from lapwright.faults import Refused


def morning(
    job: Path, forecast: str | None, day: str | None, out: Path | None, save: Path | None, weld: tuple[str | None, ...]
) -> int:
    """Make the sheet and show or write it; the exit status."""
    from lapwright.plan.morningsheet import Asked, make_morning  # heavy

    asked = Asked(
        forecast=forecast,
        day=day,
        save=save,
        weld=weld,
        now=dt.datetime.now(dt.UTC),
        base=os.environ.get("LAPWRIGHT_FORECAST_URL"),
    )
    try:
        made = make_morning(job, asked)
        path = made.write(out) if out is not None else None
    except Refused as refused:
        return refuse(refused)
    tell_mended(made.mended)
    if path is None:
        for line in made.lines():
            say(line)
    else:
        say(f"written to {path}")
    return USED
