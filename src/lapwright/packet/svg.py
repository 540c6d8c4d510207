"""A plate as SVG text: fixed decimals, hatches defined inside, nothing fetched from outside.

The same plate gives the same bytes.  Texts are escaped and lose their control characters; fonts are named by family
(they come with the package), so that whoever draws the file needs nothing else.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby
from xml.sax.saxutils import escape, quoteattr

from lapwright.packet.drawing import (
    DASHES_MM,
    PATTERNS,
    WEIGHTS_MM,
    Family,
    Fill,
    Ink,
    Item,
    Pattern,
    Plate,
    Points,
    Ring,
    Stroke,
    Text,
)
from lapwright.packet.lettering import CAPITAL_OF_EM, clean, text_width

# Paper, ink and one accent; grey stays apart from both in a grey print.
COLOURS: dict[Ink, str] = {"ink": "#1f1d1a", "accent": "#9b3a14", "grey": "#a3a19b", "paper": "#ffffff"}
MARGIN = 6.0  # around a drawing that stands by itself [mm]
FONT, NARROW_FONT = "Routed Gothic", "Routed Gothic Narrow"


def svg_text(plate: Plate, *, named: bool = True) -> str:
    """The plate as an SVG document, sized in millimetres.

    named: elements carry the id of what they stand for, with a margin around, for a file that is looked at by itself;
    without, strokes of one look share a path, for a file that is only printed.
    """
    edge = MARGIN if named else 0.0
    width, height, start = number(plate.width + 2 * edge), number(plate.height + 2 * edge), number(-edge)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="{start} {start} {width} {height}" fill="none" stroke-linejoin="round">'
    )
    body = list(drawn(plate.items, plate.height, named=named))
    rows = [head, f"<title>{escape(clean(plate.title))}</title>"]
    rows += hatch_definitions(plate.items)
    rows.append(f'<rect x="{start}" y="{start}" width="{width}" height="{height}" fill="{COLOURS["paper"]}"/>')
    return "\n".join([*rows, *body, "</svg>", ""])


def number(value: float) -> str:
    """A coordinate to a hundredth of a millimetre, without trailing zeros or a minus before zero."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def drawn(items: Iterable[Item], height: float, *, named: bool) -> Iterable[str]:
    """Elements in painting order; neighbouring strokes of one style share a path."""
    for (kind, style), group in groupby(items, key=style_of if named else look_of):
        if kind == "stroke":
            strokes = [item for item in group if isinstance(item, Stroke)]
            data = "".join(path(stroke.points, height, closed=stroke.closed) for stroke in strokes)
            yield f'<path d="{data}"{style}/>'
            continue
        for item in group:
            yield from element(item, height)


def style_of(item: Item) -> tuple[str, str]:
    """What decides whether two items share an element: their look, and the name of a stroke."""
    kind, look = look_of(item)
    return (kind, look + name_of(item.name)) if isinstance(item, Stroke) else (kind, look)


def look_of(item: Item) -> tuple[str, str]:
    """How a stroke looks."""
    if isinstance(item, Stroke):
        dash = ",".join(number(part) for part in DASHES_MM[item.line])
        dashed = f' stroke-dasharray="{dash}"' if dash else ""
        pen = f' stroke="{COLOURS[item.ink]}" stroke-width="{WEIGHTS_MM[item.weight]}"'
        return ("stroke", pen + dashed)
    return ("other", "")


def element(item: Item, height: float) -> Iterable[str]:
    """One fill, ring or text as elements."""
    if isinstance(item, Fill):
        data = "".join(path(ring, height, closed=True) for ring in item.rings)
        for paint in paints(item.pattern, item.ink):
            yield f'<path d="{data}" fill="{paint}" fill-rule="evenodd"{name_of(item.name)}/>'
    elif isinstance(item, Ring):
        fill = f' fill="{COLOURS[item.filled]}"' if item.filled else ""
        x, y, r = number(item.at[0]), number(height - item.at[1]), number(item.radius)
        pen = f' stroke="{COLOURS[item.ink]}" stroke-width="{WEIGHTS_MM[item.weight]}"'
        yield f'<circle cx="{x}" cy="{y}" r="{r}"{pen}{fill}{name_of(item.name)}/>'
    elif isinstance(item, Text):
        yield lettering(item, height)


