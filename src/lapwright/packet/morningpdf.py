"""`morning.pdf`: the morning sheet on one page of the job's paper."""

from __future__ import annotations

from lapwright.packet.morningvalues import MorningPaper
from lapwright.packet.page import BLOCK, GAP, MARGIN, paper_size
from lapwright.packet.pages.morning import SHEET_TITLE, morning_page
from lapwright.packet.pages.words import Json, date_words, shortened
from lapwright.packet.parts import Part
from lapwright.packet.typeset import set_whole


def morning_pdf(paper: MorningPaper) -> bytes:
    """The sheet as a PDF of one page; its date is the day's."""
    return set_whole(Part("morning.typ", morning_data(paper), {}))


def morning_data(paper: MorningPaper) -> Json:
    """Everything that the template prints."""
    head, date = paper.head, paper.morning.date
    width, height = paper_size(head.paper)
    return {
        "page": {
            "width": width,
            "height": height,
            "margin": MARGIN,
            "block": BLOCK,
            "gap": GAP,
            "date": [date.year, date.month, date.day],
        },
        "head": {
            "title": f"{SHEET_TITLE}, {date_words(date)}",
            "short": shortened(head.name, 44),
            "number": shortened(head.number, 36),
            "revision": shortened(head.revision, 12),
            "date": date_words(head.date, weekday=False),
        },
        "morning": morning_page(paper),
    }
