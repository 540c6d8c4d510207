"""The layout as DXF, read back from its bytes and compared with the layout by names and by hand-counted lengths."""

from __future__ import annotations

import io
from typing import Any

import ezdxf
import pytest
from sample import sample_paper

from lapwright.packet.drawing import Text
from lapwright.packet.layoutdxf import layout_dxf
from lapwright.packet.sheets.layoutdrawing import lettered_ply, lettered_roof, unplaced_items
from lapwright.packet.sheets.showing import Showing


def read(plies: int, units: str) -> Any:
    """The sample's DXF, read back."""
    return ezdxf.read(io.StringIO(layout_dxf(sample_paper(plies, units)).decode("utf-8")))


def names(document: Any, layer: str) -> list[str]:
    """What the entities of a layer stand for."""
    entities = document.modelspace().query(f"*[layer=='{layer}']")
    return [entity.get_xdata("LAPWRIGHT")[0].value for entity in entities if entity.has_xdata("LAPWRIGHT")]


@pytest.mark.parametrize(("plies", "units"), [(2, "us"), (3, "metric")])
def test_the_audit_is_clean(plies: int, units: str) -> None:
    """Nothing to report, nothing to fix."""
    audit = read(plies, units).audit()
    assert (audit.errors, audit.fixes) == ([], [])


@pytest.mark.parametrize("ply", ["base", "cap"])
def test_every_piece_and_lap_is_there_under_its_id(ply: str) -> None:
    """Pieces, side laps, end laps and T-joints on the layers of their ply are those of the layout."""
    paper, document = sample_paper(2), read(2, "us")
    layout, prefix = paper.layout, ply.upper()
    assert sorted(names(document, f"{prefix}-PIECES")) == sorted(one.id for one in layout.pieces if one.ply == ply)
    for kind in ("side", "end"):
        expected = sorted(lap.id for lap in layout.laps if (lap.ply, lap.kind) == (ply, kind))
        assert sorted(names(document, f"{prefix}-{kind.upper()}-LAPS")) == expected
    assert sorted(names(document, f"{prefix}-TJOINTS")) == sorted(j.id for j in layout.tjoints if j.ply == ply)


@pytest.mark.parametrize(("units", "code", "length"), [("us", 1, 1440.0), ("metric", 6, 36.576)])
def test_the_outline_is_in_real_units(units: str, code: int, length: float) -> None:
    """The south side of 120' is 1440 inches, or 36.576 m."""
    document = read(2, units)
    outline = document.modelspace().query("LWPOLYLINE[layer=='ROOF-OUTLINE']").first
    (x0, *_), (x1, *_) = list(outline.get_points())[:2]
    assert document.header["$INSUNITS"] == code
    assert x1 - x0 == pytest.approx(length)


def test_a_piece_is_as_large_as_its_blank() -> None:
    """Each cap piece's rectangle in inches is its ticks over 2032, up the slope by the frame's stretch."""
    paper, document = sample_paper(2), read(2, "us")
    by_id = {one.id: one for one in paper.layout.pieces}
    for entity in document.modelspace().query("LWPOLYLINE[layer=='CAP-PIECES']"):
        piece = by_id[entity.get_xdata("LAPWRIGHT")[0].value]
        xs, ys = zip(*((x, y) for x, y, *_ in entity.get_points()), strict=True)
        stretch = paper.layout.frames[piece.area].stretch
        sides = sorted((max(xs) - min(xs), max(ys) - min(ys)))
        expected = sorted(((piece.u1 - piece.u0) / 2032, (piece.v1 - piece.v0) / 2032 / stretch))
        assert sides == pytest.approx(expected, abs=1e-6)


def test_edges_stand_on_layers_of_their_kind() -> None:
    """Metal edges, parapets and walls each have their layer."""
    document = read(2, "us")
    found = {entity.dxf.layer for entity in document.modelspace() if entity.dxf.layer.startswith("EDGES-")}
    assert found == {"EDGES-METAL", "EDGES-PARAPET", "EDGES-WALL"}


def test_every_cap_piece_has_its_number() -> None:
    """On the cap's text layer each laying number stands once, or in a range with its neighbours."""
    paper, document = sample_paper(2), read(2, "us")
    texts = [entity.dxf.text for entity in document.modelspace().query("TEXT[layer=='CAP-TEXT']")]
    numbers = {str(one.sequence) for one in paper.layout.pieces if one.ply == "cap"}
    assert len([one for one in texts if one in numbers]) == len(set(texts) & numbers)
    assert len(set(texts) & numbers) >= 0.98 * len(numbers)


def test_it_opens_on_the_top_ply() -> None:
    """Layers of the base and of the days are off, those of the cap and the roof on; a note says so."""
    document = read(2, "us")
    off = {layer.dxf.name for layer in document.layers if layer.is_off()}
    assert {name.split("-")[0] for name in off} == {"BASE", "DAY"}
    notes = [entity.dxf.text for entity in document.modelspace().query("TEXT[layer=='TEXT']")]
    assert any(note.startswith("Layers that begin with BASE- or DAY- are switched off") for note in notes)


def test_the_same_layout_gives_the_same_bytes() -> None:
    """Written twice, the file is the same."""
    assert layout_dxf(sample_paper(2)) == layout_dxf(sample_paper(2))


def test_what_finds_no_room_is_listed_on_its_layer() -> None:
    """Each once, under the roof, on the layer of the ply it belongs to; long lists go on in the next row below."""
    words = [f"C{n} {n + 100}" for n in (1, 1, *range(2, 30))]
    items = unplaced_items(sample_paper(2), [("Roof", "TEXT", []), ("base ply", "BASE-TEXT", words)], 0.1)
    texts = [item for item in items if isinstance(item, Text)]
    assert " ".join(text.text for text in texts) == (
        "base ply, without room on the drawing: " + ", ".join(f"C{n} {n + 100}" for n in range(1, 30)) + "."
    )
    assert len(texts) > 1
    assert {text.layer for text in texts} == {"BASE-TEXT"}
    assert [text.at[1] for text in texts] == sorted((text.at[1] for text in texts), reverse=True)


def test_what_the_sample_leaves_out_stands_in_its_file() -> None:
    """The words that the sheets of the sample's plies could not place are those listed in the file."""
    paper = sample_paper(2)
    roof, showing = lettered_roof(paper), Showing(paper.layout, paper.areas)
    sheets = [lettered_ply(paper, ply, roof, showing) for ply in ("base", "cap")]
    left_out = [word for sheet in sheets for word in dict.fromkeys(sheet.unplaced)]
    listed = " ".join(
        text.dxf.text
        for text in read(2, "us").modelspace().query("TEXT")
        if text.dxf.layer in ("BASE-TEXT", "CAP-TEXT")
    )
    assert left_out != []
    assert [word for word in left_out if f"{word}," not in listed and f"{word}." not in listed] == []
