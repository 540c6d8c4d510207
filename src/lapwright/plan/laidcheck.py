"""The layout as the independent rule checker sees it, one check a rule."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from lapwright.assembly.values import Assembly
from lapwright.defaults.values import Rules
from lapwright.roof.values import Area
from lapwright.rulecheck.check import find_violations
from lapwright.rulecheck.names import rule_names, title_of
from lapwright.rulecheck.say import say
from lapwright.rulecheck.values import Violation
from lapwright.units.retold import retold
from lapwright.units.write import Units
from lapwright.verdict import Check, Step

METHOD = "rule checker of our own, docs/method/rulecheck.md"
MOST_TOLD = 6


def layout_checks(
    plan: Mapping[str, Any], areas: Sequence[Area], assembly: Assembly, rules: Rules, units: str
) -> tuple[Check, ...]:
    """One check for each rule of the layout; it passes where nothing in the plan breaks it."""
    found: dict[str, list[Violation]] = {}
    for violation in find_violations(plan, areas=areas, plies=assembly.plies, rules=rules):
        found.setdefault(violation.rule, []).append(violation)
    return tuple(_check(rule, found.get(rule, []), rules, Units(units)) for rule in rule_names())


def gave_way(rules: Rules) -> Iterator[tuple[str, str]]:
    """Defaults that the job's sheets can't meet, and what is kept instead, in words."""
    for origin in rules.origins.values():
        if origin.gave_way:
            yield (origin.key, f"{origin.key} is {origin.gave_way}")


def _check(rule: str, broken: Sequence[Violation], rules: Rules, units: Units) -> Check:
    origin = rules.origins.get(f"rules.{rule}")
    steps = [Step(say(violation, units)) for violation in broken[:MOST_TOLD]]
    if len(broken) > MOST_TOLD:
        steps.append(Step(f"and {len(broken) - MOST_TOLD} more"))
    if not steps:
        asked = f", {origin.text if origin.is_overridden else retold(units, origin.text)}" if origin else ""
        steps = [Step(f"Judged over every piece, lap and roll of the plan{asked}; nothing breaks it")]
    if origin is not None and origin.gave_way:
        steps.append(Step(f"{origin.key} is {origin.gave_way}"))
    return Check(
        id=f"layout.{rule.replace('_', '-')}",
        title=title_of(rule),
        status="fail" if broken else "pass",
        steps=tuple(steps),
        source=f"{origin.source}; {METHOD}" if origin else METHOD,
    )
