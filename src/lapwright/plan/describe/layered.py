"""Layers of a drawing taken for areas and for what stands in them: the edits of a job file that say so."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from lapwright.faults import Fault, Refused
from lapwright.job.area_models import DRAWN_DRAINS, WHERE_AREAS_MEET
from lapwright.job.roof_models import OPENING_KINDS
from lapwright.job.tree import written
from lapwright.plan.describe.given import look_at
from lapwright.plan.describe.typed import Typed, table_of, tables_of, text_of
from lapwright.plan.describe.words import option_words

Json = dict[str, Any]


def uses() -> list[list[str]]:
    """What a layer can be taken for, in words, and the key that says more of all that stands on it."""
    openings = [[kind, several(option_words(kind))] for kind in OPENING_KINDS]
    drains = [[kind, several(option_words(kind))] for kind in DRAWN_DRAINS]
    rows = [["outline", "outline of an area"], *openings, ["pipe", "pipes"], *drains]
    return [[*row, said_of(row[0])] for row in rows]


def several(word: str) -> str:
    """A word for more than one."""
    return f"{word}es" if word.endswith(("ch", "sh", "s", "x")) else f"{word}s"


def said_of(use: str) -> str:
    """The key that says of a whole layer what a drawing can't: how high its curbs are, how wide its outlets."""
    return "height" if use in OPENING_KINDS else "diameter" if use in DRAWN_DRAINS else ""


def areas_of(found: Json, taken: Sequence[Mapping[str, str]], unit: str) -> Json:
    """The `areas` of a job file.  taken: layer, use, of an outline the area's name, else the size said of its layer.

    Sides of areas that meet are cut where they do, so that each part can be an edge of its own.
    """
    by_use = {"openings": OPENING_KINDS, "pipes": ("pipe",), "drains": DRAWN_DRAINS}
    standing = {
        key: {each["layer"]: _standing(each) for each in taken if each["use"] in kinds} for key, kinds in by_use.items()
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
    if len(outlines) > 1:
        areas["corners"] = WHERE_AREAS_MEET
    names = [each.get("area") or each["layer"] for each in outlines]
    layers = {name: {"outline": each["layer"], **below} for name, each in zip(names, outlines, strict=True)}
    return {**areas, "layers": layers}


def _standing(taken: Mapping[str, str]) -> str | Mapping[str, str]:
    """A layer's kind, with the size that was said of it."""
    key, size = said_of(taken["use"]), taken.get("size", "").strip()
    return {"kind": taken["use"], key: size} if key and size else taken["use"]


def drawing_edits(
    typed: Typed, folder: Path, file: str, taken: Sequence[Mapping[str, str]], unit: str, was: Mapping[str, int]
) -> Json:
    """The edits that take layers of a drawing, once a process with limits has read them; and what they come to.

    was: how many sides each area had whose edges are given, so that it is told where their numbers mean others now.
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
            for layer, said in layers.get(key, {}).items():
                at = (*head, key, layer)
                if isinstance(said, Mapping):
                    edits += [_set(written((*at, name)), value) for name, value in said.items()]
                else:
                    edits.append(_set(written(at), said))
    rows = tables_of(typed.get("roof"))
    there = {text_of(row.get("area")): place for place, row in enumerate(rows)}
    for name in areas["layers"]:
        place = there.get(name)
        if place is None:
            edits.append({"edit": "add", "path": "roof", "values": {"area": name}})
        elif "outline" in table_of(rows[place]):
            edits.append({"edit": "drop", "path": f"roof[{place}].outline"})
    moved = [
        f"{name} has {seen['sides'][name]} sides now, and had {count}: look over what each of them is"
        for name, count in was.items()
        if seen["sides"].get(name, count) != count
    ]
    return {"edits": edits, "words": [*seen["words"], *moved], "mended": seen["mended"]}


def _set(path: str, value: str) -> Json:
    return {"edit": "set", "path": path, "value": value}
