"""A what-if: a few values of a job that are tried without saving it, as fields, and as the edits that they come to."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from lapwright.faults import Fault, Refused
from lapwright.job.composing import compose
from lapwright.job.tree import Path, written
from lapwright.job.view import View
from lapwright.layout.cost import AIMS

Json = dict[str, Any]
PLIES = "assembly.plies"
LONGEST = 200
MOST_FIELDS = 100


def whatif_fields(text: str) -> list[Json]:
    """The fields, each with its path, words and present value; choices where it is one of a few.

    text: of the job file, which may have faults.
    """
    view = View(compose(text, file="").root)
    return list(fields(view))[:MOST_FIELDS]


def fields(view: View) -> Iterator[Json]:
    """Plies, lengths of sheets, falls of areas, the first working day, the aim."""
    plies = list(view.rows(("assembly", "plies")))
    if len(plies) in (2, 3):
        yield {"path": PLIES, "label": "Plies", "now": str(len(plies)), "choices": ["2", "3"], "write": ""}
    laid = dict.fromkeys(view.text((*ply, "sheet")) for ply in plies)
    for name in view.names(("sheets",)):
        if name in laid:
            yield typed(view, ("sheets", name, "length"), f"Length of a roll of {name}", "32' 10\"")
    for area in view.rows(("roof",)):
        if view.text((*area, "falls")) is not None:
            name = view.text((*area, "area")) or written(area)
            yield typed(view, (*area, "falls"), f"Which way {name} falls; its courses run across", "S")
    yield typed(view, ("crew", "start"), "First working day", "2027-01-11")
    aim = view.text(("layout", "aim")) or AIMS[0]
    yield {"path": "layout.aim", "label": "What the layout spares", "now": aim, "choices": list(AIMS), "write": ""}


def typed(view: View, path: Path, label: str, write: str) -> Json:
    """A field that is typed as in the job file."""
    return {"path": written(path), "label": label, "now": view.text(path) or "", "choices": [], "write": write}


def whatif_words(text: str, values: Mapping[str, str]) -> str:
    """What a what-if changes, in words."""
    fields = {field["path"]: field for field in whatif_fields(text)}
    told = [f"{fields[path]['label']} {value}" for path, value in changed(fields, values).items()]
    return "; ".join(told) or "nothing changed"


def changed(fields: Mapping[str, Json], values: Mapping[str, str]) -> dict[str, str]:
    """The values that are neither empty nor as they are."""
    return {path: value for path, value in values.items() if value.strip() and value != fields[path]["now"]}


def whatif_edits(text: str, values: Mapping[str, str]) -> list[Json]:
    """The edits (JSON) that values come to; one left as it is, or empty, comes to none.

    values: by the path of a field.
    Raises: Refused for a path that is no field's
    """
    known = {field["path"]: field for field in whatif_fields(text)}
    edits: list[Json] = []
    for path, value in values.items():
        if path not in known:
            raise Refused([Fault("compare", 0, 0, path, value, "one of " + ", ".join(known), "")])
    for path, value in changed(known, values).items():
        if path == PLIES:
            edits += ply_edits(text, value)
        else:
            edits.append({"edit": "set", "path": path, "value": value})
    return edits


def ply_edits(text: str, value: str) -> list[Json]:
    """The edits that make it two or three plies: an interply of the base's sheet, held as the base is, or none.

    Raises: Refused for another number
    """
    view = View(compose(text, file="").root)
    if value == "2":
        return [{"edit": "drop", "path": f"{PLIES}[1]"}]
    if value != "3":
        raise Refused([Fault("compare", 0, 0, PLIES, value, "2 or 3", "3")])
    values = {"ply": "interply", "sheet": view.text(("assembly", "plies", 0, "sheet")) or ""}
    return [
        {"edit": "add", "path": PLIES, "values": {**values, "attachment": "self_adhered"}},
        {"edit": "move", "path": f"{PLIES}[2]", "to": 1},
    ]
