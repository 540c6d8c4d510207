"""Outlines from GeoJSON: metres and degrees, choices, and every refusal as it reads."""

from __future__ import annotations

import json
import math
from io import BytesIO, StringIO
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.faults import Refused
from lapwright.intake.plan_geojson import read_outline
from lapwright.intake.plan_scale import How, how_read
from lapwright.intake.plan_values import DrawnOpening

METRE = 80_000
RING = [[0, 0], [36, 0], [36, 20], [0, 20], [0, 0]]
IN_METRES = ((0, 0), (36 * METRE, 0), (36 * METRE, 20 * METRE), (0, 20 * METRE))
FAR_RING = [[500_000 + x, 4_000_000 + y] for x, y in RING]


def feature(name: str | None, ring: Any = RING, *, kind: str = "Polygon", **members: Any) -> dict[str, Any]:
    """One feature with one ring."""
    properties = {} if name is None else {"name": name}
    return {
        "type": "Feature",
        "properties": properties,
        "geometry": {"type": kind, "coordinates": [ring]},
        **members,
    }


def collection(*features: dict[str, Any], **members: Any) -> str:
    """A file of features."""
    return json.dumps({"type": "FeatureCollection", "features": list(features), **members})


def how(name: str, **asked: Any) -> How:
    """As the job file's outline asks for it."""
    return how_read("roof.geojson", head=f"geojson: roof.geojson, feature: {name}", **asked)


def read(source: Any, name: str = "Main", **asked: Any) -> tuple[Any, list[str]]:
    """Corners, and what was mended as told."""
    found = read_outline(source, feature=name, how=how(name, **asked))
    return found.corners, [note.text() for note in found.mended]


def refused(source: Any, name: str = "Main", **asked: Any) -> str:
    """The refusal, as told."""
    with pytest.raises(Refused) as caught:
        read_outline(source, feature=name, how=how(name, **asked))
    return caught.value.text()


METRES_NOTE = "roof.geojson  feature Main: coordinates too far apart for degrees; read as metres east and north"


def test_metres() -> None:
    """36 m by 20 m, and that they were taken as metres is told; text, bytes and streams."""
    content = collection(feature("Wing", [[0, 0], [9, 0], [9, 9], [0, 0]]), feature("Main"))
    for source in (content, content.encode(), StringIO(content), BytesIO(b"\xef\xbb\xbf" + content.encode())):
        assert read(source) == (IN_METRES, [METRES_NOTE])


def test_units_of_the_job_file() -> None:
    """36 by 20 feet; nothing is left to tell."""
    assert read(collection(feature("Main")), units="ft") == (
        tuple((x * 24_384, y * 24_384) for x, y in RING[:-1]),
        [],
    )


def test_projected_coordinates_stay_where_they_are() -> None:
    """Eastings and northings with the name of their system."""
    crs = {"type": "name", "properties": {"name": "urn:ogc:def:crs:EPSG::32617"}}
    corners, notes = read(collection(feature("Main", FAR_RING), crs=crs))
    assert corners[0] == (500_000 * METRE, 4_000_000 * METRE)
    assert [(x - corners[0][0], y - corners[0][1]) for x, y in corners] == list(IN_METRES)
    assert notes == [
        "roof.geojson  feature Main: coordinates in urn:ogc:def:crs:EPSG::32617; read as metres east and north"
    ]


def test_a_feature_by_its_id_or_alone_without_a_name() -> None:
    """`id` where there is no name; a lone feature or polygon without either is the one meant."""
    assert read(collection(feature("Wing"), feature(None, id=7)), "7")[0] == IN_METRES
    assert read(json.dumps(feature(None)))[0] == IN_METRES
    assert read(json.dumps({"type": "Polygon", "coordinates": [RING]}))[0] == IN_METRES


def test_a_multipolygon_of_one() -> None:
    """Programs for maps often write it."""
    lone = feature("Main", [RING], kind="MultiPolygon")
    assert read(collection(lone))[0] == IN_METRES


def on_the_map(x: float, y: float, latitude: float = 36.1, longitude: float = -79.95) -> list[float]:
    """Degrees of a place x east and y north of another [m], by lengths of a degree read from series.

    gis.stackexchange.com/questions/75528: metres per degree of latitude and longitude, good to 0.6 in a million.
    """
    phi = math.radians(latitude)
    north = 111132.92 - 559.82 * math.cos(2 * phi) + 1.175 * math.cos(4 * phi) - 0.0023 * math.cos(6 * phi)
    east = 111412.84 * math.cos(phi) - 93.5 * math.cos(3 * phi) + 0.118 * math.cos(5 * phi)
    return [longitude + x / east, latitude + y / north]


