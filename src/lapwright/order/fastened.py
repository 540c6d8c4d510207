"""Nails of nailed sheets, and fasteners or ribbons of boards, as they were counted zone by zone (Q2, Q3)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from lapwright.fasten.values import FastenerNeed
from lapwright.order.lines import Want, default, make_line, origin
from lapwright.order.values import OrderLine
from lapwright.units.write import Units

# What each is sold in: unit, the row of coverage.csv that says how many or how long.
SOLD: Mapping[str, tuple[str, str]] = {
    "nails": ("box", "cap_nail_box"),
    "screws": ("box", "screw_box"),
    "ribbon": ("tube", "ribbon_tube"),
}
PRICE: Mapping[str, str] = {"nails": "fasteners", "screws": "fasteners", "ribbon": ""}


def fastened_lines(
    fastened: Sequence[FastenerNeed], prices: Mapping[str, float], units: Units
) -> tuple[OrderLine, ...]:
    """A line for each zone's nails, screws or ribbons.

    Source: arithmetic; box and tube: defaults/coverage.csv, each row with its own
    Checked: tests/order/test_order_fastened.py
    """
    lines = []
    for one in fastened:
        unit, row = SOLD[one.kind]
        said = units.length(one.amount) if one.kind == "ribbon" else f"{one.amount:.0f}"
        want = Want(
            item=one.item,
            group="fasteners",
            needed=one.amount / default(row),
            unit=unit,
            basis=f"{said}; {one.basis}",
            ids=one.ids,
            rate=origin(row),
            price_key=PRICE[one.kind],
        )
        lines.append(make_line(want, prices))
    return tuple(lines)
