"""Replies of a forecast service as plain JSON, taken with suspicion: form looked at, numbers checked, nothing guessed.

A saved forecast is one JSON file holding the replies as they were received: the place (`points`), the raw layers of
the grid (`grid`) and the hourly periods (`hourly`).  A single grid or hourly reply is read as well.
"""

from __future__ import annotations

import datetime as dt
import json
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from lapwright.faults import Fault, Refused

SCHEMA = "lapwright.forecast/1"
PARTS = ("points", "grid", "hourly", "before")
LARGEST_NUMBER = 1e6
_FORM = "a saved forecast: the service's replies in one JSON file, or one grid or hourly reply"
_WRITE = "--forecast nws --save FILE.json"

Reply = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Replies:
    """The properties of each reply, empty where there is none; at: longitude and latitude of the place [°].

    before: the grid of an earlier forecast, for the hours before this one's first.
    """

    points: Reply
    grid: Reply
    hourly: Reply
    at: tuple[float, float] | None = None
    before: Reply = field(default_factory=dict)


def replies_of(content: bytes, *, file: str) -> Replies:
    """The replies in a file, or one reply alone.

    Raises: Refused where it is no JSON, an error that the service sent, or nothing that holds hours.
    """
    whole = json_of(content, file=file)
    parts = {part: whole.get(part) for part in PARTS} if whole.get("schema") == SCHEMA else {kind_of(whole): whole}
    found = {name: properties(part) for name, part in parts.items() if isinstance(part, dict) and name in PARTS}
    if not has_layers(found.get("grid", {})) and not has_periods(found.get("hourly", {})):
        raise Refused([fault(file, said(whole), _FORM)])
    places = [place_of(part) for part in parts.values() if isinstance(part, dict)]
    at = next((place for place in places if place is not None), None)
    return Replies(found.get("points", {}), found.get("grid", {}), found.get("hourly", {}), at, found.get("before", {}))


def json_of(content: bytes, *, file: str) -> dict[str, Any]:
    """The mapping that a JSON text holds.

    Raises: Refused where it breaks off, is no JSON, or no mapping.
    """
    try:
        whole = json.loads(content.decode("utf-8-sig"), parse_constant=_no_number)
    except (ValueError, RecursionError):
        start = " ".join(content[:200].decode("utf-8", errors="replace").split())
        raise Refused([fault(file, start or "an empty file", "JSON, whole as it was sent")]) from None
    if not isinstance(whole, dict):
        read = "a list" if isinstance(whole, list) else plain(json.dumps(whole))
        raise Refused([fault(file, read, _FORM)])
    return whole


def kind_of(reply: Reply) -> str:
    """What a single reply is: grid, hourly, points; "" for neither."""
    inner = properties(reply)
    if has_layers(inner):
        return "grid"
    if has_periods(inner):
        return "hourly"
    return "points" if "forecastGridData" in inner else ""


def properties(reply: Reply) -> Reply:
    """What a reply says; the service puts it under `properties` in one of its formats, at the top in the other."""
    inner = reply.get("properties")
    return inner if isinstance(inner, dict) else reply


def has_layers(inner: Reply) -> bool:
    """The reply holds the temperature's layer."""
    layer = inner.get("temperature")
    return isinstance(layer, dict) and isinstance(layer.get("values"), list)


def has_periods(inner: Reply) -> bool:
    """The reply holds periods."""
    return isinstance(inner.get("periods"), list)


def said(reply: Reply) -> str:
    """What an error reply says of itself; else the first keys."""
    told = [str(reply[key]) for key in ("title", "detail") if isinstance(reply.get(key), str)]
    if not told and isinstance(reply.get("schema"), str) and reply["schema"] != SCHEMA:
        told = [f"schema {reply['schema']}"]
    return plain(": ".join(told) or ", ".join(list(map(str, reply))[:6]) or "nothing")


def plain(text: str) -> str:
    """A text of a reply as it can be printed: without control characters and halves of characters."""
    return " ".join("".join(one if one.isprintable() else " " for one in text).split())


def place_of(reply: Reply) -> tuple[float, float] | None:
    """Longitude and latitude of a reply's point, or of the middle of its grid square; None where it has neither."""
    shape = reply.get("geometry")
    where = shape.get("coordinates") if isinstance(shape, dict) else None
    if isinstance(where, list) and where and isinstance(where[0], list):
        ring = where[0]
        corners = [_pair(corner) for corner in ring[:-1] or ring]
    else:
        corners = [_pair(where)]
    whole = [corner for corner in corners if corner is not None]
    if not whole or len(whole) < len(corners):
        return None
    return (sum(x for x, _ in whole) / len(whole), sum(y for _, y in whole) / len(whole))


def number_of(value: object) -> float:
    """A number, plain or as `{value: …}`; NaN for null and for everything else."""
    if isinstance(value, dict):
        value = value.get("value")
    if isinstance(value, bool) or not isinstance(value, int | float) or abs(value) > LARGEST_NUMBER:
        return math.nan
    return float(value)


def time_of(text: object) -> dt.datetime | None:
    """An instant with its offset, in UTC; None where the text is none."""
    try:
        found = dt.datetime.fromisoformat(text) if isinstance(text, str) else None
        return None if found is None or found.tzinfo is None else found.astimezone(dt.UTC)
    except (ValueError, OverflowError):
        return None


def fault(file: str, read: str, needs: str) -> Fault:
    """A fault about a forecast as a whole."""
    return Fault(file, 0, 0, "forecast", read, needs, _WRITE)


def _pair(where: object) -> tuple[float, float] | None:
    if not isinstance(where, list) or len(where) < 2:
        return None
    x, y = number_of(where[0]), number_of(where[1])
    return (x, y) if abs(x) <= 180 and abs(y) <= 90 else None


def _no_number(name: str) -> float:
    raise ValueError(name)