def test_degrees_come_out_in_metres() -> None:
    """A roof of 36 m by 20 m laid out by lengths of a degree comes back within a millimetre; it is told."""
    ring = [on_the_map(x, y) for x, y in RING]
    corners, notes = read(collection(feature("Main", ring)))
    off = [math.dist(corner, true) / METRE for corner, true in zip(corners, IN_METRES, strict=True)]
    assert max(off) < 0.001
    assert notes == [
        "roof.geojson  feature Main: degrees of longitude and latitude; brought to a plane in metres from the file's "
        "first position (-79.9500000, 36.1000000); lengths are as good as the map, so measure one with the tape"
    ]


def test_features_of_one_file_keep_their_places() -> None:
    """Two areas in degrees share the corner that they share on the map, tick for tick, and stand 36 m apart."""
    main = [on_the_map(x, y) for x, y in RING]
    wing = [main[1], on_the_map(60, 0), on_the_map(60, 20), main[2], main[1]]
    source = collection(feature("Main", main), feature("Wing", wing))
    first, second = read(source)[0], read(source, "Wing")[0]
    assert (second[0], second[3]) == (first[1], first[2])
    assert first[0] == (0, 0)
    assert second[0][0] / METRE == pytest.approx(36, abs=0.001)


def test_a_feature_far_from_the_first_has_its_own_origin() -> None:
    """A roof 100 km from the file's first position counts from its own first corner."""
    main = [on_the_map(x, y, latitude=37.0) for x, y in RING]
    corners, notes = read(collection(feature("Away", [on_the_map(x, y) for x, y in RING]), feature("Main", main)))
    assert corners[0] == (0, 0)
    assert "its first corner, the file's first position being far away (-79.9500000, 37.0000000)" in notes[0]


@pytest.mark.parametrize(("name", "is_degrees"), [("urn:ogc:def:crs:OGC:1.3:CRS84", True), ("EPSG:4326", True)])
def test_systems_of_degrees(name: str, is_degrees: bool) -> None:
    """Old files name the system of degrees; it is read as that."""
    crs = {"type": "name", "properties": {"name": name}}
    ring = [on_the_map(x, y) for x, y in RING]
    assert (read(collection(feature("Main", ring), crs=crs))[0][0] == (0, 0)) == is_degrees


def test_degrees_read_as_a_length() -> None:
    """`units: m` for degrees gives a roof of 32 by 14 ticks: asked about, in the unit it was read in."""
    ring = [on_the_map(x, y) for x, y in RING]
    assert refused(collection(feature("Main", ring)), units="m") == (
        "roof.geojson  feature Main\n"
        "  read:   0.0004 by 0.000175 m\n"
        "  needs:  a roof from 5 ft to 3000 ft across; is the drawing in metres?\n"
        "  write:  {geojson: roof.geojson, feature: Main, size: accept}"
    )


def test_a_ring_that_is_not_closed() -> None:
    """Closed, and told."""
    corners, notes = read(collection(feature("Main", RING[:-1])))
    assert corners == IN_METRES
    assert (
        notes[0] == "roof.geojson  feature Main: a ring whose last position is not its first; closed by a straight side"
    )


def test_an_unknown_feature_tells_the_features_there() -> None:
    """In file order, each once, with the nearest as what to write."""
    source = collection(feature("North"), feature("Mian"), feature("North"), feature(None))
    assert refused(source) == (
        "roof.geojson  feature Main\n"
        "  read:   Main\n"
        "  needs:  a feature of the file: North, Mian\n"
        "  write:  feature: Mian"
    )
    assert refused(source, "North") == (
        "roof.geojson  feature North\n"
        "  read:   features of that name: 2\n"
        "  needs:  one feature of the name\n"
        "  write:  names in the file that differ"
    )
    assert refused(collection(feature(None), feature(None))) == (
        "roof.geojson  feature Main\n"
        "  read:   Main\n"
        "  needs:  features with a name or id\n"
        '  write:  "properties": {"name": "Main"}'
    )


def test_many_names_are_counted() -> None:
    """A dozen are named."""
    told = refused(collection(*[feature(f"Area {number}") for number in range(40)]))
    assert "Area 10, Area 11 and 28 more" in told


HOLE = [[5, 5], [6, 5], [6, 6], [5, 5]]


