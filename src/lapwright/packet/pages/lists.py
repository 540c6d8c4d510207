"""Chalk lines, the cut list by roll and the order, as tables."""

from __future__ import annotations

from itertools import groupby, pairwise

from lapwright.defaults.values import Origin
from lapwright.layout.values import PlyLayout, Roll
from lapwright.order.values import OrderLine
from lapwright.packet.pages.lookup import Book
from lapwright.packet.pages.words import Json, Row, counted, plural, table
from lapwright.units.factors import TICKS_PER_METRE

COUNTED = ("roll", "pail", "tube", "box", "bag", "length", "piece", "can", "drum", "pallet", "set")


def chalk_pages(book: Book) -> list[Json]:
    """The chalk-line list of each ply on each area."""
    return [chalk_page(book, ply) for ply in book.paper.layout.plies]


def chalk_page(book: Book, ply: PlyLayout) -> Json:
    """Every course line of a ply from one datum, summed, so that errors of the tape do not add up."""
    units = book.units
    tolerance = "" if ply.tolerance is None else f"± {units.tape(ply.tolerance)}"
    said = f"Lines may be off by no more than {tolerance}." if tolerance else "No ply beside it limits these lines."
    least = (
        "" if ply.offset_least is None else f" Least offset from the next ply's lines {units.tape(ply.offset_least)}."
    )
    head = (
        "Course",
        "Low edge from datum",
        "High edge from datum",
        "Exposed",
        "Sheet width",
        "Tolerance",
        "Snapped by",
    )
    rows = [chalk_row(book, ply, at, tolerance) for at in range(len(ply.courses))]
    return {
        "title": f"{ply.area}, {ply.ply}",
        "note": f"Datum: the low edge line of {ply.area}, 0. All distances are measured from it up the slope, not from "
        f"line to line. First course {units.width(ply.starter)} wide, its low edge at {units.tape(ply.begins)}. "
        f"{said}{least}",
        "exceptions": [text.replace("_", " ") for text in ply.exceptions],
        "table": table(head, rows, ("auto", "1fr", "1fr", "1fr", "1fr", "auto", "26mm"), right=(0, 1, 2, 3, 4, 5)),
    }


def chalk_row(book: Book, ply: PlyLayout, at: int, tolerance: str) -> Row:
    """One course: where its sheet begins and ends, what of it stays exposed, and whether it is ripped."""
    course, units = ply.courses[at], book.units
    above = ply.courses[at + 1].low if at + 1 < len(ply.courses) else course.high
    width = course.high - course.low
    sheet = book.paper.sheets.get(ply.sheet)
    full = sheet is not None and width == sheet.width_ticks
    return (
        str(course.index),
        units.tape(course.low),
        units.tape(course.high),
        units.width(above - course.low),
        "full" if full else f"rip to {units.width(width)}",
        tolerance if at else "",
        "",
    )


def cut_pages(book: Book) -> list[Json]:
    """The cut list, one table for each sheet, roll by roll in the order they are opened."""
    by_sheet: dict[str, list[Roll]] = {}
    for roll in book.paper.layout.rolls:
        by_sheet.setdefault(roll.sheet, []).append(roll)
    return [cut_page(book, sheet, rolls) for sheet, rolls in by_sheet.items()]


def cut_page(book: Book, sheet: str, rolls: list[Roll]) -> Json:
    """Every length cut from the rolls of one sheet."""
    rows: list[Row] = []
    firsts: list[int] = []
    for roll in rolls:
        firsts.append(len(rows))
        rows += roll_rows(book, roll)
    whole = (rolls[0].used + rolls[0].left) if rolls else 0
    used = sum(roll.used for roll in rolls) / TICKS_PER_METRE
    head = ("Roll", "Cut", "Piece or detail", "Length", "Width", "Corners", "Left on roll")
    return {
        "title": sheet,
        "note": f"{counted(len(rolls), 'roll')} of {book.units.tape(whole)}; {book.units.length(used)} cut. "
        f"Lengths are rounded up to {book.units.tape(book.paper.rules.cut_step_ticks)}; rips are exact.",
        "table": table(
            head,
            rows,
            ("auto", "12mm", "1fr", "26mm", "21mm", "16mm", "24mm"),
            right=(1, 3, 4, 5, 6),
            starts=firsts,
            named=True,
        ),
    }


