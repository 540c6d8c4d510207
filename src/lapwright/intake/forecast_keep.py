"""The last good forecast, kept beside the job file: for when the service does not answer, and to look at."""

from __future__ import annotations

import datetime as dt
import json
import os
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any

from lapwright.defaults.si import default_si
from lapwright.faults import Fault, Refused
from lapwright.intake.forecast_grid import read_layers
from lapwright.intake.forecast_reply import SCHEMA, properties

LARGEST = 64 * 1024 * 1024


def kept_path(job: Path) -> Path:
    """Where a job's last good forecast is kept: `millrace.forecast.json` beside `millrace.yaml`."""
    return job.with_name(f"{job.stem}.forecast.json")


def forecast_bytes(replies: Mapping[str, Any]) -> bytes:
    """Replies as they are saved."""
    return (json.dumps(replies, ensure_ascii=False, separators=(",", ":")) + "\n").encode()


def kept_before(path: Path, grid: Mapping[str, Any] | None) -> Any:  # noqa: ANN401  # a reply as received
    """Of the kept forecasts the grid that knows the night before a new one's first hour; None where none does.

    That is the last one if it begins at least `night` before the new one, else the one kept before it.
    """
    if grid is None or not is_ours(path) or not path.exists():
        return None
    try:
        kept = json.loads(path.read_bytes())
    except (OSError, ValueError, RecursionError):
        return None
    first, last = first_hour(grid), first_hour(kept.get("grid"))
    if first is None or last is None or square(grid) != square(kept["grid"]):
        return None
    night = dt.timedelta(seconds=default_si("forecast", "night"))
    return kept["grid"] if last <= first - night else kept.get("before")


def square(grid: Mapping[str, Any]) -> tuple[object, ...]:
    """Which square of the service's grid a reply is for: a job may have moved."""
    inner = properties(grid)
    return tuple(inner.get(key) for key in ("gridId", "gridX", "gridY"))


def first_hour(grid: object) -> dt.datetime | None:
    """When the air temperatures of a grid reply begin, UTC; None where it has none."""
    layers = read_layers(properties(grid), file="") if isinstance(grid, dict) else None
    return min((span.begin for span, _ in layers.values.get("air_c", ())), default=None) if layers else None


def is_ours(path: Path) -> bool:
    """A name that is free, or holds a forecast that was saved here before; nothing else is ever written over."""
    try:
        if not path.exists():
            return True
        if not path.is_file() or path.stat().st_size > LARGEST:
            return False
        found = json.loads(path.read_bytes())
    except (OSError, ValueError, RecursionError):
        return False
    return isinstance(found, dict) and found.get("schema") == SCHEMA


def keep(path: Path, content: bytes) -> None:
    """Write a forecast, whole or not at all.

    Raises: Refused where something else has the name, or the folder can't be written.
    """
    if not is_ours(path):
        raise Refused([_fault(path, "a file that is no saved forecast", "a name that is free, or a saved forecast's")])
    try:
        _write(path, content)
    except OSError as error:
        said = (error.strerror or "can't be written").lower()
        raise Refused([_fault(path, said, "a folder that can be written")]) from error


def _write(path: Path, content: bytes) -> None:
    handle, name = tempfile.mkstemp(prefix=".lapwright-", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
        Path(name).chmod(0o644)
        Path(name).replace(path)
    except BaseException:
        with suppress(OSError):
            Path(name).unlink()
        raise


def _fault(path: Path, read: str, needs: str) -> Fault:
    return Fault(path.name, 0, 0, "", read, needs, "--save with another name")
