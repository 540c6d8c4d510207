"""Values to begin with, offered at one click where nothing is given yet: common practice, each to be looked over."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

from lapwright.defaults.table import table
from lapwright.job.roof_models import sides_of
from lapwright.plan.describe.sides import ranges
from lapwright.plan.describe.typed import Typed, table_of, tables_of, text_of
from lapwright.units.unread import Unread
from lapwright.units.write import Units

Json = dict[str, Any]
ORIGIN = "common practice, no source; look them over"
Value = Callable[[str], str]


def starts_for(step: str, typed: Typed, units: Units) -> list[Json]:
    """What can be begun with at a step: words, the values shown, and the edits that put them in."""
    make = _STARTS.get(step)
    if make is None:
        return []
    rows, system = table("starting"), "us" if units.is_us else "metric"

    def value(name: str) -> str:
        return (rows.get(f"{system}.{name}") or rows[name]).text

    return make(typed, value)


def _start(words: str, edits: list[Json], note: str) -> Json:
    return {"words": words, "note": note, "origin": ORIGIN, "edits": edits}


def _sheets(typed: Typed, value: Value) -> list[Json]:
    if table_of(typed.get("sheets")) or table_of(typed.get("assembly")).get("plies"):
        return []
    laps = {"side_lap": value("side_lap"), "end_lap": value("end_lap")}
    base = {"width": value("width"), "length": value("base_length"), **laps}
    cap = {"width": value("width"), "length": value("cap_length"), **laps, "surfacing": "granules"}
    plies = [
        {"ply": "base", "sheet": "base-sa", "attachment": "self_adhered"},
        {"ply": "cap", "sheet": "cap-sa", "attachment": "self_adhered"},
    ]
    edits: list[Json] = [{"edit": "add", "path": "assembly.plies", "values": each} for each in plies]
    for name, sheet in (("base-sa", base), ("cap-sa", cap)):
        edits += [_set(f"sheets.{name}.{key}", each) for key, each in sheet.items()]
    note = (
        f"a base and a granule cap, both self-adhered, {value('width')} wide; rolls of {value('base_length')} and "
        f"{value('cap_length')}; side laps {value('side_lap')}, end laps {value('end_lap')}. Temperature limits are "
        "the maker's: type them from the data sheets"
    )
    return [_start("Base and cap of common sizes", edits, note)]


def _falls(typed: Typed, value: Value) -> list[Json]:
    edits: list[Json] = []
    for place, area in enumerate(tables_of(typed.get("roof"))):
        if area.get("planes"):
            continue
        given = {"falls": value("falls"), "slope": value("slope")}
        edits += [_set(f"roof[{place}].{key}", each) for key, each in given.items() if key not in area]
    words = f"Falls {value('falls')} at {value('slope')} wherever nothing is given"
    return [_start(words, edits, "say otherwise where it runs another way")] if edits else []


def _edges(typed: Typed, value: Value) -> list[Json]:
    from lapwright.plan.describe.walked import leg_rows

    edits: list[Json] = []
    metal = {"kind": "galvanised", "gauge": value("gauge"), "face": value("face"), "flange": value("flange")}
    for place, area in enumerate(tables_of(typed.get("roof"))):
        outline = area.get("outline")
        count = len(leg_rows(text_of(outline))) if isinstance(outline, str) else 0
        count = len(outline) if isinstance(outline, list) else count
        for sides in _sides_left(area, count) if count > 2 else ():
            entry = {"sides": sides, "kind": "metal_edge", "metal": metal}
            edits.append({"edit": "add", "path": f"roof[{place}].edges", "values": entry})
    note = f"galvanised, {value('gauge')} gauge, face {value('face')}, flange {value('flange')}"
    return [_start("Metal edge all round, wherever nothing is given", edits, note)] if edits else []


def _sides_left(area: Typed, count: int) -> list[str]:
    """The sides that no entry speaks of, as ranges; none where an entry's sides can't be read."""
    spoken: set[int] = set()
    for entry in tables_of(area.get("edges")):
        try:
            spoken.update(sides_of(entry.get("sides")))
        except Unread:
            return []
    return ranges(side for side in range(1, count + 1) if side not in spoken)


def _crew(typed: Typed, value: Value) -> list[Json]:
    names = ("people", "welders", "day", "days", "fire_watch")
    given = table_of(typed.get("crew"))
    edits = [_set(f"crew.{name}", value(name)) for name in names if name not in given]
    note = (
        f"{value('people')} people, {value('welders')} of them welding, {value('day')} {value('days')}, fire watch "
        f"{value('fire_watch')}"
    )
    return [_start("A crew and its day", edits, note)] if len(edits) == len(names) else []


def _set(path: str, value: str) -> Json:
    return {"edit": "set", "path": path, "value": value}


_STARTS: Mapping[str, Callable[[Typed, Value], list[Json]]] = MappingProxyType(
    {"sheets": _sheets, "falls": _falls, "edges": _edges, "crew": _crew}
)
