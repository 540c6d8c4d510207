"""The job file as a JSON Schema (2020-12), made from the models; for editors that help while a file is typed."""

from __future__ import annotations

from typing import Any

from lapwright.job.models import Job
from lapwright.job.roof_models import DRAIN_NEEDS, OPENING_NEEDS, PIPE_NEEDS

JsonSchema = dict[str, Any]


def job_schema() -> JsonSchema:
    """The schema of a job file as YAML 1.2 reads it: dimensioned values are strings, bare numbers either.

    The same every time: keys stand in the order of the models.
    """
    made = Job.model_json_schema(mode="validation", by_alias=True)
    body = _tidied(made)
    assert isinstance(body, dict)  # a model's schema is an object
    parts = body.pop("$defs")
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": "urn:lapwright:job:1",
        "title": "Lapwright job file",
        **body,
        **_typed_whole(),
        "$defs": parts,
    }


def _typed_whole() -> JsonSchema:
    """Keys that are needed in a job without `areas`, where nothing is drawn by layers."""
    needs = {"openings": OPENING_NEEDS, "pipes": PIPE_NEEDS, "drains": DRAIN_NEEDS}
    standing = {key: {"items": {"required": list(names)}} for key, names in needs.items()}
    areas = {"items": {"required": ["outline"], "properties": standing}}
    return {"if": {"not": {"required": ["areas"]}}, "then": {"properties": {"roof": areas}}}


def _tidied(part: Any, *, is_named: bool = False) -> Any:  # noqa: ANN401  # any part of a schema
    """A part without titles, nulls and empty defaults: a key without a value is refused, not null.

    is_named: the keys of the part are names of the job file, not words of the schema.
    """
    if isinstance(part, list):
        return [_tidied(item) for item in part]
    if not isinstance(part, dict):
        return part
    if is_named:
        return {name: _tidied(item) for name, item in part.items()}
    kept = {name: item for name, item in part.items() if not _is_idle(name, item)}
    some = [item for item in kept.get("anyOf", []) if item != {"type": "null"}]
    if len(some) == 1:
        del kept["anyOf"]
        kept = {**some[0], **kept}
    return {name: _tidied(item, is_named=name in ("properties", "$defs")) for name, item in kept.items()}


def _is_idle(name: str, item: object) -> bool:
    return name == "title" or (name == "default" and item in (None, []))
