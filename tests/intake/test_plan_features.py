"""Whole plans from GeoJSON: features told apart by a property; every refusal as it reads."""

from __future__ import annotations

import json
from typing import Any

import pytest

from lapwright.faults import Refused
from lapwright.intake.plan_features import read_plan
from lapwright.intake.plan_scale import how_read
from lapwright.intake.plan_values import AreaLayers, DrawnArea, DrawnOpening, DrawnSpot

METRE = 80_000
MAIN = AreaLayers("Main", "ROOF-MAIN", openings=("CURBS",), pipes=("VENTS",))
BARE = AreaLayers("Main", "ROOF-MAIN")
WIDE = [[0, 0], [36, 0], [36, 20], [0, 20], [0, 0]]
CURB = [[10, 5], [12, 5], [12, 8], [10, 8], [10, 5]]


def feature(layer: str | None, kind: str, coordinates: Any, **properties: Any) -> dict[str, Any]:
    """One feature."""
    own = properties if layer is None else {"layer": layer, **properties}
    return {"type": "Feature", "properties": own, "geometry": {"type": kind, "coordinates": coordinates}}


def polygon(layer: str, ring: Any, **properties: Any) -> dict[str, Any]:
    """One feature with one ring."""
    return feature(layer, "Polygon", [ring], **properties)


ROOF = polygon("ROOF-MAIN", WIDE)


def file(*features: dict[str, Any]) -> str:
    """A file of features."""
    return json.dumps({"type": "FeatureCollection", "features": list(features)})


def read(source: str, *areas: AreaLayers, named_by: str = "layer", **asked: Any) -> tuple[Any, list[str]]:
    """The areas, and what was mended as told, without the file's name."""
    plan = read_plan(source, areas, named_by=named_by, how=how_read("plan.geojson", **asked))
    return plan.areas, [f"{each.place}: {each.found}; {each.done}" for each in plan.mended]


def refused(source: str, *areas: AreaLayers, named_by: str = "layer", **asked: Any) -> str:
    """The refusal, as told."""
    with pytest.raises(Refused) as caught:
        read(source, *areas, named_by=named_by, **asked)
    return caught.value.text()


METRES = "property layer: coordinates too far apart for degrees; read as metres east and north"


def in_metres(*points: tuple[float, float]) -> tuple[tuple[int, int], ...]:
    """Points in metres as ticks."""
    return tuple((round(x * METRE), round(y * METRE)) for x, y in points)


def test_an_area_with_what_stands_in_it() -> None:
    """A named curb, one without a name, a pipe; the pipe outside is left out."""
    source = file(
        ROOF,
        polygon("CURBS", CURB, name="AH-1"),
        polygon("CURBS", [[20, 5], [21, 5], [21, 6], [20, 6]]),
        feature("VENTS", "Point", [30, 15]),
        feature("VENTS", "Point", [50, 15, 7.5]),
        feature(None, "Point", [1, 1]),
    )
    areas, notes = read(source, MAIN)
    assert areas == (
        DrawnArea(
            "Main",
            in_metres((0, 0), (36, 0), (36, 20), (0, 20)),
            (
                DrawnOpening("AH-1", "CURBS", (10 * METRE, 5 * METRE), (2 * METRE, 3 * METRE)),
                DrawnOpening("CURBS-2", "CURBS", (20 * METRE, 5 * METRE), (METRE, METRE)),
            ),
            (DrawnSpot("VENTS-1", "VENTS", (30 * METRE, 15 * METRE)),),
        ),
    )
    assert notes == [
        METRES,
        "layer CURBS: a ring whose last position is not its first; closed by a straight side",
        "layer VENTS: in none of the areas that name the layer: VENTS-2 at E 164' 1/2\" N 49' 2 9/16\"; left out",
    ]


def test_degrees_share_one_plane() -> None:
    """At the equator a thousandth of a degree of longitude is 111.32 m; the curb begins at a tenth of that."""
    ring = [[0, 0], [0.001, 0], [0.001, 0.0005], [0, 0.0005], [0, 0]]
    curb = [[0.0001, 0.0001], [0.00012, 0.0001], [0.00012, 0.00012], [0.0001, 0.00012]]
    areas, _ = read(
        file(polygon("ROOF-MAIN", ring), polygon("CURBS", curb)), AreaLayers("Main", "ROOF-MAIN", ("CURBS",))
    )
    assert areas[0].outline[1][0] / METRE == pytest.approx(111.3195, abs=0.001)
    assert areas[0].openings[0].corner[0] / METRE == pytest.approx(11.13195, abs=0.001)


