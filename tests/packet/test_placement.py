"""Labels of plans on roofs at random and on every example: none on another, none off the sheet, no piece forgotten.

T-joints and corner cuts are read back from the SVG and counted against plan.json.
"""

from __future__ import annotations

import json
import re
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lettered import numbers_told, overlapping
from sample import sample_paper

import strategies
from lapwright.layout.courses import Conflict
from lapwright.layout.place import make_layout
from lapwright.packet.drawing import Plate, Text
from lapwright.packet.page import PAPERS
from lapwright.packet.planjson import plan_bytes
from lapwright.packet.plates import detail_sheets, plan_plates
from lapwright.packet.sheets.plan import plan_sheets
from lapwright.packet.svg import svg_text
from lapwright.packet.values import Paper
from lapwright.plan.make import lay_paper
from lapwright.plan.reading import read_job_file

ROOT = Path(__file__).resolve().parents[2]
JOBS = sorted([*ROOT.glob("examples/**/*.yaml"), *ROOT.glob("src/lapwright/plan/example/*.yaml")])
SIZES = ((254.0, 170.0), (273.0, 164.0), (192.0, 238.0))
LEAST_LETTER = 1.8


def paper_of(roof: strategies.Roof) -> Paper | None:
    """A roof at random, laid out, on the sample's paper; None where its rules can't be met."""
    try:
        layout = make_layout(roof.areas, roof.assembly, roof.rules, grid=roof.grid, patience=0.02)
    except Conflict:
        return None
    sheets = {ply.sheet.name: ply.sheet for ply in roof.assembly.plies}
    plain = sample_paper(2, "us" if roof.grid == strategies.US.grid else "metric", with_days=False)
    return replace(
        plain, areas=roof.areas, assembly=roof.assembly, rules=roof.rules, sheets=sheets, layout=layout, hours=None
    )


@lru_cache(maxsize=8)
def paper_of_job(job: Path) -> Paper:
    """An example, laid out."""
    read, roofs = read_job_file(job)
    return lay_paper(read, roofs, job)


def plates_of(paper: Paper) -> tuple[Plate, ...]:
    """Every plan and detail on both papers."""
    papers = [replace(paper, head=replace(paper.head, paper=name)) for name in sorted(PAPERS)]
    return tuple(plate for one in papers for plate in (*plan_plates(one), *detail_sheets(one)))


def misplaced(plates: tuple[Plate, ...]) -> list[tuple[str, list[tuple[str, str]]]]:
    """Sheets with labels that lie on each other or hang over the border."""
    return [(plate.title, found) for plate in plates if (found := overlapping(plate))]


def lowest(plates: tuple[Plate, ...]) -> float:
    """Height of the lowest letter."""
    return min(item.height for plate in plates for item in plate.items if isinstance(item, Text))


@settings(max_examples=40, deadline=None)
@given(strategies.small_roofs(), st.sampled_from(SIZES))
def test_labels_of_roofs_at_random_keep_apart(roof: strategies.Roof, size: tuple[float, float]) -> None:
    """On every plan of a small roof no label lies on another or leaves the sheet, and every piece is told of."""
    paper = paper_of(roof)
    if paper is not None:
        assert_told(paper, size)


@pytest.mark.parametrize("seed", range(0, strategies.ROOFS, 9))
def test_labels_of_larger_roofs_keep_apart(seed: int) -> None:
    """The same for roofs up to 200' with several areas."""
    paper = paper_of(strategies.seeded_roof(seed))
    if paper is not None:
        assert_told(paper, SIZES[seed % len(SIZES)])


def assert_told(paper: Paper, size: tuple[float, float]) -> None:
    """Every ply's plans: labels apart and on the sheet, each piece numbered on the whole or on one of the parts."""
    for ply in paper.assembly.plies:
        plates = plan_sheets(paper, ply.ply, width=size[0], height=size[1])
        assert misplaced(plates) == []
        parts = plates[1:] or plates
        told = {number for plate in parts for number in numbers_told(plate)}
        assert {piece.sequence for piece in paper.layout.pieces if piece.ply == ply.ply} - told == set()


@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
def test_labels_of_the_examples_keep_apart(job: Path) -> None:
    """On every plan and detail of every example, on letter and A4 paper: none on another, off the sheet or too low."""
    plates = plates_of(paper_of_job(job))
    assert misplaced(plates) == []
    assert lowest(plates) >= LEAST_LETTER


@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
def test_every_piece_of_the_examples_is_told_of(job: Path) -> None:
    """Each piece has its number on a plan of its ply."""
    assert_told(paper_of_job(job), SIZES[0])


def drawn_names(plates: tuple[Plate, ...]) -> tuple[set[str], set[str]]:
    """Names of circles and of paths in the plates' SVG, parsed as XML."""
    circles: set[str] = set()
    paths: set[str] = set()
    for plate in plates:
        root = ElementTree.fromstring(svg_text(plate))  # written by ourselves a line above
        for element in root.iter():
            name = element.get("data-name", "")
            if element.tag.endswith("circle"):
                circles.add(name)
            elif element.tag.endswith("path"):
                paths.add(name)
    return circles, paths


@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
@pytest.mark.parametrize("size", [SIZES[0], (120.0, 90.0)], ids=["whole", "in parts"])
def test_t_joints_and_corner_cuts_are_those_of_the_plan_file(job: Path, size: tuple[float, float]) -> None:
    """Every T-joint and corner cut in plan.json is drawn on a plan of its ply, and no other is."""
    paper = paper_of_job(job)
    plan = json.loads(plan_bytes(paper))
    for ply in paper.assembly.plies:
        plates = plan_sheets(paper, ply.ply, width=size[0], height=size[1])
        circles, paths = drawn_names(plates)
        joints = {joint["id"] for joint in plan["tjoints"] if joint["ply"] == ply.ply}
        cuts = {
            f"{piece['id']}/cut {k}"
            for layer in plan["plies"]
            for piece in layer["pieces"]
            for k, _ in enumerate(piece["corner_cuts"], start=1)
            if layer["ply"] == ply.ply
        }
        assert {name for name in circles if "/" in name} == joints
        assert {name for name in paths if re.search(r"/cut \d+$", name)} == cuts


def test_sheets_on_small_paper_are_in_parts() -> None:
    """The sizes used above do put a roof on one sheet, and in parts: 96' by 75' of courses 36 3/8" apart."""
    paper = paper_of_job(ROOT / "src/lapwright/plan/example/millrace.yaml")
    counts = [len(plan_sheets(paper, "cap", width=width, height=height)) for width, height in (SIZES[0], (120.0, 90.0))]
    assert counts[0] == 1
    assert counts[1] > 2
