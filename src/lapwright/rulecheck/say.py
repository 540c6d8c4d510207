"""A violation as a sentence, its lengths in the units of the job."""

from __future__ import annotations

from fractions import Fraction

from lapwright.rulecheck.values import Violation
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.lengths import nearest
from lapwright.units.write import Units

STEPS = ("1/16", "1/64")
INCHES_BELOW = 1.2  # widths and offsets are named in inches alone, pieces in feet and inches [m]


def say(violation: Violation, units: Units) -> str:
    """What breaks which rule, where, and how to mend it, on one line.

    Two lengths that would read alike are written to a finer step; where even that does not tell them apart, the first
    is said to be nearly it.
    Source: docs/method/rulecheck.md
    Checked: tests/rulecheck/test_say.py
    """
    read, needs = _both(violation.read, violation.needs, units)
    text = violation.text.replace("{needs}", needs).replace("{read}", read)
    return "".join(letter if letter.isprintable() else "·" for letter in text)


def _both(read: float | str | None, needs: float | str | None, units: Units) -> tuple[str, str]:
    """Both values as text."""
    if not isinstance(read, float | int) or not isinstance(needs, float | int):
        return _one(read, units, STEPS[0]), _one(needs, units, STEPS[0])
    for step in STEPS:
        texts = _one(read, units, step), _one(needs, units, step)
        if texts[0] != texts[1]:
            return texts
    return f"not quite {texts[0]}", texts[1]


def _one(value: float | str | None, units: Units, step: str) -> str:
    if value is None or isinstance(value, str):
        return value or ""
    if not units.is_us:
        return units.length(value)
    ticks = nearest(Fraction(value) * TICKS_PER_METRE)
    return units.width(ticks, step) if abs(value) < INCHES_BELOW else units.tape(ticks, step)
