"""A job in a few lines: what it is, what was laid, how its checks stand, what is said besides."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.views.registry import Json, Tell


def view(stages: Stages, ask: JobAsk, options: Mapping[str, str], tell: Tell) -> Json:
    """The summary of a job.

    Raises: Refused with every fault
    """
    paper = stages.checked(ask, tell)
    layout, counts = paper.layout, Counter(str(check.status) for check in paper.checks)
    return {
        "name": paper.head.name,
        "number": paper.head.number,
        "date": paper.head.date.isoformat() if paper.head.date else "",
        "revision": paper.head.revision,
        "areas": [area.name for area in paper.areas],
        "pieces": len(layout.pieces),
        "laps": len(layout.laps),
        "rolls": len(layout.rolls),
        "days": len(paper.days),
        "checks": {status: counts.get(status, 0) for status in ("pass", "fail", "unknown")},
        "warnings": [text for _, text in paper.warnings],
        "mended": [note.text() for note in paper.mended],
    }
