"""Where strips, flashings, metal and the other details lie, in plan: each kind by its own line, joint by joint.

A detail that lies flat about a place (sump, target, strip round a pipe) is drawn to scale.  One that runs along a line
is drawn beside it, on the roof, so far off that kinds don't lie on each other: these lines show where each length
begins and ends, not how wide it is.  Cant, cleats and fixings lie under or behind another detail: their lines stand on
the other side of the edge.  A corner piece is a dot; a cover over a joint of the metal, and what is set at a pipe or
scupper, is a ring.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from lapwright.layout.values import Detail
from lapwright.packet.drawing import Item, Line, Plate, Points, Pt, Ring, Stroke, Text, Weight, rectangle
from lapwright.packet.sheets.board import COLUMN, HEAD, TITLE_STEP, Board, make_board, those_that_fit
from lapwright.packet.sheets.clip import bounds
from lapwright.packet.sheets.edges import outward, turning
from lapwright.packet.sheets.labels import Lettering, Spot, label_box, line_box, upright
from lapwright.packet.sheets.legend import GAP, SAMPLE_HEIGHT, SAMPLE_WIDTH, Entry, edge_entry, legend, list_entry
from lapwright.packet.sheets.legend import LAYER as SHEET
from lapwright.packet.sheets.marks import mark_entries
from lapwright.packet.sheets.model import metres, roof_items
from lapwright.packet.sheets.naming import (
    block_marks,
    fall_arrows,
    name_areas,
    name_edges,
    name_edges_inside,
    name_openings,
)
from lapwright.packet.sheets.parts import part_boards, roof_window, split_roof
from lapwright.packet.sheets.portion import reaching
from lapwright.packet.values import Paper
from lapwright.roof.values import Area
from lapwright.units.write import Units

LAYER, LETTER, SMALL = "DETAILS", 2.1, 1.8
BAND = 1.5  # between the lines of kinds that follow the same edge [mm]
TITLE, REST = "Details in place", "Details in place, rest of the legend"
JOINT = 0.55  # a joint's tick to either side of its line [mm]
LOOKS: tuple[tuple[Line, Weight], ...] = (
    ("solid", "heavy"),
    ("hidden", "medium"),
    ("dotted", "heavy"),
    ("solid", "thin"),
    ("phantom", "medium"),
    ("hidden", "heavy"),
    ("dotted", "thin"),
    ("centre", "medium"),
)
PATCH_LOOKS: tuple[tuple[Line, Weight], ...] = (
    ("centre", "thin"),
    ("hidden", "thin"),
    ("dotted", "medium"),
    ("solid", "thin"),
    ("phantom", "thin"),
)
FLAT = ("sump", "drain_metal", "target", "pipe_strip")  # squares about a place
RINGS = ("joint_cover", "scupper_metal", "scupper_strip", "pipe_flashing")
BEHIND = ("cant", "cleat", "fixing")  # on the wall, the curb, or outside the metal
DOT = 0.6


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of detail on the sheet: its words and mark, how far inside its edge it is drawn [mm], its line.

    points: 1 for a dot, 2 for a line, 4 for a square.  is_ring: a dot left open.  count: how many the roof has.
    """

    words: str
    mark: str
    off: float
    line: Line
    weight: Weight
    points: int
    is_ring: bool = False
    count: int = 0


def detail_plans(paper: Paper, *, width: float, height: float) -> tuple[Plate, ...]:
    """The details on one sheet; on a roof in parts, one sheet for each part that has any.  None without details.

    What the legends have no room for stands on sheets of its own after them.
    """
    details = [detail for detail in paper.layout.details if drawn_points(detail)]
    counts = Counter(map(kind_of, details))
    kinds = {name: replace(kind, count=counts[name]) for name, kind in kinds_of(details).items()}
    if not details:
        return ()
    rest: dict[str, Entry] = {}
    split = split_roof(paper, width=width, height=height)
    if split is None:
        board = make_board(roof_window(paper.areas), paper.head.units, width=width, height=height, letter=LETTER)
        plan = detail_plan(board, paper, details, kinds, rest)
        return (plan, *legend_sheets(rest.values(), width=width, height=height))
    boards = part_boards(paper, split, width=width, height=height, letter=LETTER)
    found: list[list[Detail]] = [[] for _ in boards]
    for detail in details:
        for k in reaching(bounds(drawn_points(detail)), split.windows):
            found[k].append(detail)
    plans = [detail_plan(board, paper, some, kinds, rest) for board, some in zip(boards, found, strict=True) if some]
    return (*plans, *legend_sheets(rest.values(), width=width, height=height))


