"""The plan of one crew-day: what is laid today, what lies already, which laps to probe, where the day ends.

Lettering is 10 point (capitals 2.55 mm), as everything on a day sheet.  Where the whole roof would be too small to
read, the sheet shows today's part of it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from lapwright.crew.values import CrewDay
from lapwright.layout.values import Frame, Lap, Piece, TJoint
from lapwright.packet.drawing import Fill, Ink, Item, Pattern, Plate, Points, Ring, Stroke
from lapwright.packet.sheets.board import Board, Window, make_board, places, room, windows_of
from lapwright.packet.sheets.clip import clip_ring
from lapwright.packet.sheets.dayground import Known, Stretch, know
from lapwright.packet.sheets.edges import outward, turning
from lapwright.packet.sheets.labels import Lettering, Spot, line_box, upright
from lapwright.packet.sheets.legend import Entry, edge_entry, fill_entry, line_entry, mark_entry, ring_entry, text_entry
from lapwright.packet.sheets.model import TICKS, TJOINT, piece_ring, roof_items
from lapwright.packet.sheets.naming import ALONG, block_marks, fall_arrows, name_edges, name_edges_inside, name_openings
from lapwright.packet.sheets.numbering import Numbers, block_laps, course_of, name_pieces, name_rows
from lapwright.packet.sheets.parts import roof_window
from lapwright.packet.sheets.scales import Scale, fitting, plan_scales
from lapwright.packet.sheets.showing import Showing
from lapwright.packet.values import Paper
from lapwright.roof.values import Area
from lapwright.units.write import Units

DAY_LETTER = 2.55
READABLE = DAY_LETTER * 1.3  # a course this high takes a number [mm]
INSIDE = 1.3  # metal's line inside its edge [mm]
HAIR = 0.01  # [mm]
AROUND = 1.5  # roof shown about today's part [m]
Look = tuple[Pattern, Ink]
Closed = tuple[Sequence[Lap], Sequence[TJoint]]
UNDER: Look = ("diagonal", "ink")
TODAY: dict[str, Look] = {"base": UNDER, "interply": ("dots", "ink"), "cap": ("back", "accent")}
CAP_BEFORE: Look = ("cross", "grey")
UNDER_BEFORE: Look = ("faint", "ink")
CLEAR: Look = ("solid", "paper")


def day_sheet(paper: Paper, day: CrewDay, *, width: float, height: float, known: Known | None = None) -> Plate:
    """The plan of `day` on paper of `width` by `height` [mm].

    known: what the plans of all days look up, where it is noted already.
    """
    known = know(paper) if known is None else known
    today, probe = known.pieces_of(day), known.laps_of(day)
    board = day_board(paper, day, today, width=width, height=height)
    for stretch in on_sheet(board, known.laid_before(day.number)):
        board.draw(ground(stretch))
    for piece in today:
        board.draw(laid(paper, piece, CLEAR))
    for piece in today:
        edge = Stroke(outline_of(paper, piece), "DAY-PIECES", closed=True, name=piece.id)
        board.draw([*laid(paper, piece, TODAY.get(piece.ply, UNDER)), edge])
    for area in paper.areas:
        board.draw(roof_items(area, board.mm))
    joints = known.joints_of(probe)
    board.draw(probe_items(probe))
    board.draw(joint_items(joints, board.mm))
    board.draw(metal_items(paper, day, board.mm))
    board.draw(tie_off_items(day))
    label_day(board, paper, day, today, (probe, joints))
    title = f"Day {day.number}"
    plies = list(dict.fromkeys(piece.ply for piece in today))
    words = [counted(len(today), "piece", "today"), counted(len(probe), "lap", "to probe")]
    board.unplaced.clear()  # the tables of the day sheet hold every piece
    return board.plate(title, words, day_entries(paper, day, plies, known.plies_before(day.number)))


def counted(number: int, what: str, rest: str) -> str:
    """`1 piece today`, `2 pieces today`."""
    return f"{number} {what}{'' if number == 1 else 's'} {rest}"


def day_board(paper: Paper, day: CrewDay, today: Sequence[Piece], *, width: float, height: float) -> Board:
    """The whole roof where its courses can be read; else today's part, at the largest scale that takes it."""
    units = paper.head.units
    whole = make_board(roof_window(paper.areas), units, width=width, height=height, letter=DAY_LETTER)
    whole.smallest = DAY_LETTER
    pitch = min((paper.sheets[piece.sheet].pitch_ticks for piece in today), default=0) / TICKS
    points = [point for piece in today for point in piece_ring(paper.layout.frames[piece.area], piece)]
    points += [end for line in day.tie_off for end in line]
    if not today or pitch * whole.scale.per_metre >= READABLE:
        return whole
    left, low, right, high = windows_of(points)
    size = (right - left + 2 * AROUND, high - low + 2 * AROUND)
    paper_room = room(places(width, height)[0])
    scale = fitting(plan_scales(units), size, paper_room)
    if scale.ratio >= whole.scale.ratio:
        return whole
    part = make_board(
        grown((left, low, right, high), scale, paper_room),
        units,
        width=width,
        height=height,
        letter=DAY_LETTER,
        cropped_at=scale,
    )
    part.smallest = DAY_LETTER
    return part


