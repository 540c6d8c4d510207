"""Today's pieces and laps as tables: one by one, or by course where there are more than a sheet holds."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from lapwright.crew.values import CrewDay
from lapwright.layout.values import Lap, Piece
from lapwright.packet.pages.fit import AT_LENGTH, fitted
from lapwright.packet.pages.lookup import Book
from lapwright.packet.pages.words import Json, Row, counted, table

PIECE_HEAD = ("Laid", "Piece", "Roll", "Cut length", "Width")
NO_LAPS = "No laps to probe today"
LAP_HEAD = ("", "Laps, by course", "Length", "Probed by")


def piece_table(book: Book, day: CrewDay, room: int) -> Json:
    """Today's pieces in laying order; a line a course where there are more than `room` lines."""
    pieces = sorted((book.pieces[id] for id in day.pieces if id in book.pieces), key=lambda piece: piece.sequence)
    lines = [(ply_of(piece), piece_row(book, piece)) for piece in pieces]
    by_course = courses(pieces)
    if len(grouped(lines)[0]) > room and len(by_course) < len(pieces):
        lines = [(ply_of(row[0]), course_row(book, row)) for row in by_course]
    rows, starts = fitted(*grouped(lines), room, AT_LENGTH)
    widths = ("auto", "1fr", "auto", "auto", "auto")
    return {
        **table(PIECE_HEAD, rows, widths, right=(0, 3, 4), bold=starts),
        "count": counted(len(pieces), "piece") if pieces else "No pieces today",
    }


def grouped(lines: Iterable[tuple[str, Row]]) -> tuple[list[Row], list[int]]:
    """Rows under a line with what they share; the places of those lines."""
    rows: list[Row] = []
    starts: list[int] = []
    shared = None
    for share, row in lines:
        if share != shared:
            shared = share
            starts.append(len(rows))
            rows.append(("", share, *[""] * (len(row) - 2)))
        rows.append(row)
    return rows, starts


def ply_of(piece: Piece) -> str:
    """Area and ply."""
    return f"{piece.area} {piece.ply}"


def piece_row(book: Book, piece: Piece) -> Row:
    """One piece: its number in laying order, course and place, roll, cut length and the width where it is ripped."""
    sheet = book.paper.sheets.get(piece.sheet)
    width = piece.v1 - piece.v0
    ripped = sheet is None or width != sheet.width_ticks
    cut = f", {len(piece.corner_cuts)} cut" if piece.corner_cuts else ""
    return (
        str(piece.sequence),
        f"{piece.course}.{piece.place}{cut}",
        piece.roll,
        book.units.tape(piece.cut_length),
        book.units.width(width) if ripped else "full",
    )


def courses(pieces: Sequence[Piece]) -> list[list[Piece]]:
    """Pieces of one course that follow each other and are neighbours by their places, together."""
    rows: list[list[Piece]] = []
    for piece in pieces:
        last = rows[-1][-1] if rows else None
        before = (last.area, last.ply, last.course, last.place + 1) if last else None
        if before == (piece.area, piece.ply, piece.course, piece.place):
            rows[-1].append(piece)
        else:
            rows.append([piece])
    return rows


def course_row(book: Book, row: Sequence[Piece]) -> Row:
    """The pieces of a course on one line; their cuts stand in the cut list."""
    first, last = row[0], row[-1]
    if len(row) == 1:
        return piece_row(book, first)
    whole = book.units.tape(sum(piece.cut_length for piece in row))
    places = f"{first.course}.{first.place} to {last.place}"
    return (f"{first.sequence}-{last.sequence}", places, "cut list", whole, "")


def lap_table(book: Book, day: CrewDay, room: int) -> Json:
    """Laps and T-joints closed today, those of one place together, with room for who probed them."""
    groups = lap_groups(book, day)
    lines: list[tuple[str, Row]] = [(share, lap_row(book, where, laps)) for (share, where), laps in groups.items()]
    whole = [lap for laps in groups.values() for lap in laps]
    joints = sum(len(book.joints.get(lap.id, ())) for lap in whole)
    rows, starts = fitted(*grouped(lines), room, AT_LENGTH)
    length = book.units.length(sum(lap.length for lap in whole))
    widths = ("auto", "1fr", "auto", "22mm")
    return {
        **table(LAP_HEAD, rows, widths, right=(0, 2), bold=starts),
        "count": f"{counted(len(whole), 'lap')}, {length}, {counted(joints, 'T-joint')} to probe" if whole else NO_LAPS,
    }


def lap_groups(book: Book, day: CrewDay) -> dict[tuple[str, str], list[Lap]]:
    """The laps closed today by where they lie, those of one ply or kind together."""
    groups: dict[str, dict[str, list[Lap]]] = {}
    for lap in (book.laps[id] for id in day.laps if id in book.laps):
        share, where = lap_place(book, lap)
        groups.setdefault(share, {}).setdefault(where, []).append(lap)
    return {(share, where): laps for share, places in groups.items() for where, laps in places.items()}


def lap_place(book: Book, lap: Lap) -> tuple[str, str]:
    """Where a lap lies: area and ply, then its courses; or the edge or opening of a strip or flashing."""
    lower, upper = (book.pieces.get(id) for id in lap.pieces)
    if lower is not None and upper is not None:
        between = f"{lower.course} to {upper.course}" if lower.course != upper.course else f"{lower.course}"
        return f"{lap.area} {lap.ply}", f"{lap.kind} {between}"
    detail = book.details.get(lap.pieces[1]) or book.details.get(lap.pieces[0])
    return f"{lap.area} {lap.kind}", f"{detail.of}" if detail else lap.id


def lap_row(book: Book, where: str, laps: Sequence[Lap]) -> Row:
    """The laps of one place: how many, with T-joints beside, and their length."""
    joints = sum(len(book.joints.get(lap.id, ())) for lap in laps)
    beside = f", {joints} T" if joints else ""
    return (str(len(laps)), f"{where}{beside}", book.units.length(sum(lap.length for lap in laps)), "")
