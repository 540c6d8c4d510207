"""What stands over the lists of a day sheet takes the room that it takes: no row of them on a third page."""

import dataclasses
import io
import re

import pypdf
import pytest
from papers import HEAD, days, shed

from lapwright.crew.values import Task
from lapwright.packet.pages.day import day_parts
from lapwright.packet.pages.fit import blocks, rows_left
from lapwright.packet.pages.lookup import open_book
from lapwright.packet.pdf import packet_pdf
from lapwright.packet.plates import Plates, make_plates
from lapwright.packet.values import Engineered, Paper
from lapwright.verdict import Step

MOISTURE = (
    Step("Deck, concrete", values={"origin": "published"}, result="at most 75 % relative humidity in the slab, by "
         "probes left in it; 28 days or a taped plastic sheet prove nothing"),
    Step("Insulation, polyiso", values={"origin": "common practice"}, result="dry at the surface, no stain; a meter "
         "within 2 points of a piece known to be dry; wet boards are replaced"),
    Step("Cover board, gypsum", values={"origin": "common practice"}, result="dry at the surface, no stain; a meter "
         "within 2 points of a piece known to be dry; wet boards are replaced"),
)  # fmt: skip


def full_day(tasks: int) -> Paper:
    """A day with every reading on its sheet and so many tasks, on letter paper."""
    work = tuple(Task("cap", (), 420 + 10 * n, 429 + 10 * n, "heat", 4, 9.0) for n in range(tasks))
    day = dataclasses.replace(days()[0], tasks=work)
    engineered = Engineered(moisture=MOISTURE)
    return shed(days=(day,), engineered=engineered, head=dataclasses.replace(HEAD, paper="letter"), checks=(), order=())


def test_a_name_of_two_lines_takes_two_lines() -> None:
    """`Moisture: Insulation, polyiso; Cover board, gypsum` does not fit its 42 mm twice over: the row is three high."""
    paper = full_day(3)
    parts = day_parts(open_book(paper), paper.days[0])
    longer = [[row[0] + " and a name that goes on and on", *row[1:]] for row in parts["readings"]["rows"]]
    more = {**parts, "readings": {**parts["readings"], "rows": longer}}
    assert sum(block.height for block in blocks(more, 191.9)) > sum(block.height for block in blocks(parts, 191.9))
    assert rows_left(more, "letter") < rows_left(parts, "letter")


@pytest.mark.parametrize("tasks", [24, 32])
def test_readings_that_go_over_the_page_leave_no_third(tasks: int) -> None:
    """With moisture and welding to read, the sheet is its two sides still, and ends with what is told at length."""
    paper = full_day(tasks)
    found = pypdf.PdfReader(io.BytesIO(packet_pdf(paper, Plates(days=make_plates(paper).days))))
    pages = [" ".join(page.extract_text().split()) for page in found.pages]
    day = [text for text in pages if re.search(r"2026 Day 1 Page", text)]
    assert len(day) == 2
    assert "by probes left in it" in day[0]
