"""The layout of a job as a DXF file: the top ply shows at first, the plies below it are a click away."""

from __future__ import annotations

from lapwright.packet.drawing import Item, Text
from lapwright.packet.dxf import dxf_bytes
from lapwright.packet.sheets.layoutdrawing import layout_drawing, plot_scale
from lapwright.packet.sheets.model import ply_prefix
from lapwright.packet.sheets.parts import roof_window
from lapwright.packet.sheets.plan import LETTER
from lapwright.packet.values import Paper

BELOW = 16.0  # the note's distance under the roof [mm of paper]


def layout_dxf(paper: Paper) -> bytes:
    """The whole layout, in metres or inches as the job's units are."""
    mm = plot_scale(paper).ratio / 1000
    items = (*layout_drawing(paper), *note_of_layers(paper, mm))
    return dxf_bytes(items, units=paper.head.units, metres_per_paper_mm=mm, off=layers_off(paper))


def layers_off(paper: Paper) -> tuple[str, ...]:
    """What the names of layers begin with that are switched off at first: plies under the top one, and the days."""
    days = ("DAY-",) if paper.days else ()
    return (*(f"{ply_prefix(ply.ply)}-" for ply in paper.assembly.plies[:-1]), *days)


def note_of_layers(paper: Paper, mm: float) -> tuple[Item, ...]:
    """Says under the roof which layers are off; `mm` is a millimetre of paper in metres."""
    off = layers_off(paper)
    if not off:
        return ()
    left, low, _, _ = roof_window(paper.areas)
    words = (
        f"Layers that begin with {' or '.join(off)} are switched off: plies below the top one, tie-offs of the days."
    )
    return (Text((left, low - BELOW * mm), words, LETTER * mm, "TEXT"),)