def path(points: Points, height: float, *, closed: bool) -> str:
    """Path data through the points, y turned downwards; level and upright lines in their short form."""
    steps: list[str] = []
    before: tuple[str, str] | None = None
    for x, y in points:
        here = (number(x), number(height - y))
        if before is None:
            steps.append(f"M{here[0]} {here[1]}")
        elif here[1] == before[1]:
            steps.append(f"H{here[0]}")
        elif here[0] == before[0]:
            steps.append(f"V{here[1]}")
        else:
            steps.append(f"L{here[0]} {here[1]}")
        before = here
    return "".join(steps) + ("Z" if closed else "")


def name_of(name: str) -> str:
    """The id of what an element stands for, for programs that read the file."""
    return f" data-name={quoteattr(clean(name))}" if name else ""


def lettering(item: Text, height: float) -> str:
    """A text, its capitals `height` high, with paper behind it if asked."""
    text = clean(item.text)
    width = text_width(text, item.height, narrow=item.narrow)
    left = {"left": 0.0, "middle": -width / 2, "right": -width}[item.across]
    base = {"base": 0.0, "middle": item.height / 2, "top": item.height}[item.up]
    place = f"translate({number(item.at[0])} {number(height - item.at[1])})"
    turn = f" rotate({number(-item.turn_deg)})" if item.turn_deg else ""
    anchor = {"left": "start", "middle": "middle", "right": "end"}[item.across]
    font = NARROW_FONT if item.narrow else FONT
    size = number(item.height / CAPITAL_OF_EM)
    words = (
        f'<text y="{number(base)}" text-anchor="{anchor}" font-family="{font}, sans-serif" font-size="{size}" '
        f'fill="{COLOURS[item.ink]}" xml:space="preserve">{escape(text)}</text>'
    )
    if item.backed:
        edge = item.height * 0.28
        box = (left - edge, base - item.height - edge, width + 2 * edge, item.height + 2 * edge)
        x, y, w, h = map(number, box)
        words = f'<rect x="{x}" y="{y}" width="{w}" height="{h}" fill="{COLOURS["paper"]}"/>{words}'
    return f'<g transform="{place}{turn}">{words}</g>'


def paints(pattern: Pattern, ink: Ink) -> list[str]:
    """The paints of a hatch, one for each family of its lines."""
    if pattern == "solid":
        return [COLOURS[ink]]
    return [f"url(#{hatch_id(pattern, ink, row)})" for row in range(len(PATTERNS[pattern]))]


def hatch_id(pattern: Pattern, ink: Ink, row: int) -> str:
    """The id of one family of a hatch in one ink."""
    return f"hatch-{pattern}-{ink}-{row}"


def hatch_definitions(items: Iterable[Item]) -> list[str]:
    """Pattern elements for the hatches in use, in order of first use."""
    used = dict.fromkeys((item.pattern, item.ink) for item in items if isinstance(item, Fill))
    rows = [
        hatch_tile(hatch_id(pattern, ink, row), family, COLOURS[ink])
        for pattern, ink in used
        for row, family in enumerate(PATTERNS[pattern])
    ]
    return ["<defs>", *rows, "</defs>"] if rows else []


def hatch_tile(name: str, family: Family, colour: str) -> str:
    """A tile that repeats one family of parallel lines; two lines high where each next one is shifted."""
    period = sum(family.dash) or family.spacing
    rows = 2 if family.shift else 1
    height = family.spacing * rows
    pen = f'stroke="{colour}" stroke-width="{number(family.weight)}"'
    strokes = []
    for row in range(rows):
        y = number(family.spacing * (row + 0.5))
        starts = [0.0] if not family.dash else [family.shift * row % period, family.shift * row % period - period]
        length = family.dash[0] if family.dash else period
        strokes += [f"M{number(x)} {y}h{number(length)}" for x in starts]
    turn = f' patternTransform="rotate({number(-family.angle_deg)})"' if family.angle_deg else ""
    return (
        f'<pattern id="{name}" width="{number(period)}" height="{number(height)}" patternUnits="userSpaceOnUse"{turn}>'
        f'<path d="{"".join(strokes)}" {pen}/></pattern>'
    )
