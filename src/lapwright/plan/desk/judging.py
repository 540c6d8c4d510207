"""The faults of a job file as it is typed; what was read of it is kept, and handed to the planning process."""

from __future__ import annotations

from pathlib import Path
from typing import cast

from lapwright.faults import Fault, Refused
from lapwright.job.models import Job
from lapwright.plan.describe.apart import APART
from lapwright.plan.desk.keeping import Kept, Shared
from lapwright.plan.desk.stages import JobAsk
from lapwright.plan.reading import read_job_text
from lapwright.plan.roofs import Roofs

_KEPT = Shared(Kept(16))


def faults_of(text: str, path: Path) -> tuple[Fault, ...]:
    """Every fault of a job file, its outlines included; none for one that can be planned.  Kept by what was read."""
    found = _KEPT.take(JobAsk(text, path).key(), lambda: _read(text, path))
    return found.faults if isinstance(found, Refused) else ()


def reading_of(ask: JobAsk) -> tuple[tuple[object, ...], tuple[Job, Roofs]] | None:
    """What was read of a job for its faults, with what it hangs on; None where it is not kept, or has faults."""
    key = ask.key()
    found = _KEPT.find(key)
    return None if found is None or isinstance(found, Refused) else (key, cast("tuple[Job, Roofs]", found))


def _read(text: str, path: Path) -> tuple[Job, Roofs] | Refused:
    try:
        return read_job_text(text, path, APART)
    except Refused as refused:
        return refused