def test_another_property() -> None:
    """`property: use`, its value a number."""
    source = file(feature(None, "Polygon", [WIDE], use=7))
    assert len(read(source, AreaLayers("Main", "7"), named_by="use")[0][0].outline) == 4


def test_no_feature_has_the_property() -> None:
    """Or not the value asked for: the values there are told."""
    assert refused(file(ROOF), BARE, named_by="kind") == (
        "plan.geojson  kind ROOF-MAIN\n"
        "  read:   no feature with it\n"
        "  needs:  features with the property kind\n"
        "  write:  property: the name of the property that tells them apart"
    )
    area = AreaLayers("Main", "ROOF-MAN", ("CURBS",))
    assert refused(file(ROOF), area) == (
        "plan.geojson  layer ROOF-MAN\n"
        "  read:   ROOF-MAN\n"
        "  needs:  a value that features have: ROOF-MAIN\n"
        "  write:  ROOF-MAIN"
    )


def test_faults_of_all_features_are_told_together() -> None:
    """A curb that is a line, a curb of two corners, a pipe that is a polygon."""
    source = file(
        ROOF,
        feature("CURBS", "LineString", CURB),
        polygon("CURBS", [[1, 1], [2, 2], [1, 1]]),
        polygon("VENTS", CURB),
    )
    assert refused(source, MAIN) == (
        "plan.geojson  layer CURBS\n"
        "  read:   LineString\n"
        "  needs:  a Polygon\n"
        "  write:  each area and each opening as a Polygon of its own\n"
        "\n"
        "plan.geojson  layer CURBS\n"
        "  read:   feature 2: 2 corners\n"
        "  needs:  a polygon of at least 3 corners\n"
        "  write:  the polygon redrawn\n"
        "\n"
        "plan.geojson  layer VENTS\n"
        "  read:   feature 1: Polygon\n"
        "  needs:  a Point\n"
        '  write:  "geometry": {"type": "Point", "coordinates": [36.6, 19.5]}'
    )


def test_two_outlines_of_one_value() -> None:
    """An area is one outline."""
    assert refused(file(ROOF, ROOF), BARE) == (
        "plan.geojson  layer ROOF-MAIN\n"
        "  read:   features: 2\n"
        "  needs:  one feature for the outline\n"
        "  write:  a value of its own for each area's outline"
    )


def test_an_outline_that_crosses_itself_and_one_of_no_roofs_size() -> None:
    """A bow tie; 5 km across."""
    bow = [[0, 0], [36, 20], [36, 0], [0, 20], [0, 0]]
    assert refused(file(polygon("ROOF-MAIN", bow)), BARE) == (
        "plan.geojson  layer ROOF-MAIN\n"
        "  read:   sides 1 and 3 cross or touch at E 59' 11/16\" N 32' 9 11/16\"\n"
        "  needs:  an outline whose sides meet only where one ends and the next starts\n"
        "  write:  the corners in walking order, none passed twice"
    )
    vast = [[0, 0], [5000, 0], [5000, 2000], [0, 2000], [0, 0]]
    assert refused(file(polygon("ROOF-MAIN", vast)), BARE) == (
        "plan.geojson  layer ROOF-MAIN\n"
        "  read:   5,000 by 2,000 m\n"
        "  needs:  a roof from 5 ft to 3000 ft across; is the drawing in millimetres? "
        "If the size is right, size: accept\n"
        "  write:  units: mm  # under areas"
    )


def test_twenty_thousand_positions() -> None:
    """Refused by their number."""
    ring = [[step / 100, step % 2] for step in range(20_000)]
    assert refused(file(polygon("ROOF-MAIN", [*ring, [200, 50], [0, 50]])), BARE) == (
        "plan.geojson  layer ROOF-MAIN\n"
        "  read:   corners: 20,002\n"
        "  needs:  an outline of at most 5,000 corners\n"
        "  write:  the roof's own corners"
    )
