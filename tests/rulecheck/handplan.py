"""A plan drawn by hand: 50' by 104 1/4", two plies, metal at the low side, a parapet to the right, one curb.

All lengths are inches.  Course edges and joints were chosen with a pencil so that every rule is kept; what follows from
them (laps, T-joints, corner cuts, rolls, counts) is written down here by the plainest rules that hold for a rectangle
whose pieces are laid from the left, so that a test can move one sheet and still have a plan that agrees with itself.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Any

from lapwright.assembly.values import Ply, Sheet
from lapwright.defaults.rules import make_rules
from lapwright.defaults.values import Rules
from lapwright.roof.values import Area, Drain, Edge, Opening
from lapwright.rulecheck.check import find_violations
from lapwright.rulecheck.values import Violation

TICKS = 2_032  # an inch
METRE = 80_000
WIDTH, DEPTH = 600.0, 104.25
UP = 4 * (math.sqrt(2) - 1)  # up the cant at the parapet and at openings, the base 2" more
CAP_END = WIDTH + UP
BASE_END = CAP_END + 2


def holed(name: str, kind: str, left: float, low: float, width: float, height: float) -> Opening:
    """An opening by the hole that it makes in the cap: low left corner and size [in]; the base's is 2" less."""
    corner = (round((left - UP) * TICKS), round((low - UP) * TICKS))
    return Opening(name, kind, corner, (round((width + 2 * UP) * TICKS), round((height + 2 * UP) * TICKS)))


CURB = holed("O-1", "curb", 298, 43, 28, 16)
Json = dict[str, Any]
Span = tuple[float, float]
Place = Callable[[float, float], tuple[float, float]]

BASE = Sheet("base-sa", 80_010, 787 * TICKS, 3 * TICKS, 6 * TICKS)
CAP = Sheet("cap-sa", 80_010, 394 * TICKS, 3 * TICKS, 6 * TICKS)
PLIES = (Ply("base", BASE), Ply("cap", CAP))
RULES = make_rules({})
KINDS = ("metal_edge", "parapet", "ridge", "ridge")


@dataclass(frozen=True, slots=True)
class Row:
    """A course: low and high edge, and where its pieces begin and end."""

    low: float
    high: float
    pieces: tuple[Span, ...]


BASE_ROWS = (
    Row(-2, 21.6875, ((0, 226), (220, BASE_END))),
    Row(18.6875, 58.0625, ((0, 266), (260, BASE_END))),
    Row(55.0625, 94.4375, ((0, 226), (220, BASE_END))),
    Row(91.4375, DEPTH, ((0, 266), (260, BASE_END))),
)
CAP_ROWS = (
    Row(0.5, 39.875, ((0, 360), (354, CAP_END))),
    Row(36.875, 76.25, ((0, 315), (309, CAP_END))),
    Row(73.25, DEPTH, ((0, 360), (354, CAP_END))),
)


@dataclass(frozen=True, slots=True)
class Drawing:
    """What a test may change before the plan is written down.

    order: courses in laying order, as (ply, course from 0).  cuts: cut lengths by piece id, where not rounded up.
    valley: the left side is one, shared with another area, with a sheet in it from and to these distances up the fall.
    ridge: it is a ridge, shared likewise.  metal: it has edge metal.  given: rules in place of the defaults.
    """

    base: tuple[Row, ...] = BASE_ROWS
    cap: tuple[Row, ...] = CAP_ROWS
    openings: tuple[Opening, ...] = (CURB,)
    depth: float = DEPTH
    order: tuple[tuple[str, int], ...] = ()
    cuts: Mapping[str, float] = field(default_factory=dict)
    slope: float = 0.0
    turned_deg: float = 0.0
    drains: tuple[Drain, ...] = ()
    valley: tuple[Span, ...] = ()
    ridge: bool = False
    metal: bool = False
    given: Mapping[str, str] = field(default_factory=dict)

    @property
    def up(self) -> tuple[float, float]:
        """The way up the fall in plan."""
        return (-math.sin(math.radians(self.turned_deg)), math.cos(math.radians(self.turned_deg)))

    def place(self, u: float, v: float) -> tuple[float, float]:
        """A point of the slope [in] in plan [m]."""
        rise = v / math.sqrt(1 + self.slope**2)
        x, y = u * self.up[1] + rise * self.up[0], -u * self.up[0] + rise * self.up[1]
        return (metres(x), metres(y))

    @property
    def area(self) -> Area:
        """The roof of the job."""
        corners = [self.place(u, v) for u, v in ((0, 0), (WIDTH, 0), (WIDTH, self.depth), (0, self.depth))]
        outline = [(round(x * METRE), round(y * METRE)) for x, y in corners]
        ends = zip(outline, [*outline[1:], outline[0]], strict=True)
        edges = [Edge(k, kind, *pair) for k, (kind, pair) in enumerate(zip(KINDS, ends, strict=True), start=1)]
        if self.valley:
            edges[3] = replace(edges[3], kind="valley", meets="West")
        if self.ridge:
            edges[3] = replace(edges[3], kind="ridge", meets="West")
        if self.metal:
            edges[3] = replace(edges[3], kind="metal_edge")
        falls = (-self.up[0], -self.up[1])
        return Area("Main", tuple(outline), tuple(edges), falls, self.slope, self.openings, drains=self.drains)


