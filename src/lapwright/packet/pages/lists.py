"""Chalk lines and the order, as tables."""

from __future__ import annotations

from itertools import pairwise

from lapwright.assembly.values import Sheet
from lapwright.defaults.values import Origin
from lapwright.layout.values import PlyLayout
from lapwright.order.values import OrderLine
from lapwright.packet.pages.lookup import Book
from lapwright.packet.pages.pattern import pattern_words
from lapwright.packet.pages.words import Json, Row, counted, plural, table
from lapwright.units.retold import retold
from lapwright.units.write import Units

COUNTED = ("roll", "pail", "tube", "box", "bag", "length", "piece", "can", "drum", "pallet", "set")


def chalk_pages(book: Book) -> list[Json]:
    """The chalk-line list of each ply on each area."""
    return [chalk_page(book, ply) for ply in book.paper.layout.plies]


def chalk_page(book: Book, ply: PlyLayout) -> Json:
    """Every course line of a ply from one datum, summed, so that errors of the tape do not add up."""
    units = book.units
    tolerance = "" if ply.tolerance is None else f"± {units.tape(ply.tolerance)}"
    said = f"Lines may be off by no more than {tolerance}." if tolerance else "No ply beside it limits these lines."
    if ply.tolerance == 0:
        tolerance, said = "none", "These lines have nothing to spare: the offset is the least that is allowed."
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
        "pattern": pattern_words(units, ply.pieces),
        "exceptions": [text.replace("_", " ") for text in ply.exceptions],
        "table": table(head, rows, ("auto", "1fr", "1fr", "1fr", "1fr", "auto", "26mm"), right=(0, 1, 2, 3, 4, 5)),
    }


def chalk_row(book: Book, ply: PlyLayout, at: int, tolerance: str) -> Row:
    """One course: where its sheet begins and ends, what of it stays exposed, and whether it is ripped."""
    course, units = ply.courses[at], book.units
    above = ply.courses[at + 1].low if at + 1 < len(ply.courses) else course.high
    width = course.high - course.low
    sheet = book.paper.sheets.get(ply.sheet)
    return (
        str(course.index),
        units.tape(course.low),
        units.tape(course.high),
        units.width(above - course.low),
        sheet_words(units, width, course.high - above if at + 1 < len(ply.courses) else 0, sheet),
        tolerance if at else "",
        "",
    )


def sheet_words(units: Units, width: int, lap: int, sheet: Sheet | None) -> str:
    """Whether a course is full or ripped, and its lap under the next where that is wider than asked [ticks]."""
    if sheet is None or width != sheet.width_ticks:
        return f"rip to {units.width(width)}"
    return f"full, {units.width(lap)} lapped" if lap > sheet.side_lap_ticks else "full"


def order_page(book: Book) -> Json:
    """The order with the arithmetic behind each line."""
    priced = any(line.cost is not None for line in book.paper.order)
    head = ["Item", "Order", "Needed", "How it was counted, and at which rate"]
    widths = ["1fr", "auto", "auto", "1.9fr"]
    if priced:
        head.append(book.paper.head.of_money("Cost"))
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
    said = line.basis if rate is None else f"{line.basis}. Rate {rate_words(book.units, rate)}: {origin_words(rate)}"
    row = (line.item, sold(book, line.ordered, line.unit), sold(book, line.needed, line.unit), said)
    return (*row, "" if line.cost is None else f"{line.cost:,.2f}") if priced else row


def sold(book: Book, amount: float, unit: str) -> str:
    """An amount in what it is sold by; counted things in the plural."""
    if unit in COUNTED:
        return counted(int(amount), unit) if amount == int(amount) else f"{amount:.2f} {plural(unit)}"
    return book.units.number_and_unit(amount, unit)


def rate_words(units: Units, rate: Origin) -> str:
    """A rate as the job file gives it, a default in the job's units."""
    return rate.text if rate.is_overridden else retold(units, rate.text)


def origin_words(origin: Origin) -> str:
    """Where a value comes from; common practice has no source and says so once, as the job file is one."""
    if origin.is_overridden:
        return origin.source
    if origin.source.startswith(origin.origin):
        return origin.source
    return f"{origin.origin}, {origin.source}" if origin.source else origin.origin
