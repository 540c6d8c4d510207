"""Tape lengths and metric lengths, exactly: 12' 6 1/2", 39 3/8", 10 ft, 3.81 m, 40 mm, 1 ftUS.

Ticks are whole steps of 1/80 mm: 2,032 to the inch, 127 to a sixteenth, 80 to the millimetre.
"""

from __future__ import annotations

import re
from fractions import Fraction

from lapwright.units.amounts import AMOUNT, amount
from lapwright.units.factors import FOOT, INCH, SURVEY_FOOT, TICKS_PER_METRE
from lapwright.units.unread import Unread, tidy

NEEDS = "a length with its unit"
WRITE = "12' 6 1/2\", 3.81 m or 40 mm"
LONGEST_M = 100_000

_TAPE = re.compile(
    rf"(?P<sign>[+-] ?)?(?:(?P<feet>{AMOUNT}) ?(?:'|ft|feet|foot))?"
    rf"(?:[ -]{{0,3}}(?P<inches>{AMOUNT}) ?(?:\"|inches|inch|in))?",
    re.IGNORECASE,
)
_ONE_UNIT = re.compile(rf"(?P<sign>[+-] ?)?(?P<amount>{AMOUNT}) ?(?P<unit>mm|cm|m|km|ftUS)", re.IGNORECASE)
_METRES = {
    "mm": Fraction(1, 1000),
    "cm": Fraction(1, 100),
    "m": Fraction(1),
    "km": Fraction(1000),
    "ftus": SURVEY_FOOT,
}


def length_exact(text: str) -> Fraction:
    """A length [m], exactly as written; a leading minus is read.

    Raises: Unread for a bare number, 12 or more inches after feet, or over 100 km.
    Source: definitions of the foot, see lapwright.units.factors
    """
    plain = tidy(text, NEEDS, WRITE)
    metres = _metric(plain)
    if metres is None:
        metres = _tape(plain)
    if metres is None:
        raise Unread(NEEDS, WRITE)
    if abs(metres) > LONGEST_M:
        raise Unread("a length of at most 100 km", WRITE)
    return metres


def length_m(text: str) -> float:
    """A length [m], the nearest float."""
    return float(length_exact(text))


def length_ticks(text: str) -> int:
    """A length in whole ticks of 1/80 mm, the nearest; a half goes away from zero."""
    return nearest(length_exact(text) * TICKS_PER_METRE)


def nearest(value: Fraction) -> int:
    """The nearest whole number; a half goes away from zero."""
    whole = int(abs(value) + Fraction(1, 2))
    return -whole if value < 0 else whole


def mixed(value: Fraction) -> str:
    """A fraction as a tape shows it: 6, 3/8 or 39 3/8 (not negative)."""
    whole, rest = divmod(value, 1)
    if rest == 0:
        return str(whole)
    part = f"{rest.numerator}/{rest.denominator}"
    return f"{whole} {part}" if whole else part


def _metric(plain: str) -> Fraction | None:
    found = _ONE_UNIT.fullmatch(plain)
    if found is None:
        return None
    return _signed(found["sign"], amount(found["amount"]) * _METRES[found["unit"].lower()])


def _tape(plain: str) -> Fraction | None:
    found = _TAPE.fullmatch(plain)
    if found is None or (found["feet"] is None and found["inches"] is None):
        return None
    feet = amount(found["feet"] or "0")
    inches = amount(found["inches"] or "0")
    if found["feet"] is not None and found["inches"] is not None:
        if feet.denominator != 1:
            raise Unread("whole feet before inches", WRITE)
        if inches >= 12:
            over, rest = divmod(inches, 12)
            raise Unread("inches under 12 after feet", f"{feet + over}' {mixed(rest)}\"")
    return _signed(found["sign"], feet * FOOT + inches * INCH)


def _signed(sign: str | None, value: Fraction) -> Fraction:
    return -value if sign and sign[0] == "-" else value
