"""A roof's outline from a feature of a GeoJSON file, in metres or in degrees of longitude and latitude.

Degrees are told from metres by size: no roof is 5 cm across, and none spans a twentieth of a degree.  Degrees are
brought to a plane that touches the earth at the file's first position, so that features of one file keep their
places to one another.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from lapwright.defaults.table import table
from lapwright.faults import Mended, shorten
from lapwright.geometry.meets import is_well_inside
from lapwright.geometry.polygon import Point, bounds, sides_of
from lapwright.geometry.sweep import crossings, meeting_place
from lapwright.intake.plan_json import Asked, Pair, features, parsed, rings_of
from lapwright.intake.plan_openings import Ring, courtyards_of, is_inner_face
from lapwright.intake.plan_scale import (
    How,
    Source,
    as_ticks,
    check_size,
    chosen,
    taken_in,
    unit_size,
    without_repeats,
)
from lapwright.intake.plan_values import DrawnOutline

WGS84_AXIS = 6_378_137.0  # semi-major axis [m] and flattening: defining parameters of WGS 84
WGS84_FLATTENING = 1 / 298.257223563
DEGREES_ACROSS_MOST = 0.05
FAR = 20_000.0  # from the file's first position [m]: beyond, the plane leaves the earth by over 30 m
GEOGRAPHIC = ("CRS84", "4326", "4269", "4258", "4979")


def read_outline(source: Source, *, feature: str, how: How) -> DrawnOutline:
    """A feature's polygon, holes as courtyards, and what was assumed or repaired.

    Args:
        source: an open stream, bytes or text.
        feature: its `name`, else its `id`.
        how: units in, ft, ftUS, mm, cm or m, for coordinates that are lengths; by default m.

    Holds for: one polygon.  Degrees are taken as WGS 84 at height 0: at a height H plan lengths come out
        H / 6,371 km too short (1 in 23,000 at 277 m).
    Raises: Refused; never another exception for a file that can't be read.
    Checked: tests/intake/test_plan_geojson.py
    """
    asked = Asked(how, f"feature {shorten(feature, 40)}")
    document = parsed(taken_in(source, file=how.file), how.file)
    geometry = _geometry(document, feature, asked)
    rings, notes = rings_of(geometry, asked)
    plane, told = plane_of(rings[0], document, asked)
    outline = whole_outline(rings, plane, asked)
    return replace(outline, mended=(*notes, *told, *outline.mended))


def whole_outline(rings: Sequence[Sequence[Pair]], plane: Plane, asked: Asked) -> DrawnOutline:
    """An outer ring with the courtyards in it.

    Raises: Refused
    """
    ring, *holes = ([plane.ticks(x, y) for x, y in each] for each in rings)
    outline = checked_outline(ring, plane.unit, asked)
    yards: list[Ring] = []
    for number, hole in enumerate(holes, start=1):
        corners = tuple(without_repeats(hole))
        if len(corners) < 3:
            raise asked.refused(
                f"hole {number}: {len(corners)} corners", "a hole of at least 3 corners", "the hole redrawn"
            )
        if not is_well_inside(outline, corners):
            read = (
                f"hole {number}, which crosses or touches the outline, or lies outside, at {asked.how.at(corners[0])}"
            )
            raise asked.refused(read, "holes inside the outline", "the outline drawn round it")
        if is_inner_face(bounds(corners), bounds(outline)):
            read = f"hole {number}, all round just inside the outline, at {asked.how.at(corners[0])}"
            needs = "one line where the roof ends, such as the inner face of the parapet"
            raise asked.refused(read, needs, "the Polygon without the other line")
        yards.append(Ring(corners, f"hole {number}"))
    made = courtyards_of(yards, (), "", asked.how, key=asked.key)
    return DrawnOutline(outline, tuple(made.openings), tuple(made.mended))


def checked_outline(points: Sequence[Point], unit: str, asked: Asked) -> tuple[Point, ...]:
    """The corners of an outline, unless they are too few, too many, cross, or make no roof of them.

    Raises: Refused
    """
    outline = without_repeats(points)
    most = int(table("roof")["corners_most"].number())
    if len(outline) < 3:
        raise asked.refused(f"corners: {len(outline)}", "a polygon of at least 3 corners", "the polygon redrawn")
    if len(outline) > most:
        needs = f"an outline of at most {most:,} corners"
        raise asked.refused(f"corners: {len(outline):,}", needs, "the roof's own corners")
    found = crossings(outline)
    if found:
        one, two = (sides_of(outline)[number] for number in found[0])
        place = asked.how.at(meeting_place(one, two))
        read = f"sides {found[0][0] + 1} and {found[0][1] + 1} cross or touch at {place}"
        needs = "an outline whose sides meet only where one ends and the next starts"
        raise asked.refused(read, needs, "the corners in walking order, none passed twice")
    check_size(outline, asked.how, unit=unit, key=asked.key)
    return tuple(outline)


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


def _geometry(document: Mapping[str, Any], feature: str, asked: Asked) -> Mapping[str, Any]:
    """The geometry of the feature asked for; where the file holds one without a name, that."""
    listed = list(features(document))
    if len(listed) == 1 and not listed[0][0]:
        return listed[0][1]
    found = [geometry for name, geometry, _ in listed if name == feature]
    if len(found) == 1:
        return found[0]
    if found:
        read, write = f"features of that name: {len(found)}", "names in the file that differ"
        raise asked.refused(read, "one feature of the name", write)
    names = list(dict.fromkeys(name for name, _, _ in listed if name))
    if not names:
        raise asked.refused(feature, "features with a name or id", '"properties": {"name": "Main"}')
    choices, close = chosen(feature, names)
    raise asked.refused(feature, f"a feature of the file: {choices}", f"feature: {close}")


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


@dataclass(frozen=True, slots=True)
class Plane:
    """How positions become plan coordinates: the unit they are in, or the place [degrees] where a plane touches."""

    unit: str
    size: Fraction
    origin: Pair | None = None

    def ticks(self, x: float, y: float) -> Point:
        """A position in ticks."""
        if self.origin is not None:
            x, y = _on_plane([(x, y)], self.origin)[0]
        return as_ticks(x, y, self.size)


def plane_of(ring: Sequence[Pair], document: Mapping[str, Any], asked: Asked) -> tuple[Plane, list[Mended]]:
    """The plane for a ring's positions, and what was assumed.

    Degrees are brought to the plane at the file's first position, or at the ring's own where that is far away.
    """
    crs, units, file = _crs(document), asked.how.units, asked.how.file
    if units is not None:
        return Plane(units, unit_size(units, file=file)), []
    metre = unit_size("m", file=file)
    if not _is_degrees(ring, crs):
        found = f"coordinates in {crs}" if crs else "coordinates too far apart for degrees"
        return Plane("m", metre), [asked.mended(found, "read as metres east and north")]
    origin, place = _first_position(document, ring), "the file's first position"
    if any(math.hypot(*point) > FAR for point in _on_plane(ring, origin)):
        origin, place = ring[0], "its first corner, the file's first position being far away"
    done = (
        f"brought to a plane in metres from {place} ({origin[0]:.7f}, {origin[1]:.7f}); "
        "lengths are as good as the map, so measure one with the tape"
    )
    return Plane("m", metre, origin), [asked.mended("degrees of longitude and latitude", done)]


def _on_plane(ring: Sequence[Pair], origin: Pair) -> list[Pair]:
    return [topocentric_m(y, x, origin=(origin[1], origin[0]))[:2] for x, y in ring]


def _first_position(document: Mapping[str, Any], ring: Sequence[Pair]) -> Pair:
    """The first position of the first feature that is in degrees; the ring's own where there is none."""
    for _, geometry, _ in features(document):
        value: object = geometry.get("coordinates")
        while isinstance(value, list) and value and isinstance(value[0], list):
            value = value[0]
        if isinstance(value, list) and len(value) >= 2:
            x, y = value[:2]
            if isinstance(x, (int, float)) and isinstance(y, (int, float)) and abs(x) <= 180 and abs(y) <= 90:
                return (float(x), float(y))
    return ring[0]
