"""A model drawing as DXF R2010: layers by ply and kind, real units, the same bytes every time.

Coordinates stand in metres ($INSUNITS 6) for metric jobs and in inches ($INSUNITS 1) for US ones.  Line types and
hatches are scaled for plotting at the scale of the plan sheets.  What a stroke stands for (a piece's or lap's id) is
kept as extended data of the application LAPWRIGHT, so that a drawing edited elsewhere can still be matched.
"""

from __future__ import annotations

import io
import math
import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from lapwright.packet.drawing import DASHES_MM, PATTERNS, WEIGHTS_MM, Family, Fill, Ink, Item, Ring, Stroke, Text
from lapwright.packet.lettering import clean
from lapwright.units.factors import INCH

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.entities.dxfentity import DXFEntity
    from ezdxf.layouts.layout import Modelspace

APPLICATION = "LAPWRIGHT"
MODEL_UNITS = {"metric": (6, 1.0), "us": (1, float(1 / INCH))}
# Colour numbers every reader knows: 7 is black on paper and white on black, 8 grey; the accent is a brown.
COLOUR_NUMBERS: dict[Ink, int] = {"ink": 7, "accent": 24, "grey": 8, "paper": 255}
LONGEST_NAME, LONGEST_TEXT = 255, 500


@dataclass(frozen=True, slots=True)
class Space:
    """Where entities go: model space, and drawing units to a metre and to a millimetre of the plotted paper."""

    model: Modelspace
    per_metre: float
    per_paper_mm: float

    def at(self, point: tuple[float, float]) -> tuple[float, float]:
        """A model point [m] in drawing units."""
        return (round(point[0] * self.per_metre, 9) + 0.0, round(point[1] * self.per_metre, 9) + 0.0)


def dxf_bytes(items: Iterable[Item], *, units: str, metres_per_paper_mm: float, off: Sequence[str] = ()) -> bytes:
    """The drawing as a DXF file.

    Args:
        items: model items [m], in painting order.
        units: "us" or "metric".
        off: beginnings of the names of layers that are switched off at first.
        metres_per_paper_mm: metres to a millimetre of paper at the scale it will be plotted (0.192 at 1/16" = 1'-0").
    """
    from ezdxf.filemanagement import new  # takes 0.3 s to load

    code, per_metre = MODEL_UNITS[units]
    with fixed_dates():
        document = new("R2010", units=code)
        document.appids.add(APPLICATION)
        scale = metres_per_paper_mm * per_metre
        document.header["$LTSCALE"] = scale
        add_line_types(document)
        space = Space(document.modelspace(), per_metre, scale)
        for item in items:
            layer = layer_name(item.layer)
            if layer not in document.layers:
                made = document.layers.add(layer, color=7)
                if layer.startswith(tuple(off)):
                    made.off()
            put(space, item, layer)
        in_fixed_order(document)
        stream = io.StringIO()
        document.write(stream)
    return stream.getvalue().encode("utf-8", errors="replace")


def in_fixed_order(document: Drawing) -> None:
    """The library takes the classes that a drawing uses from a set; they are noted sorted beforehand."""
    for name in sorted(document.entitydb.dxf_types_in_use()):
        document.classes.add_class(name)


@contextmanager
def fixed_dates() -> Iterator[None]:
    """Dates and ids that the library would take from the clock are fixed meanwhile."""
    from ezdxf import options  # type: ignore[attr-defined]  # exported, but not in its list

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def add_line_types(document: Drawing) -> None:
    """Our line types, in millimetres of paper."""
    for name, dashes in DASHES_MM.items():
        if dashes:
            signed = [length if place % 2 == 0 else -length for place, length in enumerate(dashes)]
            document.linetypes.add(name.upper(), [sum(dashes), *signed])


def layer_name(words: str) -> str:
    """A layer's name: capitals, figures and hyphens."""
    return re.sub(r"[^A-Z0-9]+", "-", words.upper()).strip("-")[:LONGEST_NAME] or "OTHER"


