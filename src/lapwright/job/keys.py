"""Every key of the job file, found in the models: for messages, the key table and the schema."""

from __future__ import annotations

import types
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from lapwright.defaults.rules import RULE_KINDS
from lapwright.defaults.table import table
from lapwright.job.fields import OneOf, Reads
from lapwright.job.mappings import ReadsRates, ReadsRules
from lapwright.job.models import Job
from lapwright.job.outline_models import WALK_WRITE
from lapwright.job.rulewords import RULE_WORDS
from lapwright.job.tree import Path

Model = type[BaseModel]

# Examples of what is not one text.
_EXAMPLES = {
    "outline": WALK_WRITE,
    "area": "Main",
    "name": "RTU-1",
    "sheet": "cap-sa",
    "layer": "ROOF-MAIN",
    "layers": "Main: {outline: ROOF-MAIN, openings: {CURBS: curb}}",
    "areas": "{dxf: plans/roof.dxf, layers: {Main: {outline: ROOF-MAIN, openings: {CURBS: curb}}}}",
    "feature": "Main",
    "rated_uplift": "90 psf",
    "sides": "2-4",
    "nailable": "false",
    "roof": "a list; each area begins with - area: Main",
    "plies": "a list; each ply on a line, - {ply: base, sheet: base-sa}",
    "planes": "a list; each plane begins with - plane: North",
    "edges": '- {sides: 2-4, kind: parapet, height: 30"}',
    "openings": "- {name: RTU-1, kind: curb, at: E 30' N 20', size: E 8' x N 6', height: 8\"}",
    "pipes": "- {name: V-1, at: E 70' N 40', diameter: 4\"}",
    "drains": '- {name: G-1, kind: gutter, side: 1, width: 6", outlets: 3}',
    "sheets": 'base-sa: {width: 39 3/8", length: 65\' 7", side_lap: 3", end_lap: 6"}',
    "assembly": "a block with plies: and below it each ply on a line",
    "job": "{name: Quarry Lane Depot, number: 26-041}",
    "site": "{latitude: 36.10, longitude: -79.95}",
    "weather": "{year: greensboro}",
    "building": "{height: 22', exposure: C, wind_speed: 112 mph}",
    "deck": "{kind: concrete, nailable: false}",
    "insulation": '{kind: polyiso, thickness: 3", attachment: adhered}',
    "cover_board": '{kind: gypsum, thickness: 1/2", attachment: adhered}',
    "metal": '{kind: galvanised, gauge: 24, face: 5", flange: 4"}',
    "materials": "{primer: {apply_at_or_above: 40 F}}",
    "primer": "{apply_at_or_above: 40 F, coverage: 200 sf/gal, drying: 45 min}",
    "mastic": "{apply_at_or_above: 40 F}",
    "caulk": "{apply_at_or_above: 40 F}",
    "layout": "{aim: least_cost}",
    "nailing": '{laps: 9", field: 18", rows: 2, value: 60 lbf}',
    "crew": "{people: 6, welders: 2, day: 07:00-16:30}",
    "store": "{temperature: 70 F, distance: 150', heater: 15 kW}",
    "weld": "{proved_speed: 3 in/s, proved_sheet: 70 F, nozzle: 550 C}",
    "power": "{volts: 120 V, load: 1.6 kW, gauge: 12, length: 100'}",
}
# Keys whose value has more than one form.
_FORMS = {"outline": "walk, points, or block", "rated_uplift": "pressure, or block by zone"}


@dataclass(frozen=True, slots=True)
class KeyRow:
    """One key for the key table.  path: `roof[].edges[].height`, free names as NAME."""

    path: str
    value: str
    default: str
    meaning: str
    is_needed: bool


def key_rows() -> list[KeyRow]:
    """Every key, in the order of the models."""
    return list(_rows(Job, ""))


@cache
def key_names() -> frozenset[str]:
    """The last word of every path."""
    return frozenset(row.path.removesuffix("[]").rpartition(".")[2] for row in key_rows())


@cache
def home_of(name: str) -> str:
    """The block at the head of the file that alone has a key of this name; empty where none or several have."""
    homes = [row.path.rpartition(".")[0] for row in key_rows() if row.path.rpartition(".")[2] == name]
    return homes[0] if len(homes) == 1 and homes[0].isalpha() else ""


