"""Every row of every table in this folder: what a source prints, against what we compute.

A row calls `call` with the JSON keywords of `given` and compares the result with `expect` within `tol`, both in `unit`.

given   {"q": "50 F"} is converted to SI by `units`, {"k": "5 F"} as a temperature difference, {"ticks": "3'"} to layout
        ticks, {"array": [..]} to a numpy array, {"make": "dotted.Class", "given": {..}} is built by its keywords.
        Two keys are ours: "_args" a list of positional arguments, "_pick" a path into the result: `zones[1].asd_pa`,
        `["1'"].asd_pa`, `[0]`.
unit    a unit that `units` knows: the result is SI (temperatures °C, angles in degrees where the unit is deg).
        `delta F`, `delta K`: a temperature difference.  `=min`: the result is in minutes itself, nothing is converted.
        Empty, `1`, `count`, `ticks`, `deg`, `rad`: a bare number.  `text`: equal as text, `true`, `false`, `null` too.
"""

from __future__ import annotations

import csv
import importlib
import json
import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from lapwright.units.read import length_ticks, quantity_si, si_scale, temperature_difference_k

HERE = Path(__file__).parent
COLUMNS = ["id", "call", "given", "expect", "unit", "tol", "kind", "source", "where", "read", "note"]
BARE = ("", "1", "-", "count", "ticks", "deg", "rad")
_PATH = re.compile(r"\.?([A-Za-z_][A-Za-z0-9_]*)|\[(-?[0-9]+)\]|\[[\"']?(.+?)[\"']?\]")


def rows() -> list[dict[str, str]]:
    """All rows of all tables, in the order of their files' names."""
    found = []
    for path in sorted(HERE.glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as stream:
            reader = csv.DictReader(stream, strict=True)
            assert reader.fieldnames == COLUMNS, f"{path.name}: columns are {reader.fieldnames}"
            found.extend(reader)
    return found


def named(dotted: str) -> Any:
    """The function or class of a dotted name, wherever its module ends."""
    parts = dotted.split(".")
    for count in range(len(parts) - 1, 0, -1):
        try:
            value: Any = importlib.import_module(".".join(parts[:count]))
        except ModuleNotFoundError as missing:
            if missing.name is None or not dotted.startswith(missing.name):
                raise
            continue
        for name in parts[count:]:
            value = getattr(value, name)
        return value
    raise LookupError(dotted)


def converted(value: Any) -> Any:
    """A JSON value with the marks of the module's docstring put into effect."""
    if isinstance(value, list):
        return [converted(part) for part in value]
    if not isinstance(value, dict):
        return value
    readers = {"q": quantity_si, "k": temperature_difference_k, "ticks": length_ticks}
    if len(value) == 1 and next(iter(value)) in readers:
        (mark, text), *_ = value.items()
        return readers[mark](text)
    if set(value) == {"array"}:
        return np.asarray(converted(value["array"]), dtype=float)
    if set(value) == {"make", "given"}:
        return named(value["make"])(**converted(value["given"]))
    return {key: converted(part) for key, part in value.items()}


def picked(result: Any, path: str) -> Any:
    """What the path leads to."""
    place = 0
    while place < len(path):
        found = _PATH.match(path, place)
        assert found, f"path {path!r} at {place}"
        name, index, key = found.groups()
        if name is not None:
            result = result[name] if isinstance(result, Mapping) else getattr(result, name)
        else:
            result = result[int(index)] if index is not None else result[key]
        place = found.end()
    return result


def computed(row: Mapping[str, str]) -> Any:
    """Our result for a row."""
    given = json.loads(row["given"] or "{}")
    path = given.pop("_pick", "")
    args = converted(given.pop("_args", []))
    return picked(named(row["call"])(*args, **converted(given)), path)


def bounds(row: Mapping[str, str]) -> tuple[float, float]:
    """What is expected and the tolerance, in the result's own unit."""
    unit = row["unit"]
    scale, offset = 1.0, 0.0
    if unit.startswith("delta "):
        scale = si_scale(unit.removeprefix("delta "))[0]
    elif unit not in BARE and not unit.startswith("="):
        scale, offset = si_scale(unit)
    return float(row["expect"]) * scale + offset, float(row["tol"]) * scale


def as_text(result: Any) -> str:
    """A result as the table writes it."""
    return json.dumps(result) if result is None or isinstance(result, bool) else str(result)


@pytest.mark.parametrize("row", [pytest.param(row, id=row["id"]) for row in rows()])
def test_published_value(row: dict[str, str]) -> None:
    """What the source prints is what we compute, within half its last digit or as the row says."""
    result = computed(row)
    if row["unit"] == "text":
        assert as_text(result) == row["expect"]
        return
    expected_si, tolerance = bounds(row)
    actual_si = float(np.asarray(result, dtype=float).item())
    assert abs(actual_si - expected_si) <= tolerance, f"{actual_si!r} is not {expected_si!r} within {tolerance!r}"


@pytest.mark.parametrize(
    ("path", "expected"),
    [("rows[1]", 20), ('["1\'"].x', 5), ("['1'].x", 6), ("rows[-1]", 30), ("nested.real", 7)],
)
def test_pick_follows_a_path(path: str, expected: int) -> None:
    """A path leads through keys, indexes, quoted keys and attributes."""
    assert picked({"rows": [10, 20, 30], "1'": {"x": 5}, "1": {"x": 6}, "nested": 7 + 0j}, path) == expected


def test_a_wrong_number_is_seen() -> None:
    """The runner's comparison fails on a value beyond the tolerance."""
    row = {"id": "x", "call": "lapwright.units.read.quantity_si", "given": '{"text": "1 psf"}', "expect": "47.9",
           "unit": "Pa", "tol": "0.001"}  # fmt: skip
    expected, tolerance = bounds(row)
    assert abs(computed(row) - expected) > tolerance