def roll_rows(book: Book, roll: Roll) -> list[Row]:
    """The cuts of one roll in order, with what is left after each; like lengths of one detail share a row."""
    rows: list[Row] = []
    left, number = roll.used + roll.left, 1
    for (_, takes, cut, width, corners), same in groupby(roll.pieces, key=lambda id: cut_key(book, id)):
        ids = list(same)
        left -= takes * len(ids)
        several = len(ids) > 1
        taken = book.units.tape(takes) if takes else f"beside, {book.units.tape(cut)}" if cut else "beside"
        rows.append(
            (
                roll.id if not rows else "",
                f"{number}-{number + len(ids) - 1}" if several else str(number),
                f"{ids[0]} to {ids[-1].rpartition(' ')[2]}" if several else ids[0],
                f"{len(ids)} × {taken}" if several else taken,
                width,
                corners,
                book.units.tape(left),
            )
        )
        number += len(ids)
    return rows


def cut_key(book: Book, id: str) -> tuple[str, int, int, str, str]:
    """What lengths that share a row have in common; a piece of a ply shares with none."""
    name = id.rpartition(" ")[0] if id in book.details else id
    return (name or id, *cut_sizes(book, id))


def cut_sizes(book: Book, id: str) -> tuple[int, int, str, str]:
    """What a piece or detail takes of the roll, the length it is cut to [ticks], its width, how many corners are cut.

    What is cut beside another takes no length of its own.
    """
    piece = book.pieces.get(id)
    if piece is not None:
        corners = str(len(piece.corner_cuts)) if piece.corner_cuts else ""
        return (piece.cut_length, piece.cut_length, book.units.width(piece.v1 - piece.v0), corners)
    detail = book.details.get(id)
    if detail is None:
        return (0, 0, "", "")
    return (detail.takes_ticks, detail.cut_ticks, book.units.width(round(detail.width * TICKS_PER_METRE)), "")


def order_page(book: Book) -> Json:
    """The order with the arithmetic behind each line."""
    priced = any(line.cost is not None for line in book.paper.order)
    head = ["Item", "Order", "Needed", "How it was counted, and at which rate"]
    widths = ["1fr", "auto", "auto", "1.9fr"]
    if priced:
        head.append(f"Cost, {book.paper.head.currency}")
        widths.append("auto")
    rows = [order_row(book, line, priced=priced) for line in book.paper.order]
    starts = [at + 1 for at, (one, other) in enumerate(pairwise(book.paper.order)) if one.group != other.group]
    bold: list[int] = []
    if priced:
        rows.append(("All priced lines", "", "", "", f"{sum(line.cost or 0 for line in book.paper.order):,.2f}"))
        bold.append(len(rows) - 1)
    return table(head, rows, widths, right=(1, 2, 4), bold=bold, starts=starts)


def order_row(book: Book, line: OrderLine, *, priced: bool) -> Row:
    """One line of the order."""
    rate = line.rate
    said = line.basis if rate is None else f"{line.basis}. Rate {rate.text}: {origin_words(rate)}"
    row = (line.item, sold(book, line.ordered, line.unit), sold(book, line.needed, line.unit), said)
    return (*row, "" if line.cost is None else f"{line.cost:,.2f}") if priced else row


def sold(book: Book, amount: float, unit: str) -> str:
    """An amount in what it is sold by; counted things in the plural."""
    if unit in COUNTED:
        return counted(int(amount), unit) if amount == int(amount) else f"{amount:.2f} {plural(unit)}"
    return book.units.number_and_unit(amount, unit)


def origin_words(origin: Origin) -> str:
    """Where a value comes from; common practice has no source and says so once."""
    if origin.source.startswith(origin.origin):
        return origin.source
    return f"{origin.origin}, {origin.source}" if origin.source else origin.origin
