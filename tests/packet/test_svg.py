"""Plates as SVG."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from lapwright.packet.drawing import PATTERNS, Fill, Item, Plate, Ring, Stroke, Text, rectangle
from lapwright.packet.svg import number, svg_text

SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = "RTU <&> \"'] ]]> \x00\x1b \u202e é ′"


def plate(*items: Item, title: str = "t") -> Plate:
    """A plate of 100 by 50 mm."""
    return Plate(100.0, 50.0, items, title)


def test_a_stroke_is_written_with_y_downwards() -> None:
    """(10, 10) to (20, 40) on a sheet 50 high is 10 40 to 20 10 in SVG; the pen is 0.5 mm."""
    text = svg_text(plate(Stroke(((10.0, 10.0), (20.0, 40.0)), "A", weight="heavy")))
    assert '<path d="M10 40L20 10" stroke="#1f1d1a" stroke-width="0.5"/>' in text


def test_neighbours_of_one_style_share_a_path() -> None:
    """Two thin strokes make one path with two parts; a named one stands alone."""
    thin = [Stroke(((0.0, 0.0), (float(k), 1.0)), "A") for k in (1, 2)]
    root = ElementTree.fromstring(svg_text(plate(*thin, Stroke(((0.0, 0.0), (3.0, 1.0)), "A", name="lap 1"))))
    paths = root.findall(f"{SVG}path")
    assert [(path.get("d", "").count("M"), path.get("data-name")) for path in paths] == [(2, None), (1, "lap 1")]


def test_a_text_stands_with_capitals_of_its_height() -> None:
    """Capitals of 736/1024 em: 3.68 mm high letters are set at 5.12 mm."""
    text = svg_text(plate(Text((10.0, 20.0), "A", 3.68, "T")))
    assert 'font-size="5.12"' in text
    assert 'font-family="Routed Gothic, sans-serif"' in text


def test_every_hatch_is_defined_where_it_is_used() -> None:
    """Each url() points to a pattern in the same file, and nothing points outside."""
    items = [Fill((rectangle(0, 0, 9, 9),), "H", pattern=pattern) for pattern in PATTERNS]
    text = svg_text(plate(*items))
    used, defined = set(re.findall(r"url\(#([^)]+)\)", text)), set(re.findall(r'<pattern id="([^"]+)"', text))
    assert used == defined
    assert re.findall(r"href|@import|<image|https?://(?!www\.w3\.org/2000/svg)", text) == []


def test_a_hole_is_left_open() -> None:
    """A ring in a ring is drawn even-odd."""
    text = svg_text(plate(Fill((rectangle(0, 0, 9, 9), rectangle(2, 2, 3, 3)), "H")))
    assert 'fill-rule="evenodd"' in text


def test_hostile_names_do_not_break_the_file() -> None:
    """Markup, quotes and control characters in texts, names and titles still give XML that reads back."""
    text = svg_text(
        plate(
            Text((1.0, 1.0), HOSTILE, 2.0, "T", backed=True),
            Stroke(((0.0, 0.0), (1.0, 1.0)), "A", name=HOSTILE),
            Ring((5.0, 5.0), 1.0, "A", name=HOSTILE),
            title=HOSTILE,
        )
    )
    root = ElementTree.fromstring(text)
    assert [element.text for element in root.iter(f"{SVG}text")] == ["RTU <&> \"'] ]]>      é ′"]
    assert root.findtext(f"{SVG}title") == "RTU <&> \"'] ]]>      é ′"


@pytest.mark.parametrize(
    ("value", "text"), [(1.0, "1"), (0.126, "0.13"), (-0.001, "0"), (-2.5, "-2.5"), (100.0, "100"), (0.0, "0")]
)
def test_numbers_have_two_decimals_at_most(value: float, text: str) -> None:
    """No idle zeros, no minus zero."""
    assert number(value) == text


def test_the_same_plate_gives_the_same_bytes() -> None:
    """Written twice, a plate is the same."""
    one = plate(Fill((rectangle(0, 0, 9, 9),), "H", pattern="concrete"), Text((1.0, 1.0), "x", 2.0, "T"))
    assert svg_text(one) == svg_text(one)
