"""A layout as built, or edited by hand, against the rules of its job."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, NoReturn

from lapwright.faults import Fault, Refused
from lapwright.plan.build import make_assembly
from lapwright.plan.files import read_bytes
from lapwright.plan.reading import read_job_file
from lapwright.rulecheck.check import find_violations
from lapwright.rulecheck.say import say
from lapwright.rulecheck.values import Unreadable
from lapwright.units.write import Units

WRITE = "a file shaped like plan.json"


def check_layout(job_path: Path, layout_path: Path) -> tuple[str, ...]:
    """What breaks which rule, where, and the mend, one line each; empty where nothing does.

    Raises: Refused where the job or the layout can't be read.
    """
    job, roofs = read_job_file(job_path)
    plan = read_layout(layout_path)
    try:
        found = find_violations(plan, areas=roofs.areas, plies=make_assembly(job).plies, rules=job.rules)
    except Unreadable as unreadable:
        raise Refused([Fault(layout_path.name, 0, 0, unreadable.path, "", unreadable.needs, WRITE)]) from unreadable
    units = Units(job.units)
    return tuple(say(violation, units) for violation in found)


def read_layout(path: Path) -> dict[str, Any]:
    """A layout file as plain values.

    Raises: Refused where it is not a JSON object of finite numbers.
    """
    raw = read_bytes(path, needs="a layout as JSON")
    try:
        found = json.loads(raw.decode("utf-8"), parse_constant=refuse_constant)
    except json.JSONDecodeError as error:
        fault = Fault(path.name, error.lineno, error.colno, "", "", "JSON from here on", WRITE)
        raise Refused([fault]) from error
    except (UnicodeDecodeError, ValueError, RecursionError) as error:
        raise Refused([Fault(path.name, 0, 0, "", "", "JSON in UTF-8 with finite numbers", WRITE)]) from error
    if not isinstance(found, dict):
        raise Refused([Fault(path.name, 1, 1, "", type(found).__name__, "one JSON object", WRITE)])
    return found


def refuse_constant(name: str) -> NoReturn:
    """NaN and infinities are no lengths."""
    raise ValueError(name)