def metres(inches: float) -> float:
    """Inches in metres."""
    return inches * TICKS / METRE


def moved(drawing: Drawing, ply: str, course: int, row: Row) -> Drawing:
    """The drawing with one course (from 0) replaced."""
    rows = list(getattr(drawing, ply))
    rows[course] = row
    return replace(drawing, **{ply: tuple(rows)})


def joint_at(row: Row, joint: float) -> Row:
    """A course of two pieces whose end lap begins at `joint`."""
    return replace(row, pieces=((0, joint + 6), (joint, row.pieces[-1][1])))


def write(drawing: Drawing) -> Json:
    """The plan of a drawing."""
    area = drawing.area
    plies = [ply_of(drawing, "base", 1), ply_of(drawing, "cap", 2)]
    laps = [lap for name in ("base", "cap") for lap in laps_of(drawing, name)]
    rolls = [roll for ply in plies for roll in rolls_of(ply)]
    return {
        "areas": [{"name": "Main", "outline": [[x / METRE, y / METRE] for x, y in area.outline]}],
        "plies": plies,
        "details": [sheet for name in ("base", "cap") for sheet in valley_sheets(drawing, name)],
        "laps": laps,
        "tjoints": [joint for name in ("base", "cap") for joint in tjoints_of(drawing, name, laps)],
        "rolls": rolls,
        "layout": [counts_of(ply, laps, rolls) for ply in plies],
    }


def valley_sheets(drawing: Drawing, name: str) -> Iterator[Json]:
    """A ply's sheets in the valley on the left, from no roll."""
    for k, (low, high) in enumerate(drawing.valley, start=1):
        yield {
            "id": f"Main/side 4/{name} valley {k}",
            "kind": "valley",
            "ply": name,
            "sheet": "",
            "roll": "",
            "sizes": {"length": metres(high - low), "width": metres(39.375)},
            "line": [list(drawing.place(0, low)), list(drawing.place(0, high))],
        }


def ply_of(drawing: Drawing, name: str, position: int) -> Json:
    """A ply with its courses and pieces."""
    rows: Sequence[Row] = getattr(drawing, name)
    return {
        "area": "Main",
        "ply": name,
        "position": position,
        "sheet": f"{name}-sa",
        "courses": [{"index": k, "low": metres(row.low), "high": metres(row.high)} for k, row in enumerate(rows, 1)],
        "pieces": [
            piece_of(drawing, name, course, place)
            for course, row in enumerate(rows)
            for place in range(len(row.pieces))
        ],
    }


def id_of(name: str, course: int, place: int) -> str:
    """Id of a piece; course and place from 0."""
    return f"Main/{name}/{course + 1:02d}/{place + 1}"


def piece_of(drawing: Drawing, name: str, course: int, place: int) -> Json:
    """A piece as it lies."""
    row: Row = getattr(drawing, name)[course]
    u0, u1 = row.pieces[place]
    id = id_of(name, course, place)
    order = drawing.order or [(ply, k) for ply in ("base", "cap") for k in range(len(getattr(drawing, ply)))]
    corners = ((u0, row.low), (u1, row.low), (u1, row.high), (u0, row.high))
    return {
        "id": id,
        "course": course + 1,
        "sequence": 10 * order.index((name, course)) + place + 1,
        "roll": f"roll of {id}",
        "length": metres(u1 - u0),
        "width": metres(row.high - row.low),
        "blank": [list(drawing.place(u, v)) for u, v in corners],
        "corner_cuts": list(cuts_of(drawing, name, course, place)),
        "place": place + 1,
        "cut_length": metres(drawing.cuts.get(id, math.ceil(2 * (u1 - u0)) / 2)),
    }


def cuts_of(drawing: Drawing, name: str, course: int, place: int) -> Iterator[Json]:
    """Corners cut: of the cap, low at a piece's joint above a course, high at its far end under the next course."""
    rows: Sequence[Row] = getattr(drawing, name)
    row = rows[course]
    spots = []
    if name == "cap" and place > 0 and course > 0 and lies_on(row, place):
        spots.append((row.pieces[place][0], row.low))
    if name == "cap" and place + 1 < len(row.pieces) and course + 1 < len(rows) and lies_on(row, place + 1):
        spots.append((row.pieces[place][1], row.high))
    for spot in spots:
        yield {"corner": list(drawing.place(*spot)), "along": metres(5.5), "across": metres(3)}


def lies_on(row: Row, place: int) -> bool:
    """A piece begins on the one before it."""
    return row.pieces[place][0] < row.pieces[place - 1][1]


