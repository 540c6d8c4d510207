"""The day sheets: what a crew needs on the roof on one day, on one page or both its sides."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from lapwright.crew.values import CrewDay
from lapwright.layout.values import Lap, Piece
from lapwright.packet.pages.fit import (
    LADDER,
    LEAST_TASKS,
    Caps,
    capped,
    column_height,
    fitted,
    listed,
    rows_left,
    task_rows,
)
from lapwright.packet.pages.hotwork import hot_work
from lapwright.packet.pages.lookup import Book
from lapwright.packet.pages.readings import readings, tasks, tug_test
from lapwright.packet.pages.strip import day_strip
from lapwright.packet.pages.words import Json, Row, counted, date_words, table
from lapwright.units.factors import TICKS_PER_METRE

PIECE_HEAD = ("Laid", "Piece", "Roll", "Cut length", "Width")
GROUPS = 4  # lines with the names of areas and plies, in a usual day's tables
LAP_HEAD = ("", "Laps, by course", "Length", "Probed by")


CAUTIONS = (
    "Fall protection stands before anybody steps up; openings covered, covers marked and fixed.",
    "No pallet, pile or snow heap where the structure's designer has not allowed it.",
    "Each tool on its own protected circuit; cords and joints out of water and snow.",
    "Local code, the maker's instructions and licensed practice go before this sheet.",
)


def day_page(book: Book, day: CrewDay) -> Json:
    """Everything that stands on one day sheet, cut to what both its sides hold."""
    whole = day_parts(book, day)
    wanted = len(day.pieces) + len(lap_groups(book, day)) + 2 * GROUPS
    for caps in LADDER:
        parts = cut_down(whole, caps)
        room = rows_left(parts, book.paper.head.paper)
        if room >= wanted + task_rows(parts["tasks"]):
            break
    parts["tasks"] = capped(whole["tasks"], max(LEAST_TASKS, room - wanted), "more tasks: see days.ics")
    left = room - task_rows(parts["tasks"])
    laps = lap_table(book, day, max(left // 2, left - len(day.pieces) - GROUPS))
    pieces = piece_table(book, day, left - len(laps["rows"]))
    one, other = task_rows(parts["tasks"]), len(pieces["rows"]) + len(laps["rows"])
    beside = max(one, other) <= room // 2
    deepest = max(one, other) if beside else math.ceil((one + other) / 2)
    return {**parts, "pieces": pieces, "laps": laps, "beside": beside, "together": column_height(deepest)}


def day_parts(book: Book, day: CrewDay) -> Json:
    """What stands on a day sheet beside the pieces and laps, uncut."""
    weather = book.paper.hours.weather if book.paper.hours else None
    source = "" if weather is None else f" ({weather.name})"
    return {
        "title": f"Day {day.number}",
        "date": date_words(day.date) or "not dated",
        "weather_date": f"Worked out on the weather of {date_words(day.weather_date)}{source}: not a forecast.",
        "crew": crew_words(book),
        "strip": day_strip(book, day),
        "readings": readings(book, day),
        "tug": tug_test(book, day),
        "tie_off": tie_off(book, day),
        "hot": hot_work(book, day),
        "tasks": tasks(book, day),
        "details": detail_words(book, day),
        "lost": list(day.lost),
        "cautions": list(CAUTIONS),
    }


def cut_down(parts: Json, caps: Caps) -> Json:
    """The same with its lists cut to at most so many; what is left out is counted."""
    hot, strip = parts["hot"], parts["strip"]
    tie_off = listed(parts["tie_off"], caps.words + 1)
    return {
        **parts,
        "strip": strip and {**strip, "why": listed(strip["why"], caps.words)},
        "hot": hot and {**hot, "near": capped(hot["near"], caps.near, "more: walk round and look")},
        "tie_off": tie_off,
        "details": listed(parts["details"], caps.words),
        "lost": listed(parts["lost"], caps.words),
    }


def crew_words(book: Book) -> str:
    """Who works and when."""
    crew = book.paper.crew
    if crew is None:
        return ""
    hours = f"{crew.day_from:%H:%M}-{crew.day_to:%H:%M}"
    return f"{hours}, {counted(crew.people, 'person', 'people')}, {counted(crew.welders, 'welder')} among them"


def tie_off(book: Book, day: CrewDay) -> list[str]:
    """Where the day ends watertight: what it is, then each line with its ends and length."""
    if not day.tie_off:
        return ["No tie-off: the day ends at a finished edge. Walk it before leaving."]
    lengths = [math.dist(a, b) for a, b in day.tie_off]
    whole = (
        f"Tie-off {book.units.length(sum(lengths))}, made on its high side so that water passes over it; every length "
        "photographed, cut back and taken up before the next sheet."
    )
    lines = [
        f"{place(book, a)} to {place(book, b)}: {book.units.length(length)}"
        for (a, b), length in zip(day.tie_off, lengths, strict=True)
    ]
    return [whole, *lines]


def place(book: Book, point: tuple[float, float]) -> str:
    """A plan point from the job's origin, to the nearest inch or centimetre."""
    return ", ".join(
        f"{axis} {book.units.tape(round(value * TICKS_PER_METRE), step='1')}"
        for axis, value in zip("EN", point, strict=True)
    )


def piece_table(book: Book, day: CrewDay, room: int) -> Json:
    """Today's pieces in laying order; a line a course where there are more than `room` lines."""
    pieces = sorted((book.pieces[id] for id in day.pieces if id in book.pieces), key=lambda piece: piece.sequence)
    lines = [(ply_of(piece), piece_row(book, piece)) for piece in pieces]
    by_course = courses(pieces)
    if len(grouped(lines)[0]) > room and len(by_course) < len(pieces):
        lines = [(ply_of(row[0]), course_row(book, row)) for row in by_course]
    rows, starts = fitted(*grouped(lines), room, "see the cut list")
    widths = ("auto", "1fr", "auto", "auto", "auto")
    return {
        **table(PIECE_HEAD, rows, widths, right=(0, 3, 4), bold=starts),
        "count": counted(len(pieces), "piece"),
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
    """Pieces of one course that follow each other, together."""
    rows: list[list[Piece]] = []
    for piece in pieces:
        last = rows[-1][0] if rows else None
        if last and (last.area, last.ply, last.course) == (piece.area, piece.ply, piece.course):
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
    rows, starts = fitted(*grouped(lines), room, "see order.xlsx, Laps to probe")
    length = book.units.length(sum(lap.length for lap in whole))
    widths = ("auto", "1fr", "auto", "22mm")
    return {
        **table(LAP_HEAD, rows, widths, right=(0, 2), bold=starts),
        "count": f"{counted(len(whole), 'lap')}, {length}, {counted(joints, 'T-joint')} to probe",
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


def detail_words(book: Book, day: CrewDay) -> list[str]:
    """Strips, metal and flashings of the day: how many and how long, by kind and place."""
    groups: dict[str, list[float]] = {}
    for detail in (book.details[id] for id in day.details if id in book.details):
        # A flashing is cut across the roll: its width runs along the wall.
        along = detail.width if detail.kind == "flashing" else detail.length
        groups.setdefault(f"{detail.kind.replace('_', ' ')} at {detail.area} {detail.of}", []).append(along)
    return [
        f"{where}: {counted(len(lengths), 'length')}, {book.units.length(sum(lengths))}"
        for where, lengths in groups.items()
    ]