def plain(text: str) -> str:
    r"""Text that means itself in DXF: `%%`, `^` and `\U+` would be read as codes."""
    line = clean(text)[:LONGEST_TEXT].replace("^", "^ ").replace("\\U+", "\\ U+").replace("\\M+", "\\ M+")
    return re.sub(r"%(?=%)", "% ", line)


def put(space: Space, item: Item, layer: str) -> None:
    """One item as entities."""
    if isinstance(item, Fill):
        if item.ink != "paper":
            hatch(space, item, layer)
        return
    look = {"layer": layer, "color": colour(item.ink)}
    if isinstance(item, Stroke):
        look |= {"linetype": line_type(item), "lineweight": round(WEIGHTS_MM[item.weight] * 100)}
        points = [space.at(point) for point in item.points]
        if len(points) == 2 and not item.closed:
            tag(space.model.add_line(points[0], points[1], dxfattribs=look), item.name)
        else:
            tag(space.model.add_lwpolyline(points, close=item.closed, dxfattribs=look), item.name)
    elif isinstance(item, Ring):
        look |= {"lineweight": round(WEIGHTS_MM[item.weight] * 100)}
        tag(space.model.add_circle(space.at(item.at), item.radius * space.per_metre, dxfattribs=look), item.name)
    else:
        lettering(space, item, look)


def colour(ink: Ink) -> int:
    """By layer for the ink, so that a draughtsman can recolour a layer; a number else."""
    return 256 if ink == "ink" else COLOUR_NUMBERS[ink]


def line_type(item: Stroke) -> str:
    """The name of a stroke's line type."""
    return item.line.upper() if DASHES_MM[item.line] else "CONTINUOUS"


def tag(entity: DXFEntity, name: str) -> None:
    """Keep what an entity stands for."""
    if name:
        entity.set_xdata(APPLICATION, [(1000, clean(name)[:LONGEST_NAME])])


def lettering(space: Space, item: Text, look: dict[str, Any]) -> None:
    """A text as TEXT, which takes no format codes but those removed by `plain`."""
    from ezdxf.enums import TextEntityAlignment

    rows = {"base": "", "middle": "MIDDLE_", "top": "TOP_"}
    column = {"left": "LEFT", "middle": "CENTER", "right": "RIGHT"}[item.across]
    align = TextEntityAlignment[rows[item.up] + column]
    entity = space.model.add_text(plain(item.text), height=item.height * space.per_metre, rotation=item.turn_deg)
    entity.update_dxf_attribs(look)
    entity.set_placement(space.at(item.at), align=align)


def hatch(space: Space, item: Fill, layer: str) -> None:
    """Polygons as a HATCH; its lines as on the paper."""
    entity = space.model.add_hatch(color=colour(item.ink), dxfattribs={"layer": layer, "hatch_style": 0})
    if item.pattern != "solid":
        rows = [hatch_row(family) for family in PATTERNS[item.pattern]]
        name = f"LW_{item.pattern.upper()}"
        entity.set_pattern_fill(
            name, color=colour(item.ink), scale=space.per_paper_mm, pattern_type=0, definition=rows, style=0
        )
    for place, ring in enumerate(item.rings):
        entity.paths.add_polyline_path([space.at(point) for point in ring], is_closed=True, flags=0 if place else 1)
    tag(entity, item.name)


def hatch_row(family: Family) -> list[Any]:
    """One family of lines as DXF wants it: angle, start, step to the next line, dashes [mm of paper]."""
    turn = math.radians(family.angle_deg)
    along, up = family.shift, family.spacing
    step = (along * math.cos(turn) - up * math.sin(turn), along * math.sin(turn) + up * math.cos(turn))
    dashes = [family.dash[0], -family.dash[1]] if family.dash else []
    return [family.angle_deg, (0.0, 0.0), step, dashes]
