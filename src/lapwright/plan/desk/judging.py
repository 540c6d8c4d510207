"""The faults of a job file as it is typed."""

from __future__ import annotations

import threading
from pathlib import Path
from typing import cast

from lapwright.faults import Fault, Refused
from lapwright.plan.desk.keeping import Kept
from lapwright.plan.desk.stages import JobAsk, beside_it
from lapwright.plan.reading import read_job_text

_KEPT = Kept(16)
_LOCK = threading.Lock()


def faults_of(text: str, path: Path) -> tuple[Fault, ...]:
    """Every fault of a job file, its outlines included; none for one that can be planned.  Kept by what was read."""
    with _LOCK:
        key = (JobAsk(text, path), beside_it(path))
        return cast("tuple[Fault, ...]", _KEPT.take(key, lambda: _read(text, path)))


def _read(text: str, path: Path) -> tuple[Fault, ...]:
    try:
        read_job_text(text, path)
    except Refused as refused:
        return refused.faults
    return ()
