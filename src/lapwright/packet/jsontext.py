"""JSON text that people can read and compare: plain values in, one entry a line out."""

from __future__ import annotations

import datetime as dt
import json
import math
from collections.abc import Mapping
from typing import Any

WIDEST_LINE = 200
DEEPEST = 4


def plain(value: object) -> Any:  # noqa: ANN401  # JSON has no type of its own
    """A value as JSON holds it: dates in ISO form, no minus zero, no number that is none."""
    if isinstance(value, float):
        return value + 0.0 if math.isfinite(value) else None
    if value is None or isinstance(value, (bool, int, str)):
        return value
    if isinstance(value, Mapping):
        return {str(key): plain(one) for key, one in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(one) for one in value]
    if isinstance(value, dt.date | dt.time):
        return value.isoformat()
    item = getattr(value, "item", None)
    return plain(item()) if callable(item) else str(value)


def written(value: object, depth: int) -> list[str]:
    """JSON text in lines: what is short or deep stands on one line, what is long is opened."""
    whole = json.dumps(value, ensure_ascii=False, allow_nan=False)
    if len(whole) <= WIDEST_LINE or depth == DEEPEST or not isinstance(value, (dict, list)):
        return [whole]
    if isinstance(value, dict):
        parts = [(json.dumps(key, ensure_ascii=False) + ": ", written(one, depth + 1)) for key, one in value.items()]
    else:
        parts = [("", written(one, depth + 1)) for one in value]
    opening, closing = ("{", "}") if isinstance(value, dict) else ("[", "]")
    lines = [opening]
    for number, (key, rows) in enumerate(parts, start=1):
        comma = "," if number < len(parts) else ""
        lines += [" " + line for line in [key + rows[0], *rows[1:]]]
        lines[-1] += comma
    return [*lines, closing]