@pytest.mark.parametrize(
    ("geometry", "told"),
    [
        (
            {"type": "Polygon", "coordinates": [RING, [[30, 5], [40, 5], [40, 9]]]},
            "  read:   hole 1, which crosses or touches the outline, or lies outside, at E 98' 5 1/8\" N 16' 4 7/8\"\n"
            "  needs:  holes inside the outline\n"
            "  write:  the outline drawn round it",
        ),
        (
            {"type": "Polygon", "coordinates": [RING, [[0.2, 0.2], [35.8, 0.2], [35.8, 19.8], [0.2, 19.8]]]},
            '  read:   hole 1, all round just inside the outline, at E 7 7/8" N 7 7/8"\n'
            "  needs:  one line where the roof ends, such as the inner face of the parapet\n"
            "  write:  the Polygon without the other line",
        ),
        (
            {"type": "Polygon", "coordinates": [RING, [[5, 5], [6, 5], [5, 5]]]},
            "  read:   hole 1: 2 corners\n  needs:  a hole of at least 3 corners\n  write:  the hole redrawn",
        ),
        (
            {"type": "Polygon", "coordinates": [RING, 7]},
            '  read:   7\n  needs:  rings of positions\n  write:  "coordinates": [[[0, 0], [36, 0], …]]',
        ),
        (
            {"type": "MultiPolygon", "coordinates": [[RING], [HOLE]]},
            "  read:   MultiPolygon\n  needs:  a Polygon\n  write:  each area and each opening as a Polygon of its own",
        ),
        (
            {"type": "LineString", "coordinates": RING},
            "  read:   LineString\n  needs:  a Polygon\n  write:  each area and each opening as a Polygon of its own",
        ),
        (
            {"type": "Polygon", "coordinates": []},
            "  read:   no ring\n"
            "  needs:  a Polygon with one ring of positions\n"
            '  write:  "coordinates": [[[0, 0], [36, 0], …]]',
        ),
        (
            {"type": "Polygon", "coordinates": [[[0, 0], [36, "0"], [36, 20]]]},
            '  read:   position 2: [36, "0"]\n  needs:  two finite numbers, east and north\n  write:  [36.6, 19.5]',
        ),
        (
            {"type": "Polygon", "coordinates": [[[0, 0], [True, 1], [36, 20]]]},
            "  read:   position 2: [true, 1]\n  needs:  two finite numbers, east and north\n  write:  [36.6, 19.5]",
        ),
        (
            {"type": "Polygon", "coordinates": [[[0, 0], [36], [36, 20]]]},
            "  read:   position 2: [36]\n  needs:  two finite numbers, east and north\n  write:  [36.6, 19.5]",
        ),
        (
            {"type": "Polygon", "coordinates": [[[0, 0], [[0, 0], 0], [36, 20]]]},
            "  read:   position 2: a list of lists\n"
            "  needs:  two finite numbers, east and north\n"
            "  write:  [36.6, 19.5]",
        ),
        (
            {"type": "Polygon", "coordinates": [[[0, 0], [36, 0], [36, 0], [0, 0]]]},
            "  read:   corners: 2\n  needs:  a polygon of at least 3 corners\n  write:  the polygon redrawn",
        ),
        (
            None,
            "  read:   null\n  needs:  a Polygon\n  write:  each area and each opening as a Polygon of its own",
        ),
    ],
)
def test_geometries_that_are_no_outline(geometry: Any, told: str) -> None:
    """Holes, several polygons, lines, no ring, words, truth values, short and nested positions, two corners."""
    source = json.dumps({"type": "Feature", "properties": {"name": "Main"}, "geometry": geometry})
    assert refused(source) == "roof.geojson  feature Main\n" + told


def test_millimetres_called_metres() -> None:
    """36,000 by 20,000 m is no roof; 36,000 mm are one, before 36,000 inches are."""
    ring = [[1000 * x, 1000 * y] for x, y in RING]
    geometry = {"type": "Polygon", "coordinates": [ring]}
    source = json.dumps({"type": "Feature", "properties": {"name": "Main"}, "geometry": geometry})
    assert refused(source) == (
        "roof.geojson  feature Main\n"
        "  read:   36,000 by 20,000 m\n"
        "  needs:  a roof from 5 ft to 3000 ft across; is the drawing in millimetres? "
        "If the size is right, size: accept\n"
        "  write:  {geojson: roof.geojson, feature: Main, units: mm}"
    )


def test_holes_are_courtyards() -> None:
    """A square hole of 4 m is an upright rectangle; a triangle keeps its corners."""
    square, triangle = [[5, 5], [5, 9], [9, 9], [9, 5], [5, 5]], [[20, 5], [28, 5], [20, 11], [20, 5]]
    geometry = {"type": "Polygon", "coordinates": [RING, square, triangle]}
    source = json.dumps({"type": "Feature", "properties": {"name": "Main"}, "geometry": geometry})
    found = read_outline(source, feature="Main", how=how("Main"))
    assert found.corners == tuple((80_000 * x, 80_000 * y) for x, y in RING[:-1])
    assert found.courtyards == (
        DrawnOpening("Courtyard-1", "", (400_000, 400_000), (320_000, 320_000)),
        DrawnOpening("Courtyard-2", "", (1_600_000, 400_000), (640_000, 480_000), ((0, 0), (640_000, 0), (0, 480_000))),
    )
    assert found.mended[-1].text() == (
        "roof.geojson  feature Main: rings inside the outline: 2; taken as openings: "
        "Courtyard-1 at E 16' 4 7/8\" N 16' 4 7/8\", Courtyard-2 at E 65' 7 3/8\" N 16' 4 7/8\""
    )


