"""Model drawings as DXF, read back with the library's own reader and audit."""

from __future__ import annotations

import io
from typing import Any

import ezdxf
import pytest

from lapwright.packet.drawing import PATTERNS, Fill, Item, Ring, Stroke, Text, rectangle
from lapwright.packet.dxf import dxf_bytes, layer_name

HOSTILE = "RTU %%d 100%% ^J \\U+0041 {\\P;} \n  0\nEOF\n \ud800 é"


def read(items: list[Item], units: str = "metric", **options: Any) -> Any:
    """The drawing written and read again."""
    data = dxf_bytes(items, units=units, metres_per_paper_mm=0.2, **options)
    return ezdxf.read(io.StringIO(data.decode("utf-8")))


def everything() -> list[Item]:
    """Every kind of item, every hatch."""
    items: list[Item] = [Fill((rectangle(k, 0, 0.9, 0.9),), "H", pattern=name) for k, name in enumerate(PATTERNS)]
    items += [
        Fill((rectangle(0, 2, 4, 4), rectangle(1, 3, 1, 1)), "H", name="hole"),
        Stroke(((0.0, 0.0), (1.0, 0.0), (1.0, 1.0)), "cap-pieces", closed=True, name="Main/cap/01/1"),
        Stroke(((0.0, 0.0), (12.192, 0.0)), "laps", line="centre", weight="heavy", ink="accent"),
        Ring((3.0, 3.0), 0.15, "tjoints"),
        Text((1.0, 2.0), HOSTILE, 0.4, "text", 90.0, "middle", "middle"),
    ]
    return items


def test_the_audit_finds_nothing() -> None:
    """A drawing with every kind of item and hatch has no errors and nothing to fix."""
    audit = read(everything()).audit()
    assert (audit.errors, audit.fixes) == ([], [])


@pytest.mark.parametrize(("units", "code", "length"), [("metric", 6, 12.192), ("us", 1, 480.0)])
def test_units_are_real(units: str, code: int, length: float) -> None:
    """40 ft is 480 inches or 12.192 m, and $INSUNITS says which."""
    document = read([Stroke(((0.0, 0.0), (12.192, 0.0)), "A")], units)
    line = document.modelspace().query("LINE").first
    assert document.header["$INSUNITS"] == code
    assert line.dxf.end.x == pytest.approx(length, abs=1e-9)


def test_names_travel_as_extended_data() -> None:
    """A piece's id is found on its outline."""
    piece = read(everything()).modelspace().query("LWPOLYLINE[layer=='CAP-PIECES']").first
    assert [tag.value for tag in piece.get_xdata("LAPWRIGHT")] == ["Main/cap/01/1"]


def test_hostile_text_reads_as_itself_and_ends_nothing() -> None:
    """Format codes, control characters and a false end of file come back as plain text on one line."""
    document = read(everything())
    texts = document.modelspace().query("TEXT")
    assert len(texts) == 1
    assert texts.first.plain_text() == "RTU % %d 100% % ^J \\ U+0041 {\\P;}    0 EOF    é"
    assert len(document.modelspace().query("CIRCLE")) == 1


def test_a_text_is_as_high_as_it_was_drawn() -> None:
    """0.4 m high letters are 0.4 high in metres, turned by 90 degrees."""
    text = read(everything()).modelspace().query("TEXT").first
    assert (text.dxf.height, text.dxf.rotation) == (pytest.approx(0.4), 90.0)


def test_a_hole_is_a_second_boundary() -> None:
    """A ring in a ring makes a hatch of two paths."""
    hatches = read(everything()).modelspace().query("HATCH")
    assert [len(hatch.paths) for hatch in hatches][-1] == 2


@pytest.mark.parametrize(
    ("words", "name"),
    [("cap-SIDE-LAPS", "CAP-SIDE-LAPS"), ("a <b>*?|\\/:;", "A-B"), ("", "OTHER"), ("Ply 2, ü", "PLY-2")],
)
def test_layer_names_are_plain(words: str, name: str) -> None:
    """Capitals, figures and hyphens only."""
    assert layer_name(words) == name


def test_layers_can_be_off_at_first() -> None:
    """Layers with the given beginning are off, others on."""
    document = read([Stroke(((0.0, 0.0), (1.0, 0.0)), name) for name in ("BASE-LAPS", "CAP-LAPS")], off=("BASE-",))
    assert [document.layers.get(name).is_off() for name in ("BASE-LAPS", "CAP-LAPS")] == [True, False]


def test_the_same_drawing_gives_the_same_bytes() -> None:
    """No date, no id of the moment: written twice, the bytes are equal, and the library's option is put back."""
    first = dxf_bytes(everything(), units="us", metres_per_paper_mm=0.2)
    assert first == dxf_bytes(everything(), units="us", metres_per_paper_mm=0.2)
    assert ezdxf.options.write_fixed_meta_data_for_testing is False
