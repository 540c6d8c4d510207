"""One row of two versions side by side, and the difference in words."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass

NOWHERE = "–"


@dataclass(frozen=True, slots=True)
class Row:
    """What, as it is in either version, and the difference in words; empty where they are the same."""

    what: str
    mine: str
    other: str
    change: str


def as_json(row: Row) -> list[str]:
    """A row as a page takes it."""
    return [row.what, row.mine, row.other, row.change]


def more_or_fewer(what: str, mine: int | None, other: int | None) -> Row:
    """A count."""
    return amount(what, mine, other, lambda value: f"{value:.0f}", less="fewer")


def amount(
    what: str, mine: float | None, other: float | None, write: Callable[[float], str], *, less: str = "less"
) -> Row:
    """An amount; write: how it is told.  None: that version has none."""
    told = [NOWHERE if value is None else write(value) for value in (mine, other)]
    if mine is None or other is None:
        return Row(what, told[0], told[1], only(mine, other))
    if mine == other or told[0] == told[1]:
        return Row(what, told[0], told[1], "")
    return Row(what, told[0], told[1], f"{write(abs(other - mine))} {'more' if other > mine else less}")


def only(mine: object | None, other: object | None) -> str:
    """Words where one version, or neither, has something."""
    if mine is None and other is None:
        return ""
    return "only in the other" if mine is None else "not in the other"


def dated(what: str, mine: dt.date | None, other: dt.date | None, write: Callable[[dt.date], str]) -> Row:
    """A date."""
    told = [NOWHERE if value is None else write(value) for value in (mine, other)]
    if mine is None or other is None:
        return Row(what, told[0], told[1], only(mine, other))
    days = (other - mine).days
    if not days:
        return Row(what, told[0], told[1], "")
    count = f"{abs(days)} {'day' if abs(days) == 1 else 'days'}"
    return Row(what, told[0], told[1], f"{count} {'later' if days > 0 else 'earlier'}")


def worded(what: str, mine: str | None, other: str | None) -> Row:
    """A text."""
    told = [NOWHERE if value is None else value for value in (mine, other)]
    if mine is None or other is None:
        return Row(what, told[0], told[1], only(mine, other))
    return Row(what, told[0], told[1], "" if mine == other else "changed")
