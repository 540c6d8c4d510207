"""A drawing as a list of strokes, fills, rings and texts: one list, many papers.

Terms.  *Item*: a Stroke, Fill, Ring or Text.  *Model* items stand in metres (x east, y up or north), *sheet* items in
millimetres of paper from the lower left corner; both count y upwards.  Every measure of an item is in its own
coordinates, text heights too; line weights, dashes and hatches belong to the paper and stay as they are.  A *plate* is
a sheet of given size with its items in millimetres; SVG, PDF and DXF are all written from these values, so they can't
disagree.  *Text height* is the height of a capital letter, as draughtsmen count it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Literal

Pt = tuple[float, float]
Points = tuple[Pt, ...]
Line = Literal["solid", "hidden", "centre", "phantom", "dotted"]
Weight = Literal["hair", "thin", "medium", "heavy", "outline"]
Ink = Literal["ink", "accent", "grey", "paper"]
Pattern = Literal[
    "solid",
    "diagonal",
    "back",
    "cross",
    "dots",
    "heat",
    "faint",
    "board",
    "concrete",
    "insulation",
    "wood",
]

# Pen widths [mm]; each is one that a DXF layer can hold.
WEIGHTS_MM: Mapping[Weight, float] = MappingProxyType(
    {"hair": 0.13, "thin": 0.18, "medium": 0.30, "heavy": 0.50, "outline": 0.70}
)
# Dash and gap lengths on paper [mm]: hidden edges dashed, centres dash-dot, limits dash-dot-dot.
DASHES_MM: Mapping[Line, tuple[float, ...]] = MappingProxyType(
    {
        "solid": (),
        "hidden": (2.2, 1.1),
        "centre": (7.0, 1.1, 1.2, 1.1),
        "phantom": (7.0, 1.1, 1.2, 1.1, 1.2, 1.1),
        "dotted": (0.5, 1.0),
    }
)


@dataclass(frozen=True, slots=True)
class Family:
    """Parallel lines of a hatch: angle, spacing [mm], dash and gap [mm] (() unbroken), shift of each next line [mm]."""

    angle_deg: float
    spacing: float
    dash: tuple[float, float] | tuple[()] = ()
    shift: float = 0.0
    weight: float = 0.13


# Hatches by name.  "solid" has no lines: it is the ink itself.
PATTERNS: Mapping[Pattern, tuple[Family, ...]] = MappingProxyType(
    {
        "solid": (),
        "diagonal": (Family(45, 1.5, weight=0.18),),
        "back": (Family(135, 1.5, weight=0.18),),
        "cross": (Family(45, 2.2), Family(135, 2.2)),
        "heat": (Family(45, 0.95, weight=0.28),),
        "dots": (Family(0, 0.8, (0.34, 1.26), 0.8, 0.34),),
        "faint": (Family(0, 1.6, (0.2, 3.0), 1.6, 0.2),),
        "board": (Family(60, 1.4), Family(120, 1.4)),
        "concrete": (Family(30, 3.1, (0.4, 4.2), 1.9, 0.3), Family(75, 4.3, (1.0, 5.3), 2.7, 0.18)),
        "insulation": (Family(45, 3.2), Family(135, 3.2), Family(0, 3.2 / math.sqrt(2), weight=0.1)),
        "wood": (Family(20, 1.1), Family(20, 3.3, weight=0.25)),
    }
)


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line through points.  name: what it stands for (a lap's or piece's id), carried into the files."""

    points: Points
    layer: str
    line: Line = "solid"
    weight: Weight = "thin"
    ink: Ink = "ink"
    closed: bool = False
    name: str = ""


@dataclass(frozen=True, slots=True)
class Fill:
    """Polygons filled by a hatch; rings inside rings are holes (even-odd)."""

    rings: tuple[Points, ...]
    layer: str
    pattern: Pattern = "solid"
    ink: Ink = "ink"
    name: str = ""


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle, open or filled."""

    at: Pt
    radius: float
    layer: str
    weight: Weight = "thin"
    ink: Ink = "ink"
    filled: Ink | None = None
    name: str = ""


@dataclass(frozen=True, slots=True)
class Text:
    """A line of lettering.  across: where `at` lies along the text; up: where it lies in the height of a capital.

    narrow: condensed letters; backed: paper is laid behind it so that lines don't run through.
    """

    at: Pt
    text: str
    height: float
    layer: str
    turn_deg: float = 0.0
    across: Literal["left", "middle", "right"] = "left"
    up: Literal["base", "middle", "top"] = "base"
    narrow: bool = False
    backed: bool = False
    ink: Ink = "ink"


Item = Stroke | Fill | Ring | Text


@dataclass(frozen=True, slots=True)
class Plate:
    """A sheet of paper, `width` by `height` [mm], with items in millimetres from its lower left corner.

    part: which part of a roof it enlarges, from 1; 0 where it shows the whole.
    """

    width: float
    height: float
    items: tuple[Item, ...]
    title: str
    scale_text: str = ""
    part: int = 0


@dataclass(frozen=True, slots=True)
class View:
    """From the model to the paper: `per_metre` millimetres a metre, model point `origin` at paper point `at`."""

    per_metre: float
    origin: Pt = (0.0, 0.0)
    at: Pt = (0.0, 0.0)

    def point(self, p: Pt) -> Pt:
        """Paper point [mm] of a model point [m]."""
        return (
            self.at[0] + (p[0] - self.origin[0]) * self.per_metre,
            self.at[1] + (p[1] - self.origin[1]) * self.per_metre,
        )

    def item(self, item: Item) -> Item:
        """A model item laid on the paper."""
        if isinstance(item, Stroke):  # most items are strokes: spelled out, because `replace` takes twice as long
            points = tuple(map(self.point, item.points))
            return Stroke(points, item.layer, item.line, item.weight, item.ink, item.closed, item.name)
        if isinstance(item, Fill):
            return replace(item, rings=tuple(tuple(map(self.point, ring)) for ring in item.rings))
        if isinstance(item, Ring):
            return replace(item, at=self.point(item.at), radius=item.radius * self.per_metre)
        return replace(item, at=self.point(item.at), height=item.height * self.per_metre)

    def items(self, items: Iterable[Item]) -> tuple[Item, ...]:
        """Model items laid on the paper, in order."""
        return tuple(self.item(item) for item in items)


def moved(items: Iterable[Item], dx: float, dy: float) -> tuple[Item, ...]:
    """Items shifted in their own coordinates."""
    return View(1.0, (0.0, 0.0), (dx, dy)).items(items)


def rectangle(x: float, y: float, width: float, height: float) -> Points:
    """Corners of an upright rectangle, counter-clockwise from its lower left."""
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))


def extent(items: Iterable[Item]) -> tuple[float, float, float, float]:
    """Least x, least y, greatest x, greatest y of the items; a text counts by its anchor.  Zeros for nothing."""
    xs: list[float] = []
    ys: list[float] = []
    for item in items:
        reach = item.radius if isinstance(item, Ring) else 0.0
        for x, y in anchors(item):
            xs += (x - reach, x + reach)
            ys += (y - reach, y + reach)
    if not xs:
        return (0.0, 0.0, 0.0, 0.0)
    return (min(xs), min(ys), max(xs), max(ys))


def anchors(item: Item) -> Iterable[Pt]:
    """The points that place an item."""
    if isinstance(item, Stroke):
        return item.points
    if isinstance(item, Fill):
        return [point for ring in item.rings for point in ring]
    return (item.at,)
