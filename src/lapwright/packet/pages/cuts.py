"""The cut list of each sheet: its pattern in words, rolls cut alike together, the others one by one.

Corner cuts are made where the piece lies and stand on day sheets and plans; what is left of a roll stands once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any

from lapwright.layout.values import Detail, Roll
from lapwright.packet.pages.lookup import Book
from lapwright.packet.pages.pattern import pattern_words, ranges
from lapwright.packet.pages.words import Json, Row, counted, table
from lapwright.units.factors import TICKS_PER_METRE

ROLLS_A_ROW = 40  # of those cut alike: a row goes to the next page whole
ALIKE_HEAD = ("Rolls", "Cut from each", "Left on each", "Roll: pieces in the order cut")
HEAD = ("Roll", "What is cut from it, in order", "Left")


@dataclass(frozen=True, slots=True)
class Sizes:
    """What a piece or detail is cut to [ticks], and its width in words, empty where it is the whole sheet's.

    is_beside: cut beside another, of which it takes no length.
    """

    cut: int
    width: str
    is_beside: bool


def cut_pages(book: Book) -> list[Json]:
    """The cut list, one page for each sheet, in the order that rolls are opened."""
    by_sheet: dict[str, list[Roll]] = {}
    for roll in book.paper.layout.rolls:
        by_sheet.setdefault(roll.sheet, []).append(roll)
    return [cut_page(book, sheet, rolls) for sheet, rolls in by_sheet.items()]


def cut_page(book: Book, sheet: str, rolls: Sequence[Roll]) -> Json:
    """Every length cut from the rolls of one sheet."""
    alike, single = sorted_out(book, rolls)
    whole = (rolls[0].used + rolls[0].left) if rolls else 0
    used = sum(roll.used for roll in rolls) / TICKS_PER_METRE
    return {
        "title": sheet,
        "note": f"{counted(len(rolls), 'roll')} of {book.units.tape(whole)}; {book.units.length(used)} cut. "
        f"Lengths are rounded up to {book.units.tape(book.paper.rules.cut_step_ticks)}; rips are exact. A width is "
        "written where it is not the whole sheet's. Pieces are named by course and place, as on day sheets; corners "
        "are cut where they lie. Beside: cut from the width left beside the last length told without that word.",
        "patterns": [
            [f"{ply.area}, {ply.ply}.", pattern_words(book.units, ply.pieces)]
            for ply in book.paper.layout.plies
            if ply.sheet == sheet
        ],
        "alike": table(
            ALIKE_HEAD,
            [row for one in alike for row in alike_rows(book, one)],
            ("auto", "auto", "auto", "1fr"),
            right=(0, 2),
        ),
        "table": {
            **table(HEAD, [], ("auto", "1fr", "auto"), right=(0, 2), starts=range(len(single))),
            "rows": [roll_row(book, roll) for roll in single],
        },
    }


def sorted_out(book: Book, rolls: Sequence[Roll]) -> tuple[list[list[Roll]], list[Roll]]:
    """Rolls that are cut alike into pieces of plies, together, and those that are not like any other."""
    groups: dict[tuple[Sizes, ...], list[Roll]] = {}
    for roll in rolls:
        if all(id in book.pieces for id in roll.pieces):
            groups.setdefault(tuple(sizes(book, id) for id in roll.pieces), []).append(roll)
    found = [own for own in groups.values() if len(own) > 1]
    together = {roll.id for own in found for roll in own}
    return found, [roll for roll in rolls if roll.id not in together]


def alike_rows(book: Book, rolls: Sequence[Roll]) -> Iterator[Row]:
    """Rolls cut alike: how many, what is cut from each, and which pieces come from which."""
    cut = [sizes(book, id) for id in rolls[0].pieces]
    told = ", ".join(size_words(book, one, len(list(same))) for one, same in groupby(cut))
    for at in range(0, len(rolls), ROLLS_A_ROW):
        some = rolls[at : at + ROLLS_A_ROW]
        from_each = "; ".join(f"{number(roll)}: {', '.join(names(book, roll.pieces))}" for roll in some)
        yield (str(len(some)), told, book.units.tape(rolls[0].left), from_each)


def roll_row(book: Book, roll: Roll) -> list[Any]:
    """A roll: its number, its cuts in order as size and name, what is left; like ones that follow share a cut."""
    cuts: list[list[str]] = []
    for (_, one), same in groupby(roll.pieces, key=lambda id: (shared(book, id), sizes(book, id))):
        ids = list(same)
        cuts.append([size_words(book, one, len(ids)), "; ".join(names(book, ids))])
    return [number(roll), cuts, book.units.tape(roll.left)]


def number(roll: Roll) -> str:
    """A roll's number, without the sheet that stands over the list."""
    return roll.id.removeprefix(f"{roll.sheet} ")


def size_words(book: Book, one: Sizes, count: int) -> str:
    """A length, or so many of it, with a width that is not the whole sheet's."""
    told = book.units.tape(one.cut) + (f" × {one.width}" if one.width else "")
    told = told if count == 1 else f"{count} of {told}"
    return f"beside, {told}" if one.is_beside else told


def sizes(book: Book, id: str) -> Sizes:
    """What a piece or detail is cut to."""
    piece = book.pieces.get(id)
    if piece is not None:
        return Sizes(piece.cut_length, width_words(book, piece.sheet, piece.v1 - piece.v0), is_beside=False)
    detail = book.details.get(id)
    if detail is None:
        return Sizes(0, "", is_beside=False)
    width = width_words(book, detail.sheet, round(detail.width * TICKS_PER_METRE))
    return Sizes(detail.cut_ticks or detail.takes_ticks, width, is_beside=not detail.takes_ticks)


def width_words(book: Book, sheet: str, width: int) -> str:
    """A width; empty where it is the whole sheet's."""
    whole = book.paper.sheets.get(sheet)
    return "" if whole is not None and width == whole.width_ticks else book.units.width(width)


def shared(book: Book, id: str) -> str:
    """What the names of a row have in common: area and ply of pieces, area and kind of details."""
    piece = book.pieces.get(id)
    if piece is not None:
        return f"{piece.area} {piece.ply}"
    detail = book.details.get(id)
    return f"{detail.area} {kind_of(detail)}" if detail is not None else id


def kind_of(detail: Detail) -> str:
    """The kind in a detail's id: `cap flashing` of `South/EF-3 S/cap flashing 1`; else the kind it has."""
    return detail.id.rpartition("/")[2].rpartition(" ")[0] or detail.kind.replace("_", " ")


def names(book: Book, ids: Sequence[str]) -> list[str]:
    """Pieces as `South base 1.2, 1.3`, details as `South cap flashing: EF-3 S 1, side 1 4-31`."""
    told: list[str] = []
    for head, same in groupby(ids, key=lambda id: shared(book, id)):
        own = list(same)
        pieces = [book.pieces[id] for id in own if id in book.pieces]
        if pieces:
            told.append(f"{head} {', '.join(f'{piece.course}.{piece.place}' for piece in pieces)}")
        elif own[0] in book.details:
            told.append(f"{head}: {', '.join(places(book, own))}")
        else:
            told += own
    return told


def places(book: Book, ids: Sequence[str]) -> Iterator[str]:
    """The places of details of one kind, with their numbers where a place has several."""
    for of, same in groupby(ids, key=lambda id: book.details[id].of):
        numbers = [id.rpartition(" ")[2] for id in same]
        counts = sorted(int(one) for one in numbers if one.isdigit())
        others = [one for one in numbers if not one.isdigit() and "/" not in one]
        yield " ".join((of, *([ranges(counts)] if counts else []), *others))
