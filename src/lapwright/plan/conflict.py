"""Rules that can't be met together, as a fault of the job file."""

from __future__ import annotations

from lapwright.faults import Fault
from lapwright.job.models import Job
from lapwright.layout.courses import Conflict
from lapwright.units.write import Units

STEP_TICKS = {"us": 1016, "metric": 400}  # half an inch, 5 mm: what a person would write


def conflict_fault(job: Job, conflict: Conflict) -> Fault:
    """The fault: which rule, for which plies, the greatest value that can be met, and what to write."""
    units = Units(job.units)
    path = f"rules.{conflict.rule}"
    if conflict.rule == "end_lap_stagger":
        needs = f"rules that leave a place for the end laps of {conflict.plies[0]}: {conflict.why}"
        return job.fault(path, needs=needs, write="a smaller end_lap_stagger, end_lap_ply_offset or shortest_piece")
    names = f"{', '.join(conflict.plies[:-1])} and {conflict.plies[-1]}"
    most = units.width(conflict.greatest)
    if conflict.rule == "narrowest_rip":
        needs = f"a narrowest_rip that every course of {names} can show, at most {most}: {conflict.why}"
    else:
        needs = f"an offset that the side laps of {names} can keep on every course, at most {most}: {conflict.why}"
    ways = [(conflict.rule, conflict.greatest), *conflict.others]
    step = STEP_TICKS[job.units]
    written = [f"{rule}: {units.width(value // step * step)}" for rule, value in ways if value >= step]
    return job.fault(path, needs=needs, write=", or ".join(written))
