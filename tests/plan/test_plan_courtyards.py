"""Rings inside an outline: what they are is asked, then they are openings of the area, in the shape drawn."""

from __future__ import annotations

import json
from pathlib import Path

import ezdxf
import pytest
from test_plan_drawn import FOOT, REST, built, refused

from lapwright.plan.build import make_assembly
from lapwright.plan.reading import read_job_file
from lapwright.roof.falls import area_m2

FALLS = "    falls: S\n    slope: 1/4 in 12\n"
BY_OUTLINE = "roof:\n  - area: Main\n    outline: {dxf: yard.dxf, layer: ROOF}\n" + FALLS
BY_FEATURE = "roof:\n  - area: Main\n    outline: {geojson: yard.geojson, feature: Main, units: ft}\n" + FALLS
BY_LAYERS = "areas: {dxf: yard.dxf, layers: {Main: {outline: ROOF}}}\nroof:\n  - area: Main\n" + FALLS
GIVEN = '    openings:\n      - {name: Courtyard-1, kind: shaft, height: 12"}\n'
YARD = [(50, 20), (80, 20), (80, 30), (65, 30), (65, 44), (50, 44)]
WIDE = [(0, 0), (120, 0), (120, 64), (0, 64)]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a roof of 120' by 64' round an L of 30' by 24', as a drawing and as a map in feet."""
    made = ezdxf.new("R2010")
    made.header["$INSUNITS"] = 2
    for ring in (WIDE, YARD):
        made.modelspace().add_lwpolyline(ring, close=True, dxfattribs={"layer": "ROOF"})
    made.saveas(tmp_path / "yard.dxf")
    rings = [[*WIDE, WIDE[0]], [*YARD, YARD[0]]]
    feature = {"type": "Feature", "properties": {"name": "Main"}, "geometry": {"type": "Polygon", "coordinates": rings}}
    (tmp_path / "yard.geojson").write_text(json.dumps(feature), encoding="utf-8")
    return tmp_path


def test_what_a_courtyard_is_is_asked(folder: Path) -> None:
    """At the key that names the outline, with the entry to write."""
    needs = (
        "  needs:  the kind of Courtyard-1, E 30' 0\" x N 24' 0\", a ring inside the outline: "
        "curb, skylight, hatch or shaft\n"
        '  write:  openings: [{name: Courtyard-1, kind: shaft, height: 12"}]  # under Main'
    )
    assert refused(folder, BY_OUTLINE) == "job.yaml:3:14  roof[0].outline\n" + needs
    assert refused(folder, BY_FEATURE) == "job.yaml:3:14  roof[0].outline\n" + needs
    assert refused(folder, BY_LAYERS) == "job.yaml:1:49  areas.layers.Main.outline\n  read:   ROOF\n" + needs


def test_an_entry_that_leaves_the_kind_out(folder: Path) -> None:
    """It is told there."""
    text = BY_OUTLINE + '    openings:\n      - {name: Courtyard-1, height: 12"}\n'
    assert refused(folder, text).splitlines()[0] == "job.yaml:7:9  roof[0].openings[0]"
    assert refused(folder, text).splitlines()[-1] == "  write:  kind: shaft"


@pytest.mark.parametrize("head", [BY_OUTLINE, BY_FEATURE, BY_LAYERS])
def test_a_courtyard_is_an_opening_in_its_own_shape(folder: Path, head: str) -> None:
    """510 sf of 7,680 are taken out; its faces start at the southern one."""
    area = built(folder, head + GIVEN).areas[0]
    opening = area.openings[0]
    assert (opening.name, opening.kind, opening.key) == ("Courtyard-1", "shaft", "roof[0].openings[0]")
    assert opening.outline == tuple((x * FOOT, y * FOOT) for x, y in YARD)
    assert area_m2(area) == pytest.approx((7680 - 510) * 0.3048**2)
    assert built(folder, head + GIVEN).drawn == ("Main: drawn with 4 sides, 120' 0\" by 64' 0\"; openings Courtyard-1",)


def test_a_start_moves_the_courtyard_too(folder: Path) -> None:
    """An outline put elsewhere takes its courtyards along."""
    text = BY_OUTLINE.replace(FALLS, "    start: E 10' N 20'\n" + FALLS) + GIVEN
    assert built(folder, text).areas[0].openings[0].corner == (60 * FOOT, 40 * FOOT)


def test_a_name_that_no_courtyard_has(folder: Path) -> None:
    """The names there are told."""
    text = BY_OUTLINE + GIVEN + '      - {name: Courtyard-2, height: 12"}\n'
    assert refused(folder, text).splitlines()[1:] == [
        "  read:   Courtyard-2",
        "  needs:  a name that the drawing gives, one of Courtyard-1; or the keys kind, at, size",
        "  write:  Courtyard-1",
    ]


def test_a_job_file_with_a_courtyard_is_read(folder: Path) -> None:
    """From the file itself, with its plies."""
    (folder / "job.yaml").write_text("job: {name: Yard, number: 1}\n" + BY_OUTLINE + GIVEN + REST, encoding="utf-8")
    job, roofs = read_job_file(folder / "job.yaml")
    assert len(roofs.areas[0].openings[0].faces) == 6
    assert [ply.ply for ply in make_assembly(job).plies] == ["base", "cap"]
