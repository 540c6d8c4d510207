"""The faults of a job file as it is typed."""

from __future__ import annotations

from pathlib import Path

from lapwright.faults import Fault, Refused
from lapwright.plan.reading import read_job_text


def faults_of(text: str, path: Path) -> tuple[Fault, ...]:
    """Every fault of a job file, its outlines included; none for one that can be planned."""
    try:
        read_job_text(text, path)
    except Refused as refused:
        return refused.faults
    return ()
