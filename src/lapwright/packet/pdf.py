"""`packet.pdf`: cover, day sheets, drawings, lists, hours, notes, rules, and the checks with their steps last.

The only date is the job's, so that the same paper gives the same bytes.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping

from lapwright.packet.drawing import Plate
from lapwright.packet.morningvalues import MorningPaper
from lapwright.packet.page import BLOCK, GAP, MARGIN, paper_size
from lapwright.packet.pages.backing import check_pages, note_page, rule_page
from lapwright.packet.pages.choice import choice_page
from lapwright.packet.pages.cover import cover_page
from lapwright.packet.pages.cuts import cut_pages
from lapwright.packet.pages.day import day_page
from lapwright.packet.pages.lists import chalk_pages, order_page
from lapwright.packet.pages.lookup import Book, open_book
from lapwright.packet.pages.morning import morning_page
from lapwright.packet.pages.setlist import set_page
from lapwright.packet.pages.tools import tool_page
from lapwright.packet.pages.warm import warm_page
from lapwright.packet.pages.words import Json, date_words, shortened
from lapwright.packet.parts import Part, Setter, in_parts, is_large
from lapwright.packet.plates import Drawn, Plates
from lapwright.packet.svg import svg_text
from lapwright.packet.typeset import set_whole
from lapwright.packet.values import Paper

EPOCH = dt.date(1980, 1, 1)
WARM = "warm"  # key of the chart of warm rolls


def packet_pdf(paper: Paper, plates: Plates, set_all: Setter | None = None) -> bytes:
    """The packet as one PDF on the job's paper.

    set_all: sets the parts of a packet too large for one process; where none is given, every packet is set in one.
    """
    data = packet_data(open_book(paper), plates)
    drawings = svg_inputs(plates)
    if set_all is not None and is_large(data):
        return in_parts(data, drawings, set_all)
    return set_whole(Part("packet.typ", data, drawings))


def packet_data(book: Book, plates: Plates) -> Json:
    """Everything that the templates print."""
    paper = book.paper
    return {
        "page": page_data(paper.head.paper, paper.head.date or EPOCH),
        "head": head_data(book),
        "cover": cover_page(book),
        "morning": first_morning(paper),
        "days": [
            {**day_page(book, day), "plan": plate_data(f"day {day.number}", plates.days.get(day.number))}
            for day in paper.days
        ],
        "plans": [plate_data(key, plate) for key, plate in numbered("plan", plates.plans)],
        "details": [plate_data(key, plate) for key, plate in numbered("detail", plates.details)],
        "loads": [plate_data(key, plate) for key, plate in numbered("loads", plates.loads)],
        "choice": choice_page(paper),
        "chalk": chalk_pages(book),
        "cuts": cut_pages(book),
        "set": set_page(book),
        "order": order_page(book),
        "warm": warm_data(book, plates),
        "tools": tool_page(book),
        "hours": [plate_data(key, plate) for key, plate in numbered("hours", plates.hours)],
        "notes": note_page(book),
        "rules": rule_page(book),
        "checks": check_pages(book),
    }


def warm_data(book: Book, plates: Plates) -> Json | None:
    """The page of warm rolls with its chart; None where there is none."""
    page = warm_page(book)
    return None if page is None or plates.warm is None else {**page, "plate": plate_data(WARM, plates.warm)}


def first_morning(paper: Paper) -> Json | None:
    """The morning sheet of the first day; None where there is none."""
    if paper.morning is None:
        return None
    return morning_page(MorningPaper(paper.head, paper.morning, paper.assembly, paper.rules, paper.crew))


def page_data(paper: str, date: dt.date) -> Json:
    """The sheet of paper [mm], and the date that is written into the file."""
    width, height = paper_size(paper)
    return {
        "width": width,
        "height": height,
        "margin": MARGIN,
        "block": BLOCK,
        "gap": GAP,
        "date": [date.year, date.month, date.day],
    }


def head_data(book: Book) -> Json:
    """The title block; what is long is shortened there, and stands whole on the cover."""
    head = book.paper.head
    return {
        "title": f"{shortened(head.name)}, job {shortened(head.number)}",
        "short": shortened(head.name, 44),
        "number": shortened(head.number, 36),
        "revision": shortened(head.revision, 12),
        "date": date_words(head.date, weekday=False),
    }


def numbered(kind: str, plates: tuple[Plate, ...]) -> Iterator[tuple[str, Plate | Drawn]]:
    """Drawings with the keys that the templates find them by."""
    for number, plate in enumerate(plates, start=1):
        yield f"{kind} {number}", plate


def plate_data(key: str, plate: Plate | Drawn | None) -> Json | None:
    """A drawing's key, title and size [mm]."""
    if plate is None:
        return None
    return {"key": key, "title": shortened(plate.title), "width": plate.width, "height": plate.height}


def svg_inputs(plates: Plates) -> Mapping[str, str]:
    """Every drawing as SVG text by its key."""
    found: dict[str, Plate | Drawn] = {f"day {number}": plate for number, plate in plates.days.items()}
    for kind, several in (
        ("plan", plates.plans),
        ("detail", plates.details),
        ("hours", plates.hours),
        ("loads", plates.loads),
    ):
        found.update(numbered(kind, several))
    if plates.warm is not None:
        found[WARM] = plates.warm
    return {
        key: plate.svg if isinstance(plate, Drawn) else svg_text(plate, named=False) for key, plate in found.items()
    }
