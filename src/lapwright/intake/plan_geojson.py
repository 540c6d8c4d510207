"""A roof's outline from a feature of a GeoJSON file, in metres or in degrees of longitude and latitude.

Degrees are told from metres by size: no roof is 5 cm across, and none spans a twentieth of a degree.  Degrees are
brought to a plane that touches the earth at the file's first position, so that features of one file keep their
places to one another.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from lapwright.faults import Mended, Refused, shorten
from lapwright.geometry.polygon import Point
from lapwright.intake.plan_scale import (
    Source,
    as_ticks,
    check_size,
    chosen,
    refusal,
    taken_in,
    unit_size,
    without_repeats,
)

WGS84_AXIS = 6_378_137.0  # semi-major axis [m] and flattening: defining parameters of WGS 84
WGS84_FLATTENING = 1 / 298.257223563
DEGREES_ACROSS_MOST = 0.05
FAR = 20_000.0  # from the file's first position [m]: beyond, the plane leaves the earth by over 30 m
GEOGRAPHIC = ("CRS84", "4326", "4269", "4258", "4979")
NOT_GEOJSON = "GeoJSON: a FeatureCollection, a Feature or a Polygon"

Pair = tuple[float, float]


@dataclass(frozen=True, slots=True)
class _Asked:
    """What was asked for: file and feature by name."""

    file: str
    feature: str

    @property
    def key(self) -> str:
        return f"feature {shorten(self.feature, 40)}"

    def refused(self, read: str, needs: str, write: str) -> Refused:
        return refusal(self.file, self.key, read, needs, write)

    def mended(self, found: str, done: str) -> Mended:
        return Mended(self.file, self.key, found, done)

    def in_unit(self, unit: str) -> str:
        return f"{{geojson: {self.file}, feature: {self.feature}, units: {unit}}}"


def read_outline(
    source: Source, *, file: str, feature: str, units: str | None = None
) -> tuple[tuple[Point, ...], tuple[Mended, ...]]:
    """The corners of a feature's polygon [ticks], and what was assumed or repaired.

    Args:
        source: an open stream, bytes or text.
        file: its name, for faults and notes.  feature: its `name`, else its `id`.
        units: in, ft, ftUS, mm, cm or m, for coordinates that are lengths; by default m.

    Holds for: one ring without holes.  Degrees are taken as WGS 84 at height 0: at a height H plan lengths come out
        H / 6,371 km too short (1 in 23,000 at 277 m).
    Raises: Refused; never another exception for a file that can't be read.
    Checked: tests/intake/test_plan_geojson.py
    """
    asked = _Asked(file, feature)
    document = _parsed(taken_in(source, file=file), file)
    geometry = _geometry(document, asked)
    ring, notes = _ring(geometry, asked)
    crs = _crs(document)
    if units is None and _is_degrees(ring, crs):
        points, note = _from_degrees(ring, document, asked)
        unit = "m"
        notes.append(note)
    else:
        unit = units or "m"
        points = ring
        if units is None:
            found = f"coordinates in {crs}" if crs else "coordinates too far apart for degrees"
            notes.append(asked.mended(found, "read as metres east and north"))
    size = unit_size(unit, file=file)
    outline = without_repeats([as_ticks(x, y, size) for x, y in points])
    if len(outline) < 3:
        raise asked.refused(f"corners: {len(outline)}", "a polygon of at least 3 corners", "the polygon redrawn")
    check_size(outline, unit=unit, file=file, key=asked.key, rewrite=asked.in_unit)
    return tuple(outline), tuple(notes)


def topocentric_m(
    latitude_deg: float,
    longitude_deg: float,
    *,
    origin: tuple[float, float],
    height: float = 0.0,
    origin_height: float = 0.0,
) -> tuple[float, float, float]:
    """East, north and up of a place, from a plane that touches the ellipsoid at `origin` (latitude, longitude) [m].

    height, origin_height: above the ellipsoid [m].
    Holds for: WGS 84; near the origin, where up stays small, east and north are plan lengths.
    Source: IOGP 373-7-2, Geographic/topocentric conversions, EPSG method 9837
    Checked: tests/published/roof.csv roof.topocentric-*
    """
    e2 = WGS84_FLATTENING * (2 - WGS84_FLATTENING)
    phi, phi0 = math.radians(latitude_deg), math.radians(origin[0])
    away = math.radians(longitude_deg - origin[1])
    nu = WGS84_AXIS / math.sqrt(1 - e2 * math.sin(phi) ** 2)
    nu0 = WGS84_AXIS / math.sqrt(1 - e2 * math.sin(phi0) ** 2)
    pulled = e2 * (nu0 * math.sin(phi0) - nu * math.sin(phi))
    east = (nu + height) * math.cos(phi) * math.sin(away)
    north = (nu + height) * (math.sin(phi) * math.cos(phi0) - math.cos(phi) * math.sin(phi0) * math.cos(away))
    up = (nu + height) * (math.sin(phi) * math.sin(phi0) + math.cos(phi) * math.cos(phi0) * math.cos(away))
    return (
        east,
        north + pulled * math.cos(phi0),
        up + pulled * math.sin(phi0) - (nu0 + origin_height),
    )


def _parsed(content: bytes | str, file: str) -> Mapping[str, Any]:
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
        raise refusal(file, "type", _brief(kind), NOT_GEOJSON, '"type": "FeatureCollection"')
    return document


def _no_constant(name: str) -> float:
    raise ValueError(name)


def _features(document: Mapping[str, Any]) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Names and geometries of the features, in file order; a bare polygon has no name."""
    listed = document.get("features") if document["type"] == "FeatureCollection" else [document]
    for each in listed if isinstance(listed, list) else []:
        if not isinstance(each, dict):
            continue
        if each.get("type") == "Polygon":
            yield "", each
            continue
        properties, geometry = each.get("properties"), each.get("geometry")
        name = properties.get("name") if isinstance(properties, dict) else None
        name = each.get("id") if name is None else name
        name = str(name) if isinstance(name, (str, int, float)) else ""
        yield name, geometry if isinstance(geometry, dict) else {}


