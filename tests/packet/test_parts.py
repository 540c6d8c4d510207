"""The packet of a large job: parts set by themselves and bound, as a PDF reader sees them."""

import io

import pypdf
import pytest
from papers import shed

from lapwright.packet.pages.lookup import open_book
from lapwright.packet.parts import ROWS, Part, cut_groups, in_parts, is_large
from lapwright.packet.pdf import packet_data, packet_pdf, svg_inputs
from lapwright.packet.pdfjoin import bind, read_book
from lapwright.packet.plates import make_plates
from lapwright.packet.typeset import set_part


def bound() -> bytes:
    """The shed's packet, set in parts although it is small."""
    paper = shed()
    plates = make_plates(paper)
    data = packet_data(open_book(paper), plates)
    return in_parts(data, svg_inputs(plates), lambda parts: [set_part(one) for one in parts])


def page_words(pdf: bytes) -> list[list[str]]:
    """The words of each page, sorted: a number laid on later is read last."""
    return [sorted(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(pdf), strict=True).pages]


def test_parts_say_page_by_page_what_the_whole_says() -> None:
    """Set in parts or in one, the same words stand on the same page, the numbers among them."""
    assert page_words(bound()) == page_words(packet_pdf(shed(), make_plates(shed())))


def test_parts_are_the_same_bytes_each_time() -> None:
    """Binding adds nothing of its own to a file."""
    assert bound() == bound()


def test_every_page_keeps_its_size_and_place() -> None:
    """A reader finds the pages under one tree, upright or across as in the packet set in one."""
    whole, parts = (pypdf.PdfReader(io.BytesIO(pdf)) for pdf in (packet_pdf(shed(), make_plates(shed())), bound()))
    assert [page.mediabox for page in parts.pages] == [page.mediabox for page in whole.pages]
    assert parts.metadata == whole.metadata


def cut_page(rolls: int, cuts: int) -> dict[str, object]:
    """A cut list of so many rolls with so many cuts each."""
    rows = [[f"s {n}" if k == 0 else "", str(k + 1)] for n in range(1, rolls + 1) for k in range(cuts)]
    starts = list(range(0, len(rows), cuts))
    table = {"rows": rows, "starts": starts, "bold": [starts[-1]]}
    return {"title": "s", "note": "what a roll is", "patterns": [], "alike": {"rows": []}, "table": table}


@pytest.mark.parametrize(("rolls", "cuts"), [(1, 1), (400, 2), (401, 2), (1000, 3), (5, 900)])
def test_long_cut_lists_are_divided_between_rolls(rolls: int, cuts: int) -> None:
    """Every row stands in one stretch, every stretch begins with a roll, and no two that would fit stand apart."""
    page = cut_page(rolls, cuts)
    tables = [one["table"] for group in cut_groups([page]) for one in group]
    assert [row for table in tables for row in table["rows"]] == page["table"]["rows"]
    assert all(table["rows"][at][0] for table in tables for at in table["starts"])
    assert all(table["starts"][0] == 0 for table in tables)
    assert sum(len(table["bold"]) for table in tables) == 1
    assert len(tables) == -(-rolls // max(1, ROWS // cuts))


def test_an_empty_cut_list_is_one_part() -> None:
    """A packet without rolls still has its page for them."""
    assert list(cut_groups([])) == [[]]


def test_the_shed_is_set_in_one() -> None:
    """A job of two days needs no parts."""
    assert not is_large(packet_data(open_book(shed()), make_plates(shed())))


def test_a_number_for_each_page_or_none() -> None:
    """Pages and numbers must be as many."""
    whole = packet_data(open_book(shed()), make_plates(shed()))
    part = Part("packet.typ", {key: whole[key] for key in ("page", "head", "order")}, {})
    book = read_book(set_part(part).pdf)
    with pytest.raises(ValueError, match="not one drawing for each page"):
        bind((book, book), book)


def test_other_pdfs_are_not_taken_apart() -> None:
    """What another writer made is refused rather than misread."""
    with pytest.raises(ValueError, match="not a PDF with a plain table"):
        read_book(b"%PDF-1.7\nno table here\nstartxref\n0\n%%EOF\n")