def seen(row: Row) -> list[Span]:
    """What is seen of each piece of a course: it begins on the one before it."""
    ends = [min(piece[1], after[0]) for piece, after in pairwise(row.pieces)] + [row.pieces[-1][1]]
    return [(piece[0], end) for piece, end in zip(row.pieces, ends, strict=True)]


def laps_of(drawing: Drawing, name: str) -> Iterator[Json]:
    """Side laps course by course, then end laps."""
    rows: Sequence[Row] = getattr(drawing, name)
    for k, (low, high) in enumerate(pairwise(rows)):
        for i, one in enumerate(seen(low)):
            for j, two in enumerate(seen(high)):
                spans = list(clear(drawing, name, high.low, (max(one[0], two[0]), min(one[1], two[1]))))
                for part, span in enumerate(spans):
                    yield {
                        "id": f"Main/{name}/{k + 1:02d}-{k + 2:02d}/side {i + 1}-{j + 1}"
                        + (f"/{part + 1}" if part else ""),
                        "kind": "side",
                        "area": "Main",
                        "ply": name,
                        "pieces": [id_of(name, k, i), id_of(name, k + 1, j)],
                        "line": [list(drawing.place(u, high.low)) for u in span],
                        "length": metres(span[1] - span[0]),
                        "width": metres(low.high - high.low),
                    }
    for k, row in enumerate(rows):
        for i in range(1, len(row.pieces)):
            if lies_on(row, i):
                joint = row.pieces[i][0]
                yield {
                    "id": f"Main/{name}/{k + 1:02d}/end {i}-{i + 1}",
                    "kind": "end",
                    "area": "Main",
                    "ply": name,
                    "pieces": [id_of(name, k, i - 1), id_of(name, k, i)],
                    "line": [list(drawing.place(joint, v)) for v in (row.low, row.high)],
                    "length": metres(row.high - row.low),
                    "width": metres(row.pieces[i - 1][1] - joint),
                }


def clear(drawing: Drawing, name: str, v: float, span: Span) -> Iterator[Span]:
    """The stretches of a level line that no opening takes from a ply, which turns up there."""
    start, end = span
    up = UP + (2 if name == "base" else 0)
    for one in sorted(drawing.openings, key=lambda one: one.corner):
        left, low = (x / TICKS for x in one.corner)
        right, high = left + one.size[0] / TICKS - up, low + one.size[1] / TICKS - up
        left, low = left + up, low + up
        if low < v < high and start < right and left < end:
            if start < left:
                yield (start, left)
            start = right
    if start < end:
        yield (start, end)


def tjoints_of(drawing: Drawing, name: str, laps: Sequence[Json]) -> Iterator[Json]:
    """Both ends of each end lap where there is a course; the side lap named is the one that begins there."""
    rows: Sequence[Row] = getattr(drawing, name)
    for lap in laps:
        if lap["kind"] != "end" or lap["ply"] != name:
            continue
        k = int(lap["pieces"][0].split("/")[2]) - 1
        row, i = rows[k], int(lap["pieces"][1].split("/")[3]) - 1
        joint = row.pieces[i][0]
        for end, v in (("low", row.low if k else None), ("high", rows[k + 1].low if k + 1 < len(rows) else None)):
            if v is not None:
                at = list(drawing.place(joint, v))
                side = next(
                    one for one in laps if one["kind"] == "side" and one["ply"] == name and one["line"][0] == at
                )
                yield {
                    "id": f"{lap['id']}/{end}",
                    "area": "Main",
                    "ply": name,
                    "at": at,
                    "laps": [lap["id"], side["id"]],
                }


def rolls_of(ply: Json) -> Iterator[Json]:
    """A roll for each piece."""
    length = {"base-sa": metres(787), "cap-sa": metres(394)}[ply["sheet"]]
    for piece in ply["pieces"]:
        used = piece["cut_length"]
        yield {"id": piece["roll"], "sheet": ply["sheet"], "pieces": [piece["id"]], "used": used, "left": length - used}


def counts_of(ply: Json, laps: Sequence[Json], rolls: Sequence[Json]) -> Json:
    """Counts; the bounds are left at 0."""
    return {
        "area": "Main",
        "ply": ply["ply"],
        "rolls": sum(roll["sheet"] == ply["sheet"] for roll in rolls),
        "rolls_at_least": 0,
        "end_laps": sum(lap["kind"] == "end" and lap["ply"] == ply["ply"] for lap in laps),
        "end_laps_at_least": 0,
    }


def judge(plan: Json, drawing: Drawing, *, rules: Rules = RULES) -> tuple[Violation, ...]:
    """What the checker finds in a plan of the drawing's roof."""
    return find_violations(
        plan, areas=[drawing.area], plies=PLIES, rules=make_rules(drawing.given) if drawing.given else rules
    )


def broken_rules(drawing: Drawing, change: Callable[[Json], object] | None = None) -> list[str]:
    """Names of the rules that the drawing's plan breaks after a change, each once, in order."""
    plan = write(drawing)
    if change is not None:
        change(plan)
    return list(dict.fromkeys(violation.rule for violation in judge(plan, drawing)))