def grown(window: Window, scale: Scale, paper_room: tuple[float, float]) -> Window:
    """The window, grown about its middle to all the paper there is."""
    x, y = (window[0] + window[2]) / 2, (window[1] + window[3]) / 2
    half = (paper_room[0] / scale.per_metre / 2, paper_room[1] / scale.per_metre / 2)
    return (x - half[0], y - half[1], x + half[0], y + half[1])


def on_sheet(board: Board, stretches: Iterable[Stretch]) -> Iterator[Stretch]:
    """What reaches into what the sheet shows; of a large roof that is a part."""
    left, low, right, high = board.box
    for stretch in stretches:
        points = [board.view.point(point) for point in stretch.laid]
        xs, ys = [x for x, _ in points], [y for _, y in points]
        if max(xs) > left - HAIR and min(xs) < right + HAIR and max(ys) > low - HAIR and min(ys) < high + HAIR:
            yield stretch


def ground(stretch: Stretch) -> list[Item]:
    """What lies already, hatched on clear paper."""
    if len(stretch.ground) < 3:
        return []
    looks = (CLEAR, CAP_BEFORE if stretch.ply == "cap" else UNDER_BEFORE)
    return [Fill((stretch.ground,), "DAY-GROUND", pattern=pattern, ink=ink) for pattern, ink in looks]


def laid(paper: Paper, piece: Piece, *looks: Look) -> list[Item]:
    """A piece's ground within the outline, hatched."""
    ring = ground_of(paper, piece)
    if len(ring) < 3:
        return []
    return [Fill((ring,), "DAY-PIECES", pattern=pattern, ink=ink, name=piece.id) for pattern, ink in looks]


def outline_of(paper: Paper, piece: Piece) -> Points:
    """A piece's outline as far as it is roof, so that no line runs through the words outside; else its rectangle."""
    ring = ground_of(paper, piece)
    return ring if len(ring) > 2 else piece_ring(paper.layout.frames[piece.area], piece)


def ground_of(paper: Paper, piece: Piece) -> Points:
    """The part under a piece of its area's outline [m]."""
    area = next(area for area in paper.areas if area.name == piece.area)
    return within(paper.layout.frames[piece.area], area, piece)


def within(frame: Frame, area: Area, piece: Piece) -> Points:
    """The part of an area's outline under a piece [m]."""
    corners = tuple(frame.slope_uv(*point) for point in area.outline)
    part = clip_ring(corners, (piece.u0, piece.v0, piece.u1, piece.v1))
    return tuple(frame.plan(u, v) for u, v in part)


def probe_items(laps: Iterable[Lap]) -> list[Item]:
    """Laps to probe, bold."""
    return [Stroke(lap.line, "DAY-LAPS", weight="heavy", ink="accent", name=lap.id) for lap in laps]


def joint_items(joints: Iterable[TJoint], mm: float) -> list[Item]:
    """T-joints on today's laps."""
    return [
        Ring(joint.at, TJOINT * mm, "DAY-TJOINTS", weight="medium", filled="paper", name=joint.id) for joint in joints
    ]


def metal_items(paper: Paper, day: CrewDay, mm: float) -> list[Item]:
    """Metal set today: a heavy dash-dot line inside its edge, where the flange lies."""
    ids, senses = set(day.details), {area.name: turning(area) for area in paper.areas}
    items: list[Item] = []
    for detail in paper.layout.details:
        if detail.id in ids and detail.kind == "metal" and detail.line:
            out = outward(*detail.line, senses[detail.area])
            line = tuple((x - out[0] * INSIDE * mm, y - out[1] * INSIDE * mm) for x, y in detail.line)
            items.append(Stroke(line, "DAY-METAL", line="centre", weight="heavy", ink="accent", name=detail.id))
    return items


