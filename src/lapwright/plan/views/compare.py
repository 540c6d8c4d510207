"""Two versions of a job side by side: what they lay, order, cost, when, how their checks stand, and what differs."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.faults import Refused
from lapwright.packet.values import Paper
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.desk.versions import Version, version_asked
from lapwright.plan.views.registry import Json, Tell
from lapwright.plan.views.sides import Row, as_json
from lapwright.plan.views.sidesfile import key_rows
from lapwright.plan.views.sidesplan import check_rows, cost_rows, day_rows, hour_rows, layout_rows, order_rows

IS_KEPT = False  # the other file and the history are read anew


def view(stages: Stages, ask: JobAsk, options: Mapping[str, str], tell: Tell) -> Json:
    """The job against the version that the options name.

    Raises: Refused with every fault of the job itself, or where the options name no version
    """
    other = version_asked(ask.path, ask.text, options)
    head = {"name": other.name, "words": other.words, "is_same": other.text == ask.text}
    if other.text == ask.text:
        return {**head, "faults": [], "groups": [], "keep": []}
    tell("the job as it is")
    mine = stages.checked(ask, tell)
    tell(other.words)
    try:
        theirs = stages.checked(JobAsk(other.text, other.path), tell)
    except Refused as refused:
        return {
            **head,
            "faults": [fault.as_json() for fault in refused.faults],
            "groups": [group("What differs in the file", key_rows(ask.text, other.text))],
            "keep": [],
        }
    return {**head, "faults": [], "groups": groups(ask.text, mine, other, theirs), "keep": other.keep}


def groups(text: str, mine: Paper, other: Version, theirs: Paper) -> list[Json]:
    """Both versions, group by group.  text: of the job."""
    return [
        group("What differs in the file", key_rows(text, other.text)),
        group("Layout", layout_rows(mine, theirs)),
        group("Cost", cost_rows(mine, theirs)),
        group("Days", day_rows(mine, theirs)),
        group("Order", order_rows(mine, theirs)),
        group("Checks", check_rows(mine, theirs)),
        group("Hours of the year", hour_rows(mine, theirs)),
    ]


def group(name: str, rows: list[Row]) -> Json:
    """A group of rows: those that differ, and those that are the same."""
    return {
        "name": name,
        "changed": [as_json(row) for row in rows if row.change],
        "same": [as_json(row) for row in rows if not row.change],
    }