def known_keys(model: Model) -> list[str]:
    """The keys of a table, in order."""
    return [field.alias or name for name, field in model.model_fields.items()]


def field_at(path: Path) -> FieldInfo | None:
    """The field that the last key of a path names; None where the models have none."""
    above = models_at(path[:-1])
    for model in above:
        for name, field in model.model_fields.items():
            if (field.alias or name) == path[-1]:
                return field
    return None


def models_at(path: Path) -> list[Model]:
    """The models that may stand at a path."""
    found: list[Model] = [Job]
    is_named = False
    for step in path:
        if isinstance(step, int):
            continue
        if is_named:
            is_named = False
            continue
        fields = [
            field for model in found for name, field in model.model_fields.items() if (field.alias or name) == step
        ]
        if not fields:
            return []
        is_named = _shape(fields[0].annotation) == "named"
        found = _models(fields[0].annotation)
    return found


def example(path: Path) -> str:
    """What can be written for a key."""
    names = [step for step in path if isinstance(step, str)]
    field = field_at(path)
    reader = _reader(field) if field is not None else None
    if isinstance(reader, Reads) and reader.write:
        return reader.write
    if isinstance(reader, OneOf):
        return reader.choices[0]
    return _EXAMPLES.get(names[-1], "") if names else ""


def shape_at(path: Path) -> str:
    """`list`, `named` (a table of free names), `table` or `text`."""
    if path and isinstance(path[-1], int):
        return "table"
    field = field_at(path)
    return _shape(field.annotation) if field is not None else "table"


def _rows(model: Model, prefix: str) -> Iterator[KeyRow]:
    for name, field in model.model_fields.items():
        path = prefix + (field.alias or name)
        reader = _reader(field)
        yield KeyRow(path, _value(name, field, reader), _default(field), field.description or "", field.is_required())
        if isinstance(reader, ReadsRules):
            yield from _rule_rows(path)
        if isinstance(reader, ReadsRates):
            yield from (
                KeyRow(f"{path}.{row.name}", "rate", row.text, row.note, False) for row in table("rates").values()
            )
        below = {"list": f"{path}[].", "named": f"{path}.NAME."}.get(_shape(field.annotation), f"{path}.")
        for inner in _models(field.annotation) if reader is None else ():
            yield from _rows(inner, below)


def _rule_rows(path: str) -> Iterator[KeyRow]:
    rows = table("rules")
    kinds = {"ticks": "length", "count": "whole number", "choice": "one of air_and_surface, air, surface"}
    kinds |= {"difference": "temperature difference"}
    for name, kind in RULE_KINDS.items():
        yield KeyRow(f"{path}.{name}", kinds.get(kind, kind), rows[name].text, RULE_WORDS[name], False)


def _value(name: str, field: FieldInfo, reader: object) -> str:
    if isinstance(reader, OneOf):
        return ", ".join(reader.choices)
    if isinstance(reader, Reads):
        return f"{reader.kind}, `{reader.write}`" if reader.write else reader.kind
    if reader is not None:
        return str(getattr(reader, "kind", ""))
    words = {"list": "list", "named": "blocks by name", "table": "block"}
    return words.get(_shape(field.annotation)) or _FORMS[name]


def _default(field: FieldInfo) -> str:
    extra = field.json_schema_extra
    if isinstance(extra, dict):
        return str(extra["default"])
    return field.default if isinstance(field.default, str) else ""


def _reader(field: FieldInfo) -> object:
    return next((item for item in field.metadata if hasattr(item, "kind")), None)


def _shape(annotation: Any) -> str:  # noqa: ANN401  # an annotation is anything
    origin = get_origin(annotation)
    if origin is Annotated:
        return _shape(get_args(annotation)[0])
    if origin in (Union, types.UnionType):
        shapes = [_shape(part) for part in get_args(annotation) if part is not type(None)]
        return shapes[0] if len(shapes) == 1 else "text"
    if origin is tuple and _models(annotation):
        return "list"
    if origin is dict:
        return "named"
    return "table" if isinstance(annotation, type) and issubclass(annotation, BaseModel) else "text"


def _models(annotation: Any) -> list[Model]:  # noqa: ANN401  # an annotation is anything
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [model for part in get_args(annotation) if not isinstance(part, str) for model in _models(part)]
