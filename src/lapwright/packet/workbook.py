"""A workbook of tables: numbers as numbers, totals as formulas that carry their value, typed text never a formula.

The only date in it is the job's (1980-01-01 where it has none), so that the same tables give the same bytes.
"""

from __future__ import annotations

import datetime as dt
import io
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from lapwright.packet.values import Head

Cell = str | float | int | None
Formats = dict[str, Any]
EPOCH = dt.date(1980, 1, 1)
TITLE_ROW, HEAD_ROW = 0, 2
FIRST_ROW = HEAD_ROW + 2  # as spreadsheets count, from 1
LONGEST_CELL = 32_000
LONGEST_FOOTER = 200
PAPER_CODES = {"letter": 1, "a4": 9}


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its heading, width in characters, and whether its total is summed."""

    title: str
    width: float
    total: Literal["", "sum", "word"] = ""


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula of spreadsheets and the value it has now."""

    text: str
    value: float


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet of the workbook: its name, columns and rows."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell | Formula, ...], ...]
    total: str = "Total"


def workbook(head: Head, sheets: Iterable[Sheet]) -> bytes:
    """The workbook of a job's tables."""
    import xlsxwriter  # slow to load, and only needed here

    out = io.BytesIO()
    book = xlsxwriter.Workbook(out, {"in_memory": True})
    date = head.date or EPOCH
    title = f"{head.name}, job {head.number}, revision {head.revision}"
    created = dt.datetime(date.year, date.month, date.day)
    book.set_properties({"title": title[:LONGEST_FOOTER], "created": created, "author": "lapwright"})
    formats = styles(book)
    for sheet in sheets:
        write_sheet(book, sheet, head, title, formats)
    book.close()
    return out.getvalue()


def write_sheet(book: Any, sheet: Sheet, head: Head, title: str, formats: Formats) -> None:  # noqa: ANN401  # XlsxWriter is untyped
    """Put a sheet in the workbook: title, heading, rows, totals, and how it prints."""
    page = book.add_worksheet(sheet.name)
    page.write_string(TITLE_ROW, 0, f"{sheet.name}: {title}"[:LONGEST_CELL], formats["title"])
    for at, column in enumerate(sheet.columns):
        page.set_column(at, at, column.width)
        page.write_string(HEAD_ROW, at, column.title, formats["head"])
    for number, row in enumerate(sheet.rows, start=HEAD_ROW + 1):
        for at, cell in enumerate(row):
            write_cell(page, (number, at), cell, formats, "")
    write_totals(page, sheet, formats)
    last = HEAD_ROW + max(len(sheet.rows), 1)
    page.autofilter(HEAD_ROW, 0, last, len(sheet.columns) - 1)
    page.freeze_panes(HEAD_ROW + 1, 1)
    set_up_print(page, head, title)


def styles(book: Any) -> Formats:  # noqa: ANN401  # the library has no types
    """The formats of a workbook."""
    body = {"font_name": "Arial", "font_size": 10, "valign": "top"}
    total = {**body, "bold": True, "top": 1}
    return {
        "title": book.add_format({**body, "bold": True, "font_size": 12}),
        "head": book.add_format({**body, "bold": True, "bottom": 2, "text_wrap": True}),
        "text": book.add_format({**body, "text_wrap": True}),
        "typed": book.add_format({**body, "text_wrap": True, "quote_prefix": True}),
        "whole": book.add_format({**body, "num_format": "0"}),
        "number": book.add_format({**body, "num_format": "0.00"}),
        "text total": book.add_format(total),
        "number total": book.add_format({**total, "num_format": "0.00"}),
    }


def write_cell(page: Any, at: tuple[int, int], cell: Cell | Formula, formats: Formats, kind: str) -> None:  # noqa: ANN401  # the library has no types
    """One cell, by the kind of its value; text that starts like a formula is marked as text for whoever edits it."""
    if cell is None or cell == "":
        page.write_blank(*at, None, formats["text" + kind])
    elif isinstance(cell, Formula):
        page.write_formula(*at, cell.text, formats["number" + kind], cell.value)
    elif isinstance(cell, str):
        name = "typed" if cell[0] in "=+-@\t\r" and not kind else "text" + kind
        page.write_string(*at, cell[:LONGEST_CELL], formats[name])
    elif isinstance(cell, int) and not kind:
        page.write_number(*at, cell, formats["whole"])
    else:
        page.write_number(*at, cell, formats["number" + kind])


def write_totals(page: Any, sheet: Sheet, formats: Formats) -> None:  # noqa: ANN401  # the library has no types
    """The row of totals under the rows; nothing under a sheet without rows or without anything to add up."""
    if not sheet.rows or all(column.total != "sum" for column in sheet.columns):
        return
    first, last = FIRST_ROW, FIRST_ROW - 1 + len(sheet.rows)
    for at, column in enumerate(sheet.columns):
        cell: Cell | Formula = sheet.total if column.total == "word" else None
        if column.total == "sum":
            letter = chr(ord("A") + at)
            cell = Formula(f"=SUM({letter}{first}:{letter}{last})", summed(sheet.rows, at))
        write_cell(page, (last, at), cell, formats, " total")


def summed(rows: Sequence[tuple[Cell | Formula, ...]], at: int) -> float:
    """The sum of one column."""
    cells = [cell.value if isinstance(cell := row[at], Formula) else cell for row in rows]
    return float(sum(cell for cell in cells if isinstance(cell, (int, float))))


def set_up_print(page: Any, head: Head, title: str) -> None:  # noqa: ANN401  # the library has no types
    """Landscape on the job's paper, one page wide, headings repeated, job and page number at the foot."""
    page.set_landscape()
    page.set_paper(PAPER_CODES.get(head.paper, 1))
    page.set_margins(left=0.5, right=0.5, top=0.6, bottom=0.8)
    page.fit_to_pages(1, 0)
    page.repeat_rows(HEAD_ROW)
    # "&" starts a code in a footer and is doubled to stand for itself; a footer holds 255 characters.
    page.set_footer(f"&L{title[: LONGEST_FOOTER // 2].replace('&', '&&')}&RPage &P of &N")
