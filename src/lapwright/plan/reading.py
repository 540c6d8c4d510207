"""From a path to a job: the only place, with `sources`, where the user's own files are opened."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from lapwright.faults import Fault, Mended, Refused
from lapwright.job.models import Job
from lapwright.job.reading import read_job
from lapwright.plan.roofs import Roofs, build_roofs
from lapwright.units.write import Units

MOST_BYTES = 64 * 1024 * 1024


@dataclass(frozen=True, slots=True)
class JobReport:
    """What `check` tells: what was mended, and lines on how walks closed."""

    mended: tuple[Mended, ...]
    lines: tuple[str, ...]


def read_bytes(path: Path, *, needs: str) -> bytes:
    """The bytes of a file.

    Raises: Refused where it isn't there, isn't a file, or is larger than anything this tool reads.
    """
    try:
        if not path.is_file():
            raise Refused([Fault(path.name, 0, 0, "", "", needs, "the path of a file that is there")])
        if path.stat().st_size > MOST_BYTES:
            raise Refused([Fault(path.name, 0, 0, "", "", f"{needs} of at most 64 MB", "a smaller file")])
        return path.read_bytes()
    except OSError as error:
        why = error.strerror or "can't be read"
        raise Refused([Fault(path.name, 0, 0, "", why, needs, "the path of a file that can be read")]) from error


def read_job_file(path: Path) -> Job:
    """The job of a file.

    Raises: Refused with every fault of the file.
    """
    raw = read_bytes(path, needs="a job file")
    return read_job(raw, file=path.name)


def check_job(path: Path) -> JobReport:
    """Read and check a job file alone, its outlines included.

    Raises: Refused with every fault.
    """
    job = read_job_file(path)
    roofs = build_roofs(job, path.parent)
    return JobReport(roofs.mended, tuple(closure_lines(roofs, Units(job.units))))


def closure_lines(roofs: Roofs, units: Units) -> Sequence[str]:
    """How each walk closed, leg by leg where it did not close by itself."""
    lines = []
    for closure in roofs.closures:
        if not (closure.east or closure.north):
            continue
        east, north = units.tape(closure.east), units.tape(closure.north)
        lines.append(f"{closure.area}: the walk of {units.tape(closure.walked)} misses its start by E {east}, N {north}")
        lines += [
            f"  side {change.side}: E {units.tape(change.east)}, N {units.tape(change.north)}" for change in closure.changes
        ]
    return lines
