"""The words that the schema of `plan.json` is written in."""

from __future__ import annotations

from typing import Any

Json = dict[str, Any]
DRAFT = "https://json-schema.org/draft/2020-12/schema"

TEXT: Json = {"type": "string"}
NUMBER: Json = {"type": "number"}
WHOLE: Json = {"type": "integer", "minimum": 0}
COUNTS = ("rolls", "rolls_at_least", "end_laps", "end_laps_at_least")
COUNT: Json = {"type": "integer", "minimum": 1}
DATE: Json = {"type": "string", "format": "date"}
PLAN_POINT: Json = {
    "description": "point of the plan: east, north [m]",
    "type": "array",
    "prefixItems": [NUMBER, NUMBER],
    "minItems": 2,
    "maxItems": 2,
}


def record(properties: Json) -> Json:
    """An object with every one of these keys."""
    return {"type": "object", "required": list(properties), "properties": properties}


def many(item: Json) -> Json:
    """A list of such items."""
    return {"type": "array", "items": item}


def by_name(item: Json) -> Json:
    """An object of such items by their own names."""
    return {"type": "object", "additionalProperties": item}


def or_null(item: Json) -> Json:
    """Such a value, or null where it is not given or not known."""
    return {"anyOf": [item, {"type": "null"}]}


def said(item: Json, description: str) -> Json:
    """A value with its meaning or unit in words."""
    return {**item, "description": description}


POINT: Json = {"$ref": "#/$defs/point"}
LINE: Json = {"type": "array", "items": POINT, "minItems": 2, "maxItems": 2}
METRES = said(NUMBER, "[m]")
