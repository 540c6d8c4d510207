"""The morning sheet on a terminal: at most 80 columns, some sixty lines, plain characters."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence

from lapwright.packet.pages.words import Json

WIDTH = 80
LABEL = 8
RULE = "-" * WIDTH
MARKS = {"open": ".", "warm": "o", "heat": "/", "shut": "#", "none": "?"}
KEY = ". open   o warm rolls   / warm rolls, laps welded   # shut   ? unknown"


def morning_text(page: Json) -> list[str]:
    """The sheet's lines."""
    overall = page["overall"]
    why = f" {overall['why'][0].upper()}{overall['why'][1:]}." if overall["why"] else ""
    return [
        ends(f"MORNING SHEET  {page['date']}", page["job"]),
        *wrapped(page["weather"]),
        RULE,
        *wrapped([f"{overall['line']}{why}", page["decide"]]),
        RULE,
        *operation_lines(page),
        KEY,
        *wrapped([" ".join(filter(None, [page["crew"], page["measure"]]))]),
        *table_lines(page["table"]),
        *wrapped([page["under_table"]]),
        RULE,
        *block("Open", page["open"]),
        *block("Warm", page["warm"]),
        *block("Carry", page["carry"]),
        *block("Read", [" ".join(f"{what}: {limit}." for what, limit in page["readings"])]),
        *block("People", [" ".join(page["people"])]),
        *block("Care", [" ".join(page["cautions"])]),
        *block("Unknown", [" ".join(f"{line}." for line in page["unknown"])] if page["unknown"] else []),
        *block("Note", page["notes"]),
    ]


def operation_lines(page: Json) -> list[str]:
    """A row for each group of operations: verdict, names, from, to, a mark an hour; below it why."""
    hours = page["hours"]
    wide = len(hours) <= 11
    head = " ".join(hours) if wide else f"{hours[0]} to {hours[-1]}, a mark an hour"
    lines = [f"{'':9}{'':24}{'from':>5}  {'to':<5}  {head}".rstrip()]
    for row in page["operations"]:
        marks = [MARKS[cell] for cell in row["cells"]]
        strip = " ".join(f" {mark}" for mark in marks) if wide else "".join(marks)
        names = textwrap.wrap(row["names"], 23) or [""]
        lines.append(f"{row['verdict'].upper():<9}{names[0]:<24}{row['from']:>5}  {row['to']:<5}  {strip}".rstrip())
        lines += [f"{'':9}{more}" for more in names[1:]]
    for row in page["operations"]:
        if row["why"] and row["verdict"] in ("stop", "unknown"):
            lines += textwrap.wrap(
                f"{row['names']}: {row['why']}", WIDTH - 2, initial_indent="  ", subsequent_indent="  "
            )
    return lines


def table_lines(table: Json) -> list[str]:
    """The hour table in columns; headings over two lines."""
    heads = [heading(head) for head in table["head"]]
    rows = [list(row) for row in table["rows"]]
    widths = [max([len(part) for part in head] + [len(row[at]) for row in rows]) for at, head in enumerate(heads)]
    gap = "  " if sum(widths) + 2 * (len(widths) - 1) <= WIDTH else " "
    lines = [gap.join(head[k].rjust(width) for head, width in zip(heads, widths, strict=True)) for k in (0, 1)]
    lines += [gap.join(cell.rjust(width) for cell, width in zip(row, widths, strict=True)) for row in rows]
    return [line.rstrip()[:WIDTH] for line in lines]


def heading(words: str) -> tuple[str, str]:
    """A heading on two lines, its unit or last word below."""
    first, _, last = words.rpartition(" ")
    return (first, last) if first else (words, "")


def block(label: str, lines: Sequence[str]) -> list[str]:
    """Lines under a label in the margin; nothing where there are none."""
    told: list[str] = []
    for line in lines:
        told += textwrap.wrap(line, WIDTH - LABEL) or []
    return [f"{label.upper() if number == 0 else '':<{LABEL}}{line}" for number, line in enumerate(told)]


def wrapped(lines: Iterable[str]) -> list[str]:
    """Lines of at most the width; empty ones left out."""
    return [part for line in lines if line for part in textwrap.wrap(line, WIDTH)]


def ends(left: str, right: str) -> str:
    """Words at both ends of a line; the right ones shortened where they meet."""
    room = WIDTH - len(left) - 2
    right = right if len(right) <= room else right[: room - 1] + "…"
    return left + right.rjust(WIDTH - len(left))
