"""The tables of defaults beside this module, read once: each value with its unit, its origin and its source."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType

COLUMNS = ("name", "value", "unit", "origin", "source", "note")
ORIGINS = ("published", "maker", "common practice", "from memory")


@dataclass(frozen=True, slots=True)
class Row:
    """One default: value as written, its unit, where it comes from."""

    name: str
    value: str
    unit: str
    origin: str
    source: str
    note: str

    @property
    def text(self) -> str:
        """The value with its unit, as a job file has it: `18"`, `5 F`, `1`."""
        return f"{self.value}{self.unit}" if self.unit in ("'", '"') else f"{self.value} {self.unit}".rstrip()

    def number(self) -> float:
        """The value as a number, in `unit`."""
        return float(self.value)


@cache
def table(name: str) -> Mapping[str, Row]:
    """The rows of `defaults/<name>.csv` by name, in file order.

    Raises: FileNotFoundError where there is no such table; ValueError for a row that is not whole (both are bugs).
    """
    text = (resources.files("lapwright.defaults") / f"{name}.csv").read_text(encoding="utf-8")
    rows: dict[str, Row] = {}
    reader = csv.DictReader(text.splitlines(), strict=True)
    if tuple(reader.fieldnames or ()) != COLUMNS:
        raise ValueError(f"{name}.csv: columns are {reader.fieldnames}, not {COLUMNS}")
    for cells in reader:
        if any(not isinstance(cells.get(column), str) for column in COLUMNS) or None in cells:
            raise ValueError(f"{name}.csv line {reader.line_num}: not six cells")
        row = Row(**cells)
        if row.name in rows or row.origin not in ORIGINS:
            raise ValueError(f"{name}.csv line {reader.line_num}: name twice, or origin not one of {ORIGINS}")
        rows[row.name] = row
    return MappingProxyType(rows)
