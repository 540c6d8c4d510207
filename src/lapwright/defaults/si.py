"""A default's value in SI, for the rooms that compute with it."""

from __future__ import annotations

from lapwright.defaults.table import Row, table
from lapwright.units.anything import si_scale


def row_si(row: Row) -> float:
    """The row's number in SI; a row without a unit, or with unit `1`, is a plain number.

    Source: arithmetic
    """
    if row.unit in ("", "1"):
        return row.number()
    scale, offset = si_scale(row.unit)
    return row.number() * scale + offset


def default_si(name: str, row: str) -> float:
    """The number of one row of the table `name`, in SI.

    Source: arithmetic
    """
    return row_si(table(name)[row])


def default_number(name: str, row: str) -> float:
    """The number of one row of the table `name` as written, for a ratio or where the reader knows the unit.

    Source: arithmetic
    """
    return table(name)[row].number()
