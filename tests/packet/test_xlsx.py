"""order.xlsx as openpyxl reads it back: numbers, units, totals that are formulas, and no formula from typed text."""

import dataclasses
import datetime as dt
import io
import re
import zipfile
from typing import Any

import openpyxl
import pytest
from papers import HEAD, order, shed

from lapwright.packet.values import Paper
from lapwright.packet.xlsx import order_xlsx

INCHES = 39.3701  # in a metre, to six figures


def book(paper: Paper, *, values: bool = True) -> Any:
    """The workbook with the values that stand in it, or with its formulas."""
    return openpyxl.load_workbook(io.BytesIO(order_xlsx(paper)), data_only=values)


def rows(paper: Paper, sheet: str, *, values: bool = True) -> list[tuple[Any, ...]]:
    """Heading row and all under it."""
    return list(book(paper, values=values)[sheet].iter_rows(min_row=3, values_only=True))


def test_five_sheets() -> None:
    """The workbook holds the order, the cut list, the rolls, the laps, and what comes from no roll."""
    assert book(shed()).sheetnames == ["Order", "Cut list", "Rolls", "Laps to probe", "Metal and parts"]


def test_what_comes_from_no_roll_has_its_sizes() -> None:
    """The shed's length of metal, 3 m by 0.1 m: 9' 10 1/8" and 3 15/16"."""
    (_, metal, *_) = rows(shed(), "Metal and parts")
    assert (metal[0], metal[6], metal[9]) == ("Main/side 1/metal/1", "9' 10 1/8\"", '3 15/16"')


def test_an_order_line_with_its_rate_and_cost() -> None:
    """14.25 m of bead at 6 m a tube are 3 tubes; the rate, its origin and what needs it stand beside it."""
    head, *lines = rows(shed(), "Order")
    assert dict(zip(head, lines[2], strict=True)) == {
        "Item": "mastic",
        "Group": "mastics",
        "Needed": 14.25,
        "Ordered": 3,
        "Unit": "tube",
        "How it was counted": "14.25 m of bead",
        "Rate": "6 m of bead a tube",
        "Origin of the rate": "common practice",
        "Source": "no source",
        "Price each, $": 7.25,
        "Cost, $": 21.75,
        "Needed by": "Main/side 1/metal/1",
    }


def test_costs_and_their_total_are_formulas_with_values() -> None:
    """98.50 and 3 times 7.25 make 120.25; a reader that does not calculate sees the numbers, one that does the sums."""
    assert [row[10] for row in rows(shed(), "Order")[1:]] == [None, 98.5, 21.75, None, 120.25]
    assert [row[10] for row in rows(shed(), "Order", values=False)[1:]] == [
        None,
        "=D5*J5",
        "=D6*J6",
        None,
        "=SUM(K4:K7)",
    ]


def test_without_prices_there_is_no_cost_column() -> None:
    """A total of nothing would read as a total of 0."""
    bare = tuple(dataclasses.replace(line, price=None, cost=None) for line in order())
    assert [title for title in rows(shed(order=bare), "Order")[0] if "Cost" in title or "Price" in title] == []


def test_a_cost_that_is_not_price_times_ordered_stays_a_number() -> None:
    """A cost with a discount in it is shown as it is, not replaced by a formula that gives another."""
    line = dataclasses.replace(order()[2], cost=20.0)
    assert rows(shed(order=(line,)), "Order", values=False)[1][10] == 20


@pytest.mark.parametrize(
    "text", ["=1+1", "+1", "-1", "@SUM(A1)", '=cmd|"/c calc"!A1', "\t=1", "{=1}", "https://x.example/"]
)
def test_typed_text_never_becomes_a_formula_or_a_link(text: str) -> None:
    """Whatever an item is called, its cell is a text with those characters, and marked so that editing keeps it one."""
    line = dataclasses.replace(order()[0], item=text, group=text, basis=text, unit=text, from_ids=(text,))
    sheet = book(shed(order=(line,), head=dataclasses.replace(HEAD, name=text)), values=False)["Order"]
    cell = sheet["A4"]
    assert (cell.data_type, cell.value, cell.hyperlink) == ("s", text, None)
    assert cell.style.startswith("Normal")
    assert bool(cell.quotePrefix) == (text[0] in "=+-@\t")
    assert [c.data_type for c in sheet[4] if c.value == text] == ["s"] * 5


def test_cut_list_in_feet_and_on_the_tape() -> None:
    """6.01 m cut of a 1 m sheet: 19.718 ft, 19' 8 5/8" and 39 3/8" to the nearest sixteenth, computed by hand."""
    head, *cuts = rows(shed(), "Cut list")
    cut = dict(zip([f"{i} {title}" for i, title in enumerate(head)], cuts[1], strict=True))
    assert cut["3 Piece or detail"] == "Main/base/02/1"
    assert cut["7 Cut length"] == pytest.approx(6.01 * INCHES / 12, rel=1e-6)
    assert [cut["8 Unit"], cut["9 On the tape"], cut["12 On the tape"]] == ["ft", "19' 8 5/8\"", '39 3/8"']


