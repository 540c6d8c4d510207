"""HTML as text: elements, tables with caption and scopes, what is unknown.  Every text is escaped here."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape

from lapwright.packet.lettering import clean

VOID = ("meta", "input", "br")


@dataclass(frozen=True, slots=True)
class Markup:
    """HTML that is escaped already."""

    text: str


Piece = str | Markup


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a table: its head, its cells, the number that the head stands for; own: it is the job's."""

    head: str
    cells: tuple[str, ...]
    value: float | None = None
    own: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A table of texts, each row and column with a head.

    by_row, by_column: the reading (air, wind, sheet) that the numbers of the rows' and columns' heads stand for.
    values: of the columns, beginning with the second one.  in_words: its cells may break into lines.
    unit: of its cells.
    """

    id: str
    caption: str
    head: tuple[str, ...]
    rows: tuple[Row, ...]
    by_row: str = ""
    by_column: str = ""
    values: tuple[float, ...] = ()
    in_words: bool = False
    unit: str = ""


def element(tag: str, *inside: Piece, **attributes: str | bool | None) -> Markup:
    """An element.  A name's `_` becomes `-` and falls away at its end; True: named alone; None, False: left out."""
    names = {
        name.rstrip("_").replace("_", "-"): value
        for name, value in attributes.items()
        if value is not None and value is not False
    }
    told = "".join(f" {name}" if value is True else f' {name}="{written(str(value))}"' for name, value in names.items())
    if tag in VOID:
        return Markup(f"<{tag}{told}>")
    return Markup(f"<{tag}{told}>{joined(inside).text}</{tag}>")


def joined(parts: Iterable[Piece]) -> Markup:
    """Parts one after the other."""
    return Markup("".join(part.text if isinstance(part, Markup) else written(part) for part in parts))


def written(text: str) -> str:
    """A text as HTML has it, without control characters."""
    return escape(clean(text))


def paragraphs(words: Iterable[str]) -> Markup:
    """One paragraph for each text."""
    return joined(element("p", text) for text in words)


def section(id: str, title: str, *inside: Piece) -> Markup:
    """A part of the page with its heading."""
    return element("section", element("h2", title, id=f"h-{id}"), *inside, id=id, aria_labelledby=f"h-{id}")


def unknown(what: str, keys: Sequence[str]) -> Markup:
    """What is not known, and the keys of the job file to give."""
    codes: list[Piece] = []
    for key in keys:
        codes += [", ", element("code", key)] if codes else [element("code", key)]
    give: tuple[Piece, ...] = (" Give ", *codes, " in the job file and plan anew.") if codes else ()
    return element("p", element("strong", f"{what}: unknown."), *give, class_="unknown")


def table(one: Table) -> Markup:
    """A table in a frame that scrolls sideways by itself where the screen is narrow, and what a reading picks of it."""
    values = ("", *map(number, one.values)) if one.values else ("",) * len(one.head)
    heads = [
        element("th", text, scope="col", data_value=value or None) for text, value in zip(one.head, values, strict=True)
    ]
    drawn = element(
        "table",
        element("caption", one.caption, id=f"c-{one.id}"),
        element("thead", element("tr", *heads)),
        element("tbody", *map(table_row, one.rows)),
        id=one.id,
        class_="words" if one.in_words else None,
        data_rows=one.by_row or None,
        data_columns=one.by_column or None,
        data_unit=one.unit or None,
    )
    frame = element("div", drawn, class_="wide", role="region", tabindex="0", aria_labelledby=f"c-{one.id}")
    if not one.by_row and not one.by_column:
        return frame
    return joined((frame, element("p", class_="picked", role="status", data_for=one.id)))


def table_row(row: Row) -> Markup:
    """One row with its head."""
    value = None if row.value is None else number(row.value)
    cells = (element("td", cell) for cell in row.cells)
    return element("tr", element("th", row.head, scope="row", data_value=value), *cells, data_own=row.own)


def number(value: float) -> str:
    """A number for the page's script: to a thousandth, without idle zeros."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