def _geometry(document: Mapping[str, Any], asked: _Asked) -> Mapping[str, Any]:
    """The geometry of the feature asked for; where the file holds one without a name, that."""
    features = list(_features(document))
    if len(features) == 1 and not features[0][0]:
        return features[0][1]
    found = [geometry for name, geometry in features if name == asked.feature]
    if len(found) == 1:
        return found[0]
    if found:
        read, write = f"features of that name: {len(found)}", "names in the file that differ"
        raise asked.refused(read, "one feature of the name", write)
    names = list(dict.fromkeys(name for name, _ in features if name))
    if not names:
        raise asked.refused(asked.feature, "features with a name or id", '"properties": {"name": "Main"}')
    choices, close = chosen(asked.feature, names)
    raise asked.refused(asked.feature, f"a feature of the file: {choices}", f"feature: {close}")


def _ring(geometry: Mapping[str, Any], asked: _Asked) -> tuple[list[Pair], list[Mended]]:
    """The outer ring, its repeated last position left out."""
    kind, rings = geometry.get("type"), geometry.get("coordinates")
    if kind == "MultiPolygon" and isinstance(rings, list) and len(rings) == 1:
        kind, rings = "Polygon", rings[0]
    if kind != "Polygon":
        raise asked.refused(_brief(kind), "a Polygon", "each area's outline as a feature of its own")
    if not isinstance(rings, list) or not rings or not isinstance(rings[0], list):
        raise asked.refused("no ring", "a Polygon with one ring of positions", '"coordinates": [[[0, 0], [36, 0], …]]')
    if len(rings) > 1:
        needs = "an outline without holes; what stands in the roof is typed under openings"
        raise asked.refused(f"holes: {len(rings) - 1}", needs, "openings: [{name: …, at: …, size: …}]")
    ring = [_position(each, place, asked) for place, each in enumerate(rings[0], start=1)]
    if len(ring) > 1 and ring[0] != ring[-1]:
        return ring, [asked.mended("a ring whose last position is not its first", "closed by a straight side")]
    return ring[:-1], []


def _position(value: object, place: int, asked: _Asked) -> Pair:
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
    raise asked.refused(f"position {place}: {_brief(value)}", "two finite numbers, east and north", "[36.6, 19.5]")


def _brief(value: object) -> str:
    """A value in a few words; never the inside of what is nested, which may be too deep to print."""
    if isinstance(value, list):
        flat = all(isinstance(each, (str, int, float)) or each is None for each in value[:4])
        return json.dumps(value[:4], allow_nan=True) if flat else "a list of lists"
    if isinstance(value, dict):
        return "an object"
    return value if isinstance(value, str) else json.dumps(value)


def _crs(document: Mapping[str, Any]) -> str:
    """The name of the coordinate system that older files carry, or ""."""
    crs = document.get("crs")
    properties = crs.get("properties") if isinstance(crs, dict) else None
    name = properties.get("name") if isinstance(properties, dict) else None
    return name[:60] if isinstance(name, str) else ""


def _is_degrees(ring: Sequence[Pair], crs: str) -> bool:
    """The ring is in degrees: its system is one of degrees, or it is too small for a roof in metres."""
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    if not ring or max(map(abs, xs)) > 180 or max(map(abs, ys)) > 90:
        return False
    if crs:
        return crs.replace("::", ":").rsplit(":", 1)[-1] in GEOGRAPHIC
    return max(xs) - min(xs) < DEGREES_ACROSS_MOST and max(ys) - min(ys) < DEGREES_ACROSS_MOST


def _from_degrees(ring: Sequence[Pair], document: Mapping[str, Any], asked: _Asked) -> tuple[list[Pair], Mended]:
    """The ring on the plane, in metres from the file's first position, or from its own where that is far away."""
    origin, place = _first_position(document, ring), "the file's first position"
    points = _on_plane(ring, origin)
    if any(math.hypot(*point) > FAR for point in points):
        origin, place = ring[0], "its first corner, the file's first position being far away"
        points = _on_plane(ring, origin)
    done = (
        f"brought to a plane in metres from {place} ({origin[0]:.7f}, {origin[1]:.7f}); "
        "lengths are as good as the map, so measure one with the tape"
    )
    return points, asked.mended("degrees of longitude and latitude", done)


def _on_plane(ring: Sequence[Pair], origin: Pair) -> list[Pair]:
    return [topocentric_m(y, x, origin=(origin[1], origin[0]))[:2] for x, y in ring]


def _first_position(document: Mapping[str, Any], ring: Sequence[Pair]) -> Pair:
    """The first position of the first feature that is in degrees; the ring's own where there is none."""
    for _, geometry in _features(document):
        value: object = geometry.get("coordinates")
        while isinstance(value, list) and value and isinstance(value[0], list):
            value = value[0]
        if isinstance(value, list) and len(value) >= 2:
            x, y = value[:2]
            if isinstance(x, (int, float)) and isinstance(y, (int, float)) and abs(x) <= 180 and abs(y) <= 90:
                return (float(x), float(y))
    return ring[0]
