"""What a search of an area is made with, and what it is known by."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from lapwright.defaults.values import Rules
from lapwright.layout.cost import Costs
from lapwright.layout.pool import Stock
from lapwright.layout.search import Part
from lapwright.layout.standing import Judge, make_judge


@dataclass(frozen=True, slots=True)
class Setting:
    """What a search of an area is made with.

    sheets: length of the roll by sheet, in order.  bare, full: lengths that details take of each sheet with how many,
    without those at openings and with them.  patience: share of the usual tries of the last search, and under 1 of the
    states that are kept side by side before it.
    """

    rules: Rules
    costs: Costs
    aim: str
    sheets: Mapping[str, int]
    bare: tuple[Mapping[int, int], ...]
    full: tuple[Mapping[int, int], ...]
    patience: float = 1.0


@dataclass(frozen=True, slots=True)
class Before:
    """What earlier areas leave: offcuts by sheet, and lengths cut from each sheet with how many."""

    pools: tuple[tuple[int, ...], ...]
    cut: tuple[Mapping[int, int], ...]


def nothing_before(sheets: int) -> Before:
    """What the first area begins with."""
    return Before(tuple(() for _ in range(sheets)), tuple({} for _ in range(sheets)))


@dataclass(frozen=True, slots=True)
class Table:
    """The parts of an area on one ground, ready to be split: parts, stocks, setting, what was before.

    repeats: courses after which joints come again, to be tried; movable: parts that the last search may change, None
    for all; details: what details take of each sheet.
    """

    parts: Sequence[Part]
    stocks: Sequence[Stock]
    setting: Setting
    before: Before
    repeats: Sequence[int]
    movable: Sequence[int] | None
    details: tuple[Mapping[int, int], ...]

    @property
    def is_whole(self) -> bool:
        """All that details take of each sheet is known."""
        return self.details == self.setting.full

    def judge(self, aim: str) -> Judge:
        """What an aim judges by, earlier areas' lengths and details packed with the area's own."""
        fixed = [added(one, other) for one, other in zip(self.details, self.before.cut, strict=True)]
        return make_judge(aim, self.setting.costs, list(self.setting.sheets), fixed)


@dataclass(frozen=True, slots=True)
class Asked:
    """A table, known by all that its searches hang on; the aim that was asked for is not among it."""

    table: Table = field(compare=False)
    known_by: tuple[object, ...]


def asked_of(table: Table) -> Asked:
    """A table and what its searches hang on."""
    setting, before = table.setting, table.before
    worths = tuple(setting.costs.worth(name) for name in ("end_lap", "t_joint", "cut", "new_length"))
    prices = tuple((name, roll, setting.costs.price(name)) for name, roll in setting.sheets.items())
    counts = tuple(tuple(each.items()) for each in (*before.cut, *table.details))
    movable = None if table.movable is None else tuple(table.movable)
    parts, stocks = tuple(table.parts), tuple(table.stocks)
    whole = (movable, table.is_whole)
    return Asked(
        table, (parts, stocks, worths, prices, setting.patience, before.pools, counts, tuple(table.repeats), whole)
    )


def added(one: Mapping[int, int], other: Mapping[int, int]) -> dict[int, int]:
    """Counts together.  Source: arithmetic"""
    return {key: one.get(key, 0) + other.get(key, 0) for key in (*one, *other)}
