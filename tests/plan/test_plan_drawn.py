"""Areas drawn in one plan and typed under roof: put together by name, and every fault of that as it reads."""

from __future__ import annotations

import importlib.util
import json
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
from small_job import REST

from lapwright.faults import Refused
from lapwright.job.reading import read_job
from lapwright.plan.reading import check_job, read_job_file
from lapwright.plan.roofs import Roofs, build_roofs
from lapwright.roof.values import Opening, Pipe

ROOT = Path(__file__).parents[2]
FOOT = 24_384
INCH = 2_032
AREAS = """\
areas:
  dxf: dye-works.dxf
  units: ft
  layers:
    Hall: {outline: ROOF-HALL, openings: {CURBS: {kind: curb, height: 10"}}, pipes: {VENTS: pipe}}
"""
HALL = """\
roof:
  - area: Hall
    falls: S
    slope: 1/4 in 12
"""


@pytest.fixture(scope="module")
def tool() -> ModuleType:
    """The maker of the example's drawing."""
    spec = importlib.util.spec_from_file_location("make_example_plan", ROOT / "tools/make_example_plan.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def folder(tmp_path: Path, tool: ModuleType) -> Path:
    """A folder with the drawing."""
    (tmp_path / "dye-works.dxf").write_text(tool.plan_text(), encoding="ascii")
    return tmp_path


def built(folder: Path, text: str) -> Roofs:
    """The roof of a job's text."""
    return build_roofs(read_job(text + REST, file="job.yaml"), folder)


def refused(folder: Path, text: str) -> str:
    """The refusal, as told."""
    with pytest.raises(Refused) as caught:
        built(folder, text)
    return caught.value.text()


def test_the_drawing_of_the_example_is_current(tool: ModuleType) -> None:
    """What stands beside the example is what the tool writes."""
    assert (ROOT / "examples/dye-works.dxf").read_text(encoding="ascii") == tool.plan_text()


def test_the_example() -> None:
    """Two areas, curbs and pipes where the tool drew them, heights from the layer unless typed, a skylight typed."""
    _, roofs = read_job_file(ROOT / "examples/dye-works.yaml")
    hall, vats = roofs.areas
    assert hall.outline == ((0, 0), (60 * FOOT, 0), (60 * FOOT, 40 * FOOT), (0, 40 * FOOT))
    assert hall.openings == (
        Opening("RTU-1", "curb", (14 * FOOT, 10 * FOOT), (6 * FOOT, 4 * FOOT), pytest.approx(14 * 0.0254)),
        Opening("LT-1", "skylight", (46 * FOOT, 8 * FOOT), (4 * FOOT, 4 * FOOT), pytest.approx(9 * 0.0254)),
        Opening("CURBS-2", "curb", (38 * FOOT, 22 * FOOT), (5 * FOOT, 5 * FOOT), pytest.approx(10 * 0.0254)),
    )
    assert hall.pipes == (
        Pipe("VENTS-1", (30 * FOOT, 8 * FOOT), 4 * INCH),
        Pipe("VENTS-2", (50 * FOOT, 30 * FOOT), 3 * INCH),
    )
    assert vats.outline[:3] == ((60 * FOOT, 0), (90 * FOOT, 0), (90 * FOOT, 14 * FOOT))
    assert [each.name for each in vats.openings] == ["AH-3"]
    assert roofs.drawn == (
        "Hall: drawn with 4 sides, 60' 0\" by 40' 0\"; openings RTU-1, CURBS-2; pipes VENTS-1, VENTS-2",
        "Vat room: drawn with 17 sides, 30' 0\" by 24' 0\"; openings AH-3; pipes VENTS-3",
    )


def test_check_tells_what_was_drawn_and_mended() -> None:
    """The names that the job file may speak of; the round corner's sides."""
    report = check_job(ROOT / "examples/dye-works.yaml")
    assert report.lines[1] == "Vat room: drawn with 17 sides, 30' 0\" by 24' 0\"; openings AH-3; pipes VENTS-3"
    assert report.mended[-1].text() == "dye-works.dxf  layer ROOF-VATS: curves in the outline; they are sides 3-15"


def test_typed_values_replace_those_of_the_layer(folder: Path) -> None:
    """Kind and height of an opening, diameter of a pipe."""
    text = AREAS + HALL
    text += '    openings:\n      - {name: CURBS-2, kind: hatch}\n    pipes:\n      - {name: VENTS-2, diameter: 6"}\n'
    hall = built(folder, text).areas[0]
    assert [(each.name, each.kind, each.height) for each in hall.openings] == [
        ("CURBS-2", "hatch", pytest.approx(10 * 0.0254)),
        ("RTU-1", "curb", pytest.approx(10 * 0.0254)),
    ]
    assert [(each.name, each.diameter // INCH) for each in hall.pipes] == [("VENTS-2", 6), ("VENTS-1", 4)]


def test_a_name_that_is_not_drawn(folder: Path) -> None:
    """The names there are told, the nearest is what to write."""
    text = AREAS + HALL + '    openings:\n      - {name: RTU-2, height: 14"}\n'
    assert refused(folder, text) == (
        "job.yaml:11:16  roof[0].openings[0].name\n"
        "  read:   RTU-2\n"
        "  needs:  a name that the drawing gives, one of RTU-1, CURBS-2; or the keys kind, at, size\n"
        "  write:  RTU-1"
    )


def test_a_name_that_is_drawn_and_typed_whole(folder: Path) -> None:
    """Two things of one name: told at the drawn one's layer."""
    text = AREAS + HALL + "    openings:\n      - {name: rtu 1, kind: curb, at: E 1' N 1', size: E 2' x N 2'}\n"
    assert refused(folder, text) == (
        "job.yaml:5:50  areas.layers.Hall.openings.CURBS\n"
        "  needs:  a name of its own; rtu 1 is taken (RTU-1 is drawn)\n"
        "  write:  another name"
    )


def drawn(tool: ModuleType, monkeypatch: pytest.MonkeyPatch, folder: Path, **things: Any) -> None:
    """Draws the plan anew with other curbs or pipes."""
    for name, value in things.items():
        monkeypatch.setattr(tool, name, value)
    (folder / "dye-works.dxf").write_text(tool.plan_text(), encoding="ascii")


def test_names_drawn_twice(tool: ModuleType, monkeypatch: pytest.MonkeyPatch, folder: Path) -> None:
    """Two curbs with one text."""
    drawn(tool, monkeypatch, folder, CURBS=((14, 10, 6, 4, "A"), (30, 10, 6, 4, "A")))
    assert refused(folder, AREAS + HALL) == (
        "job.yaml:5:50  areas.layers.Hall.openings.CURBS\n"
        "  needs:  names that differ; A is drawn 2 times\n"
        "  write:  another name in the drawing"
    )


def test_an_opening_drawn_across_the_edge(tool: ModuleType, monkeypatch: pytest.MonkeyPatch, folder: Path) -> None:
    """Told at its layer, by its name and place."""
    drawn(tool, monkeypatch, folder, CURBS=((14, -1, 6, 4, "A"),))
    assert refused(folder, AREAS + HALL).splitlines()[:2] == [
        "job.yaml:5:50  areas.layers.Hall.openings.CURBS",
        "  read:   A from E 14' 0\" S 1' 0\" to E 20' 0\" N 3' 0\"",
    ]


def test_a_pipe_without_a_diameter(folder: Path) -> None:
    """Points and blocks have none: the layer gives it."""
    source = (folder / "dye-works.dxf").read_text(encoding="ascii").replace("CIRCLE", "POINT")
    (folder / "dye-works.dxf").write_text(source, encoding="ascii")
    assert refused(folder, AREAS + HALL) == (
        "job.yaml:5:93  areas.layers.Hall.pipes.VENTS\n"
        "  read:   pipe\n"
        "  needs:  the diameter of VENTS-1, which is not drawn as a circle\n"
        '  write:  VENTS: {diameter: 4"}\n'
        "\n"
        "job.yaml:5:93  areas.layers.Hall.pipes.VENTS\n"
        "  read:   pipe\n"
        "  needs:  the diameter of VENTS-2, which is not drawn as a circle\n"
        '  write:  VENTS: {diameter: 4"}'
    )
    pipes = built(folder, AREAS.replace("VENTS: pipe", 'VENTS: {diameter: 4"}') + HALL).areas[0].pipes
    assert [each.diameter for each in pipes] == [4 * INCH, 4 * INCH]


def test_a_drawing_that_is_not_there(tmp_path: Path) -> None:
    """Told once, not for each area."""
    assert refused(tmp_path, AREAS + HALL) == (
        "dye-works.dxf\n  needs:  a DXF drawing\n  write:  the path of a file that is there"
    )


def test_a_job_with_other_faults_tells_those_of_the_drawing(folder: Path) -> None:
    """A sheet without a width beside a layer that is not there: both at once."""
    text = AREAS.replace("ROOF-HALL", "ROOF-HALLE") + HALL + REST.replace('width: 39 3/8", ', "", 1)
    path = folder / "job.yaml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(Refused) as caught:
        read_job_file(path)
    assert [fault.key for fault in caught.value.faults] == ["layer ROOF-HALLE", "sheets.b.width"]


def test_coordinates_of_a_survey_are_moved_to_the_origin(folder: Path) -> None:
    """A map 3,000 km north: told where the origin is; with an area that is walked from 0 beside it, refused."""
    ring = [[500_000 + x, 3_000_000 + y] for x, y in ((0, 0), (12, 0), (12, 9), (0, 9), (0, 0))]
    feature = {"type": "Feature", "properties": {"name": "A"}, "geometry": {"type": "Polygon", "coordinates": [ring]}}
    (folder / "map.geojson").write_text(json.dumps(feature), encoding="utf-8")
    text = "units: metric\nroof:\n  - area: A\n    outline: {geojson: map.geojson, feature: A}\n"
    plane = "    falls: S\n    slope: 2 %\n"
    roofs = built(folder, text + plane)
    assert roofs.areas[0].outline == ((0, 0), (960_000, 0), (960_000, 720_000), (0, 720_000))
    assert roofs.mended[-1].text() == (
        "job.yaml  roof: coordinates over 100 km from the origin; all areas moved together; "
        "E 0 N 0 of the job is E 500000000 mm N 3000000000 mm of the drawing"
    )
    walk = "  - area: B\n    outline: E 12 m, N 9 m, W 12 m, S 9 m\n"
    assert refused(folder, text + plane + walk + plane) == (
        "job.yaml:3:5  roof[0]\n"
        "  needs:  areas within 100 km of one another\n"
        "  write:  the places of the areas in one system of coordinates"
    )


def test_planes_of_a_drawn_area_count_from_its_first_corner(folder: Path) -> None:
    """A drawn area in two planes that are walked, near the origin and on a map far from it."""
    text = (
        "units: metric\nareas: {geojson: map.geojson, layers: {A: {outline: R}}}\nroof:\n  - area: A\n    planes:\n"
        "      - {plane: west, falls: W, slope: 2 %, outline: [[0 m, 0 m], [6 m, 0 m], [6 m, 9 m], [0 m, 9 m]]}\n"
        "      - {plane: east, falls: E, slope: 2 %, outline: [[6 m, 0 m], [12 m, 0 m], [12 m, 9 m], [6 m, 9 m]]}\n"
    )
    for east, north, first in ((400, 700, (400 * 80_000, 700 * 80_000)), (500_000, 3_000_000, (0, 0))):
        ring = [[east + x, north + y] for x, y in ((0, 0), (12, 0), (12, 9), (0, 9), (0, 0))]
        geometry = {"type": "Polygon", "coordinates": [ring]}
        feature = {"type": "Feature", "properties": {"layer": "R"}, "geometry": geometry}
        (folder / "map.geojson").write_text(json.dumps(feature), encoding="utf-8")
        areas = built(folder, text).areas
        assert [area.outline[0] for area in areas] == [first, (first[0] + 6 * 80_000, first[1])]
