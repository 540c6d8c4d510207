"""Amounts as people write them: 39, 39.375, 3/8, 39 3/8, 39-3/8; read exactly."""

from __future__ import annotations

import re
from fractions import Fraction

from lapwright.units.unread import Unread, tidy

# Every repeat is bounded, so that no text, however long, is searched twice.
AMOUNT = r"(?:(?:[0-9]{1,9}[ -])?[0-9]{1,5}/[0-9]{1,5}|[0-9]{1,12}(?:\.[0-9]{0,12})?|\.[0-9]{1,12})"
_NUMBER = re.compile(r"[+-]?(?:[0-9]{1,15}(?:\.[0-9]{0,17})?|\.[0-9]{1,17})(?:[eE][+-]?[0-9]{1,2})?")
_INTEGER = re.compile(r"-?[0-9]{1,12}")
# The sign of the money, or its three letters, before or behind the amount.
_MONEY = r"[$€£]|[A-Z]{3}"
_PRICE = re.compile(
    rf"(?:(?P<before>{_MONEY}) ?)?(?P<amount>[0-9]{{1,9}}(?:\.[0-9]{{1,4}})?)(?: ?(?P<behind>{_MONEY}))?"
)


def amount(text: str) -> Fraction:
    """A tidy amount, exactly.

    Raises: Unread where a fraction is not under one or divides by zero.
    """
    if "/" not in text:
        return Fraction(text)
    whole, _, part = text.replace("-", " ").rpartition(" ")
    top, bottom = part.split("/")
    if int(top) >= int(bottom):
        raise Unread("a fraction under one", "3/8 or 1 3/8")
    return Fraction(whole or "0") + Fraction(int(top), int(bottom))


def number(text: str) -> float:
    """A bare number.

    Raises: Unread where it is not a finite decimal number.
    """
    needs, write = "a number", "12 or 0.5"
    plain = tidy(text, needs, write)
    if not _NUMBER.fullmatch(plain):
        raise Unread(needs, write)
    return float(plain) + 0.0  # -0 becomes 0


def integer(text: str) -> int:
    """A bare whole number.

    Raises: Unread where it is not whole or has a unit.
    """
    needs, write = "a whole number", "6"
    plain = tidy(text, needs, write)
    if not _INTEGER.fullmatch(plain):
        raise Unread(needs, write)
    return int(plain)


def price(text: str) -> float:
    """An amount of money, with or without its sign: `$95`, `95.50`, `€ 95`, `95 EUR`.

    Raises: Unread where it is not such a number, or negative.
    """
    return _price(text)[1]


def currency(text: str) -> str:
    """The sign or the letters of a price's money; empty where it has none.

    Raises: Unread as `price` does.
    """
    return _price(text)[0]


def _price(text: str) -> tuple[str, float]:
    needs, write = "a price", "$95 or 95.50"
    found = _PRICE.fullmatch(tidy(text, needs, write))
    if found is None or (found["before"] and found["behind"]):
        raise Unread(needs, write)
    return (found["before"] or found["behind"] or "", float(found["amount"]))
