"""The file of a layout as built: JSON shaped like plan.json, taken in, and questioned where it is of another unit."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, NoReturn

from lapwright.faults import Fault, Refused, shorten
from lapwright.geometry.polygon import bounds
from lapwright.plan.files import read_bytes
from lapwright.roof.values import Area
from lapwright.units.factors import FOOT, INCH, TICKS_PER_METRE

WRITE = "a file shaped like plan.json"
SCHEMA = "lapwright.plan/1"
OTHER_UNITS = {"millimetres": 1000.0, "centimetres": 100.0, "inches": float(1 / INCH), "feet": float(1 / FOOT)}
ALIKE = 0.02  # how nearly a ratio of sizes is that of a unit to the metre


class _Slip(ValueError):  # noqa: N818  # told as a fault by the caller, who knows the file
    """Something that JSON allows and a layout can't hold: what was read, what is needed."""

    def __init__(self, read: str, needs: str) -> None:
        super().__init__(read)
        self.read, self.needs = read, needs


def read_layout(path: Path) -> dict[str, Any]:
    """A layout file as plain values.

    Raises: Refused where it is not a JSON object of finite numbers, or of another version of the schema.
    """
    raw = read_bytes(path, needs="a layout as JSON")
    try:
        text = raw.decode("utf-8-sig")
        found = json.loads(text, parse_constant=_refuse_constant, object_pairs_hook=_once)
    except json.JSONDecodeError as error:
        fault = Fault(path.name, error.lineno, error.colno, "", "", "JSON from here on", WRITE)
        raise Refused([fault]) from error
    except _Slip as slip:
        line, column = _place(text, slip.read)
        raise Refused([Fault(path.name, line, column, "", slip.read, slip.needs, WRITE)]) from slip
    except (UnicodeDecodeError, ValueError, RecursionError) as error:
        raise Refused(
            [Fault(path.name, 0, 0, "", "", "JSON in UTF-8, of numbers and depths as plan.json has them", WRITE)]
        ) from error
    if not isinstance(found, dict):
        raise Refused([Fault(path.name, 1, 1, "", shorten(json.dumps(found)[:80]), "one JSON object", WRITE)])
    schema = found.get("schema", SCHEMA)
    if schema != SCHEMA:
        read = shorten(schema if isinstance(schema, str) else json.dumps(schema)[:80])
        needs = "a layout in this version's form; make the plan anew and carry over what was laid"
        raise Refused([Fault(path.name, 0, 0, "schema", read, needs, f'"schema": "{SCHEMA}"')])
    return found


def _refuse_constant(name: str) -> NoReturn:
    raise _Slip(name, "finite numbers")


def _once(pairs: Sequence[tuple[str, Any]]) -> dict[str, Any]:
    """An object, unless it has a key twice, of which one would be read without a word."""
    made = dict(pairs)
    if len(made) < len(pairs):
        names = [name for name, _ in pairs]
        raise _Slip(next(f'"{name}"' for name in names if names.count(name) > 1), "each key of an object once")
    return made


def _place(text: str, read: str) -> tuple[int, int]:
    """Line and column where something stands first outside of quotes, as a key or as a number."""
    found = re.search(re.escape(read) + (r"\s*:" if read.startswith('"') else ""), text)
    if found is None:
        return (0, 0)
    line = text.count("\n", 0, found.start()) + 1
    return (line, found.start() - (text.rfind("\n", 0, found.start()) + 1) + 1)


def read_at(plan: Mapping[str, Any], path: str) -> str:
    """What stands at a path such as `plies[1].pieces[5].length`, in a few words; nothing where it is missing."""
    value: Any = plan
    for name, number in re.findall(r"([^.\[\]]+)|\[(\d+)\]", path):
        key = name or int(number)
        if not (isinstance(value, dict) and key in value) and not (isinstance(value, list) and number):
            return ""
        if isinstance(value, list) and int(number) >= len(value):
            return ""
        value = value[key]
    if isinstance(value, list):
        return f"a list of {len(value)}"
    return "an object" if isinstance(value, dict) else shorten(json.dumps(value)[:80])


def in_metres(plan: Mapping[str, Any], areas: Sequence[Area], *, file: str) -> None:
    """Questions a layout whose areas are as many times the job's as there are of another unit in a metre.

    Raises: Refused
    """
    drawn = _outlines(plan)
    for area in areas:
        across = max(_sizes(area.outline)) / TICKS_PER_METRE
        size = drawn.get(area.name, 0.0)
        for name, ratio in OTHER_UNITS.items():
            if abs(size / across / ratio - 1) < ALIKE:
                read = f"{area.name} {size:,.6g} across"
                needs = f"lengths in metres, {across:,.6g}; is the layout in {name}?"
                raise Refused([Fault(file, 0, 0, "areas", read, needs, "every length in metres")])


def _outlines(plan: Mapping[str, Any]) -> dict[str, float]:
    """How far the plan's areas are across, those that can be read."""
    found = {}
    listed = plan.get("areas")
    for each in listed if isinstance(listed, list) else ():
        corners = each.get("outline") if isinstance(each, dict) else None
        if isinstance(corners, list) and corners and all(_is_pair(corner) for corner in corners):
            found[str(each.get("name"))] = float(max(_sizes([(corner[0], corner[1]) for corner in corners])))
    return found


def _is_pair(value: object) -> bool:
    return isinstance(value, list) and len(value) == 2 and all(isinstance(each, float | int) for each in value)


def _sizes(corners: Sequence[tuple[Any, Any]]) -> tuple[Any, Any]:
    left, low, right, high = bounds(corners)
    return (right - left, high - low)
