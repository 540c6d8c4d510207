"""The packet of a large job, set in parts and bound together.

The typesetter keeps all that it has set until its process ends, some 6 MB for a day sheet.  A packet of hundreds of
days is therefore set part by part, each in a process of its own, with room left for the page numbers; these are laid
over the pages at the end, since only then it is known how many there are.  A packet that is set in one and one that is
set in parts look the same, but for long cut lists, which begin a page with each part.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from lapwright.packet.pages.words import Json
from lapwright.packet.pdfjoin import Book, bind, page_sizes, read_book

MOST_DAYS, MOST_ROWS = 24, 1200  # of a packet that is set in one
DAYS, ROWS = 12, 600  # of a part


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch of the packet: its template, its data, the drawings on it as SVG by key."""

    template: str
    data: Json
    drawings: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Bound:
    """A part that is set: the PDF, and its sheets with their pages, counted from 1 in the part."""

    pdf: bytes
    sheets: tuple[tuple[str, int], ...]


Setter = Callable[[Sequence[Part]], Sequence[Bound]]


def is_large(data: Json) -> bool:
    """The packet takes more memory than one process should."""
    return len(data["days"]) > MOST_DAYS or sum(len(page["table"]["rows"]) for page in data["cuts"]) > MOST_ROWS


def in_parts(data: Json, drawings: Mapping[str, str], set_all: Setter) -> bytes:
    """The packet as one PDF, its parts set by `set_all`."""
    made = set_all(list(packet_parts(data, drawings)))
    books = [read_book(one.pdf) for one in made]
    cover = set_cover(data, made, books, set_all)
    (numbers,) = set_all([numbers_part(data, (cover, *books))])
    return bind((cover, *books), read_book(numbers.pdf))


def packet_parts(data: Json, drawings: Mapping[str, str]) -> Iterator[Part]:
    """Everything behind the cover, in order."""
    days = data["days"]
    if data["morning"]:
        yield part(data, {"morning": data["morning"]}, drawings)
    for at in range(0, len(days), DAYS):
        batch = days[at : at + DAYS]
        yield part(data, {"days": batch}, drawings, [day["plan"] for day in batch])
    drawn = ("plans", "details", "loads")
    yield part(data, {key: data[key] for key in drawn}, drawings, [plate for key in drawn for plate in data[key]])
    groups = list(cut_groups(data["cuts"]))
    yield part(data, {"choice": data["choice"], "chalk": data["chalk"], "cuts": groups[0]}, drawings)
    for group in groups[1:]:
        yield part(data, {"cuts": group, "goes-on": True}, drawings)
    whole = [day for day in days if day["whole"]]
    yield part(data, {"set": data["set"], "order": data["order"], "tools": data["tools"], "whole": whole}, drawings)
    if data["warm"]:
        yield part(data, {"warm": data["warm"]}, drawings, [data["warm"]["plate"]])
    if data["hours"]:
        yield part(data, {"hours": data["hours"]}, drawings, data["hours"])
    yield part(data, {key: data[key] for key in ("notes", "rules", "checks")}, drawings)


def part(data: Json, own: Json, drawings: Mapping[str, str], plates: Sequence[Json | None] = ()) -> Part:
    """A part with what is on it and what every page needs."""
    shared = {"page": data["page"], "head": data["head"], "mode": "part"}
    keys = [plate["key"] for plate in plates if plate]
    return Part("packet.typ", {**shared, **own}, {key: drawings[key] for key in keys})


def cut_groups(pages: Sequence[Json]) -> Iterator[list[Json]]:
    """The cut list in stretches of so many rows, a roll never divided; at least one, if empty."""
    stretches = [page for whole in pages for page in cut_stretches(whole)]
    group: list[Json] = []
    for page in stretches:
        if group and sum(len(one["table"]["rows"]) for one in (*group, page)) > ROWS:
            yield group
            group = []
        group.append(page)
    yield group


def cut_stretches(page: Json) -> Iterator[Json]:
    """One sheet's cut list in stretches that begin with a roll."""
    table = page["table"]
    rows, starts = table["rows"], table["starts"]
    marks = [0]
    for here, after in pairwise((*starts, len(rows))):
        if after - marks[-1] > ROWS and here > marks[-1]:
            marks.append(here)
    for first, last in pairwise((*marks, len(rows))):
        own = {
            "rows": rows[first:last],
            "starts": [at - first for at in starts if first <= at < last],
            "bold": [at - first for at in table["bold"] if first <= at < last],
        }
        whole = first == 0
        yield {
            "title": page["title"] if whole else f"{page['title']}, from roll {rows[first][0]}",
            "note": page["note"] if whole else "",
            "patterns": page["patterns"] if whole else [],
            "alike": page["alike"] if whole else {**page["alike"], "rows": []},
            "table": {**table, **own},
        }


def set_cover(data: Json, made: Sequence[Bound], books: Sequence[Book], set_all: Setter) -> Book:
    """The cover with the list of sheets, set again where it takes other pages than was thought."""
    pages = 1
    while True:
        listed: list[tuple[str, int]] = [("Cover", 1)]
        before = pages
        for one, book in zip(made, books, strict=True):
            listed += [(title, page + before) for title, page in one.sheets]
            before += len(book.pages)
        (bound,) = set_all([part(data, {"cover": data["cover"], "sheets": listed}, {})])
        cover = read_book(bound.pdf)
        if len(cover.pages) <= pages:
            return cover
        pages = len(cover.pages)


def numbers_part(data: Json, books: Sequence[Book]) -> Part:
    """The numbers of all pages, on paper that lies as theirs."""
    runs: list[list[bool | int]] = []
    for wide in (width > height for book in books for width, height in page_sizes(book)):
        if runs and runs[-1][0] == wide:
            runs[-1][1] += 1
        else:
            runs.append([wide, 1])
    return Part("numbers.typ", {"page": data["page"], "head": data["head"], "mode": "numbers", "runs": runs}, {})
