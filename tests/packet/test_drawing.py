"""Drawings as lists of items, and how wide their lettering runs."""

from __future__ import annotations

from importlib.resources import files

import pytest
from ezdxf.lldxf.const import VALID_DXF_LINEWEIGHTS
from fontTools.ttLib import TTFont

from lapwright.packet.drawing import WEIGHTS_MM, Fill, Ring, Stroke, Text, View, extent, moved, rectangle
from lapwright.packet.lettering import advances, clean, text_width, wrapped

FONTS = files("lapwright.packet.fonts")
# Marks that drawings write beside letters and figures.
MARKS = "′″°½×→'\"/:;,.-+%()&²"


def font(name: str) -> TTFont:
    """One of the package's fonts."""
    with (FONTS / name).open("rb") as stream:
        return TTFont(stream, lazy=False)


def test_a_view_lays_the_model_on_the_paper_by_hand_count() -> None:
    """At 1:200 a metre is 5 mm; the model point (10, 20) comes to the paper point (100, 50)."""
    view = View(5.0, (10.0, 20.0), (100.0, 50.0))
    stroke = view.item(Stroke(((12.0, 20.0), (10.0, 19.0)), "A"))
    ring = view.item(Ring((10.0, 20.0), 0.5, "A"))
    text = view.item(Text((10.0, 20.0), "x", 0.4, "A"))
    assert (stroke.points, ring.radius, text.height) == (((110.0, 50.0), (100.0, 45.0)), 2.5, 2.0)


def test_items_are_moved_whole() -> None:
    """Moving by (3, -1) moves every anchor by that."""
    items = moved([Fill((rectangle(0, 0, 2, 1),), "A"), Text((5.0, 5.0), "x", 2.0, "A")], 3.0, -1.0)
    assert (items[0].rings[0][2], items[1].at) == ((5.0, 0.0), (8.0, 4.0))


def test_extent_takes_rings_with_their_radius() -> None:
    """A ring of 2 about (1, 1) reaches from -1 to 3."""
    assert extent([Ring((1.0, 1.0), 2.0, "A"), Stroke(((0.0, 0.0), (1.0, 5.0)), "A")]) == (-1.0, -1.0, 3.0, 5.0)


def test_pens_are_ones_that_a_dxf_layer_can_hold() -> None:
    """Every weight is among the line weights that DXF knows, in hundredths of a millimetre."""
    assert {round(weight * 100) for weight in WEIGHTS_MM.values()} <= set(VALID_DXF_LINEWEIGHTS)


@pytest.mark.parametrize(("name", "cut"), [("routed-gothic.ttf", 0), ("routed-gothic-narrow.ttf", 1)])
def test_widths_are_those_of_the_fonts(name: str, cut: int) -> None:
    """Every advance width in the table is the font's own, and the capital height is 736 of 1024."""
    loaded = font(name)
    cmap, metrics = loaded.getBestCmap(), loaded["hmtx"]
    assert {code: metrics[cmap[code]][0] for code in advances()} == {
        code: pair[cut] for code, pair in advances().items()
    }
    assert (loaded["OS/2"].sCapHeight, loaded["head"].unitsPerEm) == (736, 1024)


@pytest.mark.parametrize("name", ["routed-gothic.ttf", "routed-gothic-narrow.ttf", "Inter-Regular.otf"])
def test_fonts_hold_the_marks_that_we_write(name: str) -> None:
    """Primes, degree, times, arrow and fractions are in each font."""
    cmap = font(name).getBestCmap()
    assert [mark for mark in MARKS if ord(mark) not in cmap] == []


@pytest.mark.parametrize("name", ["routed-gothic-licence.txt", "inter-licence.txt"])
def test_fonts_come_with_their_licence(name: str) -> None:
    """Each family's licence stands beside it."""
    assert "Font Software" in (FONTS / name).read_text("utf-8")


def test_a_line_is_as_wide_as_its_letters() -> None:
    """Two letters are as wide as one and the other; twice the height is twice the width."""
    assert text_width("AB", 2.0) == pytest.approx(text_width("A", 2.0) + text_width("B", 2.0))
    assert text_width("AB", 4.0) == pytest.approx(2 * text_width("AB", 2.0))


def test_wrapped_lines_fit_and_lose_nothing() -> None:
    """No line but a single long word is wider than the column, and the words come back in order."""
    words = "bead of caulk-grade SBS mastic in the gap, granules broadcast in it"
    lines = wrapped(words, 2.0, 40.0)
    assert " ".join(lines) == words
    assert max(text_width(line, 2.0) for line in lines) <= 40.0 < text_width(words, 2.0)


def test_clean_text_is_one_printable_line() -> None:
    """Line breaks, bells and halves of code points become spaces; letters stay."""
    assert clean("a\nb\x07c\ud800é") == "a b c é"
