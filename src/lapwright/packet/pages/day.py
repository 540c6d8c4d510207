"""The day sheets: what a crew needs on the roof on one day, on one page or both its sides."""

from __future__ import annotations

import math

from lapwright.crew.values import CrewDay
from lapwright.geometry.polygon import Point, place_of
from lapwright.layout.values import XY, Piece
from lapwright.packet.pages.daytables import lap_table, piece_table, ply_of
from lapwright.packet.pages.fit import (
    AT_LENGTH,
    BOUNDLESS,
    LADDER,
    LEAST_TASKS,
    Caps,
    capped,
    column_height,
    listed,
    rows_left,
    task_rows,
)
from lapwright.packet.pages.hotwork import capped_near, hot_work
from lapwright.packet.pages.lookup import Book
from lapwright.packet.pages.pattern import NONE, pattern_words
from lapwright.packet.pages.readings import readings, tasks, tug_test
from lapwright.packet.pages.strip import day_strip
from lapwright.packet.pages.words import Json, counted, date_words
from lapwright.units.factors import TICKS_PER_METRE

MOST_TODAY = 3  # cuts of a ply in words
CAUTIONS = (
    "Fall protection stands before anybody steps up; openings covered, covers marked and fixed.",
    "No pallet, pile or snow heap where the structure's designer has not allowed it.",
    "Each tool on its own protected circuit; cords and joints out of water and snow.",
    "Local code, the maker's instructions and licensed practice go before this sheet.",
)


def day_page(book: Book, day: CrewDay) -> Json:
    """Everything that stands on one day sheet, cut to what both its sides hold; `whole`: the parts cut, uncut."""
    whole = day_parts(book, day)
    all_pieces, all_laps = piece_table(book, day, BOUNDLESS), lap_table(book, day, BOUNDLESS)
    wanted = len(all_pieces["rows"]) + len(all_laps["rows"])
    for caps in LADDER:
        parts = cut_down(whole, caps)
        room = rows_left(parts, book.paper.head.paper)
        if room >= wanted + task_rows(parts["tasks"]):
            break
    parts["tasks"] = capped(whole["tasks"], max(LEAST_TASKS, room - wanted), f"more tasks: {AT_LENGTH}")
    left = room - task_rows(parts["tasks"])
    laps = lap_table(book, day, max(left // 2, left - len(all_pieces["rows"])))
    pieces = piece_table(book, day, left - len(laps["rows"]))
    one, other = task_rows(parts["tasks"]), len(pieces["rows"]) + len(laps["rows"])
    beside = max(one, other) <= room // 2
    deepest = max(one, other) if beside else math.ceil((one + other) / 2)
    sheet = {**parts, "pieces": pieces, "laps": laps, "beside": beside, "together": column_height(deepest)}
    full = {**whole, "pieces": all_pieces, "laps": all_laps}
    return {**sheet, "whole": {key: full[key] for key in full if sheet[key] != full[key]}}


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
        "pattern": pattern(book, day),
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
        "hot": hot and {**hot, "near": capped_near(hot["near"], caps.near)},
        "tie_off": tie_off,
        "pattern": listed(parts["pattern"], caps.words),
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
    lines, said = [], ""
    for (a, b), length in zip(day.tie_off, lengths, strict=True):
        datum_words, zero = datum(book, a, b)
        words = "" if datum_words == said else datum_words  # once for lines that have it one after the other
        said = datum_words
        lines.append(f"{words}{place(book, a, zero)} to {place(book, b, zero)}: {book.units.length(length)}")
    return [whole, *lines]


def datum(book: Book, a: XY, b: XY) -> tuple[str, Point]:
    """What places of a line are measured from [ticks], in words where it is not the job's origin.

    The origin serves where a corner of the roof lies on it, as it does for a walked one; that of a drawing may lie
    anywhere, and there the line is told from a corner of the area that it lies in.
    """
    corners = {corner for area in book.paper.areas for corner in area.outline}
    if (0, 0) in corners or not book.paper.areas:
        return "", (0, 0)
    middle = (round((a[0] + b[0]) / 2 * TICKS_PER_METRE), round((a[1] + b[1]) / 2 * TICKS_PER_METRE))
    area = max(book.paper.areas, key=lambda each: place_of(each.outline, middle))
    first = area.edges[0]
    return f"From where side {first.side} of {area.name} begins: ", first.start


def place(book: Book, point: XY, zero: Point) -> str:
    """A plan point from a datum, to the nearest inch or centimetre; west and south of it by their own letters."""
    told = []
    for value, start, ways in zip(point, zero, ("EW", "NS"), strict=True):
        off = round(value * TICKS_PER_METRE) - start
        words = book.units.tape(abs(off), step="1")
        told.append(f"{ways[off < 0 and words != book.units.tape(0, step='1')]} {words}")
    return ", ".join(told)


def pattern(book: Book, day: CrewDay) -> list[str]:
    """The pattern of today's courses, ply by ply, where there is one."""
    plies: dict[str, list[Piece]] = {}
    for piece in (book.pieces[id] for id in day.pieces if id in book.pieces):
        plies.setdefault(ply_of(piece), []).append(piece)
    told = [(name, pattern_words(book.units, pieces, MOST_TODAY)) for name, pieces in plies.items()]
    return [f"{name}: {words}" for name, words in told if words != NONE]


def detail_words(book: Book, day: CrewDay) -> list[str]:
    """Strips, metal and flashings of the day: how many and how long, by kind and place; small pieces by kind alone."""
    groups: dict[str, list[float]] = {}
    small: dict[str, int] = {}
    for detail in (book.details[id] for id in day.details if id in book.details):
        words = detail.kind.replace("_", " ")
        if detail.line is None:
            small[f"{words} at {detail.area}"] = small.get(f"{words} at {detail.area}", 0) + 1
            continue
        # A flashing is cut across the roll: its width runs along the wall.
        along = detail.width if detail.kind == "flashing" else detail.length
        groups.setdefault(f"{words} at {detail.area} {detail.of}", []).append(along)
    return [
        *(
            f"{where}: {counted(len(lengths), 'length')}, {book.units.length(sum(lengths))}"
            for where, lengths in groups.items()
        ),
        *(f"{where}: {counted(count, 'piece')}" for where, count in small.items()),
    ]
