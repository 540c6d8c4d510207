"""Which keys of two job files differ; items of a list are known by their names, so that one more shifts no other."""

from __future__ import annotations

from collections.abc import Iterator

from lapwright.job.composing import compose
from lapwright.job.tree import plain
from lapwright.plan.views.sides import Row, worded

NAMES = ("name", "area", "ply", "plane", "sides")


def key_rows(mine: str, other: str) -> list[Row]:
    """A row for each key that either file has, as it stands in both; the same ones with it."""
    ours, theirs = keys_of(mine), keys_of(other)
    both = [*ours, *(key for key in theirs if key not in ours)]
    return [worded(key, ours.get(key), theirs.get(key)) for key in both]


def keys_of(text: str) -> dict[str, str]:
    """The texts of a job file by their paths, in file order."""
    return dict(flat(plain(compose(text, file="").root), ""))


def flat(value: object, path: str) -> Iterator[tuple[str, str]]:
    """Texts under a value with their paths."""
    if isinstance(value, dict):
        for name, each in value.items():
            yield from flat(each, f"{path}.{name}" if path else str(name))
    elif isinstance(value, list):
        for name, each in zip(item_names(value), value, strict=True):
            yield from flat(each, f"{path}[{name}]")
    elif isinstance(value, str):
        yield path, " ".join(value.split())


def item_names(items: list[object]) -> list[str]:
    """What the items of a list are known by: their names where all have one and no two the same, else their places."""
    for key in NAMES:
        found = [item.get(key) if isinstance(item, dict) else None for item in items]
        names = [name for name in found if isinstance(name, str)]
        if len(names) == len(items) and len(set(names)) == len(names):
            return names
    return [str(place) for place in range(len(items))]
