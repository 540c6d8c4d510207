"""What is cut or set and comes from no roll: edge metal, cleat, covers, corners, cant, rows of fasteners, sumps.

Places where the same is cut stand in one row.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby

from lapwright.layout.values import Detail
from lapwright.packet.pages.lookup import Book
from lapwright.packet.pages.words import Json, counted, table
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.write import Units

WORDS = {"metal": "edge metal", "fixing": "row of fasteners"}
HEAD = ("What", "Cut to, at each place", "Where")


def set_page(book: Book) -> Json:
    """A row for each kind and cut, with its places."""
    own = [one for one in book.paper.layout.details if not one.sheet]
    by_kind: dict[str, dict[tuple[str, str], list[Detail]]] = {}
    for one in own:
        by_kind.setdefault(one.kind, {}).setdefault((one.area, one.of), []).append(one)
    rows: list[tuple[str, str, str]] = []
    starts: list[int] = []
    for kind, places in by_kind.items():
        alike: dict[str, list[tuple[str, str]]] = {}
        for place, several in places.items():
            alike.setdefault("; ".join(cut_words(book.units, several)), []).append(place)
        starts.append(len(rows))
        rows += [(kind_words(kind), words, place_words(where)) for words, where in alike.items()]
    return {**table(HEAD, rows, ("auto", "1fr", "1fr"), starts=starts, named=True)}


def kind_words(kind: str) -> str:
    """A kind of detail in words."""
    return WORDS.get(kind, kind.replace("_", " "))


def cut_words(units: Units, several: Sequence[Detail]) -> Iterator[str]:
    """How many of each size at one place, in the order in which they lie."""
    for words, count in Counter(size_words(units, one) for one in several).items():
        if not words:
            yield counted(count, "piece")
        else:
            yield words if count == 1 else f"{count} of {words}"


def size_words(units: Units, one: Detail) -> str:
    """Length or sides of one piece, with what is cut at its ends; empty where it is bought as it is."""
    tape, wide = (round(size * TICKS_PER_METRE) for size in (one.length, one.width))
    if one.kind == "pipe_flashing":
        return f"for a pipe of {units.width(wide)}"
    if not tape:
        return ""
    if one.line is None:
        sides = " × ".join(units.width(side) for side in (tape, wide) if side)
        return f"{one.form}, legs of {sides}" if one.kind == "metal_corner" else sides
    mitres = sum(name.startswith("mitre") for name in one.parts)
    more = ("", " mitred at one end", " mitred at both ends")[mitres]
    high = f", {units.length(one.parts['height'])} above the roof" if "height" in one.parts else ""
    return f"{units.tape(tape)}{more}{high}"


def place_words(places: Sequence[tuple[str, str]]) -> str:
    """`South: side 1, RTU-1 S; North: side 2`."""
    by_area = groupby(places, key=lambda place: place[0])
    return "; ".join(f"{area}: {', '.join(of for _, of in own)}" for area, own in by_area)
