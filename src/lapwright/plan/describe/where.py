"""A key of the job file in words of the form, for whoever never opened the file: `Hall, side 1, metal: gauge`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from lapwright.job.models import Job
from lapwright.job.tree import Path, path_of
from lapwright.plan.describe.typed import Typed, table_of, tables_of, text_of
from lapwright.plan.describe.words import label_of
from lapwright.verdict import UNNAMED_SIDE

STANDING = ("openings", "pipes", "drains")


def asked_for(keys: Sequence[str], typed: Typed) -> list[Mapping[str, str]]:
    """Each key with its words, said once; of a side that no entry speaks of, the entries of its area.

    typed: the job file.
    """
    found = {where_words(key, typed): UNNAMED_SIDE.sub(r"\1", key) for key in keys}
    return [{"key": key, "words": words} for words, key in found.items()]


def where_words(key: str, typed: Typed) -> str:
    """What a key is, from the outside in; what is no key of a job file is said as it is."""
    if side := UNNAMED_SIDE.fullmatch(key):
        return f"{where_words(side[1].removesuffix('.edges'), typed)}, side {side[2]}: what it is"
    try:
        path = path_of(key)
    except ValueError:
        return key
    if path[0] not in Job.model_fields:
        return key
    above = ", ".join(_above(path, typed))
    label = label_of(path) if isinstance(path[-1], str) else ""
    if above and label:
        return f"{above}: {label[:1].lower()}{label[1:]}"
    return above or label or key


def _above(path: Path, typed: Typed) -> Iterator[str]:
    """Names of what a key belongs to."""
    if path[0] == "roof" and len(path) > 1 and isinstance(path[1], int):
        yield from _of_area(path, tables_of(typed.get("roof")))
    elif path[:2] == ("areas", "layers"):
        yield from (str(step) for step in path[2:-1] if step not in STANDING)
    elif path[0] in ("sheets", "prices"):
        yield from (str(step) for step in path[1:-1])
    elif path[:2] == ("assembly", "plies") and len(path) > 2 and isinstance(path[2], int):
        plies = tables_of(table_of(typed.get("assembly")).get("plies"))
        yield _named(plies, path[2], "ply") or f"ply {path[2] + 1}"
        yield from (label_of(path[: k + 1]).lower() for k in range(3, len(path) - 1))
    else:
        yield from (label_of(path[: k + 1]) for k in range(len(path) - 1) if isinstance(path[k], str))


def _of_area(path: Path, rows: list[Typed]) -> Iterator[str]:
    place = path[1]
    assert isinstance(place, int)  # asked for by whoever calls
    row = rows[place] if place < len(rows) else {}
    yield text_of(row.get("area")) or f"area {place + 1}"
    if len(path) < 4 or not isinstance(path[3], int):
        yield from (label_of(path[:3]).lower(),) if len(path) > 3 else ()
        return
    entries = tables_of(row.get(str(path[2])))
    if path[2] == "edges":
        sides = str(entries[path[3]].get("sides", "")) if path[3] < len(entries) else ""
        yield f"side {sides}" if sides.isdigit() else f"sides {sides}" if sides else f"edges {path[3] + 1}"
    else:
        yield _named(entries, path[3], "name") or _named(entries, path[3], "plane") or f"{path[2]} {path[3] + 1}"
    yield from (label_of(path[: k + 1]).lower() for k in range(4, len(path) - 1))


def _named(entries: Sequence[Typed], place: int, key: str) -> str:
    return text_of(entries[place].get(key)) if place < len(entries) else ""
