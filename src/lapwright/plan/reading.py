"""From a path to a job, its outlines included."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from lapwright.faults import Fault, Mended, Refused
from lapwright.job.models import Job
from lapwright.job.reading import job_text, read_areas, read_job
from lapwright.plan.drawings import HERE, Drawings
from lapwright.plan.files import read_bytes
from lapwright.plan.roofs import Roofs, build_roofs
from lapwright.units.write import Units

LONG = 100_000  # characters: reading that much takes a second


@dataclass(frozen=True, slots=True)
class JobReport:
    """What `check` tells: what was mended, and lines on what was drawn and how walks closed."""

    mended: tuple[Mended, ...]
    lines: tuple[str, ...]


def read_job_file(path: Path) -> tuple[Job, Roofs]:
    """The job of a file and its roof.

    Raises: Refused with every fault of the file: form, values, and the roof's geometry as far as it can be read.
    """
    return read_job_text(job_text(read_bytes(path, needs="a job file"), file=path.name), path)


def read_job_text(text: str, path: Path, drawings: Drawings = HERE) -> tuple[Job, Roofs]:
    """The job of a text and its roof; drawings are looked for beside the path, whose name stands in faults.

    drawings: who reads them.

    Raises: Refused with every fault, as `read_job_file` does.
    """
    try:
        job = read_job(text, file=path.name)
    except Refused as refused:
        raise Refused(dict.fromkeys([*refused.faults, *roof_faults(text, path, drawings)])) from None
    return job, build_roofs(job, path.parent, drawings)


def roof_faults(text: str, path: Path, drawings: Drawings = HERE) -> tuple[Fault, ...]:
    """Faults of the roof's geometry in a job that has others; a very long file is not read a second time for them."""
    job = read_areas(text, file=path.name) if len(text) <= LONG else None
    if job is None:
        return ()
    try:
        build_roofs(job, path.parent, drawings)
    except Refused as refused:
        return refused.faults
    return ()


def check_job(path: Path) -> JobReport:
    """Read and check a job file alone, its outlines included.

    Raises: Refused with every fault.
    """
    job, roofs = read_job_file(path)
    return JobReport(roofs.mended, (*roofs.drawn, *closure_lines(roofs, Units(job.units))))


def closure_lines(roofs: Roofs, units: Units) -> Sequence[str]:
    """How each walk closed, leg by leg where it did not close by itself."""
    lines = []
    for closure in roofs.closures:
        if not (closure.east or closure.north):
            continue
        east, north = units.tape(closure.east), units.tape(closure.north)
        lines.append(
            f"{closure.area}: the walk of {units.tape(closure.walked)} misses its start by E {east}, N {north}"
        )
        lines += [
            f"  side {change.side}: E {units.tape(change.east)}, N {units.tape(change.north)}"
            for change in closure.changes
        ]
    return lines
