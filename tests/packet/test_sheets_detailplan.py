"""Details in place: every detail of a roof is on the sheet, by its mark or its line."""

from __future__ import annotations

import dataclasses
import re

import pytest
from sample import sample_paper

from lapwright.layout.values import Detail
from lapwright.packet.drawing import Plate, Ring, Stroke, Text
from lapwright.packet.sheets.detailplan import detail_plans


def plates() -> tuple[Plate, ...]:
    """The sample's sheets."""
    return detail_plans(sample_paper(2), width=260.0, height=180.0)


def test_every_detail_is_on_a_sheet() -> None:
    """Each detail that has a place is a line, a square, a dot or a ring under its id."""
    shown = {item.name for plate in plates() for item in plate.items if isinstance(item, (Stroke, Ring))}
    details = sample_paper(2).layout.details
    assert {"cant", "cleat", "joint_cover", "flashing", "metal"} <= {one.kind for one in details}
    assert sorted({one.id for one in details if one.line or one.at} - shown) == []


@pytest.mark.parametrize("kind", ["cant", "cleat", "joint cover"])
def test_the_legend_names_what_lies_behind_and_over(kind: str) -> None:
    """Cant, cleats and joint covers have their entry; lines behind the edge are not numbered on the roof."""
    texts = [item.text for plate in plates() for item in plate.items if isinstance(item, Text)]
    assert any(kind in text and "1 and on" not in text for text in texts)


def test_cant_stands_on_the_far_side_of_the_edge() -> None:
    """South side along y = 0 with the roof to the north: metal north of it, its cleat south of it."""
    paper = sample_paper(2)
    area = paper.areas[0]
    (x0, y0), (x1, _) = area.edges[0].start, area.edges[0].end
    line = ((x0 / 80_000, y0 / 80_000), (x1 / 80_000, y0 / 80_000))
    own = [
        Detail(f"{area.name}/side 1/{kind} 1", kind, area.name, "side 1", "", "", 3.0, 0.1, line=line)
        for kind in ("metal", "cleat")
    ]
    layout = dataclasses.replace(paper.layout, details=tuple(own))
    (plate,) = detail_plans(dataclasses.replace(paper, layout=layout), width=260.0, height=180.0)
    heights = {
        item.name.rpartition("/")[2]: item.points[0][1]
        for item in plate.items
        if isinstance(item, Stroke) and item.name and item.points[0][1] == item.points[1][1]
    }
    # metal is 1.5 mm in, the cleat 0.75 mm out
    assert heights["metal 1"] - heights["cleat 1"] == pytest.approx(2.25)


def rows(paper_plates: tuple[Plate, ...]) -> str:
    """All words of the sheets, as they are read."""
    return " ".join(item.text for plate in paper_plates for item in plate.items if isinstance(item, Text))


@pytest.mark.parametrize(("width", "height"), [(260.0, 180.0), (260.0, 110.0), (180.0, 160.0)])
def test_no_row_of_the_legend_is_dropped(width: float, height: float) -> None:
    """Whatever the sheet's size, each kind is named with how many the roof has, if need be on a sheet of its own."""
    paper = sample_paper(2)
    found = detail_plans(paper, width=width, height=height)
    counts: dict[str, int] = {}
    for one in paper.layout.details:
        if one.line or one.at:
            own = one.kind in ("flashing", "target", "pipe_strip")
            words = f"{one.ply} {one.kind}" if own else one.kind
            counts[words.replace("_", " ")] = counts.get(words.replace("_", " "), 0) + 1
    told = " ".join(rows(found).split())
    missing = {
        words: count
        for words, count in counts.items()
        if not re.search(rf"\b{words}(, to scale|, \w+1 and on)?: {count}\b", told)
    }
    assert missing == {}
    small = height < 180.0 or width < 260.0
    assert any("rest of the legend" in plate.title for plate in found) is small


def test_a_sheet_says_where_its_legend_goes_on() -> None:
    """In its own legend."""
    found = detail_plans(sample_paper(2), width=260.0, height=110.0)
    assert "More on the sheet Details in place, rest of the legend." in " ".join(rows(found[:1]).split())
    assert found[-1].title == "Details in place, rest of the legend"
