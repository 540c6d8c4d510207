"""Layers of a drawing taken for areas and for what stands in them: the edits of a job file that say so."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from lapwright.faults import Fault, Refused
from lapwright.job.area_models import DRAWN_DRAINS
from lapwright.job.roof_models import OPENING_KINDS
from lapwright.job.tree import written
from lapwright.plan.describe.given import look_at
from lapwright.plan.describe.typed import Typed, table_of, tables_of, text_of
from lapwright.plan.describe.words import option_words

Json = dict[str, Any]


def uses() -> list[list[str]]:
    """What a layer can be taken for."""
    openings = [[kind, f"{option_words(kind)}s"] for kind in OPENING_KINDS]
    drains = [[kind, f"{option_words(kind)}s"] for kind in DRAWN_DRAINS]
    return [["outline", "outline of an area"], *openings, ["pipe", "pipes"], *drains]


def areas_of(found: Json, taken: Sequence[Mapping[str, str]], unit: str) -> Json:
    """The `areas` of a job file.  taken: layer, use and, of an outline, the area's name."""
    by_use = {"openings": OPENING_KINDS, "pipes": ("pipe",), "drains": DRAWN_DRAINS}
    standing = {
        key: {each["layer"]: each["use"] for each in taken if each["use"] in kinds} for key, kinds in by_use.items()
    }
    below = {key: layers for key, layers in standing.items() if layers}
    outlines = [each for each in taken if each["use"] == "outline"]
    if not outlines:
        raise Refused([Fault(found["file"], 0, 0, "layers", "", "a layer that is the outline of an area", "")])
    areas: Json = {found["kind"]: found["file"]}
    if unit:
        areas["units"] = unit
    if found["property"] not in ("", "layer"):
        areas["property"] = found["property"]
    names = [each.get("area") or each["layer"] for each in outlines]
    layers = {name: {"outline": each["layer"], **below} for name, each in zip(names, outlines, strict=True)}
    return {**areas, "layers": layers}


def drawing_edits(typed: Typed, folder: Path, file: str, taken: Sequence[Mapping[str, str]], unit: str) -> Json:
    """The edits that take layers of a drawing, once a process with limits has read them; and what they come to.

    Raises: Refused with what is wrong in the drawing or in what is taken.
    """
    found = look_at(folder, file)
    areas = areas_of(found, taken, unit)
    units = "metric" if typed.get("units") == "metric" else "us"
    seen = look_at(folder, file, "plan", {"areas": areas, "units": units})
    edits: list[Json] = []
    if "areas" in typed:
        edits.append({"edit": "drop", "path": "areas"})
    edits += [_set(f"areas.{key}", value) for key, value in areas.items() if isinstance(value, str)]
    for name, layers in areas["layers"].items():
        head: tuple[str | int, ...] = ("areas", "layers", name)
        edits.append(_set(written((*head, "outline")), layers["outline"]))
        for key in ("openings", "pipes", "drains"):
            edits += [_set(written((*head, key, layer)), kind) for layer, kind in layers.get(key, {}).items()]
    rows = tables_of(typed.get("roof"))
    there = {text_of(row.get("area")): place for place, row in enumerate(rows)}
    for name in areas["layers"]:
        place = there.get(name)
        if place is None:
            edits.append({"edit": "add", "path": "roof", "values": {"area": name}})
        elif "outline" in table_of(rows[place]):
            edits.append({"edit": "drop", "path": f"roof[{place}].outline"})
    return {"edits": edits, "words": seen["words"], "mended": seen["mended"]}


def _set(path: str, value: str) -> Json:
    return {"edit": "set", "path": path, "value": value}
