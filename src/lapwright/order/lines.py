"""A line of the order: rounded up to what is sold, with its rate's origin and, where there is a price, its cost."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from lapwright.assembly.values import Assembly
from lapwright.defaults.si import row_si
from lapwright.defaults.table import table
from lapwright.defaults.values import Origin, Rules
from lapwright.layout.values import Detail, Layout
from lapwright.order.values import OrderLine
from lapwright.roof.values import Area
from lapwright.units.write import Units

NO_VALUES: Mapping[str, float] = MappingProxyType({})
HAIR = 1e-9  # a need that is whole but for rounding is whole
PRICED = ("primer", "mastic", "caulk", "granules", "fasteners", "edge_metal")


@dataclass(frozen=True, slots=True)
class Needs:
    """What the order is made from.

    coverage: the job's own coverage of primer, mastic or caulk [m²/m³].  cold: the job's hours ask for warm rolls or
    heat.  units: of the arithmetic in words.
    """

    areas: tuple[Area, ...]
    assembly: Assembly
    layout: Layout
    rules: Rules
    units: Units
    coverage: Mapping[str, float]
    cold: bool

    def details(self, kind: str) -> list[Detail]:
        """The layout's details of a kind, in its order."""
        return [detail for detail in self.layout.details if detail.kind == kind]


@dataclass(frozen=True, slots=True)
class Want:
    """What is wanted before it is priced, as in OrderLine.

    ordered: where it is not `needed` rounded up.  price_key: the sheet or group whose price it has; empty: none.
    """

    item: str
    group: str
    needed: float
    unit: str
    basis: str
    ids: tuple[str, ...] = ()
    rate: Origin | None = None
    ordered: int | None = None
    price_key: str = ""


def make_line(want: Want, prices: Mapping[str, float]) -> OrderLine:
    """The line of the order for a want.

    Source: arithmetic
    Checked: tests/order/test_order_lines.py
    """
    ordered = math.ceil(want.needed - HAIR) if want.ordered is None else want.ordered
    price = prices.get(want.price_key) if want.price_key else None
    return OrderLine(
        item=want.item,
        group=want.group,
        needed=want.needed,
        ordered=ordered,
        unit=want.unit,
        basis=want.basis,
        rate=want.rate,
        from_ids=want.ids,
        price=price,
        cost=None if price is None else round(price * ordered, 2),
    )


def default(name: str) -> float:
    """A coverage in SI.  Source: defaults/coverage.csv, each row with its own"""
    return row_si(table("coverage")[name])


def origin(name: str) -> Origin:
    """Where a coverage comes from.  Source: defaults/coverage.csv, each row with its own"""
    row = table("coverage")[name]
    return Origin(f"coverage.{name}", row.text, row.text, row.origin, row.source, row.note)


def fasten_row(name: str) -> tuple[float, Origin]:
    """A value of the fastening table in SI with its origin.  Source: defaults/fasten.csv, each row with its own"""
    row = table("fasten")[name]
    return row_si(row), Origin(f"fasten.{name}", row.text, row.text, row.origin, row.source, row.note)


def given_or_default(needs: Needs, material: str, name: str) -> tuple[float, Origin]:
    """A material's coverage [m²/m³] from the job file, else the default of that name, with its origin."""
    given = needs.coverage.get(material)
    if given is None:
        return default(name), origin(name)
    text = needs.units.number_and_unit(given, "m2/m3")
    usual = table("coverage")[name].text
    return given, Origin(f"materials.{material}.coverage", text, usual, "job file", "the job file")


def flange(metal: Detail) -> float:
    """Width of a metal's flange [m], or the usual one where it is not given.

    Source: defaults/coverage.csv metal_flange [common practice, no source]
    """
    return metal.width or default("metal_flange")


def counted(count: int, noun: str) -> str:
    """`1 run`, `3 runs`.  Source: arithmetic"""
    return f"{count} {noun}{'' if count == 1 else 's'}"


def ids_of(things: Iterable[Detail]) -> tuple[str, ...]:
    """Ids of details."""
    return tuple(thing.id for thing in things)