def test_metric_job_has_metres() -> None:
    """A metric job's numbers are metres and its tape is in millimetres."""
    cut = rows(shed(head=dataclasses.replace(HEAD, units="metric")), "Cut list")[2]
    assert cut[7:13] == (6.01, "m", "6010 mm", 1, "m", "1000 mm")


def test_details_cut_from_a_roll_are_in_its_list() -> None:
    """The strip cut from the base roll is a row of that roll, third in cutting order."""
    cut = rows(shed(), "Cut list")[3]
    assert (cut[0], cut[2], cut[3], cut[5]) == ("base-sa 1", 3, "Main/side 1/strip/1", "strip")


def test_rolls_sum_what_the_cut_list_says() -> None:
    """Used is the sum of the roll's rows in the cut list, left is the rest of its length, totals are their sums."""
    metric = shed(head=dataclasses.replace(HEAD, units="metric"))
    cuts, rolls = rows(metric, "Cut list")[1:-1], rows(metric, "Rolls")[1:]
    for roll, *_, length, used, left, _, _, _ in rolls[:-1]:
        assert used == pytest.approx(sum(cut[7] for cut in cuts if cut[0] == roll), abs=1e-9)
        assert left == pytest.approx(length - used, abs=1e-9)
    assert rolls[-1][3:6] == pytest.approx([sum(row[at] for row in rolls[:-1]) for at in (3, 4, 5)])


def test_roll_sums_do_not_take_names_for_patterns() -> None:
    """The formula compares names exactly, over the rows of the cut list."""
    assert rows(shed(), "Rolls", values=False)[1][4] == (
        "=SUMPRODUCT(--EXACT('Cut list'!$A$4:$A$9,A4),'Cut list'!$H$4:$H$9)"
    )


def test_every_lap_and_joint_is_listed_with_its_day() -> None:
    """Four laps and a T-joint; the T-joint closes with the later of its laps."""
    laps = rows(shed(), "Laps to probe")[1:-1]
    assert [(row[0], row[1], row[8]) for row in laps] == [
        ("Main/base/01-02/side 1-1", "side", 1),
        ("Main/cap/01-02/side 1-1", "side", 2),
        ("Main/cap/01-02/side 2-1", "side", 2),
        ("Main/cap/01/end 1-2", "end", 1),
        ("Main/cap/01/end 1-2/high", "T-joint", 2),
    ]


def test_print_set_up() -> None:
    """Landscape, one page wide, headings repeated and frozen, job and page at the foot with & doubled, A4."""
    head = dataclasses.replace(HEAD, name="A & B &L", paper="a4")
    sheet = book(shed(head=head))["Order"]
    assert (sheet.page_setup.orientation, sheet.page_setup.paperSize) == ("landscape", 9)
    assert sheet.sheet_properties.pageSetUpPr.fitToPage
    assert (sheet.page_setup.fitToWidth or 1, sheet.page_setup.fitToHeight) == (1, 0)
    assert (sheet.print_title_rows, sheet.freeze_panes) == ("$3:$3", "B4")
    assert "A && B &&L, job 7-001" in zipfile.ZipFile(io.BytesIO(order_xlsx(shed(head=head)))).read(
        "xl/worksheets/sheet1.xml"
    ).decode().replace("&amp;", "&")


def test_same_bytes_and_no_date_but_the_jobs() -> None:
    """Two writings are equal; every date inside is the job's or that of an empty ZIP clock."""
    data = order_xlsx(shed())
    assert data == order_xlsx(shed())
    archive = zipfile.ZipFile(io.BytesIO(data))
    assert {entry.date_time for entry in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
    dates = re.findall(r"\d{4}-\d\d-\d\dT[\d:]+Z", archive.read("docProps/core.xml").decode())
    assert dates == ["2026-12-01T00:00:00Z"] * 2
    undated = shed(head=dataclasses.replace(HEAD, date=None))
    assert book(undated).properties.created == dt.datetime(1980, 1, 1)


def test_a_list_too_long_for_a_cell_says_what_is_missing() -> None:
    """2,000 ids of 17 characters and a comma do not fit in 32,000: those shown and those counted make 2,000."""
    line = dataclasses.replace(order()[2], from_ids=tuple(f"Main/base/{i:04d}/01" for i in range(2000)))
    shown = rows(shed(order=(line,)), "Order")[1][11].split(", ")
    assert len(shown[-1]) + sum(len(id) + 2 for id in shown[:-1]) <= 32_000
    assert shown[-1] == f"and {2000 - len(shown) + 1} more: see plan.json"


def test_an_empty_job_opens() -> None:
    """Without order, pieces or laps every sheet has its heading and nothing under it."""
    layout = dataclasses.replace(shed().layout, plies=(), details=(), laps=(), tjoints=(), rolls=())
    empty = book(shed(order=(), layout=layout, days=()))
    assert [sheet.max_row for sheet in empty] == [3] * 5


def test_cost_columns_name_the_money() -> None:
    """Euros where the job's prices are in euros; nothing where they name none."""
    head = shed().head
    euros, bare = (rows(shed(head=dataclasses.replace(head, currency=each)), "Order")[0] for each in ("€", ""))
    assert list(euros[9:11]) == ["Price each, €", "Cost, €"]
    assert list(bare[9:11]) == ["Price each", "Cost"]
