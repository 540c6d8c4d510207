"""A layout as built, or edited by hand, against the rules of its job."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from lapwright.faults import Fault, Refused
from lapwright.plan.build import make_assembly
from lapwright.plan.builtfile import WRITE, in_metres, read_at, read_layout
from lapwright.plan.reading import read_job_file
from lapwright.rulecheck.check import find_violations
from lapwright.rulecheck.names import rule_names, title_of
from lapwright.rulecheck.say import say
from lapwright.rulecheck.values import Unreadable, Violation
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.write import Units

FARTHEST = 1_000_000  # [m] from the origin: a place beyond is a slip of the pen


@dataclass(frozen=True, slots=True)
class AsBuilt:
    """What a layout breaks: how many rules, at how many places, and the lines that tell it."""

    rules: int
    places: int
    lines: tuple[str, ...]


def check_layout(job_path: Path, layout_path: Path) -> AsBuilt:
    """What breaks which rule, where, and the mend, rule by rule.

    Raises: Refused where the job or the layout can't be read.
    """
    job, roofs = read_job_file(job_path)
    plan = read_layout(layout_path)
    in_metres(plan, roofs.areas, file=layout_path.name)
    try:
        found = find_violations(plan, areas=roofs.areas, plies=make_assembly(job).plies, rules=job.rules)
    except Unreadable as unreadable:
        read = read_at(plan, unreadable.path)
        raise Refused([Fault(layout_path.name, 0, 0, unreadable.path, read, unreadable.needs, WRITE)]) from unreadable
    return told(found, Units(job.units))


def told(found: Sequence[Violation], units: Units) -> AsBuilt:
    """Each broken rule by its name and what it asks, under it every place that breaks it."""
    by_rule: dict[str, list[Violation]] = {}
    for violation in found:
        by_rule.setdefault(violation.rule, []).append(violation)
    lines = []
    for rule in (name for name in rule_names() if name in by_rule):
        lines.append(f"{rule}: {title_of(rule)}")
        lines += [f"  {_where(violation, units)}{say(violation, units)}" for violation in by_rule[rule]]
    return AsBuilt(len(by_rule), len(found), tuple(lines))


def _where(violation: Violation, units: Units) -> str:
    """A place in the job's plan, for those to look at it."""
    if violation.where is None or max(map(abs, violation.where)) > FARTHEST:
        return ""
    east, north = (round(each * TICKS_PER_METRE) for each in violation.where)
    tape = units.tape
    return f"at {'W' if east < 0 else 'E'} {tape(abs(east))} {'S' if north < 0 else 'N'} {tape(abs(north))}: "
