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
    lower, upper = conflict.plies
    path = f"rules.{conflict.rule}"
    if conflict.rule == "end_lap_stagger":
        needs = f"rules that leave a place for the end laps of {lower}: {conflict.why}"
        return job.fault(path, needs=needs, write="a smaller end_lap_stagger, end_lap_ply_offset or shortest_piece")
    step = STEP_TICKS[job.units]
    most = conflict.greatest // step * step
    needs = (
        f"an offset that the side laps of {lower} and {upper} can keep on every course, at most "
        f"{units.width(conflict.greatest)}: {conflict.why}"
    )
    return job.fault(path, needs=needs, write=f"{conflict.rule}: {units.width(most)}")
