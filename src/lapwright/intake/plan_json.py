"""The inside of a GeoJSON file: its features by name, their rings and positions, and what is wrong with them."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from lapwright.defaults.table import table
from lapwright.faults import Mended, Refused
from lapwright.intake.plan_scale import How, refusal

NOT_GEOJSON = "GeoJSON: a FeatureCollection, a Feature or a Polygon"

Pair = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Asked:
    """What a fault is about: how the file is read, and the feature by name."""

    how: How
    key: str

    def refused(self, read: str, needs: str, write: str) -> Refused:
        """One fault about the feature."""
        return refusal(self.how.file, self.key, read, needs, write)

    def mended(self, found: str, done: str) -> Mended:
        """What was assumed or repaired."""
        return Mended(self.how.file, self.key, found, done)


def parsed(content: bytes | str, file: str) -> Mapping[str, Any]:
    """The file as a mapping."""
    try:
        text = content if isinstance(content, str) else content.decode("utf-8-sig")
        document = json.loads(text, parse_constant=_no_constant)
    except json.JSONDecodeError as error:
        needs = f"{NOT_GEOJSON}; here, {error.msg[:1].lower()}{error.msg[1:]}"
        raise refusal(file, "", "", needs, "", at=(error.lineno, error.colno)) from None
    except UnicodeDecodeError:
        raise refusal(file, "", "bytes that are not UTF-8", NOT_GEOJSON, "the file saved as UTF-8") from None
    except RecursionError:
        raise refusal(file, "", "brackets nested too deep", NOT_GEOJSON, "the roof's outline alone") from None
    except ValueError as error:  # NaN, Infinity, or a number of thousands of digits
        raise refusal(file, "", str(error), "finite coordinates", "the corner redrawn") from None
    if not isinstance(document, dict) or document.get("type") not in ("FeatureCollection", "Feature", "Polygon"):
        kind = document.get("type") if isinstance(document, dict) else document
        raise refusal(file, "type", brief(kind), NOT_GEOJSON, '"type": "FeatureCollection"')
    return document


def _no_constant(name: str) -> float:
    raise ValueError(name)


def features(document: Mapping[str, Any]) -> Iterator[tuple[str, Mapping[str, Any], Mapping[str, Any]]]:
    """Names, geometries and properties of the features, in file order; a bare polygon has no name."""
    listed = document.get("features") if document["type"] == "FeatureCollection" else [document]
    for each in listed if isinstance(listed, list) else []:
        if not isinstance(each, dict):
            continue
        if each.get("type") == "Polygon":
            yield "", each, {}
            continue
        properties, geometry = each.get("properties"), each.get("geometry")
        properties = properties if isinstance(properties, dict) else {}
        name = properties.get("name")
        name = each.get("id") if name is None else name
        name = str(name) if isinstance(name, (str, int, float)) else ""
        yield name, geometry if isinstance(geometry, dict) else {}, properties


def rings_of(geometry: Mapping[str, Any], asked: Asked) -> tuple[list[list[Pair]], list[Mended]]:
    """The outer ring, then the holes in it, repeated last positions left out."""
    kind, rings = geometry.get("type"), geometry.get("coordinates")
    if kind == "MultiPolygon" and isinstance(rings, list) and len(rings) == 1:
        kind, rings = "Polygon", rings[0]
    if kind != "Polygon":
        raise asked.refused(brief(kind), "a Polygon", "each area and each opening as a Polygon of its own")
    if not isinstance(rings, list) or not rings or not isinstance(rings[0], list):
        raise asked.refused("no ring", "a Polygon with one ring of positions", '"coordinates": [[[0, 0], [36, 0], …]]')
    most = int(table("roof")["standing_most"].number())
    if len(rings) - 1 > most:
        raise asked.refused(f"holes: {len(rings) - 1:,}", f"at most {most:,} holes", "the roof's courtyards alone")
    found, notes = [], []
    for listed in rings:
        if not isinstance(listed, list):
            raise asked.refused(brief(listed), "rings of positions", '"coordinates": [[[0, 0], [36, 0], …]]')
        ring = [position(each, place, asked) for place, each in enumerate(listed, start=1)]
        is_open = len(ring) > 1 and ring[0] != ring[-1]
        if is_open:
            notes.append(asked.mended("a ring whose last position is not its first", "closed by a straight side"))
        found.append(ring if is_open else ring[:-1])
    return found, notes


def position(value: object, place: int, asked: Asked) -> Pair:
    """One position, two or three numbers, the third left aside."""
    if isinstance(value, list) and len(value) >= 2:
        x, y = value[:2]
        if all(isinstance(each, (int, float)) and not isinstance(each, bool) for each in (x, y)):
            try:
                pair = (float(x), float(y))
            except OverflowError:
                pair = (math.inf, math.inf)
            if all(math.isfinite(each) for each in pair):
                return pair
    raise asked.refused(f"position {place}: {brief(value)}", "two finite numbers, east and north", "[36.6, 19.5]")


def brief(value: object) -> str:
    """A value in a few words; never the inside of what is nested, which may be too deep to print."""
    if isinstance(value, list):
        flat = all(isinstance(each, (str, int, float)) or each is None for each in value[:4])
        return json.dumps(value[:4], allow_nan=True) if flat else "a list of lists"
    if isinstance(value, dict):
        return "an object"
    return value if isinstance(value, str) else json.dumps(value)
