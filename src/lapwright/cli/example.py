"""`lapwright example`: a complete example job in a folder."""

from __future__ import annotations

from pathlib import Path

from lapwright.cli.terminal import USED, refuse, say
from lapwright.faults import Refused


def example(directory: Path) -> int:
    """Write the example; the exit status."""
    from lapwright.plan.example_job import write_example

    try:
        names = write_example(directory)
    except Refused as refused:
        return refuse(refused)
    for name in names:
        say(str(directory / name))
    say(f"next: lapwright plan {directory / names[0]} --out {directory / 'packet'}")
    return USED