def tie_off_items(day: CrewDay) -> list[Item]:
    """The line closed at day's end: dark and light by turns."""
    items: list[Item] = []
    for line in day.tie_off:
        items.append(Stroke(line, "DAY-TIE-OFF", weight="outline"))
        items.append(Stroke(line, "DAY-TIE-OFF", line="hidden", weight="outline", ink="paper"))
    return items


def label_day(board: Board, paper: Paper, day: CrewDay, today: Sequence[Piece], closed: Closed) -> None:
    """Numbers of today's pieces, the tie-off's name, the roof's names.

    closed: laps and T-joints to probe.
    """
    units = Units(paper.head.units)
    block_marks(board, paper.areas)
    for line in day.tie_off:
        part = board.shown(*line)
        if part:
            board.field.take(line_box(*part, 0.6))
    block_laps(board, *closed)
    name_tie_off(board, day)
    fall_arrows(board, paper.areas, units)
    plies = list(dict.fromkeys(piece.ply for piece in today))
    numbers = Numbers(backed=True, with_ply=len(plies) > 1)
    showing = Showing(paper.layout, paper.areas)
    left_out = name_pieces(board, showing, today, numbers=numbers)
    rows = {course_of(piece) for piece, _ in left_out}
    name_rows(board, showing, [piece for piece in today if course_of(piece) in rows], numbers)
    name_openings(board, paper.areas)
    name_edges_inside(board, name_edges(board, paper.areas, units), units)


def name_tie_off(board: Board, day: CrewDay) -> None:
    """`tie-off` above or below its longest line; its other lines look the same."""
    parts = [part for line in day.tie_off if (part := board.shown(*line))]
    for part in sorted(parts, key=lambda part: -math.dist(*part)):
        (x0, y0), (x1, y1) = part
        length = math.dist(*part) or 1.0
        turn = upright(math.degrees(math.atan2(y1 - y0, x1 - x0)))
        nx, ny = -(y1 - y0) / length, (x1 - x0) / length
        spots = [
            Spot((x0 + (x1 - x0) * share + nx * gap, y0 + (y1 - y0) * share + ny * gap), turn)
            for gap in (2.9, -2.9)
            for share in ALONG
        ]
        if board.label("tie-off", spots, Lettering(DAY_LETTER, "DAY-TIE-OFF", backed=True)):
            return


def day_entries(paper: Paper, day: CrewDay, plies: Sequence[str], laid_plies: set[str]) -> list[Entry]:
    """The legend of a day: only what the day has."""
    number = "12" if len(plies) < 2 else f"{plies[-1][:1]}12"
    entries = [text_entry("piece of today, by laying number", number, height=DAY_LETTER)]
    entries += [
        fill_entry(f"{ply} laid today", *TODAY.get(ply, TODAY["base"])[:1], ink=TODAY.get(ply, TODAY["base"])[1])
        for ply in plies
    ]
    if laid_plies - {"cap"}:
        entries.append(fill_entry("laid before, cap still to come", UNDER_BEFORE[0], ink=UNDER_BEFORE[1]))
    if "cap" in laid_plies:
        entries.append(fill_entry("cap laid before", CAP_BEFORE[0], ink=CAP_BEFORE[1]))
    if day.laps:
        entries += [line_entry("lap to probe", weight="heavy", ink="accent"), ring_entry("T-joint to probe", TJOINT)]
    if day.tie_off:
        entries.append(mark_entry("tie-off: close before leaving", tie_off_sample()))
    if any(detail.kind == "metal" for detail in paper.layout.details if detail.id in set(day.details)):
        entries.append(line_entry("edge metal set today", line="centre", weight="heavy", ink="accent"))
    kinds = dict.fromkeys(edge.kind for area in paper.areas for edge in area.edges)
    return [*entries, *map(edge_entry, kinds)]


def tie_off_sample() -> tuple[Item, ...]:
    """A short tie-off line about (0, 0)."""
    line = ((-4.5, 0.0), (4.5, 0.0))
    return (
        Stroke(line, "SHEET", weight="outline"),
        Stroke(line, "SHEET", line="hidden", weight="outline", ink="paper"),
    )