NOT_GEOJSON = "GeoJSON: a FeatureCollection, a Feature or a Polygon"


@pytest.mark.parametrize(
    ("content", "told"),
    [
        ("", f"roof.geojson:1:1\n  needs:  {NOT_GEOJSON}; here, expecting value"),
        (
            '{"type": "Feature",\n "properties": }',
            f"roof.geojson:2:16\n  needs:  {NOT_GEOJSON}; here, expecting value",
        ),
        (
            "[1, 2]",
            f'roof.geojson  type\n  read:   [1, 2]\n  needs:  {NOT_GEOJSON}\n  write:  "type": "FeatureCollection"',
        ),
        (
            '{"type": "Topology"}',
            f'roof.geojson  type\n  read:   Topology\n  needs:  {NOT_GEOJSON}\n  write:  "type": "FeatureCollection"',
        ),
        (
            '{"type": "Polygon", "coordinates": [[[0, 0], [NaN, 0], [36, 20]]]}',
            "roof.geojson\n  read:   NaN\n  needs:  finite coordinates\n  write:  the corner redrawn",
        ),
        (
            "[" * 100_000,
            f"roof.geojson\n  read:   brackets nested too deep\n  needs:  {NOT_GEOJSON}\n"
            "  write:  the roof's outline alone",
        ),
        (
            b"\xff\xfe{}",
            f"roof.geojson\n  read:   bytes that are not UTF-8\n  needs:  {NOT_GEOJSON}\n"
            "  write:  the file saved as UTF-8",
        ),
        (
            b" " * 20_000_001,
            "roof.geojson\n  needs:  a file of at most 20 MB\n"
            "  write:  the roof's outline alone, saved in a file of its own",
        ),
    ],
)
def test_files_that_are_no_geojson(content: str | bytes, told: str) -> None:
    """Empty, broken off, another kind, NaN, nested without end, not UTF-8, too large."""
    assert refused(content) == told


@pytest.mark.parametrize("number", ["1e999", "-1e999", "1" * 400, "1" * 5_000])
def test_numbers_beyond_all_bounds(number: str) -> None:
    """Infinite as a float, or with more digits than any coordinate: refused."""
    source = f'{{"type": "Polygon", "coordinates": [[[0, 0], [{number}, 0], [36, 20]]]}}'
    assert "finite" in refused(source)


@pytest.mark.parametrize("depth", [900, 940, 960, 980, 990, 995])
@pytest.mark.parametrize("place", ["type", "name", "coordinates", "position"])
def test_nested_as_deep_as_can_be_read(depth: int, place: str) -> None:
    """Lists as deep as JSON can be read, wherever a word or number belongs: refused, however deep."""
    deep = "[" * depth + "]" * depth
    texts = {
        "type": f'{{"type": {deep}}}',
        "name": f'{{"type": "Feature", "properties": {{"name": {deep}}}, "geometry": {{"type": {deep}}}}}',
        "coordinates": f'{{"type": "Polygon", "coordinates": {deep}}}',
        "position": f'{{"type": "Polygon", "coordinates": [[{deep}]]}}',
    }
    assert refused(texts[place]).startswith("roof.geojson")


JSONS = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(max_size=5),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(st.sampled_from(["type", "features", "geometry", "coordinates", "name", "properties"]), inner)
    ),
    max_leaves=20,
)


@settings(deadline=None, max_examples=300)
@given(JSONS, JSONS)
def test_no_json_gets_past(geometry: Any, properties: Any) -> None:
    """Whatever stands where geometry and properties belong, the answer is an outline or a refusal."""
    source = json.dumps({"type": "Feature", "properties": properties, "geometry": geometry})
    answer = outcome(source)
    assert answer == "refused" or len(answer) >= 3


def outcome(source: str) -> Any:
    """The corners, or that they were refused."""
    try:
        return read(source)[0]
    except Refused:
        return "refused"


@settings(deadline=None, max_examples=300)
@given(st.text(max_size=200) | st.binary(max_size=200))
def test_no_text_gets_past(content: str | bytes) -> None:
    """Whatever a file holds, it is refused unless it is an outline."""
    assert refused(content).startswith("roof.geojson")