def legend_sheets(entries: Iterable[Entry], *, width: float, height: float) -> Iterator[Plate]:
    """Sheets with the entries that no plan has room for, in columns; none where there are none."""
    left, top = list(entries), height - HEAD - 2 * TITLE_STEP
    columns = max(1, int((width + GAP) // (COLUMN + GAP)))
    while left:
        shown = those_that_fit(left, top, columns, LETTER)
        left = left[len(shown) :]
        items = legend(shown, (0.0, top), width=COLUMN, height=top, letter=LETTER)
        title = Text((0.0, height - HEAD), REST, HEAD, SHEET)
        yield Plate(width, height, (title, *items), REST)


def detail_plan(
    board: Board, paper: Paper, details: Sequence[Detail], kinds: Mapping[str, Kind], rest: dict[str, Entry]
) -> Plate:
    """One sheet: the roof, its details over it, the number of each length where it fits.

    rest: by its words each entry for which a legend has no room; those of this sheet are added.
    """
    units, sides = Units(paper.head.units), inward_sides(paper.areas)
    for area in paper.areas:
        board.draw(roof_items(area, board.mm))
    lines = [(detail, beside(detail, kinds, sides, board.mm)) for detail in details]
    for detail, line in lines:
        board.draw(detail_items(detail, line, kinds[kind_of(detail)], board.mm))
    block_marks(board, paper.areas)
    for _, line in lines:
        part = board.shown(line[0], line[-1]) if len(line) == 2 else None
        if part:
            board.field.take(line_box(*part, JOINT))
    fall_arrows(board, paper.areas, units)
    name_areas(board, paper.areas)
    name_openings(board, paper.areas)
    unnamed = name_edges(board, paper.areas, units)
    number_lengths(board, lines, kinds, sides)
    name_edges_inside(board, unnamed, units)
    used = dict.fromkeys(map(kind_of, details))
    entries = kind_entries([kinds[kind] for kind in used])
    entries += [edge_entry(kind) for kind in dict.fromkeys(edge.kind for area in paper.areas for edge in area.edges)]
    entries += mark_entries(paper.areas)
    if board.left_out(TITLE, entries):
        entries = [list_entry(f"More on the sheet {REST}."), *entries]
        rest.update((entry.words, entry) for entry in board.left_out(TITLE, entries))
    return board.plate(TITLE, (), entries)


def drawn_points(detail: Detail) -> Points:
    """What a detail is drawn by: its line; its outline about its place; a corner's place; () where it shows nowhere."""
    if detail.line is not None or detail.at is None:
        return detail.line or ()
    if detail.kind not in FLAT:
        return (detail.at,)
    # Pieces side by side lie about the same place: the whole is as wide as it is long.
    side = detail.length
    return rectangle(detail.at[0] - side / 2, detail.at[1] - side / 2, side, side)


def kind_of(detail: Detail) -> str:
    """What tells kinds of details apart on the sheet: flashings, targets and strips of pipes by their ply as well."""
    return f"{detail.ply} {detail.kind}" if detail.kind in ("flashing", "target", "pipe_strip") else detail.kind


def kinds_of(details: Iterable[Detail]) -> dict[str, Kind]:
    """Each kind with its line type, in the order of the layout; those on one edge lie beside each other."""
    found: dict[str, Kind] = {}
    places: dict[tuple[str, str], list[str]] = {}
    counts: dict[int, int] = {}
    for detail in details:
        kind = kind_of(detail)
        here = places.setdefault((detail.area, detail.of), [])
        if kind not in here and detail.line is not None and detail.kind not in BEHIND:
            here.append(kind)
        if kind not in found:
            words = kind.replace("_", " ")
            points = len(drawn_points(detail))
            looks = LOOKS if points == 2 else PATCH_LOOKS
            counts[points] = counts.get(points, 0) + 1
            line, weight = looks[min(counts[points], len(looks)) - 1]
            mark = mark_of(words, {one.mark for one in found.values()})
            off = here.index(kind) * BAND + BAND if kind in here else -BAND / 2 if detail.kind in BEHIND else 0.0
            found[kind] = Kind(words, mark, off, line, weight, points, detail.kind in RINGS)
    return found


def mark_of(words: str, taken: Container[str]) -> str:
    """The initials of a kind; where another has them, more of its first word."""
    first, *others = words.split() or [""]
    marks = [first[:count] + "".join(word[0] for word in others) for count in range(1, len(first) + 1)]
    return next((mark for mark in marks if mark not in taken), words)


def inward_sides(areas: Iterable[Area]) -> dict[tuple[str, str], Pt]:
    """Unit vector onto the roof at each side and at each face of an opening, by area and place."""
    found: dict[tuple[str, str], Pt] = {}
    for area in areas:
        sense = turning(area)
        for edge in area.edges:
            out = outward(edge.start, edge.end, sense)
            found[area.name, f"side {edge.side}"] = (-out[0], -out[1])
        for opening in area.openings:
            corners = [metres(corner) for corner in opening.outline]
            for face, start, end in zip(opening.faces, corners, (*corners[1:], corners[0]), strict=True):
                found[area.name, f"{opening.name} {face}"] = outward_of(start, end)
    return found


def outward_of(start: Pt, end: Pt) -> Pt:
    """Unit vector out of an opening across one face, its corners counter-clockwise."""
    length = math.dist(start, end) or 1.0
    return ((end[1] - start[1]) / length, -(end[0] - start[0]) / length)


def beside(detail: Detail, kinds: Mapping[str, Kind], sides: Mapping[tuple[str, str], Pt], mm: float) -> Points:
    """Where a detail is drawn [m]: its outline, or its line moved onto the roof."""
    points = drawn_points(detail)
    into = sides.get((detail.area, detail.of), (0.0, 0.0))
    off = kinds[kind_of(detail)].off * mm if len(points) == 2 else 0.0
    return tuple((x + into[0] * off, y + into[1] * off) for x, y in points)


def detail_items(detail: Detail, points: Points, kind: Kind, mm: float) -> list[Item]:
    """An outline, or a line with a tick at each end."""
    name = detail.id
    if len(points) == 1:
        return [ring_at(points[0], DOT * mm, is_open=kind.is_ring, name=name)]
    if len(points) != 2:
        return [Stroke(points, LAYER, kind.line, kind.weight, closed=True, name=name)]
    (x0, y0), (x1, y1) = points
    length = math.dist(*points) or 1.0
    nx, ny = -(y1 - y0) / length * JOINT * mm, (x1 - x0) / length * JOINT * mm
    ticks = [Stroke(((x - nx, y - ny), (x + nx, y + ny)), LAYER, name=name) for x, y in points]
    return [Stroke(points, LAYER, kind.line, kind.weight, name=name), *ticks]


def ring_at(at: Pt, radius: float, *, is_open: bool, name: str = "") -> Ring:
    """A dot, or a ring."""
    if is_open:
        return Ring(at, radius, LAYER, weight="thin", name=name)
    return Ring(at, radius, LAYER, weight="hair", filled="ink", name=name)


def number_lengths(
    board: Board, lines: Iterable[tuple[Detail, Points]], kinds: Mapping[str, Kind], sides: Mapping[tuple[str, str], Pt]
) -> None:
    """The first, the last and every fifth length of a row by its mark and number; a length by itself has none.

    What lies behind the edge has none: it would be read as that of a line on the roof.
    """
    rows: dict[tuple[str, str, str], list[tuple[str, Points]]] = {}
    for detail, points in lines:
        number = detail.id.rsplit(" ", 1)[-1]
        if len(points) == 2 and number.isdigit() and detail.kind not in BEHIND:
            rows.setdefault((detail.area, detail.of, kind_of(detail)), []).append((number, points))
    style = Lettering(SMALL, LAYER, narrow=True, backed=True)
    for (area, of, kind), row in rows.items():
        for place, (number, points) in enumerate(row, start=1):
            part = board.shown(points[0], points[-1])
            if not part or len(row) < 2 or not (place in (1, len(row)) or place % 5 == 0):
                continue
            if board.label(f"{kinds[kind].mark}{number}", number_spots(part, sides.get((area, of))), style):
                keep_apart(board)


def keep_apart(board: Board) -> None:
    """The number just written keeps the next one half a letter off at either end, so that two never read as one."""
    last = board.marks[-1]
    if isinstance(last, Text):
        board.field.take(label_box(replace(last, text=f"{last.text}n")), label=True)


def number_spots(part: tuple[Pt, Pt], into: Pt | None) -> list[Spot]:
    """Spots on the roof's side of a length, near ones first; to either side where it stands free on the roof."""
    (x0, y0), (x1, y1) = part
    length = math.dist(*part) or 1.0
    turn = upright(math.degrees(math.atan2(y1 - y0, x1 - x0)))
    nx, ny = into or (-(y1 - y0) / length, (x1 - x0) / length)
    offs = (1.9, 3.4, 4.9, 6.4) if into else (1.9, -1.9, 3.4, -3.4)
    return [Spot(((x0 + x1) / 2 + nx * off, (y0 + y1) / 2 + ny * off), turn) for off in offs]


def kind_entries(kinds: Sequence[Kind]) -> list[Entry]:
    """The kinds in use with how many the roof has; those that are dots share an entry, as do those that are rings."""
    entries = [kind_entry(kind) for kind in kinds if kind.points > 1]
    for is_open in (False, True):
        words = [f"{kind.words}: {kind.count}" for kind in kinds if kind.points == 1 and kind.is_ring == is_open]
        dot = ring_at((SAMPLE_WIDTH / 2, SAMPLE_HEIGHT / 2), DOT, is_open=is_open)
        entries += [Entry((dot,), ", ".join(words))] if words else []
    return entries


def kind_entry(kind: Kind) -> Entry:
    """A kind's square, or its line with its joints, and how many the roof has."""
    y = SAMPLE_HEIGHT / 2
    if kind.points != 2:
        square = rectangle((SAMPLE_WIDTH - SAMPLE_HEIGHT) / 2, 0.0, SAMPLE_HEIGHT, SAMPLE_HEIGHT)
        return Entry(
            (Stroke(square, LAYER, kind.line, kind.weight, closed=True),), f"{kind.words}, to scale: {kind.count}"
        )
    ends = ((0.0, y), (SAMPLE_WIDTH, y))
    ticks = [Stroke(((x, y - JOINT), (x, y + JOINT)), LAYER) for x, _ in ends]
    words = kind.words if kind.off < 0.0 else f"{kind.words}, {kind.mark}1 and on"
    return Entry((Stroke(ends, LAYER, kind.line, kind.weight), *ticks), f"{words}: {kind.count}")
