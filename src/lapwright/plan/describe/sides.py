"""What is done at sides of an outline, said of several at once: the edits of `edges` that say it.

An entry of which some sides are meant keeps the others; those that are meant come under an entry of their own, with
what is said and nothing else.  An entry whose sides are all meant is changed in place, so that its comments stay.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from lapwright.faults import Fault, Refused
from lapwright.job.roof_models import sides_of
from lapwright.plan.describe.typed import Typed, table_of, tables_of
from lapwright.units.unread import Unread

Json = dict[str, Any]
MOST_SIDES = 5_000


def side_edits(typed: Typed, place: int, sides: Sequence[int], said: Mapping[str, Any]) -> list[Json]:
    """The edits that say the same of some sides of an area, and take back what was said of them before.

    Args:
        typed: the job file's tables.
        place: of the area under `roof`.
        sides: numbers from 1.
        said: kind, and height or metal where they are given, as texts; empty to say nothing of them.

    Raises: Refused for an area that is not there, or sides that are none.
    """
    areas = tables_of(typed.get("roof"))
    if not 0 <= place < len(areas) or not sides or len(sides) > MOST_SIDES or min(sides) < 1:
        raise Refused([Fault("", 0, 0, "sides", "", "sides of an area of the roof, from 1", "1")])
    meant = set(sides)
    head = f"roof[{place}].edges"
    edits: list[Json] = []
    dropped: list[int] = []
    kept: list[Json] = []
    reused: int | None = None
    for group, entry in enumerate(tables_of(areas[place].get("edges"))):
        own = _numbers(entry)
        if not meant & set(own):
            continue
        left = [side for side in own if side not in meant]
        if not left:
            if reused is None and said:
                reused = group
            else:
                dropped.append(group)
        elif isinstance(entry.get("sides"), str) and len(ranges(left)) == 1:
            edits.append(_set(f"{head}[{group}].sides", ranges(left)[0]))
        else:
            dropped.append(group)
            kept += [{**entry, "sides": row} for row in ranges(left)]
    if reused is not None and isinstance(table_of(tables_of(areas[place].get("edges"))[reused]).get("sides"), list):
        dropped.append(reused)
        reused = None
    rows = ranges(sorted(meant)) if said else []
    if reused is not None:
        edits += _changed(f"{head}[{reused}]", tables_of(areas[place].get("edges"))[reused], rows[0], said)
        rows = rows[1:]
    edits += [{"edit": "drop", "path": f"{head}[{group}]"} for group in sorted(dropped, reverse=True)]
    edits += [{"edit": "add", "path": head, "values": values} for values in kept]
    return edits + [{"edit": "add", "path": head, "values": {"sides": row, **said}} for row in rows]


def ranges(sides: Iterable[int]) -> list[str]:
    """Numbers in order as ranges: 1, 2, 3, 5 are `1-3` and `5`."""
    found: list[list[int]] = []
    for side in sorted(set(sides)):
        if found and side == found[-1][1] + 1:
            found[-1][1] = side
        else:
            found.append([side, side])
    return [str(low) if low == high else f"{low}-{high}" for low, high in found]


def _numbers(entry: Typed) -> tuple[int, ...]:
    try:
        return sides_of(entry.get("sides"))
    except Unread:
        return ()


def _changed(path: str, entry: Typed, sides: str, said: Mapping[str, Any]) -> list[Json]:
    """The edits that make an entry say just this."""
    edits = [_set(f"{path}.sides", sides)] if entry.get("sides") != sides else []
    edits += [{"edit": "drop", "path": f"{path}.{name}"} for name in entry if name != "sides" and name not in said]
    for name, value in said.items():
        if isinstance(value, str):
            edits += [_set(f"{path}.{name}", value)] if entry.get(name) != value else []
            continue
        there = table_of(entry.get(name))
        edits += [{"edit": "drop", "path": f"{path}.{name}.{key}"} for key in there if key not in value]
        edits += [_set(f"{path}.{name}.{key}", each) for key, each in value.items() if there.get(key) != each]
    return edits


def _set(path: str, value: str) -> Json:
    return {"edit": "set", "path": path, "value": value}
